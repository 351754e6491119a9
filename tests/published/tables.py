"""Published tables and figures, read from `tests/reference/`."""

import csv
import json
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).parents[1] / "reference"


def published(name: str) -> dict[str, Any]:
    """The printed figures of one topic."""
    found: dict[str, Any] = json.loads((FOLDER / name).read_text(encoding="utf-8"))
    return found


def rows(name: str) -> list[dict[str, str]]:
    """The rows of one table, cells as printed."""
    with (FOLDER / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def columns(name: str) -> tuple[list[float], ...]:
    """The columns of a table of numbers, in order."""
    table = rows(name)
    return tuple([float(row[column]) for row in table] for column in table[0])
