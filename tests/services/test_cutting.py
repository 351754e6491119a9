"""The sheet that cords are cut from: strips, take-up, how long a cord may be."""

from dataclasses import replace
from typing import Any

import pytest

from app.domain.records import LessonRecord, MaterialRecord
from app.mechanics.planning import Cut
from app.services.cutting import cords_of, knot_mm, save_cutting
from app.store.database import Database
from tests.make import MORNING, make_lesson, record_of
from tests.mechanics.cords import a_bench, a_design, a_lesson, a_measure, a_specimen

BAG = {"form": "tube", "flat_width_mm": 380.0, "height_mm": 420.0, "seams": "bottom"}


@pytest.fixture
def database_kind() -> str:
    """Only verbs that are tested on both kinds are used."""
    return "sqlite"


def cut(*, lay_up: str | None = "plait_flat", planning: dict[str, Any] | None = None, **sheet: Any) -> LessonRecord:
    """Two designs, two strips and three, 20 mm wide, of a bag."""
    facts: dict[str, Any] = {"strip_width_mm": 20.0, "free_length_mm": 300.0, "lay_up": lay_up}
    bag = MaterialRecord(id="bag", name="bag", **(BAG | sheet))
    designs = (a_design("A", strands=2, **facts), a_design("B", strands=3, **facts))
    return a_lesson(designs=designs, materials=(bag,), planning=planning or {})


def test_a_bag_as_our_design_works_it_out() -> None:
    """21 strips of 760 mm, 38 of 420 mm; 300 mm of cord need 565 mm; lengthwise strips allow 173 whole mm at most."""
    lesson = cut()
    two, three = cords_of(lesson)
    assert two.cuts is not None
    assert (two.cuts.crosswise, two.cuts.lengthwise) == (Cut(count=21, strip_mm=760), Cut(count=38, strip_mm=420))
    assert (two.take_up_factor, two.take_up_how, two.strip_mm) == (1.15, "assumed", pytest.approx(565))
    assert [int(one) for one in two.longest_mm] == [469, 173]
    assert (two.cords, three.cords) == ((10, 19), (7, 12))
    assert two.lengths == three.lengths == (1, 0)
    assert knot_mm(lesson) == (110.0, True)


def test_what_is_typed_goes_before_what_is_assumed() -> None:
    lesson = cut(planning={"take_up_factor": 1.25, "knot_strip_mm": 50.0})
    assert knot_mm(lesson) == (50.0, False)
    assert (cords_of(lesson)[0].take_up_how, cords_of(lesson)[0].strip_mm) == ("typed", pytest.approx(475))


def test_what_was_measured_goes_before_what_is_typed() -> None:
    """Strips of 600 mm made a cord of 500 mm: 1.2; another design's cords say nothing of it."""
    measures = (a_measure("strip_length_mm", 600), a_measure("cord_length_mm", 500))
    lesson = replace(cut(planning={"take_up_factor": 1.5}), benches=(a_bench(a_specimen(measures=measures)),))
    assert [(one.take_up_factor, one.take_up_how) for one in cords_of(lesson)] == [
        (pytest.approx(1.2), "measured"),
        (1.5, "typed"),
    ]


@pytest.mark.parametrize("cord_mm", [620, None])
def test_a_cord_longer_than_its_strips_measures_no_take_up(cord_mm: float | None) -> None:
    lengths = {"strip_length_mm": 600, "cord_length_mm": cord_mm}
    measures = tuple(a_measure(name, mm) for name, mm in lengths.items() if mm is not None)
    lesson = replace(cut(), benches=(a_bench(a_specimen(measures=measures)),))
    assert cords_of(lesson)[0].take_up_how == "assumed"


@pytest.mark.parametrize(
    ("lay_up", "factor"), [("strip", 1.0), ("bundle", 1.0), ("twist", 1.04), ("plait_round", 1.15), (None, 1.15)]
)
def test_what_is_assumed_of_a_lay_up(lay_up: str | None, factor: float) -> None:
    assert cords_of(cut(lay_up=lay_up))[0].take_up_factor == factor


def test_a_flat_sheet() -> None:
    cuts = cords_of(cut(form="sheet"))[0].cuts
    assert cuts is not None
    assert (cuts.crosswise, cuts.lengthwise) == (Cut(count=21, strip_mm=380), Cut(count=19, strip_mm=420))


def test_a_strip_that_is_long_enough_counts_twice() -> None:
    """1500 mm hold two of the 565 mm that a cord needs; 5 strips make 10 lengths, for 5 cords of two and 3 of three."""
    two, three = cords_of(cut(form="sheet", flat_width_mm=1500.0, height_mm=100.0))
    assert (two.lengths[0], two.cords[0], three.cords[0]) == (2, 5, 3)
    assert int(two.longest_mm[0]) == 1113


def test_while_no_length_is_planned_whole_strips_are_counted() -> None:
    lesson = cut()
    lesson = replace(lesson, designs=tuple(replace(one, free_length_mm=None) for one in lesson.designs))
    two = cords_of(lesson)[0]
    assert (two.strip_mm, two.lengths, two.cords) == (None, (), (10, 19))


@pytest.mark.parametrize("sheet", [{"height_mm": None}, {"flat_width_mm": 0.0}, {"height_mm": -420.0}])
def test_nothing_is_cut_from_a_sheet_without_a_size(sheet: dict[str, Any]) -> None:
    found = cords_of(cut(**sheet))[0]
    assert (found.cuts, found.longest_mm, found.cords) == (None, (), ())


def test_a_sheet_too_low_for_one_strip_allows_no_cord() -> None:
    found = cords_of(cut(height_mm=15.0))[0]
    assert (found.longest_mm[0], found.cords[0]) == (0.0, 0)


@pytest.mark.parametrize("odd", ["110", True, -5, 1e9, 10**400, [], {"mm": 110}])
def test_what_can_t_be_a_length_in_a_plan_from_outside_is_passed_over(odd: Any) -> None:
    lesson = cut(planning={"knot_strip_mm": odd, "take_up_factor": odd})
    assert knot_mm(lesson) == (110.0, True)
    assert cords_of(lesson)[0].take_up_how == "assumed"


def test_the_sheet_is_kept_and_what_is_emptied_is_assumed_again(database: Database) -> None:
    made = make_lesson(database)
    save_cutting(database, record_of(database, made), sheet=BAG, planning={"knot_strip_mm": 50.0}, at=MORNING)
    lesson = record_of(database, made)
    assert (lesson.materials[0].height_mm, knot_mm(lesson)) == (420.0, (50.0, False))
    assert save_cutting(database, lesson, sheet=BAG, planning={}, at=MORNING) == lesson.head
    save_cutting(database, lesson, sheet=BAG, planning={"knot_strip_mm": None}, at=MORNING)
    assert knot_mm(record_of(database, made)) == (110.0, True)
