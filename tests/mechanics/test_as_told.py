"""One cord put as the class CSV tells it: what counts as the thickness of its film."""

from typing import Any

import pytest

from app.domain import tested
from app.domain.records import MaterialRecord, Measure
from app.mechanics import as_told
from app.mechanics.seen import seen_of
from tests.mechanics.cords import a_bench, a_design, a_lesson, a_measure, a_specimen

STATED = {"thickness_um": 30.0, "density_kg_m3": 920.0}
WEIGHED = {"sheet_mass_g": 0.23, "sheet_area_mm2": 10_000.0}
STACKED = {"stack_thickness_mm": 0.32, "stack_layers": 16.0}


def told(materials: tuple[MaterialRecord, ...], named: str | None, *measures: Measure) -> tested.TestedCord:
    """One cord of a design that names that sheet, with those measures."""
    cord = a_specimen(measures=measures)
    bench = a_bench(cord)
    lesson = a_lesson(bench, designs=(a_design("A", material_id=named),), materials=materials)
    return as_told.tested_cord(lesson, bench, cord, seen_of(lesson, bench, cord))


def thickness_um(measures: dict[str, float], **sheet: Any) -> float | None:
    """What is told of a cord of one sheet, of whose film that was measured."""
    bag = MaterialRecord(id="bag", name="bag", **sheet)
    return told((bag,), "bag", *(a_measure(name, value) for name, value in measures.items())).film_thickness_um


@pytest.mark.parametrize(
    ("measures", "sheet", "um"),
    [
        ({}, STATED, 30.0),
        (WEIGHED, STATED, 25.0),
        (WEIGHED | STACKED, STATED, 25.0),
        (STACKED, STATED, 20.0),
        (STACKED, {}, 20.0),
        (WEIGHED, {"thickness_um": 30.0}, 30.0),
        ({"sheet_mass_g": 0.23}, STATED, 30.0),
        ({"stack_thickness_mm": 0.32}, STATED, 30.0),
        ({}, {}, None),
    ],
)
def test_film_that_was_measured_goes_before_what_is_stated(
    measures: dict[str, float], sheet: dict[str, float], um: float | None
) -> None:
    """0.23 g over 100 cm2 at 920 kg/m3 are 25 um (the principle of ISO 4591); 16 layers of 0.32 mm are 20 um."""
    assert thickness_um(measures, **sheet) == (None if um is None else pytest.approx(um))


@pytest.mark.parametrize(
    ("sheets", "named", "um"),
    [(1, None, 30.0), (2, None, None), (2, "sheet-2", 60.0), (1, "gone", None), (0, None, None)],
)
def test_a_design_that_names_no_sheet_is_cut_from_the_only_one(
    sheets: int, named: str | None, um: float | None
) -> None:
    materials = tuple(
        MaterialRecord(id=f"sheet-{number}", name="bag", thickness_um=30.0 * number) for number in range(1, sheets + 1)
    )
    assert told(materials, named).film_thickness_um == um


def test_a_thickness_that_no_file_may_tell_is_none() -> None:
    """50 kg on 1 mm2 would be 54 km of film."""
    assert thickness_um({"sheet_mass_g": 50_000.0, "sheet_area_mm2": 1.0}, **STATED) == 30.0
