"""How the stretch was worked out."""

import math

from app.mechanics.cord_sums import cord_sums
from tests.mechanics.told import a_cord, a_row
from tests.services.workings_told import demo, sums_of, working


def test_longer_by_from_the_two_numbers_on_the_scale() -> None:
    assert working(demo("Alder-1"), "extension_mm", "second").numbers == "under 26.4 N: 316 mm − 218 mm = 98 mm"
    assert working(demo("Hazel-1"), "extension_mm").numbers == (
        "under 24.5 N: (321 mm + 14 mm for the pointer put back) − 224 mm = 111 mm"
    )
    slipped = working(demo("Cedar-1"), "extension_mm")
    assert slipped.notes == ("A knot or the support moved before this reading, so that is in it too.",)


def test_the_first_depth_tells_how_give_or_take_comes_about() -> None:
    found = working(demo("Alder-1"), "extension_mm", "first")
    scatter = demo("Alder-1").straight.scatter
    assert found.said == "98 mm, give or take 2 mm"
    assert round(math.sqrt(2) * scatter.factor * scatter.u_mm) == 2
    assert found.numbers == (
        "under 26.4 N: 316 mm − 218 mm = 98 mm; one reading of this cord is good to about "
        f"{scatter.u_mm:.1f} mm, by how its readings scatter; with the zero that makes 2 mm, right 95 times in 100"
    )
    few = working(sums_of("200 205"), "extension_mm", "first").numbers
    assert "by the divisions of its scale" in few
    joined = working(demo("Hazel-1"), "extension_mm", "first").numbers
    assert "with the zero, and the pointer put back, that makes" in joined


def test_on_a_scale_that_grows_upward_the_pointer_is_taken_off_the_zero() -> None:
    found = working(sums_of("200 197 193", scale="up"), "extension_mm", "first")
    assert found.formula == "pointer at the zero − pointer now"
    assert found.numbers.startswith("under 3.00 N: 200 mm − 193 mm = 7 mm; ")


def test_two_zeros_are_their_mean_and_better_is_something_else() -> None:
    again = a_row(0, 201, turn=2)
    found = working(cord_sums(a_cord(a_row(0, 200), again, a_row(1, 205))), "extension_mm")
    assert found.numbers == "under 2.00 N: 205 mm − 200.5 mm (mean of 2 zeros) = 4.5 mm"
    assert found.better == "Let two readers read each number."
    assert working(sums_of("200 205"), "extension_mm").better.startswith("Read the zero twice")


def test_before_the_first_load_it_says_why() -> None:
    assert working(sums_of("200"), "extension_mm").said == "No reading under a load counts yet."
    no_zero = cord_sums(a_cord(a_row(1, 200)))
    assert working(no_zero, "extension_mm").said == "The zero has not been read yet."
    assert working(no_zero, "extension_mm").better == "Read the zero with the hanger alone."
    assert working(sums_of("200"), "extension_mm").better == "Readings under a load."


def test_strain_names_the_weaker_of_its_two_lengths() -> None:
    found = working(demo("Alder-1"), "strain", "second")
    assert (found.said, found.numbers) == ("32.7 ± 0.8 %", "98 mm / 300 mm = 32.67 %")
    short = working(sums_of("200 230 260 290 320", gauge_length_mm=60.0), "strain", "second")
    assert "taken to be good to 2.5 mm" in short.better
    missing = working(sums_of("200 230"), "strain", "second")
    assert (missing.said, missing.numbers) == ("The length between the knots was not measured.", "")
