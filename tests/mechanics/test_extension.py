"""Extensions from pointer readings."""

import math
import random
from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.tested import Row, row_order
from app.mechanics.extension import NO_ZERO, NO_ZERO_COUNTS, Extension, Scale, extensions, reading_u_mm, strain
from tests.mechanics.told import a_cord, a_row, rows_of

pointers = st.lists(st.integers(-500, 500).map(float), min_size=2, max_size=12)


def found(rows: Sequence[Row], scale: str = "down") -> list[Extension]:
    return list(extensions(a_cord(*rows, scale=scale)))


def millimetres(rows: Sequence[Row], scale: str = "down") -> list[float | None]:
    return [each.extension_mm for each in found(rows, scale)]


def told(rows: Sequence[Row], place: int, *, before: str = "", after: str = "") -> tuple[Row, ...]:
    """The rows with an event beside one of them."""
    row = replace(rows[place], events=tuple(before.split()), events_after=tuple(after.split()))
    return (*rows[:place], row, *rows[place + 1 :])


def test_extension_is_counted_from_the_zero_by_the_way_the_scale_grows() -> None:
    assert millimetres(rows_of("218 222 229")) == [0, 4, 11]
    assert millimetres(rows_of("218 214 207"), "up") == [0, 4, 11]
    assert str(millimetres(rows_of("218"), "up")) == "[0.0]"


def test_the_scale_alone_gives_a_floor_of_the_uncertainty_of_one_reading() -> None:
    """The figures of 1 mm and 5 mm divisions are computed from GUM 4.3.7 by hand: sqrt(1/12 + 1/12), sqrt(27/12)."""
    assert reading_u_mm(Scale(way="down", division_mm=1, judgement_mm=0.5)) == pytest.approx(math.sqrt(2 / 12))
    assert reading_u_mm(Scale(way="down", division_mm=5, judgement_mm=0.5)) == pytest.approx(math.sqrt(26 / 12))


def test_its_uncertainty_is_that_of_two_readings_and_none_at_the_zero() -> None:
    assert [each.u_factor for each in found(rows_of("218 222"))] == [0, math.sqrt(2)]


def test_several_zeros_are_averaged_and_their_uncertainty_falls() -> None:
    row = (a_row(0, 218), a_row(0, 220, turn=2), a_row(1, 225))
    assert millimetres(row) == [-1, 1, 6]
    assert [each.u_factor for each in found(row)] == pytest.approx([math.sqrt(x / 2) for x in (1, 1, 3)])


def test_without_a_zero_that_counts_nothing_is_said_but_why() -> None:
    row = rows_of("218 222")
    out = replace(row[0], left_out="misread")
    assert [(each.extension_mm, each.why) for each in found(row[1:])] == [(None, NO_ZERO)]
    assert {each.why for each in found((out, row[1]))} == {NO_ZERO_COUNTS}


def test_a_cord_left_out_as_a_whole_keeps_its_extensions() -> None:
    assert millimetres(rows_of("218 222", left_out="nick in one strip")) == [0, 4]


@pytest.mark.parametrize("kind", ["knot_slipped", "support_moved", "pointer_moved"])
@pytest.mark.parametrize(("after", "sections"), [(False, [1, 1, 2, 2]), (True, [1, 1, 1, 2])])
def test_a_gap_begins_a_new_section_at_its_place(kind: str, after: bool, sections: list[int]) -> None:
    there = found(told(rows_of("218 222 240 245"), 2, **{"after" if after else "before": kind}))
    assert [each.section for each in there] == sections
    assert [each.extension_mm for each in there] == [0, 4, 22, 27]


@pytest.mark.parametrize(
    ("kind", "known"), [("knot_slipped", True), ("support_moved", False), ("pointer_moved", False)]
)
def test_what_moved_by_nobody_knows_how_much_leaves_no_uncertainty(kind: str, known: bool) -> None:
    there = found(told(rows_of("218 222 240 245"), 2, before=kind))
    assert [each.u_factor is not None for each in there] == [True, True, known, known]


@pytest.mark.parametrize("kind", ["strand_went", "necking_seen", "still_moving", "pause", "other_mass"])
def test_other_events_leave_the_curve_whole(kind: str) -> None:
    assert {each.section for each in found(told(rows_of("1 2 3"), 1, before=kind))} == {1}


def test_a_moved_pointer_read_before_and_after_under_one_load_is_joined() -> None:
    row = (*rows_of("224 227 231"), a_row(2, 217, phase="pointer_put_back"), a_row(3, 218))
    there = found(told(row, 2, after="pointer_moved"))
    assert [each.extension_mm for each in there] == [0, 3, 7, 7, 8]
    assert [each.stretched_mm for each in there] == [224, 227, 231, 231, 232]
    assert {each.section for each in there} == {1}
    assert there[2].u_factor == pytest.approx(math.sqrt(2))
    assert there[3].u_factor == there[2].u_factor  # by the join it is the reading before, less the zero
    assert there[4].u_factor == pytest.approx(math.sqrt(2 + 2))


def test_a_pointer_that_moved_twice_is_joined_twice() -> None:
    row = (
        *rows_of("200 210"),
        a_row(1, 190, phase="pointer_put_back"),
        a_row(2, 200),
        a_row(2, 230, phase="pointer_put_back"),
        a_row(3, 240),
    )
    there = found(told(told(row, 1, after="pointer_moved"), 3, after="pointer_moved"))
    assert [each.extension_mm for each in there] == [0, 10, 10, 20, 20, 30]
    assert there[-1].u_factor == pytest.approx(math.sqrt(6))


def test_a_pointer_that_moved_before_its_step_was_read_leaves_a_gap_and_is_joined_from_there_on() -> None:
    row = (*rows_of("200 204 208 230"), a_row(3, 220, phase="pointer_put_back"), a_row(4, 224))
    there = found(told(row, 3, before="pointer_moved"))
    assert [each.section for each in there] == [1, 1, 1, 2, 2, 2]
    assert [each.stretched_mm for each in there] == [200, 204, 208, 230, 230, 234]


def test_a_pointer_that_moved_twice_in_one_step_is_joined_by_its_last_reading_there() -> None:
    row = (
        *rows_of("200 210"),
        a_row(1, 190, phase="pointer_put_back"),
        a_row(1, 150, phase="pointer_put_back", turn=2),
        a_row(2, 160),
    )
    there = found(told(told(row, 1, after="pointer_moved"), 2, after="pointer_moved"))
    assert [each.extension_mm for each in there] == [0, 10, 10, 10, 20]
    assert {each.section for each in there} == {1}


def test_a_pointer_put_back_under_another_load_joins_nothing() -> None:
    row = (*rows_of("200 210"), a_row(1, 190, phase="pointer_put_back", mass_g=100.0), a_row(2, 200))
    assert [each.section for each in found(told(row, 1, after="pointer_moved"))] == [1, 1, 2, 2]


def test_a_pointer_put_back_has_moved_whether_that_was_told_or_not() -> None:
    row = (*rows_of("200 210"), a_row(1, 190, phase="pointer_put_back"), a_row(2, 200))
    assert [each.extension_mm for each in found(row)] == [0, 10, 10, 20]
    unread = (*rows_of("200 210"), a_row(2, 190, phase="pointer_put_back"), a_row(3, 200))
    assert [each.section for each in found(unread)] == [1, 1, 2, 2]


@pytest.mark.parametrize("kind", ["knot_slipped", "pointer_moved"])
@pytest.mark.parametrize(("before", "after", "section"), [((), ("",), 1), (("",), (), 2)])
def test_two_tablets_readings_of_one_moment_come_in_any_order(
    kind: str, before: tuple[str, ...], after: tuple[str, ...], section: int
) -> None:
    zero, load, last = rows_of("200 210 220")
    again = replace(load, left_out="matched", events=(kind,) * len(before), events_after=(kind,) * len(after))
    for rows in ((zero, load, again, last), (zero, again, load, last)):
        assert [each.section for each in found(rows)] == [1, section, section, 2]


def test_a_join_needs_both_readings_to_count() -> None:
    row = (*rows_of("224 227"), a_row(1, 217, phase="pointer_put_back", left_out="misread"), a_row(2, 218))
    assert [each.section for each in found(told(row, 1, after="pointer_moved"))] == [1, 1, 2, 2]


def test_strain_needs_extension_and_length() -> None:
    assert strain(11.0, 300.0) == 0.03666666666666667
    assert (strain(None, 300.0), strain(11.0, None), strain(11.0, 0.0)) == (None, None, None)


def row_of(values: list[float]) -> tuple[Row, ...]:
    return tuple(a_row(step, value) for step, value in enumerate(values))


@given(pointers, st.integers(-1000, 1000))
def test_moving_the_whole_scale_changes_no_extension(values: list[float], constant: int) -> None:
    assert millimetres(row_of([value + constant for value in values])) == millimetres(row_of(values))


@given(pointers)
def test_the_way_of_the_scale_changes_only_signs(values: list[float]) -> None:
    down, up = found(row_of(values)), found(row_of(values), "up")
    assert [each.extension_mm for each in down] == [-(each.extension_mm or 0.0) for each in up]
    assert [each.u_factor for each in down] == [each.u_factor for each in up]


@given(pointers, st.integers(0, 11), st.integers(0, 2**32))
def test_rows_put_back_into_the_order_of_the_test_give_the_same(values: list[float], step: int, seed: int) -> None:
    row = list(told([*row_of(values), a_row(step, 7, phase="pointer_put_back")], 1, before="pointer_moved"))
    shuffled = random.Random(seed).sample(row, len(row))
    assert found(sorted(shuffled, key=row_order)) == found(sorted(row, key=row_order))
