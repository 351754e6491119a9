"""Designs come and go, and the benches are shared out over them."""

from collections import Counter

import pytest

from app.domain.errors import InUse
from app.services.designing import add_design, shared_by_seed, take_design_away
from app.services.planning import share_benches_out
from app.services.seating import Seat, seat_benches
from app.store.database import Database
from tests.make import MORNING, join, make_lesson, make_plan, make_reading, record_of

WORDS = ["Alder", "Hazel", "Birch", "Cedar", "Maple", "Rowan"]


def letters(database: Database, made: object) -> Counter[str]:
    lesson = record_of(database, made)  # type: ignore[arg-type]
    return Counter(lesson.design(bench.design_id).letter for bench in lesson.benches)


def test_a_new_design_gets_its_share_of_the_benches(database: Database) -> None:
    made = make_lesson(database, plan=make_plan(designs="A", benches=WORDS))
    assert add_design(database, record_of(database, made), at=MORNING) == "B"
    assert letters(database, made) == {"A": 3, "B": 3}
    assert add_design(database, record_of(database, made), at=MORNING) == "C"
    assert letters(database, made) == {"A": 2, "B": 2, "C": 2}
    assert shared_by_seed(record_of(database, made))


def test_benches_swapped_by_hand_stay_when_a_design_comes(database: Database) -> None:
    made = make_lesson(database, benches=WORDS)
    lesson = record_of(database, made)
    share_benches_out(database, lesson.id, seed=7, at=MORNING)
    lesson = record_of(database, made)
    first = lesson.benches[0]
    other = "B" if lesson.design(first.design_id).letter == "A" else "A"
    seat_benches(database, lesson, {first.id: Seat(word=first.word, design=other, kind="class")}, at=MORNING)
    before = letters(database, made)
    assert not shared_by_seed(record_of(database, made))
    add_design(database, record_of(database, made), at=MORNING)
    assert letters(database, made) == before


def test_a_design_taken_away_leaves_its_benches_to_the_others(database: Database) -> None:
    made = make_lesson(database, designs="ABC", benches=WORDS)
    take_design_away(database, record_of(database, made), "B", at=MORNING)
    left = letters(database, made)
    assert sorted(left) == ["A", "C"]
    assert sum(left.values()) == len(WORDS)


def test_the_yardstick_cord_and_a_design_in_use_stay(database: Database) -> None:
    made = make_lesson(database)
    with pytest.raises(InUse, match="yardstick"):
        take_design_away(database, record_of(database, made), "A", at=MORNING)
    make_reading(database, join(database, made, bench="Hazel"))
    with pytest.raises(InUse, match="design B already"):
        take_design_away(database, record_of(database, made), "B", at=MORNING)
