"""What was worked out of a cord, as pages show it: figures that are known, and those that are not, with their why."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.services.bench_state import BenchState
from app.services.working import Working, is_figure
from app.services.workings import cord_workings
from app.web.bench.straight import StraightChoice, straight_choice

SHOWN_IN = ("ended", "looking", "closed")
"""Modes of the bench page in which the figures of an ended cord stand."""


@dataclass(frozen=True, kw_only=True)
class Worked:
    """The figures of one cord by the lesson's depth; `choice` is there where it may be said where it is straight."""

    known: tuple[Working, ...]
    unknown: tuple[Working, ...]
    choice: StraightChoice | None


def worked_of_bench(
    state: BenchState, *, writes: bool, typed: Mapping[str, str], faults: Mapping[str, str]
) -> Worked | None:
    """The figures of the cord under test; None before it ended: until then a bench is led by nothing."""
    if state.cord.ending is None:
        return None
    depth = state.lesson.depth
    may_choose = writes and not state.lesson.over
    choice = straight_choice(state.cord, depth, typed=typed, faults=faults) if may_choose else None
    return worked(cord_workings(state.cord.sums, depth), choice)


def worked(told: Sequence[Working], choice: StraightChoice | None) -> Worked:
    """The figures, parted by whether they are known."""
    known = tuple(one for one in told if is_figure(one))
    return Worked(known=known, unknown=tuple(one for one in told if one not in known), choice=choice)
