"""Whether the process and its database are well, for whoever watches the server."""

from typing import Any

from flask import jsonify

from app.domain.errors import Busy
from app.services.health import fits
from app.web.access import for_anyone
from app.web.current import database
from app.web.public.blueprint import bp


@bp.get("/healthz")
@for_anyone
def healthz() -> Any:
    """The process answers."""
    return jsonify(ok=True)


@bp.get("/readyz")
@for_anyone
def readyz() -> Any:
    """200 when the database answers and has the tables of this version; else 503 with a sentence."""
    try:
        ready = fits(database())
    except Busy as refusal:
        return jsonify(ok=False, why=refusal.sentence), 503
    return (jsonify(ok=True), 200) if ready else (jsonify(ok=False, why="Run `ropewalk migrate` first."), 503)
