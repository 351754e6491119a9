"""How every figure that a page shows was worked out, in the order in which a page shows them, at a lesson's depth."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from app.mechanics.class_sums import DesignSums
from app.mechanics.cord_sums import CordSums
from app.mechanics.shares_kept import ShareKept
from app.services import (
    workings_break,
    workings_line,
    workings_plait,
    workings_return,
    workings_straight,
    workings_stretch,
    workings_work,
)
from app.services.working import Working, reaches
from app.services.workings_agreement import agreement_figures
from app.services.workings_class import design_figures, kept_workings
from app.services.workings_pair import difference_working

__all__ = ["Working", "agreement_workings", "cord_workings", "design_workings", "difference_working"]

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
    ("second", workings_plait.take_up),
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


def design_workings(sums: DesignSums, depth: str, *, name: str, kept: Sequence[ShareKept] = ()) -> tuple[Working, ...]:
    """How each figure of one design was worked out; `kept` are the class's shares, of which it takes its own."""
    made = [*design_figures(sums, depth, name=name), *kept_workings(kept, depth, sums=sums, name=name)]
    return tuple(_said_once(one) for one in made)


def agreement_workings(sums: DesignSums, depth: str) -> tuple[Working, ...]:
    """How well cords of one design agree: at the third depth alone."""
    return tuple(agreement_figures(sums.agreement, depth)) if reaches(depth, "third") else ()


def _said_once(one: Working) -> Working:
    """Without a note that only says again why there is no figure."""
    return replace(one, notes=tuple(note for note in one.notes if note != one.said)) if one.said in one.notes else one
