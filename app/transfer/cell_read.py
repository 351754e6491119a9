"""How a cell of a readings file is read: its value, None where it is blank, or a refusal with a sentence."""

import math
import re
from collections.abc import Collection
from dataclasses import dataclass
from typing import Protocol
from unicodedata import category

from app.domain.errors import fault
from app.domain.limits import TEXT_MOST, within
from app.transfer.cell_write import words

NUMBER_MOST = 40
"""Characters of a number: more than any number has in its shortest exact form."""

_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d+)?", re.ASCII | re.IGNORECASE)
_GROUPED = re.compile(r"[+-]?[0-9]{1,3}(?P<mark>[.,'’\s])[0-9]{3}((?P=mark)[0-9]{3})*([.,][0-9]*)?")
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f]")
"""Signs that steer a screen; tab and line ends aside."""


class Reader(Protocol):
    """What turns the text of a cell into its value."""

    def __call__(self, text: str) -> object:
        """The value; None where the cell is blank; InvalidEntry, with a sentence, when it can't be read."""


def shown(text: str, most: int) -> str:
    """The text as a sentence may show it on any screen, cut where it is longer."""
    safe = "".join(sign if sign.isprintable() or category(sign) == "Zs" else "\ufffd" for sign in text[:most])
    return f"{safe}..." if len(text) > most else safe


def quoted(text: str) -> str:
    """What stands in a cell, in quotation marks, as a sentence may show it."""
    return f'"{shown(text, 24)}"'


@dataclass(frozen=True, kw_only=True)
class Number:
    """Reads a number within bounds, with a decimal point or comma."""

    bounds: tuple[float, float]
    unit: str = ""

    def __call__(self, text: str) -> object:
        """The number as a float; None where the cell is blank."""
        return number_in(text, self.bounds, self.unit)


@dataclass(frozen=True, kw_only=True)
class Whole(Number):
    """Reads a whole number within bounds."""

    def __call__(self, text: str) -> object:
        """The number as an int; None where the cell is blank."""
        value = number_in(text, self.bounds, self.unit)
        if value is None:
            return None
        if value != int(value):
            raise fault("", f"{quoted(text)} is not a whole number.")
        return int(value)


def number_in(text: str, bounds: tuple[float, float], unit: str = "") -> float | None:
    """The number that stands in a cell, None where it is blank; refused when it is none or outside the bounds."""
    tidy = text.strip().replace("\u2212", "-")
    if not tidy:
        return None
    if len(tidy) <= NUMBER_MOST and _NUMBER.fullmatch(tidy):
        value = float(tidy.replace(",", "."))
        return within("", value if math.isfinite(value) else math.nan, bounds, unit)
    if _GROUPED.fullmatch(tidy):
        raise fault("", f"{quoted(text)} has marks between thousands: write the number without them.")
    raise fault("", f"{quoted(text)} is not a number: digits with a point or a comma, please, without the unit.")


@dataclass(frozen=True, kw_only=True)
class Words:
    """Reads words; outer spaces are cut off, and so is an apostrophe that only keeps them from being a formula."""

    most: int = TEXT_MOST

    def __call__(self, text: str) -> object:
        """The words; None where the cell is blank."""
        tidy = _written_words(text).strip()
        if _CONTROL.search(tidy):
            raise fault("", f"{quoted(tidy)} holds a sign that steers a screen; type the words again.")
        if len(tidy) > self.most:
            raise fault("", f"That is too long: at most {self.most} characters.")
        return tidy or None


@dataclass(frozen=True, kw_only=True)
class FreeWords:
    """Reads a sentence exactly as someone typed it, spaces and signs included."""

    most: int = TEXT_MOST

    def __call__(self, text: str) -> object:
        """The words; None where the cell is blank."""
        said = _written_words(text)
        if len(said) > self.most:
            raise fault("", f"That is too long: at most {self.most} characters.")
        return said if said.strip() else None


def _written_words(text: str) -> str:
    """The words that `words` would write like that."""
    return text[1:] if text.startswith("'") and words(text[1:]) == text else text


@dataclass(frozen=True, kw_only=True)
class OneOf:
    """Reads one code of a closed list, in any case."""

    known: Collection[str]

    def __call__(self, text: str) -> object:
        """The code; None where the cell is blank."""
        code = text.strip().casefold()
        return _listed(code, self.known) if code else None


@dataclass(frozen=True, kw_only=True)
class Codes:
    """Reads codes of a closed list with a space between, in any case."""

    known: Collection[str]

    def __call__(self, text: str) -> object:
        """The codes in order; None where the cell is blank."""
        return tuple(_listed(code, self.known) for code in text.casefold().split()) or None


def _listed(code: str, known: Collection[str]) -> str:
    if code not in known:
        raise fault("", f"{quoted(code)} is none of {', '.join(known)}.")
    return code


@dataclass(frozen=True, kw_only=True)
class IfKnown:
    """Reads a code where it is one of a list; anything else is kept in the file and not read."""

    known: Collection[str]

    def __call__(self, text: str) -> object:
        """The code; None where the cell is blank or says something else."""
        code = text.strip().casefold()
        return code if code in self.known else None


@dataclass(frozen=True, kw_only=True)
class Needed:
    """Reads a cell that may not be blank."""

    read: Reader

    def __call__(self, text: str) -> object:
        """The value, which is there."""
        value = self.read(text)
        if value is None:
            raise fault("", "This cell is blank, and no row can do without it.")
        return value
