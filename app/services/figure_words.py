"""How a figure is said in words at a depth: rounded by its uncertainty, as an interval, as "more than", or why not."""

import math
import sys
from dataclasses import replace

from app.domain.quantities import shown, with_unit
from app.mechanics.breaking import Bracket
from app.mechanics.result import Interval, Result

UNIT_WORDS = {"N/(g/m)": "N for each gram in a metre", "um": "µm", "mm2": "mm²", "1": ""}
"""Units that a page writes otherwise than a file does."""

IN_SUM = {"N/(g/m)": "N per g/m"}
"""The shorter word inside a sum."""

LEAST_DECIMALS, MOST_DECIMALS = -12, 9
WITHOUT_UNCERTAINTY = 3
"""Figures of a value that carries no uncertainty."""
AT_LEAST, AT_MOST, MORE_THAN = "at least", "at most", "more than"
BETWEEN = "between {} and {}"


def sentence(text: str) -> str:
    """The text with a capital and a full stop."""
    return text if not text else text[0].upper() + text[1:] + ("" if text.endswith((".", "?")) else ".")


def decimals_of(doubt: float) -> int:
    """The place that an uncertainty is rounded to: one figure, two when the first is a 1; under 0 for tens."""
    if not doubt > 0:
        return WITHOUT_UNCERTAINTY
    power = math.floor(math.log10(doubt))
    return _held(-power + (1 if doubt < 2 * 10.0**power else 0))


def decimals_for(value: float, figures: int) -> int:
    """The place of the last of so many figures of a value."""
    return _held(figures - 1 - math.floor(math.log10(abs(value)))) if value else 0


def _held(decimals: int) -> int:
    return max(LEAST_DECIMALS, min(MOST_DECIMALS, decimals))


def rounded(value: float, decimals: int) -> str:
    """The value to that place, as a page shows it; never "−0"."""
    return shown(round(value, decimals) + 0.0, max(decimals, 0))


def figures(value: float, count: int = 4) -> str:
    """A number inside a sum: so many figures, without zeros that say nothing."""
    text = rounded(value, decimals_for(value, count))
    return text.rstrip("0").rstrip(".") if "." in text else text


def unit_of(unit: str) -> str:
    """A unit as a page writes it."""
    return UNIT_WORDS.get(unit, unit)


def amount(text: str, unit: str) -> str:
    """A number with its unit as a page writes it; alone when it has none."""
    said = unit_of(unit)
    return with_unit(text, said) if said else text


def in_sum(value: float, unit: str) -> str:
    """A number inside a sum, with its unit."""
    return amount(figures(value), IN_SUM.get(unit, unit))


def as_percent(share: Result) -> Result:
    """A share of 1 as one of 100."""
    value, u, low, high = (
        None if one is None else 100 * one for one in (share.value, share.standard_uncertainty, share.low, share.high)
    )
    return replace(share, value=value, standard_uncertainty=u, low=low, high=high, unit="%")


def measured(result: Result, depth: str, *, least: str = AT_LEAST) -> str:
    """A figure with its 95 % interval; `least` is said before an end that is known without a value."""
    if result.value is None:
        return _one_end(result, least)
    if result.low is None and result.high is None:
        return amount(rounded(result.value, decimals_for(result.value, WITHOUT_UNCERTAINTY)), result.unit)
    if result.low is None or result.high is None:
        return _half_open(result)
    return _closed(result, depth)


def _one_end(result: Result, least: str) -> str:
    for words, end in ((least, result.low), (AT_MOST, result.high)):
        if end is not None:
            return f"{words} {amount(rounded(end, decimals_for(end, WITHOUT_UNCERTAINTY)), result.unit)}"
    return sentence(result.why or "")


def _half_open(result: Result) -> str:
    value, low, high = result.value or 0.0, result.low, result.high
    end = low if low is not None else high or 0.0
    places = places_for(value, abs(end - value))
    words = (AT_LEAST, "no upper end") if low is not None else (AT_MOST, "no lower end")
    return f"{amount(rounded(value, places), result.unit)}, {words[0]} {rounded(end, places)}, {words[1]} is known"


def _closed(result: Result, depth: str) -> str:
    value, low, high = result.value or 0.0, result.low or 0.0, result.high or 0.0
    half = (high - low) / 2
    places = places_for(value, half)
    down, up = (rounded(side, places) for side in (value - low, high - value))
    known = rounded(value, places)
    if down != up:
        said = f"{amount(known, result.unit)}, from {rounded(low, places)} to {rounded(high, places)}"
    elif depth == "first":
        said = f"{amount(known, result.unit)}, give or take {amount(up, result.unit)}"
    else:
        said = amount(f"{known} ± {up}", result.unit)
    return said if depth != "third" else f"{said} (u = {_plain_u(result)})"


def _plain_u(result: Result) -> str:
    u = result.standard_uncertainty or 0.0
    return amount(rounded(u, places_for(result.value or 0.0, u)), result.unit)


def places_for(value: float, doubt: float) -> int:
    """The place that value and doubt are rounded to; of next to no doubt, some figures of the value."""
    return decimals_of(doubt) if doubt > 1e-9 * abs(value) and doubt > 0 else decimals_for(value, WITHOUT_UNCERTAINTY)


def bracketed(result: Result, depth: str, *, span: str = BETWEEN) -> str:
    """A figure read off a breaking force: between its ends, "more than", or why not; its value at the third depth."""
    if result.value is None or result.low is None or result.high is None:
        return measured(result, depth, least=MORE_THAN)
    places = _of_bracket(result.high - result.low, result.high, result.unit)
    said = amount(span.format(rounded(result.low, places), rounded(result.high, places)), result.unit)
    u = result.standard_uncertainty
    if depth != "third" or not u:
        return said
    return f"{said} (middle {rounded(result.value, decimals_of(u))}, u = {rounded(u, decimals_of(u))})"


def _of_width(width: float, high: float) -> int:
    """Two figures of the width: what lies between two steps is not known closer."""
    return _held(1 - math.floor(math.log10(width))) if width > 0 else decimals_for(high, WITHOUT_UNCERTAINTY)


def _of_bracket(width: float, high: float, unit: str) -> int:
    """One decimal of widths about 1 (a half to 5), so that a column's decimals agree; of small forces as of any."""
    return _of_width(width if unit == "N" and high < 10 else min(2 * width, sys.float_info.max), high)


def force_bracket(found: Bracket, *, span: str = BETWEEN, unit: str = "N") -> str:
    """A breaking force: between what was held and what it broke on, "more than", or why not."""
    low, high = found.low_n, found.high_n
    if low is None and high is None:
        return sentence(found.why or "")
    if high is None:
        return f"{MORE_THAN} {newtons(low or 0.0, unit)}"
    if not low:
        return f"{AT_MOST} {newtons(high, unit)}"
    places = max(1, _of_width(high - low, high))
    return amount(span.format(rounded(low, places), rounded(high, places)), unit)


def newtons(force_n: float, unit: str = "N") -> str:
    """A force on a page: to a tenth of a newton, under 10 N to a hundredth; without a unit where that stands apart."""
    return amount(rounded(force_n, 1 if abs(force_n) >= 10 else 2), unit)


def counted(number: int, what: str) -> str:
    """So many of them, in the singular of one."""
    return f"{number} {what}{'' if number == 1 else 's'}"


def between(found: Interval) -> str:
    """Two ends of an interval, one of them, or why there are none."""
    low, high = found.low, found.high
    if low is None and high is None:
        return sentence(found.why or "")
    if low is None or high is None:
        word, end = (AT_MOST, high) if low is None else (AT_LEAST, low)
        return f"{word} {amount(rounded(end or 0.0, decimals_for(end or 0.0, WITHOUT_UNCERTAINTY)), found.unit)}"
    places = max(_of_width(high - low, high), 1 if found.unit == "N" else 0)
    return amount(f"between {rounded(low, places)} and {rounded(high, places)}", found.unit)
