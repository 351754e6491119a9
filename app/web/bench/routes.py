"""The bench page and its forms."""

from flask import Blueprint

bp = Blueprint("bench", __name__)
