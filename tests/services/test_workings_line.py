"""How figures read off the straight part were worked out."""

from tests.services.workings_told import demo, sums_of, working


def test_both_extensions_stand_beside_the_corrected_zero() -> None:
    assert working(demo("Alder-1"), "zero_force_pointer_mm").numbers == (
        "x = 216.9 mm + 2.465 mm/N × F; at the last reading 99.1 mm from the corrected zero, 98 mm from the zero read"
    )
    assert working(demo("Alder-1"), "toe_mm").numbers == "218.98 mm − 218.00 mm = 0.98 mm"


def test_the_offset_is_said_as_the_lesson_states_it() -> None:
    found = working(demo("Alder-1"), "offset_yield_N").numbers
    assert found == "1 % of 300 mm = 3 mm; the line moved on by it meets the readings at 18.86 N"


def test_secant_from_the_zero_to_the_last_reading() -> None:
    assert working(demo("Alder-1"), "secant_N_per_mm").numbers == "(26.36 − 0.8437 N) / 98 mm = 0.2604 N/mm"


def test_the_scatter_of_a_reading_is_the_larger_of_fit_and_scale() -> None:
    assert working(demo("Alder-1"), "reading_u_mm").numbers == (
        "s = √(5.638 / 12) = 0.6854 mm; u₀ = √(1²/12 + 0.5²/3) = 0.4082 mm"
    )
    assert working(sums_of("200 203"), "reading_u_mm").notes == ("From the scale only.",)
