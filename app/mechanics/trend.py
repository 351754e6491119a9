"""A numeric variable (strand count, width) and what it did: a straight line through the benches' values."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from scipy import stats

from app.mechanics.bench_values import BenchValue
from app.mechanics.one_way import within_squares
from app.mechanics.result import Result, from_scatter, none, student

LEAST_LEVELS, LEAST_BENCHES = 3, 6

TOO_FEW_LEVELS = "A line needs at least three different values of the variable."
TOO_FEW_BENCHES = "A line needs results of at least six groups."
NO_SCATTER = "The results lie on the line exactly, so there is no scatter to make an interval from."
UNBROKEN = "Not every cord was broken, so no line is drawn: it would lie too low where they held."


@dataclass(frozen=True, kw_only=True)
class LackOfFit:
    """Whether the means at the levels leave the line by more than repeats scatter: F, how often luck does as much."""

    f: float
    p: float
    dof: int
    dof_repeats: int


@dataclass(frozen=True, kw_only=True)
class Trend:
    """The line: what one more of the variable adds, and where it starts at none; `s` is the scatter about it.

    `s` None: there is no line. `lack_of_fit` None: no line, or repeats that do not scatter.
    """

    quantity: str
    slope: Result
    intercept: Result
    s: float | None
    dof: int
    lack_of_fit: LackOfFit | None


def trend(quantity: str, values: Sequence[tuple[float, BenchValue]], *, unit: str, slope_unit: str) -> Trend:
    """The straight line of a quantity on a numeric variable.

    Parameters: quantity, its name; values, of the variable and of the quantity for each bench [unit], shape (n,);
        unit, of the quantity; slope_unit, its unit for one of the variable.
    Returns: slope [slope_unit] and value at none [unit] with 95 % intervals, and the lack of fit; a sentence in their
        place for fewer than 3 values of the variable, fewer than 6 benches, or a cord that was not broken.
    Raises: nothing.
    Source: least squares, NIST/SEMATECH e-Handbook 4.1.4.1; lack of fit, 4.4.4.6.
    """
    why = _why_not(values)
    if why is not None:
        no_slope, no_intercept = none(why, slope_unit), none(why, unit)
        return Trend(quantity=quantity, slope=no_slope, intercept=no_intercept, s=None, dof=0, lack_of_fit=None)
    line = stats.linregress([level for level, _ in values], [bench.value for _, bench in values])
    off = [bench.value - line.intercept - line.slope * level for level, bench in values]
    rest, dof = math.fsum(one * one for one in off), len(values) - 2
    return Trend(
        quantity=quantity,
        slope=_figure(float(line.slope), float(line.stderr), dof, unit=slope_unit),
        intercept=_figure(float(line.intercept), float(line.intercept_stderr), dof, unit=unit),
        s=math.sqrt(rest / dof),
        dof=dof,
        lack_of_fit=_lack_of_fit(_by_level(values), rest),
    )


def _figure(value: float, u: float, dof: int, *, unit: str) -> Result:
    if not u > 0:
        return Result(value=value, unit=unit, note=NO_SCATTER)
    return from_scatter(value, u, student(0.975, dof), unit=unit)


def _why_not(values: Sequence[tuple[float, BenchValue]]) -> str | None:
    if any(bench.at_least for _, bench in values):
        return UNBROKEN
    if len({level for level, _ in values}) < LEAST_LEVELS:
        return TOO_FEW_LEVELS
    return TOO_FEW_BENCHES if len(values) < LEAST_BENCHES else None


def _by_level(values: Sequence[tuple[float, BenchValue]]) -> tuple[tuple[float, ...], ...]:
    levels = sorted({level for level, _ in values})
    return tuple(tuple(bench.value for at, bench in values if at == level) for level in levels)


def _lack_of_fit(sets: Sequence[Sequence[float]], rest: float) -> LackOfFit | None:
    repeats, dof_repeats = within_squares(sets)
    if repeats <= 0:
        return None
    dof = len(sets) - 2
    f = max(0.0, rest - repeats) / dof / (repeats / dof_repeats)
    return LackOfFit(f=f, p=float(stats.f.sf(f, dof, dof_repeats)), dof=dof, dof_repeats=dof_repeats)
