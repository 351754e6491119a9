"""Ends and ticks of an axis: a fixed row of round numbers, so that an axis grows in steps and two scripts agree on it.

The row, times any power of ten: 1, 1.2, 1.6, 2, 2.5, 3, 3.5, 4, 5, 6, 8, 10. An axis ends at the first of them that is
not under what has to be shown. Its ticks stand 1, 2, 4 or 5 times a power of ten apart: the smallest such step that
divides the end and makes no more parts than asked for, or failing that, seven (35 has no divisor but 5 and 7).
"""

import math

ROW = (10, 12, 16, 20, 25, 30, 35, 40, 50, 60, 80, 100)
STEPS = (1, 2, 4, 5, 10, 20, 40, 50)
PARTS_MOST = 7


def axis_end(need: float, *, least: float) -> float:
    """The first round number that is neither under `need` nor under `least`."""
    need = max(need, least)
    power = math.floor(math.log10(need)) - 1
    for candidate in ROW:
        if _times(candidate, power) >= need * (1 - 1e-9):
            return _times(candidate, power)
    return _times(ROW[-1], power)


def ticks(end: float, *, parts: int) -> tuple[float, ...]:
    """The ticks of an axis from zero to a round end, at most `parts` of them after zero where that can be."""
    power = math.floor(math.log10(end)) - 1
    whole = round(end / 10.0**power)
    fits = [step for most in (parts, PARTS_MOST) for step in STEPS if whole % step == 0 and whole // step <= most]
    step = fits[0] if fits else whole
    return tuple(_times(step * turn, power) for turn in range(whole // step + 1))


def _times(whole: int, power: int) -> float:
    """A whole number times a power of ten, free of binary dust."""
    return whole * 10.0**power if power >= 0 else whole / 10.0**-power
