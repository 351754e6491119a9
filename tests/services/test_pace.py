"""What each bench is at, and what waits for someone's word."""

from datetime import timedelta

from app.domain.vocabulary import SET_UP_TICKS
from app.services import rulings, running
from app.services.pace import Pace, pace, who_needs_help_first
from app.store.database import Database
from tests import make
from tests.make import MORNING, MadeLesson


def _rows(database: Database, a_lesson: MadeLesson) -> list[Pace]:
    return list(pace(make.record_of(database, a_lesson)))


def test_words_follow_a_bench_from_its_slip_to_its_end(database: Database) -> None:
    a_lesson = make.make_lesson(database)

    def where() -> str:
        return _rows(database, a_lesson)[0].where

    assert where() == "not here"
    alder = make.join(database, a_lesson)
    assert where() == "here"
    make.make_measure(database, alder)
    assert where() == "making the cord"
    make.make_reading(database, alder, step=0)
    assert where() == "zero taken"
    make.make_reading(database, alder, step=1, pointer="222")
    assert where() == "step 1"
    make.make_ending(database, alder, kind="broke_adding", fail_step=2)
    assert where() == "ended"
    make.make_fresh_cord(database, alder)
    assert where() == "making a fresh cord"


def test_a_catch_up_bench_comes_later(database: Database) -> None:
    a_lesson = make.make_lesson(database)
    lesson = make.record_of(database, a_lesson)
    running.change_bench(database, lesson, lesson.benches[1], {"kind": "catch_up"}, at=MORNING)
    assert _rows(database, a_lesson)[1].where == "comes later"


def test_who_may_need_the_teacher_comes_first_and_absent_ones_last(database: Database) -> None:
    a_lesson = make.make_lesson(database, benches=("Alder", "Hazel", "Birch"))
    for word in ("Hazel", "Birch"):
        make.make_readings(database, make.join(database, a_lesson, bench=word))
    birch = make.join(database, a_lesson, bench="Birch")
    make.make_reading(database, birch, step=4, pointer="231")
    order = [row.bench.word for row in who_needs_help_first(_rows(database, a_lesson))]
    assert order == ["Birch", "Hazel", "Alder"]


def test_two_numbers_are_one_question_until_one_counts(database: Database) -> None:
    a_lesson = make.make_lesson(database)
    alder = make.join(database, a_lesson)
    make.make_readings(database, alder)
    other = make.make_reading(database, alder, step=4, pointer="231")
    (question,) = _rows(database, a_lesson)[0].questions
    assert question.head == "Alder, step 4"
    assert [choice.says.replace("\xa0", " ") for choice in question.choices] == ["229 mm counts", "231 mm counts"]
    make.make_ruling(database, alder.target, kind="counts", about=other.entry.entry_id, reason=None)
    assert _rows(database, a_lesson)[0].questions == ()


def test_two_endings_are_a_question_and_the_same_one_twice_is_none(database: Database) -> None:
    a_lesson = make.make_lesson(database)
    alder = make.join(database, a_lesson)
    make.make_readings(database, alder)
    for _ in range(2):
        make.make_ending(database, alder, kind="broke_adding", fail_step=5)
    assert _rows(database, a_lesson)[0].questions == ()
    make.make_ending(database, alder, kind="knot_undone", fail_step=5)
    (question,) = _rows(database, a_lesson)[0].questions
    says = {choice.says for choice in question.choices}
    assert says == {"broke while adding at step 5 counts", "knot came undone at step 5 counts"}


def test_a_cord_that_is_left_out_asks_nothing(database: Database) -> None:
    a_lesson = make.make_lesson(database)
    alder = make.join(database, a_lesson)
    make.make_readings(database, alder)
    make.make_reading(database, alder, step=4, pointer="231")
    make.make_ruling(database, alder.target, about=alder.specimen_id)
    assert _rows(database, a_lesson)[0].questions == ()


def test_silence_is_told_of_benches_that_have_a_tablet(database: Database) -> None:
    a_lesson = make.make_lesson(database)
    make.join(database, a_lesson)
    alder, hazel = _rows(database, a_lesson)
    assert not alder.silent(MORNING + timedelta(seconds=59))
    assert alder.silent(MORNING + timedelta(seconds=61))
    assert not hazel.silent(MORNING + timedelta(hours=1))


def test_a_number_that_was_ruled_out_is_not_the_last_told(database: Database) -> None:
    a_lesson = make.make_lesson(database)
    alder = make.join(database, a_lesson)
    make.make_readings(database, alder)
    first = make.record_of(database, a_lesson).benches[0].specimens[0].readings[-1]
    make.make_reading(database, alder, step=4, pointer="231")
    make.make_ruling(database, alder.target, kind="counts", about=first.entry_id, reason=None)
    last = _rows(database, a_lesson)[0].last
    assert last is not None
    assert last.reading.pointer_typed == "229"


def test_open_ticks_are_told_until_masses_hang(database: Database) -> None:
    a_lesson = make.make_lesson(database)
    assert _rows(database, a_lesson)[0].open_ticks == 0, "nobody is here to tick"
    alder = make.join(database, a_lesson)
    assert _rows(database, a_lesson)[0].open_ticks == len(SET_UP_TICKS)
    rulings.tick(database, alder.target, what="goggles", on=True, by="bench", at=MORNING)
    make.make_reading(database, alder, step=0)
    assert _rows(database, a_lesson)[0].open_ticks == len(SET_UP_TICKS) - 1
    make.make_reading(database, alder, step=1, pointer="222")
    assert _rows(database, a_lesson)[0].open_ticks == 0
