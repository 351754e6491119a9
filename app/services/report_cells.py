"""A figure in a cell of a table whose head has the unit."""

from dataclasses import replace

from app.mechanics.breaking import Bracket
from app.mechanics.cord_sums import CordSums
from app.mechanics.result import Result
from app.services.figure_words import (
    AT_LEAST,
    AT_MOST,
    bracketed,
    force_bracket,
    measured,
    newtons,
    places_for,
    rounded,
)
from app.services.workings_straight import nearest_reading

NOTHING = "–"
"""Stands where there is no figure; the reason stands elsewhere."""
SPAN = "{} to {}"


def force_cell(found: Bracket) -> str:
    """What was held, to what it broke on; "more than" of a cord that did not break."""
    if found.low_n is None and found.high_n is None:
        return NOTHING
    return force_bracket(found, span=SPAN, unit="")


def bracket_cell(result: Result) -> str:
    """A figure read off a breaking force."""
    if result.value is None and result.low is None and result.high is None:
        return NOTHING
    return bracketed(replace(result, unit=""), "second", span=SPAN)


def measured_cell(result: Result) -> str:
    """A figure with its 95 % interval: as ± where its ends lie as far to either side, else from end to end."""
    value, low, high = result.value, result.low, result.high
    if value is None:
        return NOTHING
    if low is None or high is None:
        return _half_open(result, value)
    places = places_for(value, (high - low) / 2)
    down, up = (rounded(side, places) for side in (value - low, high - value))
    if down == up:
        return f"{rounded(value, places)} ± {up}"
    return SPAN.format(rounded(low, places), rounded(high, places))


def _half_open(result: Result, value: float) -> str:
    for words, end in ((AT_LEAST, result.low), (AT_MOST, result.high)):
        if end is not None:
            return f"{words} {rounded(end, places_for(value, abs(end - value)))}"
    return measured(replace(result, unit=""), "second")


def straight_cell(sums: CordSums) -> str:
    """Up to where the curve is straight, to the nearest step."""
    limit_n = sums.straight.limit_n
    if limit_n.low is None:
        return NOTHING
    step = newtons(nearest_reading(sums).force_n, unit="")
    return step if limit_n.high is not None else f"{AT_LEAST} {step}"
