"""The list of open lessons; a new one; copy, delete, bring back."""

from flask import Blueprint

bp = Blueprint("lessons", __name__)
