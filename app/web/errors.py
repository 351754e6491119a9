"""Where refusals become answers: a page with a sentence, or problem+json (RFC 9457); what broke gets a reference."""

import logging
from typing import Any
from urllib.parse import quote

from flask import Flask, Response, g, jsonify, redirect, render_template, request, url_for
from flask_wtf.csrf import CSRFError
from werkzeug.exceptions import HTTPException
from werkzeug.wrappers import Response as AnyResponse

from app.domain.errors import Busy, Refusal, SignInNeeded, TooMany

PROBLEMS: dict[str, tuple[int, str]] = {
    "not-json": (400, "Not JSON"),
    "csrf": (403, "The page was stale"),
    "sign-in-needed": (401, "Sign in first"),
    "not-this-bench": (403, "Not this bench"),
    "teacher-only": (403, "For the teacher only"),
    "not-opened": (403, "Not opened yet"),
    "unknown-code": (404, "Unknown code"),
    "not-found": (404, "Not found"),
    "wrong-method": (405, "Not that way"),
    "bench-taken": (409, "The bench is taken"),
    "entry-reused": (409, "The entry id was used before"),
    "sealed": (409, "The guess is sealed"),
    "masses-down": (409, "Masses are down"),
    "lesson-over": (409, "The lesson is over"),
    "already-here": (409, "It is here already"),
    "in-use": (409, "It is in use"),
    "stale": (412, "Changed meanwhile"),
    "too-large": (413, "Too large"),
    "wrong-kind": (415, "The wrong kind of content"),
    "invalid-entry": (422, "That can't be taken as it is"),
    "unreadable-file": (422, "The file can't be read"),
    "too-many": (429, "Too many tries"),
    "broke": (500, "Something broke"),
    "busy": (503, "The server is busy"),
}
"""Each problem name of the outside contract with its status and title."""

_BY_STATUS = {400: "not-json", 404: "not-found", 405: "wrong-method", 413: "too-large", 415: "wrong-kind"}
_SENTENCES = {
    "not-json": "That request can't be read.",
    "not-found": "There is nothing at this address.",
    "wrong-method": "This address does not take that kind of request.",
    "too-large": "That is too much at once.",
    "wrong-kind": "Send it as application/json.",
}
log = logging.getLogger("ropewalk")


def attach_errors(app: Flask) -> None:
    """Every refusal, and everything that breaks, is answered in one shape."""
    app.register_error_handler(Refusal, _refused)
    app.register_error_handler(CSRFError, _stale_form)
    app.register_error_handler(HTTPException, _by_http)
    app.register_error_handler(Exception, _broke)


def is_api() -> bool:
    """Whether the request came to /api/v1."""
    return request.path.startswith("/api/")


def reference() -> str:
    """The reference number of this request, the same in its answer and in the log."""
    return str(g.reference)


def _refused(refusal: Refusal) -> Any:
    if isinstance(refusal, SignInNeeded) and not is_api() and request.method == "GET":
        return redirect(_way_in())
    faults = [{"field": one.field, "words": one.words} for one in refusal.faults]
    answer = problem(refusal.problem, refusal.sentence, faults)
    if isinstance(refusal, TooMany | Busy):
        answer.headers["Retry-After"] = str(refusal.retry_after_s)
    return answer


def _way_in() -> str:
    if request.path.startswith("/bench"):
        return url_for("public.join")
    return url_for("public.sign_in") + "?next=" + quote(request.path)


def problem(name: str, sentence: str, faults: list[dict[str, str]] | None = None) -> AnyResponse:
    """The answer of one problem: JSON for /api/v1, else a page."""
    status, title = PROBLEMS[name]
    if not is_api():
        page = render_template(
            "errors/problem.html", title=title, sentence=sentence, reference=reference(), name=name, way_in=_way_in()
        )
        return Response(page, status=status)
    body = {
        "type": f"/problems/{name}",
        "title": title,
        "status": status,
        "detail": sentence,
        "instance": reference(),
    }
    if faults:
        body["errors"] = faults
    answer = jsonify(body)
    answer.status_code = status
    answer.mimetype = "application/problem+json"
    return answer


def _stale_form(_error: CSRFError) -> Any:
    """A form from a page that was open too long: what was typed is shown again with a fresh button, nothing is lost."""
    if is_api():
        return problem("csrf", "Send the page's X-CSRFToken header, or an Authorization header.")
    typed = [
        (name, value)
        for name, value in request.form.items(multi=True)
        if name != "csrf_token" and "password" not in name
    ]
    page = render_template("errors/stale_form.html", address=request.full_path.rstrip("?"), typed=typed)
    return Response(page, status=PROBLEMS["csrf"][0])


def _by_http(error: HTTPException) -> Any:
    if error.code is None or error.code < 400:
        return error
    name = _BY_STATUS.get(error.code, "not-json" if error.code < 500 else "broke")
    return problem(name, _SENTENCES.get(name, "Something broke."))


def _broke(error: Exception) -> Any:
    log.exception("broke", extra={"told": {"reference": reference()}}, exc_info=error)
    sentence = "Something broke on the server. What you typed on a tablet is kept there. The log has the reference."
    return problem("broke", sentence)
