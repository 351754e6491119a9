"""Look-again notes: friendly doubts, asked and never enforced."""

from collections.abc import Iterator
from typing import Any

from app.domain.standing import counted
from app.domain.vocabulary import ENDINGS, PHASES
from app.services.bench_state import BenchState
from app.web.api.answers import Note

TWO_NUMBERS = 23
STOP = "stop"


def notes_of(state: BenchState) -> list[Note]:
    """What is doubtful of the bench's cords as they stand, in the order of the test."""
    return [note for notes in notes_by_cord(state).values() for note in notes]


def notes_by_cord(state: BenchState) -> dict[str, list[Note]]:
    """By specimen id, what is doubtful of each cord of the bench."""
    return {cord.specimen_id: [*_two_numbers(cord), *_two_endings(state, cord)] for cord in state.cords}


def _two_numbers(cord: Any) -> Iterator[Note]:
    turns: dict[tuple[int, str, int], list[Any]] = {}
    for point in cord.points:
        if point.state == "differs":
            reading = point.reading
            turns.setdefault((reading.step, reading.phase, reading.turn), []).append(reading)
    for (step, phase, _), readings in turns.items():
        typed = _listed([reading.pointer_typed for reading in readings])
        words = f"Two numbers for {_moment(step, phase)}: {typed}. Which one did you read?"
        yield _note(words, about=readings[0].entry_id)


def _two_endings(state: BenchState, cord: Any) -> Iterator[Note]:
    if cord.ending_state != "differs":
        return
    specimen = next(one for one in state.bench.specimens if one.entry_id == cord.specimen_id)
    told = counted(specimen.endings, state.lesson.rulings)
    words = _listed([f"{ENDINGS[ending.kind]}{_at(ending.fail_step)}" for ending in told])
    yield _note(f"Two endings for one cord: {words}. Which one did you see?", about=told[0].entry_id)


def _note(words: str, *, about: str) -> Note:
    return Note(note=TWO_NUMBERS, severity=STOP, words=words, likely_mm=None, about=about)


def _moment(step: int, phase: str) -> str:
    if phase == "zero":
        return "the zero"
    return f"step {step}" if phase == "load" else f"step {step}, {PHASES[phase]}"


def _at(step: int | None) -> str:
    return "" if step is None else f" at step {step}"


def _listed(parts: list[str]) -> str:
    return f"{', '.join(parts[:-1])} and {parts[-1]}"
