"""Text for a terminal or a printer: paragraphs, pairs and tables that fit its width, and nothing that steers it."""

import re
import textwrap
from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import zip_longest
from unicodedata import category

WIDTH = 80
GAP = "  "
NESTED = "  "
"""Before lines that belong to the one above them."""
NAMES = 34
"""Widest that the left side of a pair may be."""
LONG_WORD = 16
"""A word of a table longer than this may be cut."""
SAMPLE = 100
"""Of so many rows it is looked how they would grow."""

_SIGN = re.compile(" ([±=]) ")
"""Stands between two parts that belong in one line."""
_UNUSUAL = re.compile("[^ -~]")

Pairs = Iterable[tuple[str, str]]


def page(lines: Iterable[str]) -> str:
    """The lines as a text that ends with a newline: no sign in it steers a screen, and no line ends with spaces."""
    return "".join(f"{_plain(line).rstrip()}\n" for line in lines)


def _plain(line: str) -> str:
    """Spaces of all kinds made plain, for no line is broken any more; other signs that can't be seen marked."""
    return _UNUSUAL.sub(lambda sign: _seen(sign[0]), line)


def _seen(sign: str) -> str:
    if sign.isprintable():
        return sign
    return " " if category(sign) == "Zs" else "\ufffd"


def with_stop(text: str) -> str:
    """The text with a full stop, its first letter as it was: it may begin with a name."""
    return text if text.endswith((".", "?")) else f"{text}."


def heading(words: str) -> list[str]:
    """A heading with a line under it, parted from what came before."""
    return ["", words, "-" * len(words)]


def paragraph(text: str, *, indent: str = "", further: str | None = None) -> list[str]:
    """The text in lines; `further` goes before every line but the first."""
    beside = indent if further is None else further
    lines = _wrapped(text, WIDTH - max(len(indent), len(beside)))
    return [f"{beside if place else indent}{line}" for place, line in enumerate(lines)]


def pairs(told: Pairs, *, indent: str = "") -> list[str]:
    """What each thing is called, and beside it what is said of it."""
    rows = list(told)
    names = min(NAMES, max((len(name) for name, _ in rows), default=0))
    widths = (names, WIDTH - len(indent) - names - len(GAP))
    return [line for row in rows for line in _row(row, widths, indent=indent)]


def table(head: Sequence[str], rows: Sequence[Sequence[str]], *, words: Collection[str]) -> list[str]:
    """The rows under their head, in columns; those named in `words` begin at the left, the others end at the right.

    Where all of it would be too wide, columns are made narrower where that makes the rows grow least.
    """
    widths = _widths(head, rows)
    right = [name not in words for name in head]
    under = ["-" * width for width in widths]
    return [line for row in (head, under, *rows) for line in _row(row, widths, right=right)]


def _widths(head: Sequence[str], rows: Sequence[Sequence[str]]) -> list[int]:
    columns = [[name, *(row[place] for row in rows)] for place, name in enumerate(head)]
    least = [min(_longest_word(cells), LONG_WORD) for cells in columns]
    widths = [max(map(len, cells)) for cells in columns]
    some = [cells[1 : SAMPLE + 1] for cells in columns]
    while sum(widths) > WIDTH - len(GAP) * (len(head) - 1):
        places = [place for place in range(len(head)) if widths[place] > least[place]] or [widths.index(max(widths))]
        widths[min(places, key=lambda place: (_growth(some[place], widths[place]), -widths[place]))] -= 1
    return widths


def _growth(cells: Sequence[str], width: int) -> int:
    """How many lines more the cells take where their column is narrower by one."""
    return sum(len(_wrapped(cell, width - 1)) - len(_wrapped(cell, width)) for cell in cells if len(cell) >= width)


def _longest_word(cells: Iterable[str]) -> int:
    return max((len(word) for cell in cells for word in _kept_together(cell).split(" ")), default=0)


def _row(
    cells: Sequence[str], widths: Sequence[int], *, indent: str = "", right: Sequence[bool] = (False, False)
) -> Iterator[str]:
    """The lines of one row; the last column is not filled up."""
    columns = [_wrapped(cell, width) for cell, width in zip(cells, widths, strict=True)]
    for parts in zip_longest(*columns, fillvalue=""):
        told = zip(parts, widths, right, strict=True)
        yield indent + GAP.join(part.rjust(width) if ends else part.ljust(width) for part, width, ends in told).rstrip()


def _wrapped(text: str, width: int) -> list[str]:
    """The text in lines of at most that width, a longer word cut; one line at least."""
    if len(text) <= width:
        return [text]
    return textwrap.wrap(_kept_together(text), width, break_on_hyphens=False) or [""]


def _kept_together(text: str) -> str:
    return _SIGN.sub("\u00a0\\1\u00a0", text)
