"""Extension at one force that all cords reached."""

import math
from dataclasses import replace

import pytest

from app.mechanics.cord_sums import CordSums, cord_sums
from app.mechanics.material import NO_FREE_LENGTH
from app.mechanics.result import from_scatter, none
from app.mechanics.stretch_at import NO_COMMON_FORCE, NOT_REACHED, common_force_n, strain_of, stretch_at
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


def test_a_cord_that_ended_early_does_not_lower_it() -> None:
    long = sums("200 210 220 230 240 250 260 270 280")
    early = sums("200 210 220")
    assert common_force_n([long, long, early]) == 9.0
    assert stretch_at(early, 9.0).why == NOT_REACHED


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


def test_a_pointer_put_back_on_the_way_adds_two_readings_of_doubt() -> None:
    rows = rows_of("200 210 220 230 240")
    moved, back = replace(rows[2], events_after=("pointer_moved",)), a_row(2, 120, phase="pointer_put_back")
    after = tuple(replace(row, pointer_mm=row.pointer_mm - 100) for row in rows[3:])
    found = cord_sums(a_cord(*rows[:2], moved, back, *after))
    before_u, after_u = (stretch_at(found, force_n).standard_uncertainty or 0.0 for force_n in (3.0, 3.5))
    assert stretch_at(found, 3.5).value == pytest.approx(25.0)
    assert after_u / before_u == pytest.approx(math.sqrt(2))


def test_where_it_was_not_read_it_says_so() -> None:
    assert stretch_at(SHORT, 4.0).why == NOT_REACHED
    assert stretch_at(SHORT, None).why == NO_COMMON_FORCE


def test_strain_has_the_doubts_of_both_lengths() -> None:
    """JCGM 100:2008, 5.1.6: relative uncertainties of a quotient in quadrature; a length is good to 2.5 mm."""
    cord = a_cord(gauge_length_mm=300.0)
    found = strain_of(from_scatter(90.0, 0.9, 1.96, unit="mm"), cord)
    assert found.value == pytest.approx(0.3)
    expected = 0.3 * math.hypot(0.9 / 90, 2.5 / math.sqrt(3) / 300)
    assert found.standard_uncertainty == pytest.approx(expected, rel=1e-4)


def test_strain_says_what_is_missing() -> None:
    assert strain_of(none("no zero", "mm"), a_cord(gauge_length_mm=300.0)).why == "no zero"
    assert strain_of(from_scatter(90.0, 0.9, 2.0, unit="mm"), a_cord()).why == NO_FREE_LENGTH
    assert strain_of(from_scatter(0.0, 0.9, 2.0, unit="mm"), a_cord(gauge_length_mm=300.0)).value == 0.0
