"""The steepest and the shallowest straight line that pass through the bars of all readings."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from app.mechanics.section import SAME_LOAD_N
from app.mechanics.straight import PointerLine

NOT_ALL_BARS = "No straight line passes through the bars of all these readings."
UPRIGHT = "The steepest line through the bars stands upright or leans back, so half the difference has no size."


@dataclass(frozen=True, kw_only=True)
class AcceptableLines:
    """Steepest and shallowest as load is drawn over stretch, and half the difference of their gradients [N/mm].

    The half difference is what schools call the uncertainty of the gradient; `why` says why there is none.
    """

    steepest: PointerLine | None = None
    shallowest: PointerLine | None = None
    half_difference_n_per_mm: float | None = None
    why: str | None = None


def acceptable_lines(forces_n: Sequence[float], readings_mm: Sequence[float], bar_mm: float) -> AcceptableLines:
    """The steepest and the shallowest line through the bars of all readings, each reading -+ one length.

    Parameters: forces_n [N], at least two of them apart, and readings_mm [mm], shape (n,), any order; bar_mm, half
        the length of each bar [mm].
    Returns: both lines [mm, mm/N] and half the difference of their stiffnesses [N/mm]; None, with a sentence, when
        no line passes through all bars.
    Raises: nothing.
    Source: school practice for the uncertainty of a gradient (common practice, no published source). Every line
        a + c F with |x_i - a - c F_i| <= bar has, for each pair of readings, a slope between
        (x_j - x_i -+ 2 bar) / (F_j - F_i), and any slope that all pairs allow is had by a line: Fourier and Motzkin's
        elimination of a, exact.
    """
    order = np.lexsort((readings_mm, forces_n))
    force, reading = np.asarray(forces_n, dtype=float)[order], np.asarray(readings_mm, dtype=float)[order]
    one, other = np.triu_indices(len(force), 1)
    apart, moved = force[other] - force[one], reading[other] - reading[one]
    distinct = apart > SAME_LOAD_N
    if np.any(np.abs(moved[~distinct]) > 2 * bar_mm):
        return AcceptableLines(why=NOT_ALL_BARS)
    least = float(np.max((moved[distinct] - 2 * bar_mm) / apart[distinct]))
    most = float(np.min((moved[distinct] + 2 * bar_mm) / apart[distinct]))
    if least > most:
        return AcceptableLines(why=NOT_ALL_BARS)
    steepest, shallowest = (
        PointerLine(intercept_mm=_middle_mm(reading - slope * force), slope_mm_per_n=slope) for slope in (least, most)
    )
    return _with_half_difference(steepest, shallowest)


def _middle_mm(left_mm: np.ndarray[tuple[int], np.dtype[np.float64]]) -> float:
    """Where a line of that slope lies farthest inside the bars; at the last slope allowed there is one place."""
    return float(left_mm.max() + left_mm.min()) / 2


def _with_half_difference(steepest: PointerLine, shallowest: PointerLine) -> AcceptableLines:
    if steepest.slope_mm_per_n <= 0:
        return AcceptableLines(steepest=steepest, shallowest=shallowest, why=UPRIGHT)
    half = (1 / steepest.slope_mm_per_n - 1 / shallowest.slope_mm_per_n) / 2
    return AcceptableLines(steepest=steepest, shallowest=shallowest, half_difference_n_per_mm=half)
