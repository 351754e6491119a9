"""Extension at one force that all cords reached."""

from dataclasses import replace

import pytest

from app.mechanics.cord_sums import CordSums, cord_sums
from app.mechanics.stretch_at import NO_COMMON_FORCE, NOT_REACHED, common_force_n, stretch_at
from tests.mechanics.told import a_cord, a_row, rows_of


def sums(pointers: str, *, slipped_at: int | None = None) -> CordSums:
    rows = [
        replace(row, events=("knot_slipped",)) if place == slipped_at else row
        for place, row in enumerate(rows_of(pointers))
    ]
    return cord_sums(a_cord(*rows))


LONG, SHORT = sums("200 210 220 230 240"), sums("100 104 108")


def test_the_common_force_is_what_the_weakest_reached() -> None:
    assert common_force_n([LONG, SHORT]) == 3.0
    assert common_force_n([LONG, sums("100 104 108 112", slipped_at=2)]) == 2.0


def test_a_cord_that_was_never_loaded_takes_no_part() -> None:
    assert common_force_n([LONG, sums("200")]) == 5.0
    assert common_force_n([sums("200")]) is None
    assert common_force_n([]) is None


def test_between_two_readings_it_lies_on_a_straight_line() -> None:
    assert stretch_at(LONG, 3.0).value == 20.0
    assert stretch_at(LONG, 3.5).value == pytest.approx(25.0)
    u = stretch_at(LONG, 3.5).standard_uncertainty
    assert u is not None
    assert u > LONG.straight.scatter.u_mm


def test_repeats_at_one_force_are_their_mean() -> None:
    found = cord_sums(a_cord(*rows_of("200 210 220"), a_row(2, 224, turn=2)))
    assert stretch_at(found, 3.0).value == 22.0


def test_where_it_was_not_read_it_says_so() -> None:
    assert stretch_at(SHORT, 4.0).why == NOT_REACHED
    assert stretch_at(SHORT, None).why == NO_COMMON_FORCE
