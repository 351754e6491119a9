"""Each time that the masses were taken off again: what was left of the stretch, and what share came back."""

from collections.abc import Sequence
from dataclasses import dataclass

from app.mechanics.reading_sums import CurvePoint
from app.mechanics.recovery import NO_RETURN, ElasticLimit, elastic_limit, permanent_set, recovery
from app.mechanics.result import Interval, ReadingScatter, Result, none

OVER_A_GAP = "Between the zero and the return the pointer or a knot moved, and nothing joins the two."


@dataclass(frozen=True, kw_only=True)
class Return:
    """One return to the hanger: the step and force [N] that it came back from, the set, what share came back."""

    step: int
    force_n: float
    set_mm: Result
    recovery: Result


def returns_of(
    loaded: Sequence[CurvePoint], back: Sequence[CurvePoint], scatter: ReadingScatter, *, zeros: int
) -> tuple[Return, ...]:
    """What each return to the hanger says.

    Parameters: loaded, readings of the first loading, shape (n,); back, readings at the hanger after a step, shape
        (m,), force [N] and extension [mm]; scatter, of one reading [mm]; zeros, how often the zero was read [1].
    Returns: at most m returns, in order: one for each step that was read loaded too. Without a zero, or over a gap,
        its figures say why there are none.
    Raises: nothing.
    Source: no sum is made here; recovery names its own.
    """
    at_step = {point.row.step: point for point in loaded}
    return tuple(
        _return(at_step[point.row.step], point, scatter, zeros=zeros) for point in back if point.row.step in at_step
    )


def _return(loaded: CurvePoint, back: CurvePoint, scatter: ReadingScatter, *, zeros: int) -> Return:
    step, force_n = loaded.row.step, loaded.force_n
    if back.extension_mm is None or loaded.extension_mm is None or loaded.section != 1 or back.section != 1:
        why = back.extension_why or OVER_A_GAP
        return Return(step=step, force_n=force_n, set_mm=none(why, "mm"), recovery=none(why, "1"))
    return Return(
        step=step,
        force_n=force_n,
        set_mm=permanent_set(back.extension_mm, scatter, zeros=zeros, joins=back.joins),
        recovery=recovery(loaded.extension_mm, back.extension_mm, scatter, zeros=zeros, joins=back.joins),
    )


def last_set(returns: Sequence[Return]) -> Result:
    """The permanent set after the heaviest load that the cord came back from.

    Parameters: returns, of one cord, in order, shape (m,), may be empty.
    Returns: its set [mm]; None, with a sentence, when there is no return.
    Raises: nothing.
    Source: our own definition.
    """
    return max(returns, key=lambda each: each.force_n).set_mm if returns else none(NO_RETURN, "mm")


def limit_by_returns(
    returns: Sequence[Return], scatter: ReadingScatter, *, zeros: int, joins: int, division_mm: float
) -> ElasticLimit:
    """Between which loads the cord stopped coming back.

    Parameters: returns, of one cord, shape (m,), may be empty; scatter, of one reading [mm]; zeros, how often the zero
        was read [1]; joins, pointers put back before the last return [1]; division_mm, of the scale [mm].
    Returns: the elastic limit [N] by the returns whose set is known; no ends, with the reason, when there is none.
    Raises: nothing.
    Source: no sum is made here; recovery names its own.
    """
    known = [(each.force_n, each.set_mm.value) for each in returns if each.set_mm.value is not None]
    if returns and not known:
        return ElasticLimit(limit=Interval(low=None, high=None, unit="N", why=returns[0].set_mm.why))
    forces_n, sets_mm = [force for force, _ in known], [left for _, left in known]
    return elastic_limit(forces_n, sets_mm, scatter, zeros=max(zeros, 1), joins=joins, division_mm=division_mm)
