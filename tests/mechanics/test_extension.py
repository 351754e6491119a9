"""Extensions from pointer readings."""

import math
import random
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.records import Event, Reading
from app.mechanics.extension import NO_ZERO, NO_ZERO_COUNTS, Extension, Scale, extensions, reading_u_mm, strain
from tests.mechanics.cords import a_reading, an_event, readings_of

DOWN = Scale(way="down", division_mm=1, judgement_mm=0.5)
UP = Scale(way="up", division_mm=1, judgement_mm=0.5)
U0 = reading_u_mm(DOWN)
pointers = st.lists(st.integers(-500, 500).map(float), min_size=2, max_size=12)


def found(
    readings: Sequence[Reading], *events: Event, scale: Scale = DOWN, unusable: tuple[Reading, ...] = ()
) -> list[Extension]:
    usable = {reading.entry_id for reading in readings if reading not in unusable}
    reached = extensions(readings, events, usable=usable, scale=scale)
    return [reached[reading.entry_id] for reading in readings]


def millimetres(readings: Sequence[Reading], *events: Event, scale: Scale = DOWN) -> list[float | None]:
    return [each.extension_mm for each in found(readings, *events, scale=scale)]


def test_extension_is_counted_from_the_zero_by_the_way_the_scale_grows() -> None:
    assert millimetres(readings_of("218 222 229")) == [0, 4, 11]
    assert millimetres(readings_of("218 214 207"), scale=UP) == [0, 4, 11]
    assert str(millimetres(readings_of("218"), scale=UP)) == "[0.0]"


def test_its_uncertainty_is_that_of_two_readings_and_none_at_the_zero() -> None:
    assert [each.extension_u_mm for each in found(readings_of("218 222"))] == [0, U0 * math.sqrt(2)]


def test_several_zeros_are_averaged_and_their_uncertainty_falls() -> None:
    row = (a_reading(0, 218), a_reading(0, 220, turn=2), a_reading(1, 225))
    assert millimetres(row) == [-1, 1, 6]
    assert [each.extension_u_mm for each in found(row)] == pytest.approx(
        [U0 * math.sqrt(1 / 2), U0 * math.sqrt(1 / 2), U0 * math.sqrt(3 / 2)]
    )


def test_without_a_zero_that_counts_nothing_is_said_but_why() -> None:
    row = readings_of("218 222")
    assert [(each.extension_mm, each.why) for each in found(row[1:])] == [(None, NO_ZERO)]
    assert {each.why for each in found(row, unusable=row[:1])} == {NO_ZERO_COUNTS}


@pytest.mark.parametrize("kind", ["knot_slipped", "support_moved", "pointer_moved"])
@pytest.mark.parametrize(("after", "sections"), [(False, [1, 1, 2, 2]), (True, [1, 1, 1, 2])])
def test_a_gap_begins_a_new_section_at_its_place(kind: str, after: bool, sections: list[int]) -> None:
    row = readings_of("218 222 240 245")
    there = found(row, an_event(kind, 2, after_reading=after))
    assert [each.section for each in there] == sections
    assert [each.extension_mm for each in there] == [0, 4, 22, 27]


@pytest.mark.parametrize("kind", ["strand_went", "necking_seen", "still_moving", "pause", "other_mass"])
def test_other_events_leave_the_curve_whole(kind: str) -> None:
    assert {each.section for each in found(readings_of("1 2 3"), an_event(kind, 1))} == {1}


def test_an_event_without_a_step_leaves_the_curve_whole() -> None:
    assert {each.section for each in found(readings_of("1 2 3"), an_event("knot_slipped", None))} == {1}


def test_a_moved_pointer_read_before_and_after_under_one_load_is_joined() -> None:
    row = (*readings_of("224 227 231"), a_reading(2, 217, phase="pointer_put_back"), a_reading(3, 218))
    there = found(row, an_event("pointer_moved", 2, after_reading=True))
    assert [each.extension_mm for each in there] == [0, 3, 7, 7, 8]
    assert {each.section for each in there} == {1}
    assert there[2].extension_u_mm == pytest.approx(U0 * math.sqrt(2))
    assert there[3].extension_u_mm == there[2].extension_u_mm  # by the join it is the reading before, less the zero
    assert there[4].extension_u_mm == pytest.approx(U0 * math.sqrt(2 + 2))


def test_a_pointer_that_moved_twice_is_joined_twice() -> None:
    row = (
        *readings_of("200 210"),
        a_reading(1, 190, phase="pointer_put_back"),
        a_reading(2, 200),
        a_reading(2, 230, phase="pointer_put_back"),
        a_reading(3, 240),
    )
    there = found(row, *(an_event("pointer_moved", step, after_reading=True) for step in (1, 2)))
    assert [each.extension_mm for each in there] == [0, 10, 10, 20, 20, 30]
    assert there[-1].extension_u_mm == pytest.approx(U0 * math.sqrt(6))


def test_a_join_needs_both_readings_to_count() -> None:
    row = (*readings_of("224 227"), a_reading(1, 217, phase="pointer_put_back"), a_reading(2, 218))
    moved = an_event("pointer_moved", 1, after_reading=True)
    assert [each.section for each in found(row, moved, unusable=row[2:3])] == [1, 1, 2, 2]


def test_strain_needs_extension_and_length() -> None:
    assert strain(11.0, 300.0) == 0.03666666666666667
    assert (strain(None, 300.0), strain(11.0, None), strain(11.0, 0.0)) == (None, None, None)


def row_of(values: list[float]) -> tuple[Reading, ...]:
    return tuple(a_reading(step, value) for step, value in enumerate(values))


@given(pointers, st.integers(-1000, 1000))
def test_moving_the_whole_scale_changes_no_extension(values: list[float], constant: int) -> None:
    assert millimetres(row_of([value + constant for value in values])) == millimetres(row_of(values))


@given(pointers)
def test_the_way_of_the_scale_changes_only_signs(values: list[float]) -> None:
    row = row_of(values)
    down, up = found(row), found(row, scale=UP)
    assert [each.extension_mm for each in down] == [-(each.extension_mm or 0.0) for each in up]
    assert [each.extension_u_mm for each in down] == [each.extension_u_mm for each in up]


@given(pointers, st.integers(0, 11), st.integers(0, 2**32))
def test_the_order_of_rows_does_not_matter(values: list[float], step: int, seed: int) -> None:
    row = [*row_of(values), a_reading(step, 7, phase="pointer_put_back")]
    events = [an_event("pointer_moved", step), an_event("knot_slipped", step + 1)]
    usable = {reading.entry_id for reading in row}
    straight = extensions(row, events, usable=usable, scale=DOWN)
    random.Random(seed).shuffle(row)
    assert extensions(row, events[::-1], usable=usable, scale=DOWN) == straight
