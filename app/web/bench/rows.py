"""The lines of the readings table, and of what happened."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from app.domain.quantities import number_typed, shown, trimmed
from app.domain.records import Reading
from app.domain.standing import counted
from app.domain.vocabulary import PHASES, SCALE_UNITS
from app.services.bench_state import BenchState
from app.web.bench import words

_STATES = {
    "differs": "two numbers for this step",
    "matched": "typed twice",
    "ruled_out": "the other number counts",
}


@dataclass(frozen=True, kw_only=True)
class Row:
    """A line of the readings table; `first` is what was typed first, where that was replaced."""

    entry_id: str
    step: str
    moment: str
    force: str
    first: str
    pointer: str
    extension: str
    notes: tuple[str, ...]
    left_out: bool
    mine: bool


@dataclass(frozen=True, kw_only=True)
class Told:
    """An event that was told, and at which step."""

    entry_id: str
    words: str
    moment: str


def rows_of(state: BenchState) -> tuple[Row, ...]:
    """The readings of the cord under test that stand, the newest first."""
    return tuple(_row(state, point) for point in reversed(state.cord.points))


def told_of(state: BenchState) -> tuple[Told, ...]:
    """The events of the cord under test that stand and are not taken back, the newest first."""
    return tuple(_told(state))


def pointer_words(state: BenchState, pointer_mm: float) -> str:
    """A pointer reading in the unit of the bench's scale."""
    return trimmed(pointer_mm / SCALE_UNITS[state.bench.scale_unit], 2)


def _row(state: BenchState, point: Any) -> Row:
    reading = point.reading
    now = pointer_words(state, reading.pointer_mm)
    first = trimmed(number_typed("pointer_typed", point.first_typed), 4)
    notes = (*_phase_note(reading), *_state_notes(point))
    return Row(
        entry_id=reading.entry_id,
        step="zero" if reading.phase == "zero" else str(reading.step),
        moment=words.moment(reading),
        force="" if point.force_n is None else shown(point.force_n, 2),
        first=first if reading.replaces and first != now else "",
        pointer=now,
        extension="" if point.extension_mm is None else trimmed(point.extension_mm, 1),
        notes=notes,
        left_out=point.left_out is not None,
        mine=reading.by == "bench",
    )


def _phase_note(reading: Reading) -> tuple[str, ...]:
    if reading.phase in ("zero", "load"):
        return () if reading.turn == 1 else (f"again, {reading.turn}",)
    return (PHASES[reading.phase],)


def _state_notes(point: Any) -> tuple[str, ...]:
    said = (_STATES[point.state],) if point.state in _STATES else ()
    return (*said, f"left out: {point.left_out}") if point.left_out else said


def _told(state: BenchState) -> Iterator[Told]:
    for event in reversed(counted(state.specimen.events, state.lesson.rulings)):
        said = words.event_words(event.kind, state.lesson)
        if event.kind == "other_mass" and event.mark is not None:
            said = f"{words.upper_first(words.named(state.lesson, event.mark))} hung instead"
        moment = "Before" if event.step is None else f"Step {event.step}"
        yield Told(entry_id=event.entry_id, words=said, moment=moment)
