"""The benches of a lesson, each given another word, design or kind by the teacher's own hand."""

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import datetime

from app.domain.errors import FieldFault, InvalidEntry
from app.domain.naming import check_bench_word
from app.domain.records import LessonRecord
from app.domain.vocabulary import BENCH_KINDS
from app.services.recording import Target
from app.services.rulings import note
from app.store import benches
from app.store.database import Database, Session
from app.store.specimens import Specimen


@dataclass(frozen=True, kw_only=True)
class Seat:
    """What one bench is to be: its word, the letter of its design, its kind."""

    word: str
    design: str
    kind: str


def seats_of(lesson: LessonRecord) -> dict[str, Seat]:
    """By bench id, what each bench is now."""
    return {
        bench.id: Seat(word=bench.word, design=lesson.design(bench.design_id).letter, kind=bench.kind)
        for bench in lesson.benches
    }


def seat_benches(database: Database, lesson: LessonRecord, seats: Mapping[str, Seat], *, at: datetime) -> None:
    """Every bench named has that word, design and kind; its slip stays, and its cords go along with it.

    Raises InvalidEntry with every fault, the bench id as its field.
    """
    before = seats_of(lesson)
    changed = {bench_id: seat for bench_id, seat in seats.items() if bench_id in before and before[bench_id] != seat}
    faults = _faults(lesson, {**before, **changed}, changed)
    if faults:
        raise InvalidEntry(faults[0].words, faults=tuple(faults))
    if not changed:
        return

    def write(session: Session) -> None:
        _free_words(session, list(changed))
        for bench_id, seat in changed.items():
            _seat(session, lesson, bench_id, seat)

    after = {seat.word: asdict(seat) for seat in changed.values()}
    target = Target(lesson_id=lesson.id)
    note(database, target, write, kind="lesson", about_id=lesson.id, by="teacher", at=at, after=after)


def _faults(lesson: LessonRecord, seats: Mapping[str, Seat], changed: Mapping[str, Seat]) -> list[FieldFault]:
    letters = {design.letter for design in lesson.designs}
    words = [seat.word.lower() for seat in seats.values()]
    faults = []
    for bench_id, seat in changed.items():
        if words.count(seat.word.lower()) > 1:
            faults.append(FieldFault(bench_id, f"Two benches can't both be called {seat.word}."))
        if seat.design not in letters or seat.kind not in BENCH_KINDS:
            faults.append(FieldFault(bench_id, "Choose a design and a kind of this lesson."))
        try:
            check_bench_word(seat.word)
        except InvalidEntry as refusal:
            faults.append(FieldFault(bench_id, refusal.sentence))
    return faults


def _free_words(session: Session, bench_ids: Sequence[str]) -> None:
    """No bench of these has its old word, so that two may swap theirs."""
    for place, bench_id in enumerate(bench_ids):
        session.get_one(benches.Bench, bench_id).word = f"-{place}"
    session.flush()


def _seat(session: Session, lesson: LessonRecord, bench_id: str, seat: Seat) -> None:
    row = session.get_one(benches.Bench, bench_id)
    design_id = next(design.id for design in lesson.designs if design.letter == seat.design)
    row.word, row.kind = seat.word, seat.kind
    if row.design_id != design_id:
        row.design_id = design_id
        specimens = next(bench.specimens for bench in lesson.benches if bench.id == bench_id)
        for specimen in specimens:
            session.get_one(Specimen, specimen.entry_id).design_id = design_id
