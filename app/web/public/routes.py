"""Home, join, slip, sign in, words, sources, cautions, problems, health."""

from flask import Blueprint

bp = Blueprint("public", __name__)
