"""The breaking force: an interval between what was held and what it failed under, or "more than"."""

import math
import statistics
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from app.domain.records import Ending
from app.domain.standing import DIFFERS
from app.domain.vocabulary import OUTCOMES
from app.mechanics.loading import Load

NO_END = "This cord has not ended yet."
TWO_ENDS = "Two tablets told different ends: say which one counts."
NOTHING_READ = "No reading of this cord counts, so no force is known to have been held."
NOT_HEAVIER = "The load it failed under is not known to be heavier than the one it held."
NO_BRACKET = "No breaking force of this design is known yet."
TOUCHED_TRAY = "touched the tray"

BROKE = ("broke_adding", "broke_waiting")
NOTHING_HUNG = Load(mass_g=0.0, mass_u_g=0.0, force_n=0.0, force_u_n=0.0, hanger_counted=True)


@dataclass(frozen=True, kw_only=True)
class Bracket:
    """A breaking force in newtons: it lies over `low_n` and at or under `high_n`; no `high_n` means "more than".

    `why` says in a sentence why an end, or both, can't be had.
    """

    low_n: float | None
    high_n: float | None
    low_u_n: float | None = None
    high_u_n: float | None = None
    why: str | None = None


def failing_step(ending: Ending | None, last_read: int) -> int | None:
    """The step whose load a cord broke or slipped under.

    Parameters: ending, the one that counts, or None; last_read, the last step with a load reading that counts, 0 if
        there is none [steps].
    Returns: the step that was told, else the one after the last read [steps]; None when nothing broke or slipped.
    Raises: nothing.
    Source: our own definition.
    """
    if ending is None or OUTCOMES[ending.kind] not in ("broke", "slipped"):
        return None
    return last_read + 1 if ending.fail_step is None else ending.fail_step


def break_bracket(
    ending: Ending | None,
    state: str,
    *,
    last_read: int,
    held: Iterable[Load],
    load_at: Callable[[int], Load],
) -> Bracket:
    """The breaking force of one cord as an interval, or from below only.

    Parameters: ending, the one that counts; state, of the cord's end (none, stands, differs); last_read, the last
        step with a load reading that counts [steps]; held, the loads of all readings that count [N], shape (n,), may
        be empty; load_at, which gives the load of a step [N].
    Returns: broke while adding or waiting: over the load of the step before, at or under that of the failing step
        [N]. Any other end: more than the greatest load held [N], no high end. Both None, with a sentence, while the
        cord has no end, two ends differ, or nothing is known to have been held.
    Raises: nothing.
    Source: interval and right-censored observations as in W. Nelson, Applied Life Data Analysis (1982), ch. 9 (from
        memory).
    """
    if ending is None:
        return Bracket(low_n=None, high_n=None, why=TWO_ENDS if state == DIFFERS else NO_END)
    if ending.kind not in BROKE:
        return _more_than(held)
    step = failing_step(ending, last_read) or 0
    return _between(load_at(step - 1) if step > 0 else NOTHING_HUNG, load_at(step))


def _more_than(held: Iterable[Load]) -> Bracket:
    known = [load for load in held if load.force_n is not None]
    if not known:
        return Bracket(low_n=None, high_n=None, why=NOTHING_READ)
    most = max(known, key=lambda load: load.force_n or 0.0)
    return Bracket(low_n=most.force_n, high_n=None, low_u_n=most.force_u_n)


def _between(low: Load, high: Load) -> Bracket:
    if low.force_n is None:
        return Bracket(low_n=None, high_n=None, why=low.why)
    if high.force_n is None or high.force_n <= low.force_n:
        return Bracket(low_n=low.force_n, high_n=None, low_u_n=low.force_u_n, why=high.why or NOT_HEAVIER)
    return Bracket(low_n=low.force_n, high_n=high.force_n, low_u_n=low.force_u_n, high_u_n=high.force_u_n)


def median_bracket(brackets: Sequence[Bracket]) -> Bracket:
    """The median of several breaking forces that are intervals or "more than".

    Parameters: brackets [N], shape (n,), may be empty; those without a low end are passed over.
    Returns: (median of the lows, median of the highs) [N], of an even number the mean of the middle two; no high end
        when that median is "more than". Both None, with a sentence, when no low end is known.
    Raises: nothing.
    Source: our own definition; no shape of scatter is assumed.
    """
    known = [bracket for bracket in brackets if bracket.low_n is not None]
    if not known:
        return Bracket(low_n=None, high_n=None, why=NO_BRACKET)
    high_n = statistics.median(math.inf if bracket.high_n is None else bracket.high_n for bracket in known)
    return Bracket(
        low_n=statistics.median(bracket.low_n for bracket in known if bracket.low_n is not None),
        high_n=high_n if math.isfinite(high_n) else None,
    )
