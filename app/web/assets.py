"""Styles, scripts and the graph script, each at an address that changes with its content and is kept for a year."""

import gzip
import hashlib
import re
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

from flask import Blueprint, Response, request, send_from_directory, url_for

from app.web.access import for_anyone
from app.web.current import installation

bp = Blueprint("assets", __name__)

STATIC = Path(__file__).resolve().parents[1] / "static"
_YEAR = "public, max-age=31536000, immutable"


@cache
def fingerprint() -> str:
    """A short hash of everything in the static folder: one for all, so that scripts may import each other."""
    whole = hashlib.sha256()
    for path in sorted(STATIC.rglob("*")):
        if path.is_file():
            whole.update(path.relative_to(STATIC).as_posix().encode() + b"\0" + path.read_bytes())
    return whole.hexdigest()[:16]


@cache
def _plotly() -> tuple[bytes, str]:
    script = files("plotly").joinpath("package_data/plotly.min.js").read_bytes()
    return script, hashlib.sha256(script).hexdigest()[:16]


def asset(name: str) -> str:
    """The address of a file of the static folder."""
    return url_for("assets.static_file", mark=fingerprint(), name=name)


def graph_script() -> str:
    """The address of the graph script."""
    return url_for("assets.plotly", mark=_plotly()[1])


@bp.app_template_global()
@cache
def graph_style_id() -> str:
    """The id of the style element that the graph script writes into every page that has no element of that id.

    It belongs to maps, which we do not draw; a strict page gives the id away, so that nothing is written and refused.
    """
    found = re.search(rb'getElementById\("([0-9a-f]{64})"\)', _plotly()[0])
    return found[1].decode() if found else "graph-script"


def warm() -> None:
    """What takes a moment is done once, before the first request."""
    fingerprint()
    _plotly()
    graph_style_id()


@bp.get("/assets/plotly.<mark>.js")
@for_anyone
def plotly(mark: str) -> Response:
    """The graph script out of the installed package, packed once."""
    script, own = _plotly()
    packed = "gzip" in request.headers.get("Accept-Encoding", "")
    answer = Response(_packed(script, own) if packed else script, mimetype="text/javascript")
    answer.headers["Vary"] = "Accept-Encoding"
    if packed:
        answer.headers["Content-Encoding"] = "gzip"
    answer.headers["Cache-Control"] = _YEAR if mark == own else "no-cache"
    return answer


def _packed(script: bytes, mark: str) -> bytes:
    kept = Path(installation().data_folder) / f"plotly.{mark}.js.gz"
    if kept.exists():
        return kept.read_bytes()
    packed = gzip.compress(script, 9)
    fresh = kept.with_suffix(".new")
    fresh.write_bytes(packed)
    fresh.replace(kept)
    return packed


@bp.get("/assets/<mark>/<path:name>")
@for_anyone
def static_file(mark: str, name: str) -> Any:
    """A file of the static folder."""
    answer = send_from_directory(STATIC, name)
    answer.headers["Cache-Control"] = _YEAR if mark == fingerprint() else "no-cache"
    return answer
