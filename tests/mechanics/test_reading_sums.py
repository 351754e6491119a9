"""What follows from each reading, and which make the curve."""

import math
from dataclasses import replace

import pytest

from app.mechanics.reading_sums import curve_points, force_of, longest_section, reading_sums
from app.mechanics.result import ReadingScatter
from tests.mechanics.told import a_cord, a_row, rows_of

ROWS = rows_of("200 210 220 230")


def test_force_is_mass_times_gravity() -> None:
    assert force_of(a_cord(gravity_m_per_s2=9.81), 487.0) == 487.0 * 9.81 / 1000
    assert force_of(a_cord(), None) is None


def test_each_reading_has_its_figures() -> None:
    found = reading_sums(a_cord(*ROWS, gauge_length_mm=300.0), ReadingScatter(u_mm=0.8, dof=5))[2]
    assert (found.force_n, found.extension_mm, found.strain, found.section) == (3.0, 20.0, 20.0 / 300.0, 1)
    assert found.extension_u_mm == pytest.approx(0.8 * math.sqrt(2))


def test_a_reading_without_mass_or_zero_says_so() -> None:
    found = reading_sums(a_cord(replace(ROWS[1], mass_g=None, mass_u_g=None)), ReadingScatter(u_mm=0.4))[0]
    assert (found.force_n, found.force_u_n, found.extension_mm, found.extension_u_mm) == (None, None, None, None)
    assert found.extension_why


def test_the_curve_is_made_of_what_counts_of_the_first_loading() -> None:
    rows = (
        ROWS[0],
        replace(ROWS[1], left_out="misread"),
        ROWS[2],
        a_row(2, 221, phase="later"),
        a_row(2, 203, phase="return"),
        a_row(2, 220, phase="hung_again"),
        replace(ROWS[3], mass_g=None),
    )
    assert [point.stretched_mm for point in curve_points(a_cord(*rows))] == [200, 220]


def test_a_later_reading_stands_in_where_its_step_has_no_other() -> None:
    rows = (ROWS[0], replace(ROWS[1], left_out="misread"), a_row(1, 211, phase="later"))
    assert [point.stretched_mm for point in curve_points(a_cord(*rows))] == [200, 211]


def test_the_longest_section_is_taken_of_equals_the_first() -> None:
    def cut(*places: int) -> list[float]:
        rows = [replace(row, events=("knot_slipped",)) if place in places else row for place, row in enumerate(ROWS)]
        return [point.stretched_mm for point in longest_section(curve_points(a_cord(*rows)))]

    assert cut() == [200, 210, 220, 230]
    assert cut(1) == [210, 220, 230]
    assert cut(2) == [200, 210]
    assert longest_section(()) == ()
