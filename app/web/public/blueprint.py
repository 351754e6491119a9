"""The blueprint of the pages that anyone may open; its modules add their routes to it."""

from flask import Blueprint

bp = Blueprint("public", __name__)
