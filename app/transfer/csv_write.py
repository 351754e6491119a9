"""The class CSV, from rows of plain values."""

import csv
import io
from collections.abc import Iterable, Mapping

from app.transfer.columns import COLUMNS


def write_rows(rows: Iterable[Mapping[str, object]]) -> str:
    """A CSV text (RFC 4180, line ends CR LF, header first) of rows by column name; None or a name left out is blank."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(column.name for column in COLUMNS)
    writer.writerows(_cells(row) for row in rows)
    return text.getvalue()


def _cells(row: Mapping[str, object]) -> list[str]:
    found = ((column, row.get(column.name)) for column in COLUMNS)
    return ["" if value is None else column.write(value) for column, value in found]
