"""Numbers as people type them, and how they are shown."""

import math
import re

from app.domain.errors import fault
from app.domain.limits import TYPED_MOST
from app.domain.vocabulary import SCALE_UNITS

STANDARD_GRAVITY_M_PER_S2 = 9.80665
"""The convention of the General Conference on Weights and Measures (1901)."""

_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)")
NARROW = "\u202f"
FAST = "\u00a0"


def number_typed(field: str, typed: str) -> float:
    """The number that was typed, with comma or point; refused with a sentence when it is none."""
    text = typed.strip()
    if not text:
        raise fault(field, "Type a number here.")
    if len(text) > TYPED_MOST:
        raise fault(field, f"That is too long: at most {TYPED_MOST} characters.")
    if not _NUMBER.fullmatch(text.replace("\u2212", "-")) or not text.isprintable():
        raise fault(field, "Numbers only, please, without the unit. A comma or a point may stand in it.")
    return float(text.replace("\u2212", "-").replace(",", "."))


def length_mm(value: float, unit: str) -> float:
    """A length in millimetres, rid of the binary dust that a conversion from centimetres brings."""
    return round(value * SCALE_UNITS[unit], 9)


def plain(value: float) -> str:
    """A number for a file or JSON text: its shortest exact form, no trailing `.0`."""
    return str(int(value)) if math.isfinite(value) and value == int(value) and abs(value) < 1e15 else repr(value)


def shown(value: float, decimals: int = 0) -> str:
    """A number for a page: fixed decimals, narrow spaces in thousands, a true minus sign."""
    text = f"{value:,.{decimals}f}".replace(",", NARROW)
    return text.replace("-", "\u2212")


def trimmed(value: float, decimals: int = 2) -> str:
    """As `shown`, without zeros that say nothing: for readings and masses typed by people."""
    text = shown(value, decimals)
    return text.rstrip("0").rstrip(".") if "." in text else text


def with_unit(text: str, unit: str) -> str:
    """A number and its unit, never parted at a line's end."""
    return f"{text}{FAST}{unit}"
