"""The log: one JSON object a line on standard error, and never anything that somebody sent.

A record of ours is written as it is. A record of a library is written without what it fills in, since that may be an
address, a code or something typed; of an exception the kind and the places are kept, its words are not.
"""

import json
import logging
import sys
import traceback
from datetime import UTC, datetime
from typing import Any, TextIO

OURS = ("ropewalk", "app")
SERVER = "gunicorn.error"
ABOUT_A_REQUEST = (
    "Invalid request",
    "Error handling request",
    "Ignored premature client disconnection",
    "Closing connection",
    "Exception during worker exit",
)
"""What gunicorn goes on to quote a request after."""


class JsonLines(logging.Formatter):
    """A record as one line of JSON: at, level, what, whatever was given as `told`, and the place of an error."""

    def format(self, record: logging.LogRecord) -> str:
        """The line, without its end."""
        line: dict[str, Any] = {
            "at": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds")[:-6] + "Z",
            "level": record.levelname.lower(),
            "what": _what(record),
        }
        line.update(getattr(record, "told", {}))
        if record.exc_info and record.exc_info[0]:
            line["error"] = record.exc_info[0].__name__
            line["places"] = [
                f"{frame.filename}:{frame.lineno} {frame.name}" for frame in traceback.extract_tb(record.exc_info[2])
            ]
        return json.dumps(line, ensure_ascii=False)


class StderrLines(logging.StreamHandler[TextIO]):
    """Writes JSON lines to whatever standard error is at that moment."""

    def __init__(self) -> None:
        super().__init__(sys.stderr)
        self.setFormatter(JsonLines())

    def emit(self, record: logging.LogRecord) -> None:
        """The record stands on standard error as it is now, not as it was when the log began."""
        self.stream = sys.stderr
        super().emit(record)


def start_log(level: str) -> None:
    """Our own records from `level` on, and the warnings of everyone else, go to standard error; twice is as once."""
    root = logging.getLogger()
    if not any(isinstance(handler, StderrLines) for handler in root.handlers):
        root.addHandler(StderrLines())
    for name in OURS:
        logging.getLogger(name).setLevel(level.upper())


def _what(record: logging.LogRecord) -> str:
    if record.name.partition(".")[0] in OURS:
        return record.getMessage()
    if record.name != SERVER:
        return f"{record.name}: {record.msg}"
    words = str(record.msg)
    return next((start for start in ABOUT_A_REQUEST if words.startswith(start)), "") or record.getMessage()
