"""What was worked out of a cord, as pages show it: figures that are known, and those that are not, with their why."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from app.services.bench_state import BenchState
from app.services.working import Working, is_figure
from app.services.workings import cord_workings
from app.web.bench.straight import StraightChoice, straight_choice

SHOWN_IN = ("ended", "looking", "closed")
"""Modes of the bench page in which the figures of an ended cord stand."""
PROPOSED = ("stiffness_N_per_mm", "limit_of_proportionality_N")
"""What the sums find of the straight part by themselves: at the second depth it stands beside what a bench chose."""


@dataclass(frozen=True, kw_only=True)
class Worked:
    """The figures of one cord by the lesson's depth; `choice` is there where it may be said where it is straight.

    `held_back` is true where what the sums found of the straight part waits for that choice.
    """

    known: tuple[Working, ...]
    unknown: tuple[Working, ...]
    choice: StraightChoice | None
    held_back: bool = False


def worked_of_bench(
    state: BenchState, *, writes: bool, typed: Mapping[str, str], faults: Mapping[str, str]
) -> Worked | None:
    """The figures of the cord under test; None before it ended: until then a bench is led by nothing."""
    if state.cord.ending is None:
        return None
    depth = state.lesson.depth
    may_choose = writes and not state.lesson.over
    choice = straight_choice(state.cord, depth, typed=typed, faults=faults) if may_choose else None
    told = cord_workings(state.cord.sums, depth)
    if depth == "second" and choice is not None and not choice.chosen:
        return replace(worked([one for one in told if one.code not in PROPOSED], choice), held_back=True)
    return worked(told, choice)


def worked(told: Sequence[Working], choice: StraightChoice | None) -> Worked:
    """The figures, parted by whether they are known."""
    known = tuple(one for one in told if is_figure(one))
    return Worked(known=known, unknown=tuple(one for one in told if one not in known), choice=choice)
