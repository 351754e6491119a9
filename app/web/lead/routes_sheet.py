"""Prepare: the lesson sheet and its parts."""

from flask import Blueprint

bp = Blueprint("sheet", __name__)
