"""What is open to look at again at a bench, as its entries stand."""

from datetime import UTC, datetime
from typing import Any

import pytest

from app.domain.checks import notes_of_cord
from app.domain.records import DesignRecord, RungRecord
from app.domain.told import Note
from app.services import seeding, teachers
from app.services.bench_state import state_of
from app.services.looking import for_benches, notes_by_specimen, notes_of_bench
from app.services.picture import see
from app.services.recording import Sender
from app.services.rulings import weigh
from app.store.database import Database
from tests.make import (
    MORNING,
    JoinedBench,
    join,
    make_bench,
    make_ending,
    make_event,
    make_fresh_cord,
    make_lesson,
    make_measure,
    make_plan,
    make_reading,
    make_readings,
    make_ruling,
    sent,
)

AT = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)


def _open(database: Database, a_bench: JoinedBench) -> list[Note]:
    return list(notes_of_bench(state_of(database, a_bench.lesson_id, a_bench.bench_id)))


def _rows(database: Database, a_bench: JoinedBench) -> list[int]:
    return [note.note for note in _open(database, a_bench)]


def test_centimetres_are_asked_about_once_and_mended_in_one_go(database: Database) -> None:
    """The invented Elder: three numbers in centimetres, the first of them asked about."""
    alder = make_bench(database)
    answers = make_readings(database, alder, (183, 189, 194, "20.0", "20.5", "21.7"))
    (note,) = _open(database, alder)
    assert (note.note, note.severity, note.likely_mm, note.about) == (1, "stop", 200.0, answers[3].entry.entry_id)
    for answer, step, typed in zip(answers[3:], (3, 4, 5), ("20.0", "20.5", "21.7"), strict=True):
        entry = sent(replaces=answer.entry.entry_id, reason="unit")
        make_reading(database, alder, step=step, pointer=typed, pointer_unit="cm", entry=entry)
    assert _open(database, alder) == []


@pytest.mark.parametrize("answer", ["fixed_it", "it_is_right", "not_sure"])
def test_an_answered_note_is_not_open_any_more(database: Database, answer: str) -> None:
    alder = make_bench(database)
    make_readings(database, alder, (218, 223, 223))
    (note,) = _open(database, alder)
    make_ruling(database, alder.target, about=note.about, kind="note_answer", detail=answer, by="bench")
    assert _open(database, alder) == []


def test_a_number_that_replaces_an_answered_one_is_looked_at_anew(database: Database) -> None:
    alder = make_bench(database)
    first = make_readings(database, alder, (218, 223, 22.3))[-1].entry.entry_id
    make_ruling(database, alder.target, about=first, kind="note_answer", detail="fixed_it", by="bench")
    second = make_reading(database, alder, step=2, pointer=22.4, entry=sent(replaces=first)).entry.entry_id
    assert [(note.note, note.about) for note in _open(database, alder)] == [(1, second)]


def test_a_reading_that_was_left_out_and_a_cord_that_was_are_not_asked_about(database: Database) -> None:
    alder = make_bench(database)
    odd = make_readings(database, alder, (218, 222, 22.6))[-1].entry.entry_id
    make_ending(database, alder, kind="broke_adding")
    make_ending(database, alder, kind="did_not_break")
    assert _rows(database, alder) == [1, 23]
    make_ruling(database, alder.target, about=odd)
    assert _rows(database, alder) == [23]
    make_ruling(database, alder.target, about=alder.specimen_id)
    make_fresh_cord(database, alder)
    assert _open(database, alder) == []


def test_two_endings_are_asked_about(database: Database) -> None:
    alder = make_bench(database)
    first = make_ending(database, alder, kind="broke_adding", fail_step=1).entry.entry_id
    make_ending(database, alder, kind="did_not_break")
    (note,) = _open(database, alder)
    assert (note.note, note.about) == (23, first)
    assert note.words == (
        "Two endings for one cord: broke while adding at step 1 and did not break. Which one did you see?"
    )


def test_what_was_told_beside_a_reading_is_minded(database: Database) -> None:
    alder = make_bench(database)
    make_readings(database, alder, (220, 224, 228, 236))
    make_event(database, alder, kind="still_moving", step=4)
    make_reading(database, alder, step=4, pointer=276)
    assert _open(database, alder) == []
    make_event(database, alder, kind="other_mass", step=5, mark=2)
    make_reading(database, alder, step=5, pointer=280)
    assert _rows(database, alder) == [12]


def test_the_wait_and_the_unit_are_the_benchs(database: Database) -> None:
    alder = make_bench(database, wait_s=20)
    make_reading(database, alder, pointer="21.8", pointer_unit="cm")
    make_reading(database, alder, step=1, pointer="22.2", pointer_unit="cm", waited_s=4)
    (note,) = _open(database, alder)
    assert (note.note, note.severity, note.words) == (
        16,
        "ask",
        "Only 4\u00a0s of 20\u00a0s. Wait for the clock, then read again.",
    )


def test_measures_are_held_against_the_plan(database: Database) -> None:
    plan = make_plan()
    known = plan.designs[0]
    density = {"linear_density_g_per_m": 1.0, "strands": 3}
    plan.designs[0] = DesignRecord(**{**known.__dict__, **density})  # type: ignore[index]
    alder = join(database, make_lesson(database, plan=plan))
    length = make_measure(database, alder, typed="30").entry.entry_id
    mass = make_measure(database, alder, quantity="cord_mass_g", typed="0.2", unit="g").entry.entry_id
    make_measure(database, alder, quantity="cord_length_mm", typed="300")
    make_measure(database, alder, quantity="drop_height_mm", typed="60")
    make_readings(database, alder, (218, 279))
    notes = _open(database, alder)
    assert [(note.note, note.about) for note in notes[:2]] == [(27, length), (32, mass)]
    assert [note.note for note in notes[2:]] == [25]


def test_a_reading_at_the_step_it_broke_at_is_asked_about_when_it_broke_while_adding(database: Database) -> None:
    alder = make_bench(database)
    make_readings(database, alder, (218, 222, 226))
    make_ending(database, alder, kind="broke_waiting", fail_step=2)
    assert _open(database, alder) == []
    make_fresh_cord(database, alder)
    make_readings(database, alder, (218, 222, 226))
    make_ending(database, alder, kind="broke_adding", fail_step=2)
    assert _rows(database, alder) == [26]


def test_a_balance_mass_that_is_the_drained_one(database: Database) -> None:
    plan = make_plan()
    plan.rungs[0] = RungRecord(mark=1, name="tin", printed_mass_g=240.0, printed_kind="drained")  # type: ignore[index]
    alder = join(database, make_lesson(database, plan=plan))
    said: dict[str, Any] = {"balance_division_g": 1.0, "sender": Sender(by="bench"), "at": MORNING}
    weigh(database, alder.target, mark=1, mass_g=455.0, sent=sent(), **said)
    assert _open(database, alder) == []
    weighing = weigh(database, alder.target, mark=1, mass_g=240.0, sent=sent(), **said)
    assert [(note.note, note.about) for note in _open(database, alder)] == [(12, weighing.entry_id)]


def test_what_was_typed_faster_than_masses_hang_is_for_the_teacher_only(database: Database) -> None:
    alder = make_bench(database)
    make_readings(database, alder, (218, 222, 227, 231, 236), every_s=3.0)
    notes = _open(database, alder)
    assert [(note.note, note.severity) for note in notes] == [(22, "teacher")]
    assert for_benches(notes) == []


def test_a_zero_typed_late_is_asked_about_unless_it_came_from_paper(database: Database) -> None:
    alder = make_bench(database)
    make_reading(database, alder, step=1, pointer=222, entry=sent(age_s=60))
    zero = make_reading(database, alder, pointer=218).entry.entry_id
    assert [(note.note, note.about) for note in _open(database, alder)] == [(19, zero)]
    make_fresh_cord(database, alder)
    make_reading(database, alder, step=1, pointer=222, entry=sent(age_s=60))
    make_reading(database, alder, pointer=218, sender=Sender(by="paper"))
    assert _rows(database, alder) == [19]


def test_the_demo_lessons_ask_what_they_should(sqlite_database: Database) -> None:
    """All that the finished ones raised is answered; in the one under way two of Maple's are open; a file agrees."""
    teachers.add_teacher(sqlite_database, teachers.FIRST_NAME, password=None, at=AT)
    made = seeding.load_demo(sqlite_database, at=AT)
    assert made is not None
    finished, now = see(sqlite_database, seeding.FINISHED), see(sqlite_database, made.lesson_id)
    open_notes = notes_by_specimen(finished.lesson, finished.picture.specimens)
    assert {name: notes for name, notes in open_notes.items() if notes} == {}
    raised = {cord.name: [note.note for note in notes_of_cord(cord.tested)] for cord in finished.picture.specimens}
    assert {name: notes for name, notes in raised.items() if notes} == {
        "Alder-1": [10],
        "Hazel-1": [11],
        "Cedar-1": [10],
        "Maple-1": [11, 11],
        "Rowan-1": [11],
        "Elder-1": [3],
        "Juniper-1": [10],
    }
    live = notes_by_specimen(now.lesson, now.picture.specimens)
    for cord in now.picture.specimens:
        said = [(note.note, note.words, note.likely_mm) for note in live[cord.specimen_id]]
        assert said == [(note.note, note.words, note.likely_mm) for note in notes_of_cord(cord.tested)]
        assert [row for row, _, _ in said] == ([11, 11] if cord.bench == "Maple" else [])
