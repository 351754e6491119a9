"""The front screen; read only."""

from flask import Blueprint

bp = Blueprint("front", __name__)
