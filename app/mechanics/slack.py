"""The slack that the settling load left in a cord: where its straight part, carried back, says that it begins."""

import math

from app.mechanics.result import ReadingScatter, Result, from_interval, none

NO_ZERO_THERE = "The zero does not lie on the part of the curve that the line was fitted to."


def slack(line_at_start_mm: Result, zeros_mm: tuple[float, ...], scatter: ReadingScatter) -> Result:
    """How far the straight part, carried back to the settling load, lies from the zero that was read there.

    Parameters: line_at_start_mm, the line's value at the lowest force [mm]; zeros_mm, the zeros read there [mm], shape
        (r,), may be empty; scatter, of one reading [mm].
    Returns: the line's value less the mean zero [mm], each end of its interval joined in quadrature with that of the
        mean zero. None, with a sentence, when there is no line or no zero.
    Raises: nothing.
    Source: toe compensation as in ASTM D882, annex A1 (from memory); JCGM 100:2008 (GUM), 5.1.2.
    """
    if line_at_start_mm.value is None:
        return none(line_at_start_mm.why or "", "mm")
    if not zeros_mm:
        return none(NO_ZERO_THERE, "mm")
    value = line_at_start_mm.value - math.fsum(zeros_mm) / len(zeros_mm)
    zero_half_mm = scatter.factor * scatter.u_mm / math.sqrt(len(zeros_mm))
    low, high = (_joined(line_at_start_mm, end, zero_half_mm) for end in (line_at_start_mm.low, line_at_start_mm.high))
    return from_interval(value, None if low is None else value - low, None if high is None else value + high, unit="mm")


def _joined(line: Result, end: float | None, other_half: float) -> float | None:
    """The distance of an end from its value, joined with another half-width; None where it is open."""
    return None if end is None or line.value is None else math.hypot(line.value - end, other_half)
