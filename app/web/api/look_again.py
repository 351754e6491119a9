"""Look-again notes as /api/v1 tells them: friendly doubts, asked and never enforced."""

from collections.abc import Iterable

from app.domain.told import Note
from app.services.bench_state import BenchState
from app.services.looking import for_benches, notes_of_bench
from app.web.api import answers
from app.web.current import who


def open_notes(state: BenchState) -> list[answers.Note]:
    """What is open at the bench, for whoever asks: some notes go to the teacher only."""
    notes = notes_of_bench(state)
    return told(for_benches(notes) if who().tablet else notes)


def told(notes: Iterable[Note]) -> list[answers.Note]:
    """Those notes in the answer's fields."""
    return [
        answers.Note(
            note=note.note, severity=note.severity, words=note.words, likely_mm=note.likely_mm, about=note.about
        )
        for note in notes
    ]
