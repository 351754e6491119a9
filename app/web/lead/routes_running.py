"""Test: the lead bench, and one bench as the teacher sees it."""

from flask import Blueprint

bp = Blueprint("running", __name__)
