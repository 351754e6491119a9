"""Benches given another word, design or kind by hand."""

import pytest

from app.domain.errors import InvalidEntry
from app.services.lessons import slip_codes
from app.services.seating import Seat, seat_benches, seats_of
from app.store.database import Database
from tests.make import MORNING, make_lesson, record_of


def test_words_swap_and_slips_stay(database: Database) -> None:
    made = make_lesson(database)
    lesson, codes = record_of(database, made), slip_codes(database, made.lesson_id)
    alder, hazel = (bench.id for bench in lesson.benches)
    seats = seats_of(lesson)
    seat_benches(database, lesson, {alder: seats[hazel], hazel: seats[alder]}, at=MORNING)
    assert [bench.word for bench in record_of(database, made).benches] == ["Hazel", "Alder"]
    assert slip_codes(database, made.lesson_id) == codes


def test_nothing_new_is_no_change(database: Database) -> None:
    made = make_lesson(database)
    lesson = record_of(database, made)
    seat_benches(database, lesson, seats_of(lesson), at=MORNING)
    assert record_of(database, made).head == lesson.head


@pytest.mark.parametrize(
    "seat",
    [
        Seat(word="hazel", design="A", kind="class"),
        Seat(word="two words", design="A", kind="class"),
        Seat(word="Moss", design="Z", kind="class"),
        Seat(word="Moss", design="A", kind="other"),
    ],
)
def test_a_fault_names_its_bench_and_changes_nothing(database: Database, seat: Seat) -> None:
    made = make_lesson(database)
    lesson = record_of(database, made)
    alder = lesson.benches[0].id
    with pytest.raises(InvalidEntry) as refused:
        seat_benches(database, lesson, {alder: seat}, at=MORNING)
    assert {one.field for one in refused.value.faults} == {alder}
    assert record_of(database, made) == lesson
