"""The class graph as a table."""

import pytest

from app.services.class_table import CordRow, class_table, count, loads_of_bench, loads_words
from app.services.picture import see
from app.store.database import Database
from tests import make
from tests.make import MadeLesson


def _table(database: Database, a_lesson: MadeLesson) -> list[CordRow]:
    return class_table(see(database, a_lesson.lesson_id).picture)


def test_before_anything_hangs_the_table_is_empty(database: Database) -> None:
    a_lesson = make.make_lesson(database)
    make.make_measure(database, make.join(database, a_lesson))
    assert _table(database, a_lesson) == []


def test_a_cord_under_test_says_what_it_held_so_far(database: Database) -> None:
    a_lesson = make.make_lesson(database)
    make.make_readings(database, make.join(database, a_lesson))
    (row,) = _table(database, a_lesson)
    assert row.held_n == max(point.force_n or 0.0 for point in row.points)
    assert (row.broke_n, row.more_than, row.ended) == (None, False, "under test")


@pytest.mark.parametrize(("kind", "more"), [("did_not_break", True), ("broke_adding", False), ("out_of_time", True)])
def test_an_end_is_an_interval_or_more_than(database: Database, kind: str, more: bool) -> None:
    a_lesson = make.make_lesson(database)
    alder = make.join(database, a_lesson)
    make.make_readings(database, alder)
    make.make_ending(database, alder, kind=kind, fail_step=5)
    (row,) = _table(database, a_lesson)
    assert row.held_n is not None
    assert row.more_than is more
    assert (row.broke_n is None) is more


def test_left_out_cords_are_counted_apart(database: Database) -> None:
    a_lesson = make.make_lesson(database)
    alder, hazel = (make.join(database, a_lesson, bench=word) for word in ("Alder", "Hazel"))
    for bench in (alder, hazel):
        make.make_readings(database, bench)
    make.make_ruling(database, hazel.target, about=hazel.specimen_id, reason="nick in one strip")
    counted = count(_table(database, a_lesson))
    assert (counted.counted, counted.left_out) == (1, 1)


def test_what_forces_rest_on_is_said_until_all_that_hung_is_weighed(database: Database) -> None:
    a_lesson = make.make_lesson(database)
    alder, hazel = (make.join(database, a_lesson, bench=word) for word in ("Alder", "Hazel"))
    for bench in (alder, hazel):
        make.make_readings(database, bench)

    def said() -> list[str]:
        lesson = make.record_of(database, a_lesson)
        of_benches = [loads_of_bench(lesson, bench) for bench in lesson.benches]
        return [loads_words(see(database, a_lesson.lesson_id).picture), *of_benches]

    assert said() == ["Loads by label, hanger not counted"] * 3
    make.make_weighing(database, a_lesson.target, mark=0, mass_g=86.0)
    assert said() == ["Loads by label"] * 3
    for mark in range(1, 5):
        make.make_weighing(database, alder.target, mark=mark, mass_g=100.0)
    assert said() == ["Loads by label", "", "Loads by label"]
