"""Look-again notes: the table of cases that the tablet's script answers too, and what holds for any readings."""

import json
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain import tested
from app.domain.checks import look_again, notes_along, notes_of_cord
from app.domain.tested import DIFFERS, Row
from app.domain.told import SEVERITY, BenchFacts, Told
from app.domain.vocabulary import EVENTS, PHASES

CASES = json.loads((Path(__file__).parents[1] / "cases" / "checks.json").read_text(encoding="utf-8"))


def _told(said: dict[str, Any], key: str) -> Told:
    fields: dict[str, Any] = {name: tuple(value) if isinstance(value, list) else value for name, value in said.items()}
    return Told(key=key, **fields)


def _readings(case: dict[str, Any]) -> tuple[list[Told], BenchFacts]:
    rows = [*case["before"], case["new"]]
    return [_told(row, str(place)) for place, row in enumerate(rows)], BenchFacts(**case["bench"])


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_a_reading_is_asked_about_as_the_table_says(case: dict[str, Any]) -> None:
    *before, new = _readings(case)[0]
    notes = look_again(before, new, _readings(case)[1])
    said = [{"note": note.note, "severity": note.severity, "likely_mm": note.likely_mm} for note in notes]
    assert said == case["expect"]


def test_every_rule_on_readings_has_a_case_that_asks() -> None:
    rows = {expected["note"] for case in CASES for expected in case["expect"]}
    assert rows == SEVERITY.keys() - {27, 28, 32}, "27, 28 and 32 are of a cord's measures"


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_a_walk_along_the_cord_asks_what_each_reading_asks(case: dict[str, Any]) -> None:
    told, bench = _readings(case)
    one_by_one = [note for place, new in enumerate(told) for note in look_again(told[:place], new, bench)]
    assert list(notes_along(told, bench)) == one_by_one


def test_the_words_say_what_was_seen() -> None:
    before = [Told(key=str(step), step=step, phase="load", pointer_mm=223.0 + 4 * step) for step in (1, 2)]
    new = Told(key="x", step=3, phase="load", pointer_mm=24)
    (note,) = look_again(before, new, BenchFacts())
    assert note.words == (
        "Last time the pointer was at 231\u00a0mm, now at 24\u00a0mm. Is 24 in centimetres? Then it is 240\u00a0mm."
    )
    assert (note.about, note.likely_mm) == ("x", 240.0)


def test_the_words_keep_to_the_unit_of_the_scale() -> None:
    told = [Told(key=str(step), step=step, phase="load", pointer_mm=mm) for step, mm in ((1, 231), (2, 2350))]
    (note,) = notes_along(told, BenchFacts(unit="cm"))
    assert note.words == (
        "Last time the pointer was at 23.1\u00a0cm, now at 235\u00a0cm. Is 235 in millimetres? Then it is 23.5\u00a0cm."
    )


@pytest.mark.parametrize(
    ("last_mm", "words"),
    [
        (234, "No stretch this time: 234\u00a0mm, then 234\u00a0mm. Is mass 3 really hanging?"),
        (235, "Hardly any stretch this time: 234\u00a0mm, then 235\u00a0mm. Is mass 3 really hanging?"),
        (233, "No stretch this time: 234\u00a0mm, then 233\u00a0mm. Is mass 3 really hanging?"),
    ],
)
def test_a_pointer_that_moved_a_little_is_not_said_to_have_stood_still(last_mm: float, words: str) -> None:
    pointers = [222, 228, 234, last_mm]
    told = [
        Told(key=str(step), step=step, phase="load" if step else "zero", pointer_mm=mm, force_n=1.0 + 2 * step)
        for step, mm in enumerate(pointers)
    ]
    assert [note.words for note in notes_along(told, BenchFacts())] == [words]


def test_three_numbers_for_one_step_are_one_question() -> None:
    told = [
        Told(key=str(mm), step=7, phase="load", pointer_mm=mm, counts=False, differs=True) for mm in (258, 259, 260)
    ]
    (note,) = notes_along(told, BenchFacts())
    assert note.words == "Two numbers for step 7: 258, 259 and 260. Which one did you read?"
    assert note.about == "258"


def _cord(pointers: list[float], **said: Any) -> tested.TestedCord:
    rows = [
        Row(step=step, phase="load" if step else "zero", pointer_mm=mm, mass_g=86.0 + 100 * step)
        for step, mm in enumerate(pointers)
    ]
    return tested.TestedCord(specimen="Alder-1", rows=tuple(rows), gravity_m_per_s2=9.81, **said)


def test_a_cord_of_a_file_names_its_readings_in_words() -> None:
    notes = notes_of_cord(_cord([190, 222, 226, 230, 23.4]))
    assert [(note.note, note.about, note.likely_mm) for note in notes] == [(18, "the zero", None), (1, "step 4", 234)]


def test_a_cord_of_a_file_is_judged_by_its_own_scale() -> None:
    assert notes_of_cord(_cord([300, 296, 292], scale="up")) == ()
    assert [note.note for note in notes_of_cord(_cord([300, 296, 292]))] == [8, 6]
    assert notes_of_cord(_cord([220, 230, 226], scale_division_mm=5.0)) == ()
    assert notes_of_cord(_cord([220, 230, 226], judgement_mm=5.0)) == ()


def test_a_reading_after_the_break_is_asked_about() -> None:
    cord = _cord([218, 222, 226, 230], outcome="broke", fail_mass_g=286.0)
    assert [(note.note, note.about) for note in notes_of_cord(cord)] == [(26, "step 3")]
    assert notes_of_cord(replace(cord, outcome="slipped")) == ()
    assert notes_of_cord(replace(cord, fail_mass_g=None)) == ()


def test_left_out_rows_are_not_asked_about_and_two_numbers_are_once() -> None:
    cord = _cord([218, 222, 226, 23.4])
    out = [*cord.rows[:3], replace(cord.rows[3], left_out="typed wrong")]
    assert notes_of_cord(replace(cord, rows=tuple(out))) == ()
    two = [*cord.rows[:3], *(replace(cord.rows[3], left_out=DIFFERS, pointer_mm=mm) for mm in (229.0, 230.0))]
    assert [(note.note, note.about) for note in notes_of_cord(replace(cord, rows=tuple(two)))] == [(23, "step 3")]
    assert notes_of_cord(replace(cord, rows=tuple(replace(row, left_out="a nick") for row in cord.rows))) == ()


finite = st.floats(allow_nan=False, allow_infinity=False)
some_readings = st.lists(
    st.builds(
        Told,
        key=st.uuids().map(str),
        step=st.integers(0, 8),
        phase=st.sampled_from([*PHASES, *["load"] * 8]),
        turn=st.integers(1, 2),
        pointer_mm=st.one_of(st.integers(210, 260).map(float), finite),
        force_n=st.none() | st.integers(0, 9).map(float) | finite,
        marks=st.none() | st.lists(st.integers(1, 3), max_size=3).map(tuple),
        events=st.lists(st.sampled_from([*EVENTS]), max_size=1).map(tuple),
        events_after=st.lists(st.sampled_from([*EVENTS]), max_size=1).map(tuple),
        waited_s=st.none() | st.floats(0, 60),
        s_since_zero=st.none() | st.floats(-60, 60),
        counts=st.sampled_from([True, True, True, False]),
        differs=st.just(False),
    ),
    max_size=12,
)
some_benches = st.builds(
    BenchFacts,
    way=st.sampled_from(["down", "up"]),
    unit=st.sampled_from(["mm", "cm"]),
    division_mm=st.sampled_from([0.5, 1.0, 5.0]),
    judgement_mm=st.sampled_from([0.0, 0.5]),
    wait_s=st.none() | st.just(20.0),
    drop_mm=st.none() | finite,
    broke_n=st.none() | finite,
    broke_adding=st.booleans(),
)


@given(some_readings, some_benches)
def test_any_readings_get_notes_with_words_and_one_walk_is_enough(told: list[Told], bench: BenchFacts) -> None:
    notes = notes_along(told, bench)
    assert all(note.words and note.severity and note.about for note in notes)
    assert list(notes) == [note for place, new in enumerate(told) for note in look_again(told[:place], new, bench)]


some_pointers = st.lists(st.integers(150, 400), min_size=2, max_size=12)


@given(some_pointers)
def test_the_way_of_the_scale_changes_nothing_but_the_numbers(pointers: list[int]) -> None:
    """But of what their digits say: a tenth, and digits changed over."""
    steps = [(step, float(mm)) for step, mm in enumerate(pointers)]
    down = [Told(key=str(step), step=step, phase="load", pointer_mm=mm, force_n=step + 1.0) for step, mm in steps]
    up = [replace(one, pointer_mm=3000.0 - one.pointer_mm) for one in down]
    asked = [
        [(note.note, note.about) for note in notes_along(told, BenchFacts(way=way))]
        for told, way in ((down, "down"), (up, "up"))
    ]
    digits = {about for notes in asked for row, about in notes if row in (1, 2, 3)}
    assert [pair for pair in asked[0] if pair[1] not in digits] == [pair for pair in asked[1] if pair[1] not in digits]


@given(some_pointers, st.integers(0, 11))
def test_a_reading_that_is_left_out_is_as_if_it_had_not_been(pointers: list[int], place: int) -> None:
    told = [
        Told(key=str(step), step=step, phase="load", pointer_mm=float(mm), force_n=step + 1.0)
        for step, mm in enumerate(pointers)
    ]
    out = min(place, len(told) - 1)
    left = [replace(one, counts=number != out) for number, one in enumerate(told)]
    without = [one for one in told if one is not told[out]]
    skipped = {after.key for before, after in pairwise(without) if after.step > before.step + 1}
    gone = [note for note in notes_along(without, BenchFacts()) if not (note.note == 10 and note.about in skipped)]
    kept = [note for note in notes_along(left, BenchFacts()) if not (note.note == 10 and note.about in skipped)]
    assert kept == gone
