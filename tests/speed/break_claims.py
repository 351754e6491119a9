"""What mechanics measured of the typical breaking force of a design, and of ratios of designs."""

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import lru_cache, partial

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import log_ndtr
from scipy.stats import chi2

from app.mechanics.breaking import Bracket
from app.mechanics.censored import Pooled, estimate
from app.mechanics.design_break import DesignBreak, design_break
from app.mechanics.efficiency import ratio
from app.mechanics.result import Result, student
from app.mechanics.scatter_shape import NORMAL
from tests.cord_recipe import TYPICAL_N, Array
from tests.speed.claims import Figure, Range, about, percent
from tests.speed.classes import KINDS, PLAIN, Classroom, Kind, bench_values, broken, compared
from tests.speed.fits import Flags, holds

ALL_BROKEN = (Kind(cv=0.10, step_n=1.0), PLAIN, Kind(cv=0.20, step_n=3.0))
A_SIXTH, HALF = Kind(top=1.0), Kind(top=0.0)
HELD = {3: (95, 99), 4: (95, 97), 5: (94, 97), 6: (95, 96), 8: (94, 96)}
"""Coverage of the interval when all cords broke [%], by the number of benches."""
RATIO = {3: 1.8, 4: 1.5, 5: 1.4, 6: 1.3, 8: 1.24}
RATIO_OF_HALF = {3: 4.3, 4: 2.9, 5: 2.7, 6: 2.5, 8: 1.6}
"""High over low end of the interval, all cords broken and half of them."""
NO_UPPER_END = {3: 72, 4: 62, 5: 46, 6: 49, 8: 30}
"""Share of intervals without an upper end when half of the cords did not break [%]."""
USUAL_CUT = {2: (76, 90), 3: (83, 92), 4: (83, 92), 5: (83, 92), 8: (92, 94)}
"""Coverage with the usual cut of a likelihood profile, 3.84 [%]."""
COUNTED_AS_BROKEN = {5: 84, 6: 75, 8: 59}
"""Coverage when half of the cords did not break and each is counted as if it broke one step on [%]."""
HOLDS = "typical force held"
HALF_NOT_TOLD = "which classes with half of the cords unbroken the design took is not told"
NARROWER = f"{HALF_NOT_TOLD}; ours are narrower and hold as often"
Of = Callable[[Classroom, int], ArrayLike]
SPREAD = {2: 50, 3: 75, 4: 88, 5: 94, 6: 97}
PLACES = 81


@lru_cache(maxsize=16)
def typicals(classroom: Classroom, runs: int) -> tuple[DesignBreak, ...]:
    """What is found of so many designs, each alone."""
    breaks = broken(classroom, runs)
    return tuple(_found(breaks.brackets(one)) for one in range(runs))


def _found(ends: list[tuple[float, float | None]], pooled: Pooled | None = None) -> DesignBreak:
    brackets = [(str(place), Bracket(low_n=low, high_n=high)) for place, (low, high) in enumerate(ends)]
    highest_n = max(high or low for low, high in ends)
    return design_break(brackets, highest_hung_n=highest_n, pooled=pooled)


def _given(classroom: Classroom, runs: int) -> tuple[Array, Array, Array]:
    """Value and ends of the typical force where it is given, an open end nan."""
    results = [one.typical_break_force_n for one in typicals(classroom, runs)]
    return _ends([one for one in results if one.value is not None])


def _ends(results: list[Result]) -> tuple[Array, Array, Array]:
    found = np.array([(one.value, one.low, one.high) for one in results], dtype=float).reshape(-1, 3)
    return found[:, 0], found[:, 1], found[:, 2]


def typical_held(classroom: Classroom, runs: int) -> ArrayLike:
    """Whose interval holds the design's median, of those given."""
    _, low, high = _given(classroom, runs)
    return holds(low, high, np.full(low.shape, TYPICAL_N))


def nothing_false(classroom: Classroom, runs: int) -> ArrayLike:
    """Whose interval holds the design's median, or has no value because fewer than two broke."""
    results = [one.typical_break_force_n for one in typicals(classroom, runs)]
    _, low, high = _ends(results)
    nothing: Flags = np.array([one.value is None for one in results])
    return nothing | holds(low, high, np.full(low.shape, TYPICAL_N))


def no_upper_end(classroom: Classroom, runs: int) -> ArrayLike:
    """Of which nothing is known from above: the interval has no upper end, or there is none at all."""
    return [one.typical_break_force_n.high is None for one in typicals(classroom, runs)]


def high_over_low(classroom: Classroom, runs: int) -> ArrayLike:
    """High over low end of the interval, where it has both."""
    _, low, high = _given(classroom, runs)
    return np.asarray(high / low)[~np.isnan(high / low)]


def spread_held(classroom: Classroom, runs: int) -> ArrayLike:
    """Whether lowest low to highest high holds the design's median."""
    breaks = broken(classroom, runs)
    low, high = breaks.low_n.min(axis=1), breaks.high_n.max(axis=1)
    return holds(low, high, np.full(runs, TYPICAL_N))


def pair_alone_held(runs: int) -> ArrayLike:
    """Whose interval holds the median when two benches have nothing but their own likelihood."""
    breaks = broken(Classroom(benches=(2,)), runs)
    found = [
        estimate(tuple(breaks.brackets(one)), NORMAL, top_n=3 * float(breaks.high_n[one].max())) for one in range(runs)
    ]
    low = np.array([math.nan if one is None or one.low_n is None else one.low_n for one in found])
    high = np.array([math.nan if one is None or one.high_n is None else one.high_n for one in found])
    return holds(low, high, np.full(runs, TYPICAL_N))


def pair_pooled_held(classroom: Classroom, runs: int) -> ArrayLike:
    """Whose interval holds the first design's median when two benches lean on the scatter of the class."""
    breaks = broken(classroom, runs)
    found = [
        _found(breaks.brackets(one)[: classroom.benches[0]], said.pooled).typical_break_force_n
        for one, said in enumerate(compared(classroom, runs))
    ]
    _, low, high = _ends([one for one in found if one.value is not None])
    return holds(low, high, np.full(low.shape, TYPICAL_N))


def ratio_held(classroom: Classroom, runs: int) -> ArrayLike:
    """Whose interval of the ratio of the first design to the second holds it."""
    breaks, benches = broken(classroom, runs), classroom.benches
    found = []
    for one, said in enumerate(compared(classroom, runs)):
        values = bench_values(breaks.brackets(one))
        found.append(ratio(values[: benches[0]], values[benches[0] : benches[0] + benches[1]], pooled=said.pooled))
    _, low, high = _ends(found)
    return holds(low, high, np.full(runs, classroom.ratios[0] / classroom.ratios[1]))


def held_by_usual_cut(classroom: Classroom, runs: int) -> ArrayLike:
    """Whose profile, worked out here on a grid, drops by less than chi-squared allows at the true median."""
    breaks = broken(classroom, runs)
    return [
        _drop(np.log(np.maximum(low, 1e-9)), np.log(high)) <= chi2.ppf(0.95, 1)
        for low, high in zip(breaks.low_n, breaks.high_n, strict=True)
    ]


def _drop(low: Array, high: Array) -> float:
    """Twice what the log-likelihood of ln forces between these ends loses from its top to the true median."""
    middle = np.append(np.linspace(low.min(), high.max(), PLACES), math.log(TYPICAL_N))[:, None, None]
    scatter = np.geomspace(0.01, 2.0, PLACES)[None, :, None]
    upper, lower = (high - middle) / scatter, (low - middle) / scatter
    mirrored = lower > 0
    upper, lower = np.where(mirrored, -lower, upper), np.where(mirrored, -upper, lower)
    log_upper, log_lower = log_ndtr(upper), log_ndtr(lower)
    between = log_upper + np.log1p(-np.exp(np.minimum(log_lower - log_upper, -1e-300)))
    profile = between.sum(axis=2).max(axis=1)
    return 2 * float(profile.max() - profile[-1])


def held_as_if_broken(classroom: Classroom, runs: int) -> ArrayLike:
    """Whose interval of the mean of ln of the middles holds the median when the unbroken count at one more step."""
    breaks = broken(classroom, runs)
    high = np.where(np.isinf(breaks.high_n), breaks.low_n + classroom.kind.step_n, breaks.high_n)
    values = np.log((breaks.low_n + high) / 2)
    benches = values.shape[1]
    half = student(0.975, benches - 1) * values.std(axis=1, ddof=1) / math.sqrt(benches)
    return np.asarray(np.abs(values.mean(axis=1) - math.log(TYPICAL_N)) <= half)


def _line(
    what: str, classroom: Classroom, found: Callable[[Classroom, int], ArrayLike], design: Range, remark: str = ""
) -> Figure:
    return Figure(what=what, case=classroom.name, found=partial(found, classroom), design=design, remark=remark)


def _breaking() -> Iterator[Figure]:
    for benches, held in HELD.items():
        one = (benches,)
        for kind in ALL_BROKEN:
            yield _line(HOLDS, Classroom(benches=one, kind=kind), typical_held, percent(*held))
        for kind, share in ((A_SIXTH, percent(94, 98)), (Kind(law="weibull"), percent(94, 97))):
            yield _line(HOLDS, Classroom(benches=one, kind=kind), typical_held, share)
        plain, half = Classroom(benches=one), Classroom(benches=one, kind=HALF)
        yield _line("held, or nothing given", half, nothing_false, percent(98))
        yield _line(
            "nothing known from above",
            half,
            no_upper_end,
            percent(NO_UPPER_END[benches]),
            HALF_NOT_TOLD if benches == 6 else "",
        )
        yield _size(plain, RATIO[benches])
        yield _size(half, RATIO_OF_HALF[benches], NARROWER)
    for benches, least in SPREAD.items():
        yield _line("lowest low to highest high holds", Classroom(benches=(benches,)), spread_held, percent(least, 100))


def _size(classroom: Classroom, design: float, remark: str = "") -> Figure:
    line = _line("typical high over low end", classroom, high_over_low, about(design, design, 0.05), remark)
    return replace(line, unit="", middle=np.median)


def _instead() -> Iterator[Figure]:
    for benches, held in USUAL_CUT.items():
        for kind in ALL_BROKEN:
            classroom = Classroom(benches=(benches,), kind=kind)
            yield _line("usual cut 3.84 in its place holds", classroom, held_by_usual_cut, percent(*held))
    for benches, holding in COUNTED_AS_BROKEN.items():
        for kind, share in ((A_SIXTH, 94), (HALF, holding)):
            classroom = Classroom(benches=(benches,), kind=kind)
            not_told = HALF_NOT_TOLD if kind == HALF else ""
            yield _line("unbroken counted one step on holds", classroom, held_as_if_broken, percent(share), not_told)


def _pairs() -> Iterator[Figure]:
    yield Figure(what="two benches by their own likelihood hold", found=pair_alone_held, design=percent(98, 100))
    for benches in ((2, 2, 2), (2, 2, 2, 2), (2, 2, 2, 2, 2)):
        for kind in KINDS[:2]:
            classroom = Classroom(benches=benches, kind=kind)
            yield _line("two benches by the scatter of the class hold", classroom, pair_pooled_held, percent(94, 97))


def _ratios() -> Iterator[Figure]:
    for benches in ((3, 3), (4, 4), (3, 3, 3), (2, 2, 2, 2)):
        for kind in (*KINDS[:2], Kind(cv=0.10, step_n=3.0)):
            ratios = (1.5, *[1.0] * (len(benches) - 1))
            classroom = Classroom(benches=benches, kind=kind, ratios=ratios)
            held = percent(94, 99) if kind.step_n > 2 else percent(94, 97)
            yield _line("ratio of two designs held", classroom, ratio_held, held)


BREAKING, INSTEAD, PAIRS, RATIOS = tuple(_breaking()), tuple(_instead()), tuple(_pairs()), tuple(_ratios())
