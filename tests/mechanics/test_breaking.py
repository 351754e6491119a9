"""Breaking forces as intervals."""

import random
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.tested import Row
from app.mechanics.breaking import (
    FAIL_UNKNOWN,
    NO_BRACKET,
    NO_END_COUNTS,
    NOT_HEAVIER,
    NOTHING_READ,
    TOUCHED_TRAY,
    Bracket,
    bracket_of,
    bracket_with_knots,
    median_bracket,
)
from app.mechanics.classwork import class_picture
from tests.mechanics.cords import (
    a_bench,
    a_ladder,
    a_lesson,
    a_reading,
    a_ruling,
    a_specimen,
    an_ending,
    one_cord,
    picture_of,
    readings_of,
)
from tests.mechanics.told import a_cord, a_row, rows_of

ROW = "200 210 220 230 240"
"""Zero and four steps; in these lessons step k pulls with k + 1 newtons."""


def ends_of(bracket: Bracket) -> tuple[float | None, float | None, str | None]:
    return bracket.low_n, bracket.high_n, bracket.why


def found(*rows: Row, **more: Any) -> tuple[float | None, float | None, str | None]:
    return ends_of(bracket_of(a_cord(*rows, **more)))


@pytest.mark.parametrize(
    ("kind", "fail_step", "low", "high"),
    [
        ("broke_adding", 5, 5, 6),
        ("broke_waiting", 4, 4, 5),
        ("broke_adding", None, 5, 6),
        ("broke_adding", 8, 5, 9),
        ("broke_adding", 1, 1, 2),
        ("broke_adding", 0, 0, 1),
        ("broke_returning", None, 5, None),
        ("did_not_break", None, 5, None),
        ("touched_tray", 3, 3, None),
        ("touched_tray", None, 5, None),
        ("knot_undone", 5, 5, None),
        ("out_of_time", None, 5, None),
        ("stopped_for_safety", None, 5, None),
    ],
)
def test_each_way_to_end_gives_its_interval(kind: str, fail_step: int | None, low: float, high: float | None) -> None:
    lesson = one_cord(*readings_of(ROW), endings=(an_ending(kind, fail_step),))
    assert ends_of(picture_of(lesson).break_bracket) == (low, high, None)


def test_no_end_and_two_ends_say_why() -> None:
    two = (an_ending("broke_adding", 5), an_ending("broke_adding", 4))
    assert ends_of(picture_of(one_cord(*readings_of(ROW))).break_bracket) == (None, None, NO_END_COUNTS)
    assert ends_of(picture_of(one_cord(*readings_of(ROW), endings=two)).break_bracket) == (None, None, NO_END_COUNTS)
    ruled = one_cord(*readings_of(ROW), endings=two, rulings=(a_ruling("counts", two[1].entry_id),))
    assert ends_of(picture_of(ruled).break_bracket) == (4, 5, None)


def test_nothing_read_holds_nothing() -> None:
    unread = one_cord(endings=(an_ending("did_not_break"),))
    assert ends_of(picture_of(unread).break_bracket) == (None, None, NOTHING_READ)


def test_a_load_without_a_mass_leaves_that_end_open() -> None:
    lesson = one_cord(*readings_of(ROW), endings=(an_ending("broke_adding", 11),))
    assert ends_of(picture_of(lesson).break_bracket) == (5, None, FAIL_UNKNOWN)
    unknown = replace(lesson, rungs=a_ladder(100.0, None, 100.0), weighings=())
    broke = replace(unknown, benches=one_cord(*readings_of("1"), endings=(an_ending("broke_adding", 3),)).benches)
    assert ends_of(picture_of(broke).break_bracket) == (0, None, FAIL_UNKNOWN)


def test_what_hung_was_held_whether_its_reading_counts_or_not() -> None:
    row = (*rows_of("200 210"), a_row(2, 220, left_out="differs"), a_row(3, 230, left_out="bumped"))
    assert found(*row, outcome="broke", fail_mass_g=500.0) == (4, 5, None)
    assert found(*row, outcome="held") == (2, None, None)


@pytest.mark.parametrize(("phase", "low"), [("later", 4), ("hung_again", 4), ("unload", 3), ("return", 3)])
def test_only_what_was_hung_on_the_way_up_was_held_by_a_cord_that_broke(phase: str, low: float) -> None:
    row = (*rows_of("200 210 220"), a_row(3, 230, phase=phase, mass_g=400.0))
    assert found(*row, outcome="broke", fail_mass_g=500.0) == (low, 5, None)


def test_what_stood_on_the_tray_was_not_held() -> None:
    row = (*rows_of("200 210"), a_row(2, 220, left_out=TOUCHED_TRAY))
    assert found(*row, outcome="broke", fail_mass_g=400.0) == (2, 4, None)
    assert found(*row, outcome="stopped") == (2, None, None)


def test_a_reading_at_the_load_it_failed_under_was_not_held() -> None:
    """It broke while that load hung, after its reading."""
    assert found(*rows_of(ROW), outcome="broke", fail_mass_g=500.0) == (4, 5, None)


def test_nothing_lighter_than_what_it_failed_under_is_nothing_held() -> None:
    assert found(a_row(0, 200), outcome="broke", fail_mass_g=100.0) == (0, 1, None)
    assert found(a_row(0, 200, mass_g=None), outcome="broke", fail_mass_g=100.0) == (0, 1, None)
    assert found(a_row(0, 200, mass_g=0.0), outcome="broke", fail_mass_g=0.0) == (0, None, NOT_HEAVIER)


def test_without_any_mass_nothing_is_known() -> None:
    unknown = a_row(0, 200, mass_g=None)
    assert found(unknown, outcome="broke") == (None, None, FAIL_UNKNOWN)
    assert found(unknown, outcome="held") == (None, None, NOTHING_READ)


def test_of_a_cord_left_out_the_readings_that_only_went_with_it_are_used() -> None:
    row = (*rows_of("200 210 220", left_out="nick"), a_row(3, 230, left_out="bumped"))
    assert found(*row, outcome="held") == (3, None, None)


def test_a_knot_that_slipped_is_a_break_of_the_cord_with_its_knots() -> None:
    slipped = a_cord(*rows_of(ROW), outcome="slipped", fail_mass_g=600.0)
    assert ends_of(bracket_of(slipped)) == (5, None, None)
    assert ends_of(bracket_with_knots(slipped)) == (5, 6, None)
    assert ends_of(bracket_with_knots(replace(slipped, fail_mass_g=None))) == (5, None, FAIL_UNKNOWN)


@pytest.mark.parametrize("outcome", ["broke", "held", "stopped", None])
def test_every_other_end_is_the_same_with_knots(outcome: str | None) -> None:
    cord = a_cord(*rows_of(ROW), outcome=outcome, fail_mass_g=600.0)
    assert bracket_with_knots(cord) == bracket_of(cord)


def test_force_is_mass_times_gravity_over_a_thousand_in_that_order() -> None:
    cord = a_cord(a_row(0, 200, mass_g=2687.0), outcome="broke", fail_mass_g=2891.0, gravity_m_per_s2=9.81)
    assert ends_of(bracket_of(cord)) == (2687.0 * 9.81 / 1000, 2891.0 * 9.81 / 1000, None)


def test_a_touched_tray_leaves_out_what_came_from_there_on_unless_put_back() -> None:
    row = readings_of(ROW)
    end = (an_ending("touched_tray", 3),)
    points = picture_of(one_cord(*row, endings=end)).points
    assert [point.left_out for point in points] == [None, None, None, TOUCHED_TRAY, TOUCHED_TRAY]
    assert [point.counts for point in points] == [True, True, True, False, False]
    back = picture_of(one_cord(*row, endings=end, rulings=(a_ruling("put_back", row[3].entry_id),)))
    assert [point.left_out for point in back.points][3:] == [None, TOUCHED_TRAY]


def test_left_out_readings_hold_nothing() -> None:
    row = readings_of(ROW)
    out = (a_ruling("left_out", row[4].entry_id, reason="bumped"),)
    assert picture_of(one_cord(*row, endings=(an_ending("out_of_time"),), rulings=out)).break_bracket.low_n == 4


def test_two_numbers_for_a_step_hold_nothing_until_one_counts() -> None:
    row = (*readings_of(ROW), a_reading(4, 241))
    end = (an_ending("out_of_time"),)
    assert picture_of(one_cord(*row, endings=end)).break_bracket.low_n == 4
    said = (a_ruling("counts", row[5].entry_id),)
    assert picture_of(one_cord(*row, endings=end, rulings=said)).break_bracket.low_n == 5


@pytest.mark.parametrize("about", ["cord", "ending"])
def test_a_left_out_cord_counts_as_an_early_break_when_the_teacher_says_so(about: str) -> None:
    end = an_ending("broke_adding", 1)
    out = a_ruling("left_out", "cord", reason="nick", about_table="specimen")
    lesson = one_cord(a_reading(0, 229), endings=(end,), rulings=(out,))
    assert class_picture(lesson).designs[0].brackets == ()
    sound = a_ruling("sound_break", "cord" if about == "cord" else end.entry_id)
    counted = class_picture(replace(lesson, rulings=(out, sound)))
    assert [ends_of(bracket) for bracket in counted.designs[0].brackets] == [(1, 2, None)]
    assert counted.specimens[0].left_out is None


def test_pilot_benches_are_in_no_designs_figures() -> None:
    lesson = one_cord(*readings_of(ROW), endings=(an_ending("broke_adding", 5),))
    pilot = replace(lesson, benches=(replace(lesson.benches[0], kind="pilot"),))
    assert class_picture(pilot).designs[0].specimens == 0
    assert ends_of(class_picture(pilot).designs[0].median) == (None, None, NO_BRACKET)
    assert len(class_picture(pilot).specimens) == 1


def test_a_broken_cord_whose_last_mass_is_not_known_is_not_unbroken() -> None:
    lesson = one_cord(*readings_of(ROW), endings=(an_ending("broke_adding", 11),))
    assert class_picture(lesson).designs[0].unbroken == 0


def test_a_cord_without_any_entry_is_not_shown() -> None:
    assert class_picture(a_lesson(a_bench(a_specimen()))).specimens == ()


def a_bracket(low: float | None, high: float | None) -> Bracket:
    return Bracket(low_n=low, high_n=high)


@pytest.mark.parametrize(
    ("brackets", "median"),
    [
        ([(1, 2)], (1, 2)),
        ([(1, 2), (3, 4)], (2, 3)),
        ([(1, 2), (3, None)], (2, None)),
        ([(1, 2), (3, 4), (5, None)], (3, 4)),
        ([(1, None), (3, 4), (5, None)], (3, None)),
        ([(None, None), (3, 4)], (3, 4)),
        ([(None, None)], (None, None)),
        ([], (None, None)),
    ],
)
def test_median_of_intervals(
    brackets: list[tuple[float | None, float | None]], median: tuple[float | None, float | None]
) -> None:
    found = median_bracket([a_bracket(*ends) for ends in brackets])
    assert (found.low_n, found.high_n) == median


ends = st.tuples(st.floats(0.1, 50), st.none() | st.floats(0.1, 10)).map(
    lambda pair: a_bracket(pair[0], None if pair[1] is None else pair[0] + pair[1])
)


@given(st.lists(ends, min_size=1, max_size=9), st.integers(0, 2**32))
def test_the_order_of_cords_does_not_matter_and_low_never_passes_high(brackets: list[Bracket], seed: int) -> None:
    mixed = list(brackets)
    random.Random(seed).shuffle(mixed)
    found = median_bracket(brackets)
    assert found == median_bracket(mixed)
    assert found.low_n is not None
    assert found.high_n is None or found.low_n < found.high_n


@given(st.integers(1, 9), st.sampled_from(["did_not_break", "out_of_time", "knot_undone", "broke_adding"]))
def test_more_masses_held_never_lower_the_lower_bound(steps: int, kind: str) -> None:
    row = readings_of(" ".join(str(200 + step) for step in range(steps + 2)))
    fewer, more = (
        picture_of(one_cord(*row[:count], endings=(an_ending(kind),))).break_bracket.low_n
        for count in (steps + 1, steps + 2)
    )
    assert fewer is not None
    assert more is not None
    assert more > fewer


@given(st.integers(0, 2**32))
def test_the_order_of_rows_does_not_matter(seed: int) -> None:
    row = [*readings_of(ROW), a_reading(2, 221), a_reading(3, 230), a_reading(4, 205, phase="return")]
    rulings = [a_ruling("counts", row[2].entry_id), a_ruling("left_out", row[1].entry_id, reason="bumped")]
    end = (an_ending("broke_adding", 5),)
    straight = picture_of(one_cord(*row, endings=end, rulings=tuple(rulings)))
    random.Random(seed).shuffle(row)
    assert picture_of(one_cord(*row, endings=end, rulings=tuple(rulings[::-1]))) == straight
