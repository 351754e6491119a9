"""What the benches of a class can show."""

import pytest

from app.services.class_power import class_power
from app.services.seating import seat_benches, seats_of
from app.store.database import Database
from tests.make import MORNING, make_lesson, record_of

WORDS = ("Alder", "Hazel", "Birch", "Cedar", "Maple", "Rowan", "Willow")


@pytest.fixture
def database_kind() -> str:
    """Only verbs that are tested on both kinds are used."""
    return "sqlite"


@pytest.mark.parametrize(
    ("designs", "benches", "counts", "found"),
    [("AB", 6, (3, 3), (24, 65, 97)), ("AB", 7, (4, 3), None), ("ABCDEFG", 7, (), None), ("AB", 4, (2, 2), None)],
)
def test_the_row_of_a_class(
    database: Database, designs: str, benches: int, counts: tuple[int, ...], found: tuple[int, ...] | None
) -> None:
    power = class_power(record_of(database, make_lesson(database, designs=designs, benches=WORDS[:benches])))
    assert power.benches == counts
    assert (power.row.found if power.row else None) == found


def test_a_pilot_bench_is_in_no_design_s_figures(database: Database) -> None:
    made = make_lesson(database, benches=WORDS)
    lesson = record_of(database, made)
    seats = seats_of(lesson)
    first = lesson.benches[0].id
    seats[first] = type(seats[first])(word="Alder", design="A", kind="pilot")
    seat_benches(database, lesson, seats, at=MORNING)
    assert class_power(record_of(database, made)).benches == (3, 3)
