"""How much of its strands' strength a cord keeps: a ratio of designs, one-sided where a side is "at least"."""

import math
from collections.abc import Sequence
from dataclasses import replace

from app.domain.tested import TestedCord
from app.mechanics.bench_break import bench_breaks
from app.mechanics.bench_values import BenchValue
from app.mechanics.breaking import bracket_of, bracket_with_knots
from app.mechanics.censored import Pooled
from app.mechanics.result import Result, from_interval, none, student

LEAST_DOF = 3
KNOT_PLACES = ("at_knot", "in_knot")

NO_VALUE = "One side has no breaking force yet, so there is no ratio."
NOTHING_HELD = "One bench's cord is not known to have held anything, so there is no ratio."
ONE_BENCH = "Only one bench made one of the two designs, so they can't be compared."
NO_SCATTER = "It is not known yet how far cords of one design scatter: that takes more cords."
BOTH_OPEN = "Both sides are known from below only, so there is no ratio."
AT_LEAST = "At least: the upper one did not break, or only at a knot."
AT_MOST = "At most: the lower one did not break, or only at a knot."


def ratio(upper: Sequence[BenchValue], lower: Sequence[BenchValue], *, pooled: Pooled | None) -> Result:
    """The ratio of two designs, from the values of their benches.

    Parameters: upper and lower, one value a bench [one unit, positive], shape (n,), may be empty; pooled, the scatter
        of ln of one bench's value [1], None when not known.
    Returns: the ratio of the geometric means with its 95 % interval [1]; no value and one end only, with a sentence,
        where one side is "at least"; no value where nothing can be said.
    Raises: nothing.
    Source: difference of two means of ln with pooled scatter, textbook.
    """
    why = _no_ratio(upper, lower, pooled)
    if why is not None or pooled is None:
        return none(why or NO_SCATTER, "1")
    apart = _mean_ln(upper) - _mean_ln(lower)
    half = student(0.975, pooled.dof) * pooled.s_ln * math.sqrt(1 / len(upper) + 1 / len(lower))
    low, high = math.exp(apart - half), math.exp(apart + half)
    if _at_least(upper):
        return Result(value=None, unit="1", low=low, why=AT_LEAST)
    if _at_least(lower):
        return Result(value=None, unit="1", high=high, why=AT_MOST)
    return from_interval(math.exp(apart), low, high, unit="1")


def _no_ratio(upper: Sequence[BenchValue], lower: Sequence[BenchValue], pooled: Pooled | None) -> str | None:
    if not upper or not lower:
        return NO_VALUE
    if min(bench.value for bench in (*upper, *lower)) <= 0:
        return NOTHING_HELD
    if min(len(upper), len(lower)) < 2:
        return ONE_BENCH
    if _at_least(upper) and _at_least(lower):
        return BOTH_OPEN
    return NO_SCATTER if pooled is None or pooled.dof < LEAST_DOF else None


def _at_least(side: Sequence[BenchValue]) -> bool:
    return any(bench.at_least for bench in side)


def _mean_ln(side: Sequence[BenchValue]) -> float:
    return math.fsum(math.log(bench.value) for bench in side) / len(side)


def strand_efficiency(
    cords: Sequence[BenchValue], singles: Sequence[BenchValue], *, strands: int, pooled: Pooled | None
) -> Result:
    """The share of its strands' strength that a cord keeps, F / (n F_1).

    Parameters: cords, breaking force of the design for each bench [N], shape (n,); singles, the same of single strands
        [N]; strands, how many the cord has [1], at least 1; pooled, scatter of ln of a bench's force [1] or None.
    Returns: the share with its interval [1], as `ratio` gives it.
    Raises: ZeroDivisionError for no strands.
    Source: definition of strength translation, common practice, no published source.
    """
    each = [replace(bench, value=bench.value / strands) for bench in cords]
    return ratio(each, singles, pooled=pooled)


def bench_forces(cords: Sequence[tuple[str, TestedCord]], *, with_knots: bool) -> tuple[BenchValue, ...]:
    """The breaking force that each bench found for a design, as a share of strength takes it.

    Parameters: cords, of one design, each with the bench that made it, shape (n,); with_knots, whether the cord with
        its knots is meant.
    Returns: one value a bench [N] as of `bench_breaks`; of the cord itself also "at least" where one broke at a knot.
    Raises: nothing.
    Source: our own; a break outside the free length counts as "at least" in rope testing (common practice).
    """
    bracket = bracket_with_knots if with_knots else bracket_of
    benches = bench_breaks([(bench, bracket(cord)) for bench, cord in cords])
    at_knot = set() if with_knots else {bench for bench, cord in cords if cord.place in KNOT_PLACES}
    return tuple(replace(bench, at_least=bench.at_least or bench.group in at_knot) for bench in benches)
