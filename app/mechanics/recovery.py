"""What came back when the masses were taken off again: permanent set, recovery, and the elastic limit by returns."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from app.domain.quantities import shown, with_unit
from app.mechanics.result import (
    SCALE_ONLY_FACTOR,
    Interval,
    ReadingScatter,
    Result,
    from_scatter,
    none,
    student,
)

LEAST_STRETCH = 5.0
"""A cord must have stretched so many standard uncertainties of a reading before a share of it is said."""

FALSE_RATE = 0.05
"""How often all returns of a fully elastic cord together may be said not to have come back."""

TOO_LITTLE = "It had stretched too little to say what share of it came back."
NO_RETURN = "The masses were never taken off again while the cord held."
ALL_BACK = "It came back each time, so its elastic limit was not reached."
NONE_BACK = "It did not come back from the smallest load that was tried, so its elastic limit lies lower."


@dataclass(frozen=True, kw_only=True)
class ElasticLimit:
    """The elastic limit [N] between loads that it came back from and loads that it did not.

    `came_back_n` and `stayed_n` are those loads [N], lightest first; "came back" means to within `seen_from_mm` [mm]:
    a smaller set could not have been seen. None when the cord was never taken back.
    """

    limit: Interval
    came_back_n: tuple[float, ...] = ()
    stayed_n: tuple[float, ...] = ()
    seen_from_mm: float | None = None


def permanent_set(back_mm: float, scatter: ReadingScatter, *, zeros: int = 1, joins: int = 0) -> Result:
    """How much of one stretch was left when the masses were taken off again.

    Parameters: back_mm, extension back at the hanger, from the mean zero [mm]; scatter, of one reading [mm]; zeros, how
        often the zero was read [1]; joins, pointers put back between zero and return [1].
    Returns: the set [mm] with u = u_x sqrt(1 + 1/zeros + 2 joins) and the interval of the scatter's Student's t.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 5.1.2 (difference of two independent readings).
    """
    return from_scatter(back_mm, _set_u_mm(scatter, zeros, joins), scatter.factor, unit="mm")


def _set_u_mm(scatter: ReadingScatter, zeros: int, joins: int) -> float:
    return scatter.u_mm * math.sqrt(1 + 1 / zeros + 2 * joins)


def recovery(reached_mm: float, back_mm: float, scatter: ReadingScatter, *, zeros: int = 1, joins: int = 0) -> Result:
    """What share of a stretch came back when the masses were taken off again.

    Parameters: reached_mm, extension under the load [mm]; back_mm, extension back at the hanger [mm], both from the
        mean zero; scatter, of one reading [mm]; zeros, how often the zero was read [1]; joins, pointers put back
        before the return [1].
    Returns: (reached - back) / reached [1], its u by first derivatives in the two readings and the zero that they
        share; a join counts as if it lay between the two, which is its worst place. None, with a sentence, under a
        stretch of 5 u_x.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 5.1.2; H.2 for inputs that share one (here the zero).
    """
    if reached_mm < LEAST_STRETCH * scatter.u_mm:
        return none(TOO_LITTLE, "1")
    share = (reached_mm - back_mm) / reached_mm
    slopes_squared = (back_mm / reached_mm) ** 2 + 1 + share**2 / zeros + 2 * joins
    return from_scatter(share, scatter.u_mm / reached_mm * math.sqrt(slopes_squared), scatter.factor, unit="1")


def elastic_limit(
    force_n: Sequence[float],
    back_mm: Sequence[float],
    scatter: ReadingScatter,
    *,
    zeros: int = 1,
    joins: int = 0,
    division_mm: float = 0.0,
) -> ElasticLimit:
    """Between which loads a cord stopped coming back, as far as its returns tell.

    Parameters: force_n, the loads it was taken back from [N], shape (m,), any order, may be empty; back_mm, extension
        back at the hanger after each [mm], shape (m,); scatter, of one reading [mm]; zeros, how often the zero was
        read [1]; joins, pointers put back before the last of them [1]; division_mm, of the scale [mm].
    Returns: from the heaviest load under which each return came back to the lightest that it did not come back from
        [N], an end that there is none of None; no ends when it came back from a load no lighter than one that it did
        not come back from, both named. It did not come back when its set is over t_(1 - 0.05/m) times the set's u, and
        over one division: by rounding alone a pointer that did come back is read one division off.
    Raises: nothing.
    Source: our own definition; the m comparisons share their 5 % as C. E. Bonferroni proposed (from memory).
    """
    if not force_n:
        return ElasticLimit(limit=Interval(low=None, high=None, unit="N", why=NO_RETURN))
    seen_mm = max(division_mm, _one_sided(scatter, len(force_n)) * _set_u_mm(scatter, zeros, joins))
    pairs = sorted(zip(force_n, back_mm, strict=True))
    came_back = tuple(load for load, back in pairs if back <= seen_mm)
    stayed = tuple(load for load, back in pairs if back > seen_mm)
    return ElasticLimit(limit=_between(came_back, stayed), came_back_n=came_back, stayed_n=stayed, seen_from_mm=seen_mm)


def _one_sided(scatter: ReadingScatter, returns: int) -> float:
    """How many standard uncertainties a set must have; never under the factor of a reading known by its scale only."""
    if scatter.dof is None:
        return max(SCALE_ONLY_FACTOR, student(1 - FALSE_RATE / returns, math.inf))
    return student(1 - FALSE_RATE / returns, scatter.dof)


def _between(came_back: Sequence[float], stayed: Sequence[float]) -> Interval:
    if not stayed:
        return Interval(low=came_back[-1], high=None, unit="N", why=ALL_BACK)
    if not came_back:
        return Interval(low=None, high=stayed[0], unit="N", why=NONE_BACK)
    if came_back[-1] >= stayed[0]:
        heavy, light = (with_unit(shown(load, 1), "N") for load in (came_back[-1], stayed[0]))
        why = f"It came back from {heavy} but not from {light}, so no elastic limit can be put between the two."
        return Interval(low=None, high=None, unit="N", why=why)
    return Interval(low=came_back[-1], high=stayed[0], unit="N")
