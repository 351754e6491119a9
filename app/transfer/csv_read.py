"""A CSV text as rows of cells, with every problem of its form and the line where it stands."""

import csv
import io
from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass

from app.domain.limits import FILE_ROWS
from app.transfer.cell_read import shown
from app.transfer.file_text import unreadable
from app.transfer.problems import Problems, refused

DELIMITERS = (",", ";", "\t")
PROGRESS_ROWS = 5_000
"""Rows between two calls of a progress callback."""

Cells = list[str | None]
"""The cells of a row; None for one that can't be read."""

Progress = Callable[[int], None]
"""What is told now and then how many rows have been read."""


@dataclass(frozen=True, kw_only=True)
class Header:
    """The first row that is not blank: what sets cells apart, and where the columns stand by name.

    `known` are those that were asked for, `unknown` all others that have a name; `labels` are what problems call each
    column: its name, or its number where it has none.
    """

    line: int
    delimiter: str
    labels: tuple[str, ...]
    known: dict[str, int]
    unknown: tuple[str, ...]
    unnamed: tuple[int, ...]


def read_header(text: str, names: Collection[str], problems: Problems) -> Header:
    """The header of a text, its delimiter the one that makes the most of the names; what is wrong goes to problems.

    UnreadableFile when there is no header at all.
    """
    by_tidy_name = {_tidy(name): name for name in names}
    first = next((line for line in io.StringIO(text, newline="") if line.strip()), "")
    delimiter = max(DELIMITERS, key=lambda sign: _fit(first, sign, by_tidy_name))
    line, cells = next(records(text, delimiter, problems), (1, []))
    if problems.found:
        raise problems.refusal()
    if not cells:
        raise refused("There is nothing in the file.")
    places: dict[str, int] = {}
    for place, cell in enumerate(cells):
        name = by_tidy_name.get(_tidy(cell), cell.strip())
        words = unreadable(cell) or (f"Column {places[name] + 1} has this name already." if name in places else None)
        if words:
            problems.add(line, _label(place, cell), words)
        elif name:
            places[name] = place
    return Header(
        line=line,
        delimiter=delimiter,
        labels=tuple(_label(place, cell) for place, cell in enumerate(cells)),
        known={name: place for name, place in places.items() if name in names},
        unknown=tuple(name for name in places if name not in names),
        unnamed=tuple(place for place, cell in enumerate(cells) if not cell.strip()),
    )


def _tidy(name: str) -> str:
    """A column's name without regard to case and outer spaces, a space within standing for an underscore."""
    return "_".join(name.casefold().split())


def _label(place: int, cell: str) -> str:
    return shown(cell.strip(), 40) or str(place + 1)


def _fit(line: str, delimiter: str, by_tidy_name: dict[str, str]) -> tuple[int, int]:
    """How well a delimiter fits the first line of a file: known names in it, then columns."""
    cells = line.split(delimiter)
    return sum(_tidy(cell.strip().strip('"')) in by_tidy_name for cell in cells), len(cells)


def records(text: str, delimiter: str, problems: Problems) -> Iterator[tuple[int, list[str]]]:
    """Each record that is not blank, with the line where it begins; one with broken quotation marks is a problem."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    while True:
        line = reader.line_num + 1
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as why:
            problems.add(line, None, _broken(str(why)))
            continue
        if any(cell.strip() for cell in cells):
            yield line, cells


def _broken(why: str) -> str:
    if "field limit" in why:
        return "A cell here is far too long. Is a quotation mark not closed?"
    if "end of data" in why:
        return "A quotation mark is opened in this row and never closed."
    return "A quotation mark stands where none may: quote the whole cell, and write each mark inside it twice."


def read_rows(
    text: str, header: Header, problems: Problems, *, progress: Progress | None = None
) -> Iterator[tuple[int, Cells]]:
    """The rows under the header that fit it, each with its line; what is wrong with the others goes to problems."""
    below = records(text, header.delimiter, problems)
    next(below, None)
    doubtful = unreadable(text) is not None
    unnamed = set(header.unnamed)
    for number, (line, cells) in enumerate(below, start=1):
        if number > FILE_ROWS:
            problems.add(line, None, f"There are more than {FILE_ROWS:,} rows. Split the file.")
            return
        if progress is not None and number % PROGRESS_ROWS == 0:
            progress(number)
        if len(cells) != len(header.labels):
            problems.add(line, None, _misfit(len(cells), header))
            continue
        for place in [place for place in unnamed if cells[place].strip()]:
            unnamed.remove(place)
            problems.add(line, header.labels[place], "This cell stands under no name of the header.")
        yield line, _readable(line, cells, header, problems) if doubtful else list(cells)


def _misfit(count: int, header: Header) -> str:
    width = len(header.labels)
    words = f"The row has {count} cell{'' if count == 1 else 's'}, the header {width}."
    hint = " If numbers are written with a decimal comma, set cells apart by semicolons."
    return words + hint if count > width and header.delimiter == "," else words


def _readable(line: int, cells: list[str], header: Header, problems: Problems) -> Cells:
    """The cells, None for each that can't be read, which is a problem."""
    faults = [unreadable(cell) for cell in cells]
    for label, words in zip(header.labels, faults, strict=True):
        if words is not None:
            problems.add(line, label, words)
    return [None if words else cell for cell, words in zip(cells, faults, strict=True)]
