"""A lesson over /api/v1: plan, stage, shelf."""

from flask import Blueprint

bp = Blueprint("api_lesson", __name__, url_prefix="/api/v1")
