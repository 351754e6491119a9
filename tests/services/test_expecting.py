"""What cords may hold before they hang, and what the ladder is good for then."""

import itertools
from dataclasses import replace
from typing import Any

import pytest

from app.domain.records import LessonRecord, MaterialRecord
from app.services import lessons
from app.services.balance import save_weighings
from app.services.expecting import HIGH, LOW, Expected, expected, ladder_plan, typed
from app.services.running import put_on_shelf
from app.store.database import Database
from tests.make import (
    MORNING,
    MadeLesson,
    join,
    make_ending,
    make_lesson,
    make_readings,
    make_teacher,
    new_id,
    record_of,
)
from tests.mechanics.cords import a_lesson

FILM = {"thickness_um": 15.0, "strength_low_mpa": 25.0, "strength_high_mpa": 60.0}


@pytest.fixture
def database_kind() -> str:
    """Only verbs that are tested on both kinds are used."""
    return "sqlite"


def planned(lesson: LessonRecord, low: Any, high: Any) -> LessonRecord:
    return replace(lesson, planning={LOW: low, HIGH: high})


def filmed(lesson: LessonRecord, **sheet: Any) -> LessonRecord:
    """The lesson cut from that film, its three strips 20 mm wide and plaited."""
    film = FILM | sheet
    designs = tuple(replace(one, strip_width_mm=20.0, lay_up="plait_flat", strands=3) for one in lesson.designs)
    return replace(lesson, designs=designs, materials=(MaterialRecord(id="film", name="bag film", **film),))


def broken(database: Database, made: MadeLesson) -> LessonRecord:
    """Alder broke under the last of four rungs at 10 m/s2 without hanger: between 4.08 and 6.12 N."""
    bench = join(database, made)
    make_readings(database, bench, (218, 222, 224, 227))
    make_ending(database, bench, fail_step=4)
    return record_of(database, made)


def test_nothing_is_expected_of_a_plan_that_says_nothing(database: Database) -> None:
    plan = ladder_plan(database, record_of(database, make_lesson(database)))
    assert (plan.expected, plan.reach) == (None, None)


def test_the_film_says_a_range(database: Database) -> None:
    """The worked example of our design: 15 um, 25 to 60 MPa, three 20 mm strips plaited, knots: 10 to 36 N."""
    found = expected(database, filmed(record_of(database, make_lesson(database))))
    assert found == Expected(low_n=pytest.approx(9.5625), high_n=pytest.approx(35.91), how="film")


def test_no_range_while_something_of_the_film_is_missing(database: Database) -> None:
    lesson = record_of(database, make_lesson(database))
    for name, value in itertools.product(FILM, (None, 0.0, -5.0)):
        assert expected(database, filmed(lesson, **{name: value})) is None
    strips = filmed(lesson)
    one_unknown = (strips.designs[0], replace(strips.designs[1], strip_width_mm=None))
    assert expected(database, replace(strips, designs=one_unknown)) is None


def test_cords_that_broke_say_more_than_the_film(database: Database) -> None:
    found = expected(database, filmed(broken(database, make_lesson(database, gravity_m_per_s2=10.0))))
    assert found == Expected(low_n=pytest.approx(4.08), high_n=pytest.approx(6.12), how="here")


def test_a_copy_expects_what_happened_in_the_lesson_before(database: Database) -> None:
    made = make_lesson(database, gravity_m_per_s2=10.0)
    broken(database, made)
    copy = lessons.copy_lesson(database, made.teacher.teacher_id, made.lesson_id, at=MORNING)
    found = expected(database, lessons.lesson_record(database, copy.lesson_id))
    assert found == Expected(low_n=pytest.approx(4.08), high_n=pytest.approx(6.12), how="earlier")


def test_another_teacher_s_lesson_is_looked_at_only_on_the_shelf(database: Database) -> None:
    made = make_lesson(database, gravity_m_per_s2=10.0)
    broken(database, made)
    other = make_teacher(database, name="fern")
    copy = lessons.copy_lesson(database, other.teacher_id, made.lesson_id, at=MORNING)
    ours = lessons.lesson_record(database, copy.lesson_id)
    assert expected(database, ours) is None
    put_on_shelf(database, made.lesson_id, on_shelf=True, own=False, at=MORNING)
    assert expected(database, ours) is not None


def test_what_is_typed_goes_before_all_else(database: Database) -> None:
    found = expected(database, planned(broken(database, make_lesson(database)), 12, 20.5))
    assert found == Expected(low_n=12.0, high_n=20.5, how="typed")


@pytest.mark.parametrize(
    ("low", "high"),
    [("12", 20), (None, 20), (12, None), (True, 20), (20, 12), (-1, 20), (12, 10**400), ([], {}), (1e-9, 20)],
)
def test_what_makes_no_range_is_passed_over(low: Any, high: Any) -> None:
    assert typed(planned(a_lesson(), low, high)) is None


def test_the_worst_off_bench_counts(database: Database) -> None:
    """Ten rungs of 100 g at 10 m/s2: 1 N each. Under 8.5 N come the zero and 8 loads; Hazel's pail of 300 g costs 3."""
    made = make_lesson(database, rungs_g=[100.0] * 10, gravity_m_per_s2=10.0)
    lesson = planned(record_of(database, made), 8.5, 8.7)
    plan = ladder_plan(database, lesson)
    assert plan.reach is not None
    assert (plan.reach.readings_before_low, plan.reach.top_n) == (9, pytest.approx(10))
    assert plan.fall_j == pytest.approx(1.0)
    hazel = lesson.benches[1].id
    save_weighings(database, lesson, {0: 300.0}, bench_id=hazel, division_g=1.0, entry_id=new_id(), at=MORNING)
    plan = ladder_plan(database, planned(record_of(database, made), 8.5, 8.7))
    assert plan.reach is not None
    assert plan.reach.readings_before_low == 6
    assert plan.fall_j == pytest.approx(1.3)


def test_no_reach_while_a_mass_is_not_known(database: Database) -> None:
    lesson = record_of(database, make_lesson(database, rungs_g=[100.0, None]))
    plan = ladder_plan(database, planned(lesson, 8.5, 8.7))
    assert plan.expected is not None
    assert (plan.reach, plan.fall_j) == (None, None)
