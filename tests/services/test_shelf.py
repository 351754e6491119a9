"""Lessons listed, and what each says of itself."""

from datetime import date

import pytest

from app.services import running
from app.services.shelf import Listed, listed
from app.store.database import Database
from tests import make
from tests.make import MORNING, MadeLesson


def _shelved(database: Database, **said: object) -> MadeLesson:
    made = make.make_lesson(database, **said)  # type: ignore[arg-type]
    running.put_on_shelf(database, made.lesson_id, on_shelf=True, own=False, at=MORNING)
    return made


def _first(database: Database, made: MadeLesson) -> Listed:
    return listed(database, made.teacher.teacher_id, shelf=True)[0]


def test_the_day_is_the_planned_one_else_when_it_was_put_there(database: Database) -> None:
    made = _shelved(database)
    assert _first(database, made).held_on == MORNING.date()
    planned = _shelved(database, teacher=made.teacher, planned_on=date(2025, 3, 13))
    days = {one.lesson.id: one.held_on for one in listed(database, made.teacher.teacher_id, shelf=True)}
    assert days[planned.lesson_id] == date(2025, 3, 13)


def test_facts_count_benches_designs_and_cords(database: Database) -> None:
    made = make.make_lesson(database, benches=[f"Bench{letter}" for letter in "abcdefghijklm"], designs="ABC")
    for word in ("Bencha", "Benchb"):
        bench = make.join(database, made, bench=word)
        make.make_readings(database, bench)
    make.make_ruling(database, bench.target, about=bench.specimen_id, reason="nick in one strip")
    running.put_on_shelf(database, made.lesson_id, on_shelf=True, own=False, at=MORNING)
    assert _first(database, made).facts == "13 benches, three designs, one cord in the sums, one left out."


def test_what_was_not_weighed_is_said_once_something_hung(database: Database) -> None:
    made = _shelved(database)
    assert _first(database, made).careful == ""
    running.put_on_shelf(database, made.lesson_id, on_shelf=False, own=None, at=MORNING)
    alder = make.join(database, made)
    make.make_readings(database, alder)
    for mark, mass_g in enumerate((86.0, 99.0, 102.0, 203.0, 205.0, 204.0)):
        make.make_weighing(database, made.target, mark=mark, mass_g=mass_g)
    running.put_on_shelf(database, made.lesson_id, on_shelf=True, own=False, at=MORNING)
    assert _first(database, made).careful == ""


@pytest.mark.parametrize(
    ("words", "says"),
    [("", True), ("strand CARRY", True), ("year 8", True), ("2 strands", True), ("march 13", True), ("april", False)],
)
def test_words_are_looked_for_everywhere(database: Database, words: str, says: bool) -> None:
    made = _shelved(database, planned_on=date(2025, 3, 13), year_band="Year 8")
    assert _first(database, made).says(words) is says
