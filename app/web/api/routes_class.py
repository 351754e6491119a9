"""The class over /api/v1: changes, picture, graph, files."""

from flask import Blueprint

bp = Blueprint("api_class", __name__, url_prefix="/api/v1")
