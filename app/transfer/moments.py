"""Which moment of the test each row of a cord is: its phase and step, as stated or as the order of the file tells."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.domain.limits import STEP
from app.domain.tested import LOADING
from app.transfer.problems import Problems


@dataclass(frozen=True, kw_only=True)
class FileRow:
    """One row of a file: where it begins, what its cells say by column, whether all of them could be read.

    `about` names it in a note: the entry that it shows, else its line.
    """

    line: int
    about: str
    said: Mapping[str, Any]
    sound: bool

    @property
    def counts(self) -> bool:
        """Whether nobody left the row out."""
        return "left_out" not in self.said


@dataclass(frozen=True, kw_only=True)
class Moment:
    """When in a test a row was taken."""

    step: int
    phase: str
    turn: int


def moments_of(rows: Sequence[FileRow], problems: Problems) -> list[Moment]:
    """The moment of each row of one cord, rows in the order of the file; what contradicts itself goes to problems."""
    phases = _phases(rows)
    steps = _steps(rows, phases, problems)
    for row, step, phase in zip(rows, steps, phases, strict=True):
        if phase in LOADING and "phase" in row.said and "step" in row.said and (phase == "zero") != (step == 0):
            problems.add(row.line, "step", "The zero is step 0, and every load has a step from 1.")
    turns = [row.said.get("turn", 1) for row in rows]
    return [Moment(step=step, phase=phase, turn=turn) for step, phase, turn in zip(steps, phases, turns, strict=True)]


def _phases(rows: Sequence[FileRow]) -> list[str]:
    """The phase of each row; where none is stated, the first of the test is the zero and the others are loads."""
    phases = [row.said.get("phase") or ("zero" if row.said.get("step") == 0 else None) for row in rows]
    if rows and "zero" not in phases:
        first = min(range(len(rows)), key=lambda place: rows[place].said.get("step", 0))
        phases[first] = phases[first] or "zero"
    return [phase or "load" for phase in phases]


def _steps(rows: Sequence[FileRow], phases: Sequence[str], problems: Problems) -> list[int]:
    """The step of each row; where no row of the cord states one they are counted."""
    stated = next((row for row in rows if "step" in row.said), None)
    if stated is None:
        return _counted(rows, phases, problems)
    for row in rows:
        if "step" not in row.said:
            problems.add(row.line, "step", f"The step is blank, but line {stated.line} states one for the same cord.")
    return [row.said.get("step", 0) for row in rows]


def _counted(rows: Sequence[FileRow], phases: Sequence[str], problems: Problems) -> list[int]:
    """Steps by the order of the file: each load begins one, and what follows a load belongs to its step.

    A reading of unloading belongs to the step that had its mass; to the step below the last when none had.
    """
    top, step = 0, 0
    loaded: dict[float | None, int] = {}
    steps = []
    for row, phase in zip(rows, phases, strict=True):
        mass_g = row.said.get("mass_g")
        if phase == "unload":
            step = loaded.get(mass_g, max(step - 1, 0))
        else:
            top = {"zero": 0, "load": top + 1}.get(phase, top)
            step = top
        if phase in LOADING and mass_g is not None:
            loaded[mass_g] = step
        if step > STEP[1]:
            problems.add(row.line, None, f"This is step {step} of its cord; there are {STEP[1]} at most.")
        steps.append(step)
    return steps


def tell_twice(rows: Sequence[FileRow], moments: Sequence[Moment], problems: Problems) -> None:
    """Each row that counts and whose moment is that of an earlier one that counts is a problem."""
    first: dict[Moment, int] = {}
    stated = any("step" in row.said for row in rows)
    for row, moment in zip(rows, moments, strict=True):
        if stated and "step" not in row.said:
            continue
        if row.counts and (line := first.setdefault(moment, row.line)) != row.line:
            words = (
                f"Line {line} has a reading of this moment too (step {moment.step}, {moment.phase}, turn {moment.turn})"
                " and both count: leave one out, or give them turns 1 and 2."
            )
            problems.add(row.line, None, words)
