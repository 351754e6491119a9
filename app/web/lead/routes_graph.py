"""Discuss and Keep: the class graph and the class CSV."""

from flask import Blueprint

bp = Blueprint("graph", __name__)
