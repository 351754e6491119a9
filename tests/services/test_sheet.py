"""A sheet read from a lesson and saved again is that lesson; what is written into it is the plan."""

from dataclasses import replace

import pytest

from app.domain.errors import InvalidEntry
from app.domain.first_plan import first_plan
from app.services.sheet import save_sheet, sheet_of
from app.store.database import Database
from tests.make import MORNING, join, make_lesson, make_plan, make_reading, record_of


def test_saved_as_it_was_read_nothing_changes(database: Database) -> None:
    made = make_lesson(database, plan=replace(first_plan(), lesson={**first_plan().lesson, "title": "T"}))
    before = record_of(database, made)
    assert save_sheet(database, before, sheet_of(before), at=MORNING) == before.head
    assert record_of(database, made) == before


def test_a_number_on_the_sheet_stands_on_every_design(database: Database) -> None:
    made = make_lesson(database)
    lesson = record_of(database, made)
    assert sheet_of(lesson).strip_width_mm is None
    save_sheet(database, lesson, replace(sheet_of(lesson), strip_width_mm=25.0), at=MORNING)
    assert {design.strip_width_mm for design in record_of(database, made).designs} == {25.0}


def test_designs_that_differ_in_length_stay_so_while_the_blank_is_blank(database: Database) -> None:
    plan = make_plan()
    designs = [replace(one, free_length_mm=100.0 * place) for place, one in enumerate(plan.designs, start=1)]
    made = make_lesson(database, plan=replace(plan, designs=designs))
    lesson = record_of(database, made)
    sheet = sheet_of(lesson)
    assert sheet.free_length_mm is None
    save_sheet(database, lesson, replace(sheet, hanger_name="bucket"), at=MORNING)
    assert [one.free_length_mm for one in record_of(database, made).designs] == [100.0, 200.0]


def test_what_is_kept_comes_changes_and_goes(database: Database) -> None:
    made = make_lesson(database)
    for kept in ([("sheet", "fleece"), ("who pulls", "the same pair")], [("sheet", "film"), ("who pulls", "")]):
        lesson = record_of(database, made)
        save_sheet(database, lesson, replace(sheet_of(lesson), kept=kept), at=MORNING)
    said = {one.name: one.value_words for one in record_of(database, made).variables if one.role == "kept"}
    assert said["sheet"] == "film"
    assert "who pulls" not in said


def test_too_few_benches_name_the_field(database: Database) -> None:
    made = make_lesson(database)
    for word in ("Alder", "Hazel"):
        make_reading(database, join(database, made, bench=word))
    lesson = record_of(database, made)
    with pytest.raises(InvalidEntry) as refused:
        save_sheet(database, lesson, replace(sheet_of(lesson), bench_count=1), at=MORNING)
    assert refused.value.faults[0].field == "bench_count"
