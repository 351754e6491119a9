"""Papers to print."""

from flask import Blueprint

bp = Blueprint("prints", __name__)
