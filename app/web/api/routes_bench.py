"""One bench over /api/v1: its state and its entries."""

from flask import Blueprint

bp = Blueprint("api_bench", __name__, url_prefix="/api/v1")
