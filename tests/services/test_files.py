"""The class CSV of a lesson, against the outside contract's own sample row and the invented lesson."""

import csv
import io
from dataclasses import replace
from datetime import timedelta
from itertools import groupby

import pytest

from app.domain.records import LessonRecord, MaterialRecord, Reading
from app.mechanics.classwork import class_picture
from app.services.files import class_csv
from tests.mechanics.cords import (
    ZERO_AT,
    a_bench,
    a_design,
    a_ladder,
    a_lesson,
    a_measure,
    a_reading,
    a_ruling,
    a_specimen,
    an_ending,
    an_event,
    changed,
    one_cord,
    readings_of,
    weighed,
)
from tests.mechanics.demo_class import CLEAN_MM, POUCHES_G, demo_class

SAMPLE = (
    "Alder-1,A,Alder,1,4,load,1,487,0.6454972243679028,229,,,20,,class,300,3,1,25,,,,,1.479,,broke,2891,,,9.81,down,1,"
    "0.5,,broke_adding,at_knot,clean,1 2 3 4,2026-03-12T09:41:20Z,180,229,,,"
    "6f1d4c1e-0b7a-4c55-9d0e-3a1f5b8c2e77,4.77747,11,0.03666666666666667"
)
"""Alder's step 4 as section 9 of the contract prints it, the cell `first_typed` as it stands there."""


def csv_of(lesson: LessonRecord) -> str:
    return class_csv(class_picture(lesson))


def rows_of(lesson: LessonRecord) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(csv_of(lesson), newline="")))


def alder() -> LessonRecord:
    readings = list(readings_of(CLEAN_MM["Alder"]))
    readings[4] = replace(
        readings[4],
        entry_id="6f1d4c1e-0b7a-4c55-9d0e-3a1f5b8c2e77",
        received_at=ZERO_AT + timedelta(seconds=200),
        age_s=20.0,
    )
    cord = a_specimen(
        readings=tuple(readings),
        measures=(a_measure("free_length_mm", 300.0),),
        endings=(an_ending("broke_adding", 16, place="at_knot", look="clean"),),
    )
    return a_lesson(
        a_bench(cord),
        designs=(a_design(strands=3, layers=1, strip_width_mm=25.0, linear_density_g_per_m=1.479),),
        rungs=a_ladder(*[100.0] * 4, *[200.0] * 14),
        weighings=weighed(86, *(float(text) for text in POUCHES_G["Alder"].split())),
        gravity_m_per_s2=9.81,
    )


def test_alders_step_4_is_the_sample_row_of_the_contract() -> None:
    assert csv_of(alder()).split("\r\n")[5] == SAMPLE


def test_every_standing_reading_of_the_invented_lesson_is_a_row_as_it_was_typed() -> None:
    lesson = demo_class()
    rows = rows_of(lesson)
    typed = {
        reading.entry_id: reading.pointer_typed
        for bench in lesson.benches
        for cord in bench.specimens
        for reading in cord.readings
    }
    replaced = {
        reading.replaces
        for bench in lesson.benches
        for cord in bench.specimens
        for reading in cord.readings
        if reading.replaces
    }
    assert {row["entry_id"]: row["pointer_typed"] for row in rows} == {
        entry_id: text for entry_id, text in typed.items() if entry_id not in replaced
    }
    assert len(rows) == len(typed) - len(replaced)


def test_benches_come_in_order_then_cords_then_time() -> None:
    rows = rows_of(demo_class())
    assert [name for name, _ in groupby(row["specimen"] for row in rows)] == [
        f"{word}-{number}" for word in CLEAN_MM for number in ((1, 2) if word == "Willow" else (1,))
    ]
    juniper = [row for row in rows if row["specimen"] == "Juniper-1"]
    assert [row["step"] for row in juniper] == ["0", "1", "2", "3", "4", "5", "6", "7", "7", "8", "9", "10", "11"]


def test_what_was_typed_later_stands_lower_whatever_its_step() -> None:
    zero, first, second = readings_of("218 222 224")
    late = replace(zero, received_at=second.received_at + timedelta(minutes=5))
    rows = rows_of(one_cord(late, first, second))
    assert [row["step"] for row in rows] == ["1", "2", "0"]
    assert [row["extension_mm"] for row in rows] == ["4", "6", "0"]


def test_what_the_incidents_leave_in_the_file() -> None:
    rows = rows_of(demo_class())
    said = {(row["specimen"], row["step"], row["phase"]): row for row in rows}
    assert said["Willow-1", "0", "zero"]["left_out"] == "nick in one strip"
    assert said["Willow-1", "0", "zero"]["fail_mass_g"] == "185"
    assert [row["left_out"] for row in rows if row["specimen"] == "Juniper-1" and row["step"] == "7"] == [
        "",
        "ruled out",
    ]
    assert said["Larch-1", "3", "load"]["marks_hung"] == "1 2 5"
    assert said["Larch-1", "3", "load"]["events"] == "other_mass"
    assert said["Cedar-1", "6", "load"]["events"] == "knot_slipped"
    assert said["Hazel-1", "7", "load"]["events_after"] == "pointer_moved"
    assert said["Hazel-1", "8", "load"]["extension_mm"] == "33"
    assert said["Rowan-1", "16", "load"]["events_after"] == "strand_went"
    assert said["Birch-1", "0", "zero"]["bench_kind"] == "catch_up"
    assert said["Birch-1", "0", "zero"]["mass_g"] == "112"
    assert said["Maple-1", "18", "load"]["outcome"] == "held"
    assert said["Maple-1", "18", "load"]["fail_mass_g"] == ""
    mended = said["Elder-1", "5", "load"]
    assert (mended["first_typed"], mended["reason"], mended["pointer_mm"]) == ("21.7", "unit", "217")


def row_of(step: int, lesson: LessonRecord) -> dict[str, str]:
    return next(row for row in rows_of(lesson) if row["step"] == str(step))


def test_a_mended_reading_keeps_the_time_when_it_was_taken() -> None:
    zero, first = readings_of("218 22.2")
    lesson = one_cord(zero, first, changed(first, pointer_mm=222.0, pointer_typed="222"))
    assert row_of(1, lesson)["taken_at"] == "2026-03-12T09:39:05Z"
    assert row_of(1, lesson)["s_since_zero"] == "45"


@pytest.mark.parametrize(
    ("second", "cells"), [(222, ["", "matched"]), (223, ["differs", "differs"])], ids=["same number", "two numbers"]
)
def test_two_tablets_for_one_step_are_two_rows(second: float, cells: list[str]) -> None:
    row: tuple[Reading, ...] = (*readings_of("218 222"), a_reading(1, second))
    assert [found["left_out"] for found in rows_of(one_cord(*row)) if found["step"] == "1"] == cells


def test_events_of_the_whole_lesson_are_in_no_cords_cells() -> None:
    lesson = replace(one_cord(*readings_of("218 222")), events=(an_event("pause", None, bench_id=None),))
    assert {row["events"] + row["events_after"] for row in rows_of(lesson)} == {""}


def test_what_is_said_of_a_cord_comes_from_its_measures_else_from_the_design() -> None:
    measures = (
        a_measure("cord_mass_g", 0.6),
        a_measure("cord_length_mm", 400.0),
        a_measure("strip_length_mm", 450.0),
        a_measure("strands", 4.0),
        a_measure("strip_width_mm", 24.0),
        a_measure("strip_width_mm", 26.0, place=2),
    )
    design = a_design(strands=3, layers=2, strip_width_mm=30.0, free_length_mm=310.0, level=3.0, material_id="film")
    lesson = one_cord(*readings_of("218"), measures=measures)
    lesson = replace(
        lesson,
        designs=(replace(design, linear_density_g_per_m=9.0),),
        materials=(MaterialRecord(id="film", name="bag", thickness_um=40.0),),
        rulings=(a_ruling("straight_part", "cord", detail={"first_step": 2, "last_step": 7}),),
    )
    row = row_of(0, lesson)
    expected = {
        "gauge_length_mm": "310", "strands": "4", "layers": "2", "strip_width_mm": "25", "strip_length_mm": "450",
        "film_thickness_um": "40", "cord_mass_g": "0.6", "cord_length_mm": "400", "linear_density_g_per_m": "1.5",
        "level": "3", "straight_first_step": "2", "straight_last_step": "7",
    }  # fmt: skip
    assert {name: row[name] for name in expected} == expected


def test_a_remark_that_would_start_a_formula_gets_an_apostrophe() -> None:
    lesson = one_cord(*readings_of("218"), endings=(an_ending("broke_adding", 1, remark='=cmd("x"),1'),))
    assert row_of(0, lesson)["remark"] == '\'=cmd("x"),1'


def test_what_cannot_be_worked_out_is_blank() -> None:
    lesson = replace(one_cord(a_reading(1, 222)), rungs=a_ladder(None), weighings=())
    row = row_of(1, lesson)
    assert [row[name] for name in ("mass_g", "mass_u_g", "force_N", "extension_mm", "strain", "s_since_zero")] == [
        ""
    ] * 6


def test_a_lesson_without_readings_is_a_header_alone() -> None:
    assert csv_of(a_lesson(a_bench(a_specimen()))).count("\r\n") == 1
