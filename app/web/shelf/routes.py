"""The lesson shelf."""

from flask import Blueprint

bp = Blueprint("shelf", __name__)
