"""One line of the log for each request, and the reference number that a person who met an error can name."""

import logging
import re
import secrets
import time
from typing import Any

from flask import Flask, Response, g, request

from app.log import start_log

LOG = logging.getLogger("ropewalk.request")
UUID = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")
METHODS = frozenset({"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"})
QUIET = ("/changes", "/healthz", "/readyz")
"""Ends of routes that are asked every few seconds by everyone."""


def attach_log(app: Flask, level: str) -> None:
    """Every request has `g.reference` from its first moment, and leaves one line in the log."""
    start_log(level)
    app.before_request(_begin)
    app.after_request(_end)


def _begin() -> None:
    g.reference = secrets.token_hex(5)
    g.begun_s = time.perf_counter()


def _end(response: Response) -> Response:
    LOG.log(_level(response.status_code), "request", extra={"told": _told(response)})
    return response


def _level(status: int) -> int:
    route = request.url_rule.rule if request.url_rule else ""
    if status >= 500:
        return logging.WARNING if status == 503 else logging.ERROR
    quiet = request.endpoint == "static" or route.startswith("/assets/") or route.endswith(QUIET)
    return logging.DEBUG if quiet and status < 400 else logging.INFO


def _told(response: Response) -> dict[str, Any]:
    return {
        "reference": g.reference,
        "method": request.method if request.method in METHODS else "other",
        "route": request.url_rule.rule if request.url_rule else None,
        "status": response.status_code,
        "duration_ms": round((time.perf_counter() - g.begun_s) * 1000, 1),
        "lesson_id": _lesson_id(),
    }


def _lesson_id() -> str | None:
    """The lesson that the request is about, as its route or whoever looked it up says; never something made up."""
    found = str(g.get("lesson_id") or (request.view_args or {}).get("lesson_id") or "")
    return found if UUID.fullmatch(found) else None
