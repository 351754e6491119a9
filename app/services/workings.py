"""How every figure that a page shows was worked out, in the order in which a page shows them, at a lesson's depth."""

from collections.abc import Callable
from dataclasses import replace

from app.mechanics.cord_sums import CordSums
from app.services import (
    workings_break,
    workings_line,
    workings_return,
    workings_straight,
    workings_stretch,
    workings_work,
)
from app.services.working import Working, reaches

__all__ = ["Working", "cord_workings"]

_OF_CORD: tuple[tuple[str, Callable[[CordSums, str], Working | None]], ...] = (
    ("first", workings_break.break_force),
    ("first", workings_break.break_with_knots),
    ("first", workings_stretch.longer),
    ("second", workings_stretch.strain),
    ("first", workings_return.permanent_set),
    ("second", workings_return.recovery),
    ("second", workings_return.elastic_limit),
    ("first", workings_straight.limit),
    ("second", workings_straight.stiffness),
    ("second", workings_straight.chosen),
    ("second", workings_return.creep),
    ("first", workings_break.per_strand),
    ("first", workings_break.per_linear_density),
    ("third", workings_break.tenacity),
    ("third", workings_break.breaking_length),
    ("third", workings_break.stress),
    ("third", workings_line.youngs_modulus),
    ("third", workings_line.toe),
    ("third", workings_line.corrected_zero),
    ("third", workings_line.secant),
    ("third", workings_line.offset_yield),
    ("third", workings_work.work),
    ("third", workings_work.failing_work),
    ("third", workings_work.loop),
    ("third", workings_line.reading_scatter),
)
"""By the depth from which it is shown; a deeper one shows it too."""


def cord_workings(sums: CordSums, depth: str) -> tuple[Working, ...]:
    """How each figure of one cord was worked out; a figure that can't be had is there with its why."""
    made = (make(sums, depth) for least, make in _OF_CORD if reaches(depth, least))
    return tuple(_said_once(one) for one in made if one is not None)


def _said_once(one: Working) -> Working:
    """Without a note that only says again why there is no figure."""
    return replace(one, notes=tuple(note for note in one.notes if note != one.said))
