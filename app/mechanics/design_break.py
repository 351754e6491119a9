"""The breaking force of one design: what its benches found, and as much of the typical force as may be said of it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from app.mechanics.bench_break import bench_breaks
from app.mechanics.bench_values import BenchValue
from app.mechanics.breaking import NO_BRACKET, Bracket, median_bracket
from app.mechanics.censored import Ends, Pooled, estimate
from app.mechanics.result import Result, from_interval, none, student
from app.mechanics.scatter_shape import NORMAL, SMALLEST_EXTREME, Shape
from app.mechanics.turnbull import Share, shares

LEAST_POOLED_DOF = 3
LEAST_BENCHES = 3
LEAST_FOR_SHARES = 6
LEAST_FOR_SHAPES = 8
TIMES_HUNG = 3.0
"""An interval that does not close below so many times the greatest force hung has no upper end."""

ONE_BENCH = "Only one bench: its own bracket is all that is known."
TWO_BENCHES = "Two benches alone can't give it: a third would, or other designs that show how far cords scatter."
FEW_BROKEN = "Fewer than two benches saw theirs break, and of the others only what they held is known."
NOWHERE = "These breaking forces don't show where the typical one lies, only what was held."
FEWER_THAN_8 = "Fewer than 8 benches can't tell one shape of scatter from another."
OPEN_ABOVE = "No upper end: too few broke to say how much the design may hold."
WIDE = "An end is open: these breaking forces scatter too widely to say where it lies."
LEANS = "How far cords scatter is taken from all designs of the class."


@dataclass(frozen=True, kw_only=True)
class DesignBreak:
    """What is known of the breaking force of one design.

    `brackets` are those of its cords, as given, `benches` one value a bench; `unbroken` counts cords known only from
    below. `median` is the median bracket of the benches; `spread` runs from their lowest low to their highest high and
    holds the design's true median with a chance of `spread_holds` or more. `typical_break_force_n` is the estimate of
    that median, `weibull_break_force_n` the same with Weibull forces; `shares` assume no shape.
    """

    brackets: tuple[Bracket, ...]
    benches: tuple[BenchValue, ...]
    unbroken: int
    median: Bracket
    spread: Bracket
    spread_holds: float | None
    typical_break_force_n: Result
    weibull_break_force_n: Result
    shares: tuple[Share, ...]


def design_break(
    brackets: Sequence[tuple[str, Bracket]], *, highest_hung_n: float, pooled: Pooled | None
) -> DesignBreak:
    """The breaking force of one design, from what its cords held and failed under.

    Parameters: brackets, of its cords, each with the bench that made it [N], shape (n,), may be empty; highest_hung_n,
        the greatest force hung on any of them [N]; pooled, the scatter of ln that the designs of the class share [1],
        None when not known.
    Returns: brackets, and the typical breaking force [N]: of two benches by the pooled scatter with 3 degrees of
        freedom or more, from three on by their own likelihood with at least two broken, else why there is none;
        shares from 6 benches on, the Weibull figure from 8.
    Raises: nothing.
    Source: W. Nelson, Applied Life Data Analysis (1982), ch. 9 (from memory); the cut and when what is given are our
        own, found by simulation.
    """
    cords = tuple(bracket for _, bracket in brackets)
    benches = bench_breaks(brackets)
    found = tuple(Bracket(low_n=bench.low, high_n=bench.high) for bench in benches)
    ends = tuple(sorted(_ends(benches), key=lambda pair: (pair[0], pair[1] or math.inf)))
    top_n = TIMES_HUNG * max([highest_hung_n, *(end for pair in ends for end in pair if end is not None)])
    return DesignBreak(
        brackets=cords,
        benches=benches,
        unbroken=sum(bracket.is_unbroken for bracket in cords),
        median=median_bracket(found),
        spread=_spread(ends),
        spread_holds=1 - 2 / 2 ** len(ends) if ends else None,
        typical_break_force_n=_typical(benches, ends, top_n=top_n, pooled=pooled),
        weibull_break_force_n=_weibull(ends, top_n=top_n),
        shares=shares(ends) if len(ends) >= LEAST_FOR_SHARES else (),
    )


def _ends(benches: Sequence[BenchValue]) -> Ends:
    return tuple((bench.low, bench.high) for bench in benches if bench.low is not None)


def _spread(ends: Ends) -> Bracket:
    if not ends:
        return Bracket(low_n=None, high_n=None, why=NO_BRACKET)
    highs = [high for _, high in ends if high is not None]
    return Bracket(low_n=ends[0][0], high_n=max(highs) if len(highs) == len(ends) else None)


def _typical(benches: Sequence[BenchValue], ends: Ends, *, top_n: float, pooled: Pooled | None) -> Result:
    if len(ends) < 2:
        return none(ONE_BENCH if ends else NO_BRACKET, "N")
    if _broken(ends) < 2:
        return _at_least(ends, FEW_BROKEN)
    if len(ends) >= LEAST_BENCHES:
        return _likeliest(ends, NORMAL, top_n=top_n)
    if pooled is None or pooled.dof < LEAST_POOLED_DOF:
        return none(TWO_BENCHES, "N")
    return _of_two(benches, pooled)


def _broken(ends: Ends) -> int:
    return sum(high is not None for _, high in ends)


def _at_least(ends: Ends, why: str) -> Result:
    lows = median_bracket([Bracket(low_n=low, high_n=high) for low, high in ends])
    return Result(value=None, unit="N", low=lows.low_n, why=why)


def _likeliest(ends: Ends, shape: Shape, *, top_n: float) -> Result:
    found = estimate(ends, shape, top_n=top_n)
    if found is None:
        return _at_least(ends, NOWHERE)
    result = from_interval(found.median_n, found.low_n, found.high_n, unit="N")
    if found.low_n is not None and found.high_n is not None:
        return result
    return result.noted(WIDE if found.low_n is None or _broken(ends) == len(ends) else OPEN_ABOVE)


def _of_two(benches: Sequence[BenchValue], pooled: Pooled) -> Result:
    middle = math.fsum(math.log(bench.value) for bench in benches) / len(benches)
    half = student(0.975, pooled.dof) * pooled.s_ln / math.sqrt(len(benches))
    ends = (math.exp(middle - half), math.exp(middle + half))
    return from_interval(math.exp(middle), *ends, unit="N").noted(LEANS)


def _weibull(ends: Ends, *, top_n: float) -> Result:
    if len(ends) < LEAST_FOR_SHAPES:
        return none(FEWER_THAN_8, "N")
    return _likeliest(ends, SMALLEST_EXTREME, top_n=top_n) if _broken(ends) > 1 else _at_least(ends, FEW_BROKEN)
