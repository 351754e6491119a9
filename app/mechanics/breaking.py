"""The breaking force: an interval between what was held and what it failed under, or "more than"."""

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass, replace

from app.domain.records import Ending
from app.domain.tested import LOADING, Row, TestedCord
from app.domain.vocabulary import OUTCOMES

NOTHING_READ = "No reading of this cord counts, so no force is known to have been held."
NOT_HEAVIER = "The load it failed under is not known to be heavier than the one it held."
NO_END_COUNTS = "No end of this cord counts yet: none was told, or two do not agree."
FAIL_UNKNOWN = "The mass that it failed under is not known."
NO_BRACKET = "No breaking force of this design is known yet."
TOUCHED_TRAY = "touched the tray"

HANGING = (*LOADING, "later", "hung_again")
"""Phases in which a load that was hung was also held."""


@dataclass(frozen=True, kw_only=True)
class Bracket:
    """A breaking force in newtons: it lies over `low_n` and at or under `high_n`; no `high_n` means "more than".

    `why` says in a sentence why an end, or both, can't be had.
    """

    low_n: float | None
    high_n: float | None
    why: str | None = None

    @property
    def is_unbroken(self) -> bool:
        """Whether it was not broken: of a broken cord whose last mass is not known, `why` says so."""
        return self.low_n is not None and self.high_n is None and self.why is None


def bracket_of(cord: TestedCord) -> Bracket:
    """The breaking force of one cord as an interval, or from below only.

    Parameters: cord, as it was told, masses [g].
    Returns: broke: over the greatest load that hung, whether its reading counts or not, and was lighter than what it
        failed under, 0 when there is none; at or under the load that it failed under [N]. Any other end: more than the
        greatest load of a reading that counts [N], no high end. Both None, with a sentence, while no end counts, or
        when nothing is known to have been held.
    Raises: nothing.
    Source: interval and right-censored observations as in W. Nelson, Applied Life Data Analysis (1982), ch. 9 (from
        memory).
    """
    if cord.outcome is None:
        return Bracket(low_n=None, high_n=None, why=NO_END_COUNTS)
    return _fell(cord) if cord.outcome == "broke" else _held(cord)


def bracket_with_knots(cord: TestedCord) -> Bracket:
    """The force under which the cord with its knots fell: a knot that slipped counts as a break.

    Parameters: cord, as it was told, masses [g].
    Returns: as `bracket_of`, but of a slipped cord from what it held to what it slipped under [N].
    Raises: nothing.
    Source: our own definition.
    """
    return bracket_of(replace(cord, outcome="broke") if cord.outcome == "slipped" else cord)


def _fell(cord: TestedCord) -> Bracket:
    lighter = [mass_g for row in cord.rows if (mass_g := _hung_g(row)) is not None and _under(mass_g, cord)]
    if cord.fail_mass_g is None:
        low_n = _force_n(cord, max(lighter)) if lighter else None
        return Bracket(low_n=low_n, high_n=None, why=FAIL_UNKNOWN)
    low_n, high_n = _force_n(cord, max(lighter, default=0.0)), _force_n(cord, cord.fail_mass_g)
    if high_n <= low_n:
        return Bracket(low_n=low_n, high_n=None, why=NOT_HEAVIER)
    return Bracket(low_n=low_n, high_n=high_n)


def _hung_g(row: Row) -> float | None:
    return row.mass_g if row.phase in HANGING and row.left_out != TOUCHED_TRAY else None


def _under(mass_g: float, cord: TestedCord) -> bool:
    return cord.fail_mass_g is None or mass_g < cord.fail_mass_g


def _held(cord: TestedCord) -> Bracket:
    held = [row.mass_g for row in cord.rows if row.mass_g is not None and cord.usable(row)]
    if not held:
        return Bracket(low_n=None, high_n=None, why=NOTHING_READ)
    return Bracket(low_n=_force_n(cord, max(held)), high_n=None)


def _force_n(cord: TestedCord, mass_g: float) -> float:
    return mass_g * cord.gravity_m_per_s2 / 1000


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
