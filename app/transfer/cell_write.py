"""How a value is written into a cell of the class CSV."""

from datetime import UTC, datetime

from app.domain.errors import Refusal
from app.domain.quantities import number_typed, plain

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")
"""What a cell of words may not start with, or a spreadsheet would work it out."""


def words(value: object) -> str:
    """A cell of words, with a leading apostrophe where it would start a formula (or be taken for one that has it)."""
    text = str(value)
    return f"'{text}" if text.lstrip("'").startswith(FORMULA_STARTS) else text


def typed(value: object) -> str:
    """A number as someone typed it, sign and comma included; anything else as words."""
    text = str(value)
    try:
        number_typed("", text)
    except Refusal:
        return words(text)
    return text


def number(value: object) -> str:
    """A number in its shortest exact form."""
    if not isinstance(value, (int, float)):
        raise TypeError(f"not a number: {value!r}")
    return plain(float(value))


def codes(value: object) -> str:
    """Several codes or marks with a space between."""
    if not isinstance(value, tuple):
        raise TypeError(f"not a tuple: {value!r}")
    return " ".join(str(each) for each in value)


def moment(value: object) -> str:
    """A time in UTC, to the second, ending in Z."""
    if not isinstance(value, datetime):
        raise TypeError(f"not a time: {value!r}")
    return value.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
