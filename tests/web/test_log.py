"""One line of the log for each request: contract.md 4 says what is in it, and what never is."""

import json
import logging
from collections.abc import Iterator
from typing import Any

import pytest
from flask import Flask, abort, g
from flask.testing import FlaskClient

from app.web.log import attach_log

LESSON = "6f1d4c1e-0b7a-4c55-9d0e-3a1f5b8c2e77"


@pytest.fixture
def client() -> Iterator[FlaskClient]:
    """A small app that logs everything; the root logger is put back afterwards."""
    root = logging.getLogger()
    before = list(root.handlers)
    app = Flask("app.small")
    attach_log(app, "debug")
    app.add_url_rule("/lessons/<lesson_id>/lead", "lead", lambda **_: g.reference, methods=["GET", "POST"])
    app.add_url_rule("/slip/<code>", "slip", lambda **_: "ok")
    app.add_url_rule("/api/v1/lessons/<lesson_id>/changes", "changes", lambda **_: "{}")
    app.add_url_rule("/breaks", "breaks", lambda: 1 / 0)
    app.add_url_rule("/busy", "busy", lambda: abort(503))
    yield app.test_client()
    root.handlers = before


def told(capsys: pytest.CaptureFixture[str]) -> list[dict[str, Any]]:
    """The lines of requests that were written since the last call."""
    lines = [json.loads(line) for line in capsys.readouterr().err.splitlines()]
    return [line for line in lines if line["what"] == "request"]


def test_a_request_leaves_one_line(client: FlaskClient, capsys: pytest.CaptureFixture[str]) -> None:
    answer = client.get(f"/lessons/{LESSON}/lead?front=SECRET")
    (line,) = told(capsys)
    assert set(line) == {
        "at", "level", "what", "reference", "method", "route", "status", "duration_ms", "lesson_id",
    }  # fmt: skip
    assert line["reference"] == answer.text
    assert (line["level"], line["method"], line["status"]) == ("info", "GET", 200)
    assert (line["route"], line["lesson_id"]) == ("/lessons/<lesson_id>/lead", LESSON)
    assert 0 <= line["duration_ms"] < 5_000


def test_nothing_that_was_sent_is_in_it(client: FlaskClient, capsys: pytest.CaptureFixture[str]) -> None:
    client.get("/slip/ABCDEF", environ_base={"REMOTE_ADDR": "203.0.113.7"}, headers={"Authorization": "Bearer TTT"})
    client.post("/lessons/made-up/lead", data={"password": "TTT"})
    client.get("/first/TTT")
    client.open("/slip/ABCDEF", method="ABCDEF")
    written = capsys.readouterr().err
    assert [json.loads(line)["status"] for line in written.splitlines()] == [200, 200, 404, 405]
    for sent in ("ABCDEF", "203.0.113.7", "TTT", "made-up"):
        assert sent not in written


def test_a_question_that_comes_every_few_seconds_is_kept_for_debug(
    client: FlaskClient, capsys: pytest.CaptureFixture[str]
) -> None:
    client.get(f"/api/v1/lessons/{LESSON}/changes")
    assert [line["level"] for line in told(capsys)] == ["debug"]


def test_what_broke_is_an_error_and_busy_a_warning(client: FlaskClient, capsys: pytest.CaptureFixture[str]) -> None:
    client.application.config["PROPAGATE_EXCEPTIONS"] = False
    assert client.get("/breaks").status_code == 500
    assert client.get("/busy").status_code == 503
    assert [(line["status"], line["level"]) for line in told(capsys)] == [(500, "error"), (503, "warning")]
