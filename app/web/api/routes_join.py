"""Sign in and join over /api/v1."""

from flask import Blueprint

bp = Blueprint("api_join", __name__, url_prefix="/api/v1")
