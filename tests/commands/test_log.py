"""The log's form: one JSON object a line, and nothing that somebody sent."""

import json
import logging
import sys
from collections.abc import Iterator
from datetime import datetime

import pytest

from app.log import JsonLines, StderrLines, start_log


@pytest.fixture
def root() -> Iterator[logging.Logger]:
    """The root logger, put back afterwards as it was."""
    found = logging.getLogger()
    before = list(found.handlers)
    yield found
    found.handlers = before


def line(name: str, level: int, words: str, *filled: object, **more: object) -> dict[str, object]:
    record = logging.LogRecord(name, level, __file__, 1, words, filled, None)
    for key, value in more.items():
        setattr(record, key, value)
    written = JsonLines().format(record)
    assert "\n" not in written
    found: dict[str, object] = json.loads(written)
    return found


def test_a_line_has_time_level_and_words() -> None:
    """Source: contract.md 4; times are UTC, ISO 8601, ending in Z."""
    found = line("ropewalk.request", logging.INFO, "request", told={"status": 200})
    assert list(found) == ["at", "level", "what", "status"]
    assert found["level"] == "info"
    moment = datetime.fromisoformat(str(found["at"]))
    assert str(found["at"]).endswith("Z")
    assert moment.utcoffset() is not None


def test_our_own_words_are_filled_in_and_keep_their_letters() -> None:
    assert line("app.x", logging.INFO, "%s cords\nof Ålder", 3)["what"] == "3 cords\nof Ålder"


@pytest.mark.parametrize(
    "words",
    [
        "Invalid request from ip=203.0.113.7: GET /slip/ABCDEF",
        "Error handling request %s %s",
        "Ignored premature client disconnection. %s",
    ],
)
def test_what_the_server_quotes_of_a_request_is_left_away(words: str) -> None:
    filled = ("GET", "/first/TOKEN")[: words.count("%s")]
    what = str(line("gunicorn.error", logging.WARNING, words, *filled)["what"])
    assert words.startswith(what)
    assert not {"203.0.113.7", "ABCDEF", "TOKEN"} & set(what.replace("/", " ").split())


def test_the_server_s_other_words_are_kept() -> None:
    assert (
        line("gunicorn.error", logging.INFO, "Booting worker with pid: %s", 7)["what"] == "Booting worker with pid: 7"
    )


def test_a_library_s_words_are_not_filled_in() -> None:
    assert line("lib.pool", logging.WARNING, "bad %s", "typed")["what"] == "lib.pool: bad %s"


def test_of_an_error_kind_and_places_are_told_but_not_its_words() -> None:
    try:
        int("what was typed")
    except ValueError:
        found = line("ropewalk", logging.ERROR, "broke", exc_info=sys.exc_info())
    assert found["error"] == "ValueError"
    assert str(found["places"]).count(__file__) == 1
    assert "what was typed" not in json.dumps(found)


def test_the_log_is_started_once_and_goes_to_standard_error_of_the_moment(
    root: logging.Logger, capsys: pytest.CaptureFixture[str]
) -> None:
    start_log("warning")
    start_log("info")
    assert sum(isinstance(handler, StderrLines) for handler in root.handlers) == 1
    logging.getLogger("ropewalk.x").info("told")
    logging.getLogger("ropewalk.x").debug("kept to itself")
    logging.getLogger("sqlalchemy.engine").info("SELECT a secret")
    shown = capsys.readouterr()
    assert [json.loads(one)["what"] for one in shown.err.splitlines()] == ["told"]
    assert shown.out == ""
