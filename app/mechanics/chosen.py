"""What a person chose: the straight part from one step to another, its line, and where the readings leave it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from app.mechanics.acceptable import NOT_ALL_BARS, AcceptableLines, acceptable_lines
from app.mechanics.line import Line, least_squares, with_stated_u
from app.mechanics.propagation import difference_u, propagated_u
from app.mechanics.reading_sums import CurvePoint
from app.mechanics.result import ReadingScatter, Result, none
from app.mechanics.section import SAME_LOAD_N
from app.mechanics.stiffness import turned_round
from app.mechanics.unweighed import widened_by

LEAST_READINGS = 3
LEAST_DOF = 2
"""Degrees of freedom under which no interval is given."""

BARS = 2.0
"""Half-length of a reading's bar, and how far off the line a reading has left it, over its standard uncertainty u_x:
what a reading is good to. Bars of 1 u_x leave no line at all through 8 readings of a straight cord in 5 of 6 cases."""

NO_MOVE_MM = 1e-9
"""A line that gains less than this over all its loads gains nothing but what arithmetic brings."""

TOO_FEW = "Fewer than three readings that count lie between the two steps that were chosen."
ACROSS_A_GAP = "The two steps that were chosen lie on both sides of a gap that nothing joins."
ONE_LOAD = "All readings between the two steps that were chosen hang under one load."
FOR_THESE = "for these readings"


@dataclass(frozen=True, kw_only=True)
class ChosenPart:
    """The line through the readings of the steps that a person chose, and what follows from it.

    `line` is pointer [mm] on force [N] with the standard errors that the interval rests on; `residuals_mm` are the
    readings less the line, beside `steps`. From the reading of `leaves_step` on, under `leaves_n`, the curve has left
    the line; None when it has not, or is not bent. `on_one_line` is False where the chosen readings don't lie on one.
    """

    stiffness_n_per_mm: Result
    acceptable: AcceptableLines
    line: Line | None = None
    steps: tuple[int, ...] = ()
    residuals_mm: tuple[float, ...] = ()
    from_n: float | None = None
    to_n: float | None = None
    leaves_step: int | None = None
    leaves_n: float | None = None
    on_one_line: bool = True


def chosen_part(
    points: Sequence[CurvePoint],
    *,
    first_step: int,
    last_step: int,
    scatter: ReadingScatter,
    scale_u_mm: float,
    bent: bool,
    limit_n: float | None = None,
) -> ChosenPart:
    """The straight part that a person chose.

    Parameters: points, of one cord's first loading [N, mm], shape (n,), any order; first_step and last_step, the
        steps chosen, both in; scatter, of one reading of the cord [mm]; scale_u_mm, what the scale alone gives one
        reading [mm]; bent, whether the cord was called bent; limit_n, by where its straight part has ended [N],
        None where no end was found.
    Returns: least squares of pointer on force over those readings and stiffness = 1/slope [N/mm], its interval by
        t(N - 2) from their scatter, never under the scale's part, widened by pointers put back and masses added on
        the way; of three readings by the cord's own scatter, for one degree of freedom tells nothing. With it the
        acceptable lines through bars of 2 u_x, the residuals, and the first reading after them that is over 2 u_x
        off the line and followed only by such. The chosen readings don't lie on one line where no line passes through
        those bars, or where the heaviest hung under more than limit_n. No value, with a sentence, for fewer
        than three readings, one load, or a gap.
    Raises: nothing.
    Source: least squares as in JCGM 100:2008 (GUM), H.3; what a person chose is for these readings, no coverage
        is claimed.
    """
    ordered = sorted(points, key=lambda point: (point.row.step, point.force_n, point.stretched_mm))
    chosen = [point for point in ordered if first_step <= point.row.step <= last_step]
    why = _refused(chosen)
    if why is not None:
        return ChosenPart(stiffness_n_per_mm=none(why, "N/mm"), acceptable=AcceptableLines(why=why))
    forces_n, readings_mm = [point.force_n for point in chosen], [point.stretched_mm for point in chosen]
    own = _own_scatter(least_squares(forces_n, readings_mm), scatter, scale_u_mm)
    line = _with_scatter(forces_n, readings_mm, own.u_mm)
    after = [point for point in ordered if point.row.step > last_step and point.section == chosen[0].section]
    leaves = _leaves(line, after, BARS * scatter.u_mm) if bent else None
    lines = acceptable_lines(forces_n, readings_mm, BARS * scatter.u_mm)
    return ChosenPart(
        stiffness_n_per_mm=_stiffness(line, chosen, own),
        acceptable=lines,
        line=line,
        steps=tuple(point.row.step for point in chosen),
        residuals_mm=tuple(_off_mm(line, point) for point in chosen),
        from_n=min(forces_n),
        to_n=max(forces_n),
        leaves_step=None if leaves is None else leaves.row.step,
        leaves_n=None if leaves is None else leaves.force_n,
        on_one_line=lines.why != NOT_ALL_BARS and (limit_n is None or max(forces_n) <= limit_n + SAME_LOAD_N),
    )


def _refused(chosen: Sequence[CurvePoint]) -> str | None:
    if len(chosen) < LEAST_READINGS:
        return TOO_FEW
    if len({point.section for point in chosen}) > 1:
        return ACROSS_A_GAP
    forces_n = [point.force_n for point in chosen]
    return ONE_LOAD if max(forces_n) - min(forces_n) <= SAME_LOAD_N else None


def _own_scatter(line: Line, scatter: ReadingScatter, scale_u_mm: float) -> ReadingScatter:
    """That of the chosen readings about their line, never under the scale's part; of too few, that of the cord."""
    return ReadingScatter(u_mm=max(line.scatter, scale_u_mm), dof=line.dof) if line.dof >= LEAST_DOF else scatter


def _with_scatter(forces_n: Sequence[float], readings_mm: Sequence[float], u_mm: float) -> Line:
    """The line of readings that all have one standard uncertainty."""
    if not u_mm:
        return least_squares(forces_n, readings_mm)
    return with_stated_u(forces_n, readings_mm, [u_mm] * len(forces_n))


def _stiffness(line: Line, chosen: Sequence[CurvePoint], scatter: ReadingScatter) -> Result:
    half = scatter.factor * math.hypot(line.slope_u, _joins_u(chosen, scatter.u_mm))
    forces_n = [point.force_n for point in chosen]
    slope = line.slope if line.slope * (max(forces_n) - min(forces_n)) > NO_MOVE_MM else 0.0
    found = turned_round(slope, slope - half, slope + half)
    return widened_by(found, (found.value or 0.0) * _masses_u(chosen), least=0.0).noted(FOR_THESE)


def _joins_u(chosen: Sequence[CurvePoint], u_mm: float) -> float:
    """What pointers put back on the way do to the slope [mm/N]: each moves all readings after it by sqrt(2) u_x."""
    mean_n = math.fsum(point.force_n for point in chosen) / len(chosen)
    squares = math.fsum((point.force_n - mean_n) ** 2 for point in chosen)
    first = min(point.joins for point in chosen)
    shared = [[2 * u_mm**2 * (min(one.joins, other.joins) - first) for other in chosen] for one in chosen]
    return propagated_u([(point.force_n - mean_n) / squares for point in chosen], shared)


def _masses_u(chosen: Sequence[CurvePoint]) -> float:
    """Relative uncertainty of the load added between the lightest and the heaviest."""
    light, heavy = (end(chosen, key=lambda point: point.force_n) for end in (min, max))
    return difference_u(light.force_u_n or 0.0, heavy.force_u_n or 0.0) / (heavy.force_n - light.force_n)


def _leaves(line: Line, after: Sequence[CurvePoint], limit_mm: float) -> CurvePoint | None:
    """The first of the readings, in order of step, from which on all are farther off the line than the limit."""
    leaves = None
    for point in reversed(after):
        if abs(_off_mm(line, point)) <= limit_mm:
            break
        leaves = point
    return leaves


def _off_mm(line: Line, point: CurvePoint) -> float:
    return point.stretched_mm - line.at(point.force_n)[0]
