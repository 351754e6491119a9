"""Offset yield: where the curve has left its straight part by a stated part of the free length."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from app.mechanics.reading_sums import CurvePoint
from app.mechanics.result import Result, from_interval, none
from app.mechanics.straight import PointerLine, StraightPart

OFFSET_PERCENT = 1.0
"""Of the free length, where a lesson states no other: a ruler sees no offset of 0.2 % as metals have it."""

NOT_REACHED = "The curve never left its straight part by so much: not reached."
NO_FREE_LENGTH = "The offset is a part of the length between the knots, which was not measured."

OPEN = "The line of the straight part is not known well enough to say between which forces."

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class OffsetYield:
    """The force of the offset yield [N], and where the pointer stood there [mm], joined and turned as in a fit."""

    force_n: Result
    stretched_mm: float | None = None


def offset_yield(
    points: Sequence[CurvePoint],
    part: StraightPart,
    *,
    free_length_mm: float | None,
    offset_percent: float = OFFSET_PERCENT,
) -> OffsetYield:
    """Where the line of the straight part, shifted by a strain, meets the readings joined by straight lines.

    Parameters: points, of the section that the part was fitted to [N, mm], shape (n,), any order; part, its line [mm,
        mm/N] with the interval of its stiffness, where it begins and ends [N], the scatter of one reading [mm];
        free_length_mm [mm] or None; offset_percent, the strain [% of it].
    Returns: the force [N] and the pointer there [mm]: the first crossing after the straight part. The interval runs
        between the crossings of the line's two ends, turned about the middle of the straight part, each moved on by
        the interval of one reading in quadrature; an end that does not cross is open. No value, with a sentence,
        when the curve does not come so far.
    Raises: nothing.
    Source: proof strength by the offset method, as in ISO 6892-1 and ASTM D882 (from memory). Our own: the error of
        the readings that are crossed belongs to the interval. Simulated, kinks called bent: the interval held the
        true crossing in 96-100 % of cords, by the line's ends alone in 81-97 %; gradual bends 86-94 %, 17-82 %.
    """
    line, why = part.line, _refused(part, free_length_mm)
    if why is not None or line is None or free_length_mm is None:
        return OffsetYield(force_n=none(why or NOT_REACHED, "N"))
    force, stretched = _columns(points)
    beyond = stretched - line.intercept_mm - line.slope_mm_per_n * force - free_length_mm * offset_percent / 100
    at = _crossing(part, force, beyond)
    if at is None:
        return OffsetYield(force_n=none(NOT_REACHED, "N"))
    low, high = (
        None if shift is None else _crossing(part, force, beyond + shift) for shift in _shifts(part, line, force)
    )
    low, high = None if low is None else min(low, at), None if high is None else max(high, at)
    found = from_interval(at, low, high, unit="N").noted(OPEN if low is None or high is None else None)
    return OffsetYield(force_n=found, stretched_mm=float(np.interp(at, force, stretched)))


def _refused(part: StraightPart, free_length_mm: float | None) -> str | None:
    if free_length_mm is None:
        return NO_FREE_LENGTH
    return part.stiffness_n_per_mm.why


def _columns(points: Sequence[CurvePoint]) -> tuple[FloatArray, FloatArray]:
    """Forces [N] and pointers [mm], lightest first."""
    ordered = sorted((point.force_n, point.stretched_mm) for point in points)
    return np.array([force for force, _ in ordered]), np.array([stretched for _, stretched in ordered])


def _shifts(part: StraightPart, line: PointerLine, force: FloatArray) -> Iterator[FloatArray | None]:
    """How the curve lies against the stiffer end of the line, met sooner, and the softer [mm]; None where open."""
    arm = force - ((part.from_n or 0.0) + (part.to_n or 0.0)) / 2
    reading_mm = part.scatter.factor * part.scatter.u_mm
    for sign, end in ((1, part.stiffness_n_per_mm.high), (-1, part.stiffness_n_per_mm.low)):
        yield sign * np.hypot((1 / end - line.slope_mm_per_n) * arm, reading_mm) if end else None


def _crossing(part: StraightPart, force: FloatArray, beyond: FloatArray) -> float | None:
    """Where the curve first gets beyond the shifted line after the straight part, else where it did so for good."""
    under = beyond < 0
    ups = np.flatnonzero(under[:-1] & ~under[1:])
    later = ups[force[ups + 1] > (part.to_n or 0.0)]
    if not ups.size or (not later.size and under[-1]):
        return None
    i = int(later[0] if later.size else ups[-1])
    share = -beyond[i] / (beyond[i + 1] - beyond[i])
    return float(force[i] + share * (force[i + 1] - force[i]))
