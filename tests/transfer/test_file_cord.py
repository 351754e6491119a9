"""One cord of a file: masses that a balance weighed, linear density, and an option against a column."""

from math import sqrt

import pytest

from app.domain import tested
from app.mechanics.cord import linear_density_g_per_m
from app.transfer.reading_options import ReadingOptions
from app.transfer.readings_file import read_readings


def one_cord(text: str, **options: float) -> tested.TestedCord:
    (cord,) = read_readings(text.encode(), ReadingOptions(**options)).cords  # type: ignore[arg-type]
    return cord


STEPS = (
    "specimen,step,phase,mass_g,mass_u_g,pointer_mm\nA,0,,87,,218\nA,1,,187,7,222\nA,2,,287,,226\nA,2,return,87,,218\n"
)


def test_the_division_of_the_balance_makes_the_uncertainty_of_each_total() -> None:
    """k + 1 weighings at step k, each rectangular one division wide; back at the hanger it is one weighing again.

    Source: JCGM 100:2008 (GUM), 4.3.7 and 5.1.2.
    """
    rows = one_cord(STEPS, balance_division_g=2.0).rows
    assert [row.mass_u_g for row in rows] == [2 * sqrt(n / 12) for n in (1, 2, 3, 1)]
    assert sqrt(2**2 / 12 + 2**2 / 12 + 2**2 / 12) == pytest.approx(rows[2].mass_u_g)


def test_without_it_the_column_says_or_nobody_does() -> None:
    assert [row.mass_u_g for row in one_cord(STEPS).rows] == [None, 7.0, None, None]


def test_a_row_without_a_mass_has_no_uncertainty_of_it() -> None:
    assert one_cord("specimen,mass_g,pointer_mm\nA,,218\n", balance_division_g=1.0).rows[0].mass_u_g is None


@pytest.mark.parametrize(("stated", "expected"), [("", linear_density_g_per_m(0.4437, 300.3)), ("1.5", 1.5)])
def test_linear_density_is_what_is_stated_else_what_the_weighed_piece_has(stated: str, expected: float) -> None:
    """To the last digit as the lesson's pages work it out."""
    header = "specimen,mass_g,pointer_mm,cord_mass_g,cord_length_mm,linear_density_g_per_m"
    assert one_cord(f"{header}\nA,87,218,0.4437,300.3,{stated}\n").linear_density_g_per_m == expected


def test_what_is_said_of_a_cord_may_stand_on_any_of_its_rows() -> None:
    cord = one_cord("specimen,mass_g,pointer_mm,strands,outcome\nA,87,218,,\nA,187,222,3,\nA,287,226,3,broke\n")
    assert (cord.strands, cord.outcome, cord.repeat, cord.bench_kind) == (3, "broke", 1, "class")
