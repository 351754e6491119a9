"""What a cord is made of; published figures are in `tests/published/test_units.py`."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.mechanics.material import (
    LONGER_THAN_STRIPS,
    NO_FREE_LENGTH,
    NO_LENGTHS,
    NO_LINEAR_DENSITY,
    NO_STRANDS,
    NO_THICKNESS,
    NO_WIDTH,
    NOTHING_WEIGHED,
    OF_MATERIAL,
    film_thickness,
    free_length,
    linear_density,
    relative_u,
    section_area,
    take_up,
)
from app.mechanics.result import NORMAL_975, Result, none
from tests.mechanics.told import a_cord

FLEECE = {"strands": 3, "strip_width_mm": 25.0, "film_thickness_um": 40.0}
SIZES = st.floats(1e-3, 1e5)


def doubt(result: Result) -> float:
    """The standard uncertainty that a result states."""
    assert result.standard_uncertainty is not None
    assert result.value is not None
    assert result.low == pytest.approx(result.value - NORMAL_975 * result.standard_uncertainty)
    assert result.high == pytest.approx(result.value + NORMAL_975 * result.standard_uncertainty)
    return result.standard_uncertainty


def test_free_length_is_good_to_two_and_a_half_millimetres() -> None:
    found = free_length(a_cord(gauge_length_mm=300))
    assert (found.value, found.unit) == (300, "mm")
    assert doubt(found) == pytest.approx(2.5 / 3**0.5)
    assert free_length(a_cord()).why == NO_FREE_LENGTH


def test_linear_density_of_a_piece_weighed_goes_before_a_stated_one() -> None:
    stated = {"linear_density_g_per_m": 1.5}
    assert linear_density(a_cord(**stated)).value == 1.5
    found = linear_density(a_cord(cord_mass_g=0.6, cord_length_mm=400, **stated))
    assert (found.value, found.unit) == (1.5, "g/m")
    assert linear_density(a_cord(cord_mass_g=0.8, cord_length_mm=400, **stated)).value == 2
    assert doubt(found) == pytest.approx(1.5 * 0.03 / 3**0.5)


@pytest.mark.parametrize("told", [{}, {"cord_mass_g": 0.6}, {"cord_length_mm": 400}, {"linear_density_g_per_m": 0.0}])
def test_no_linear_density_says_what_to_weigh(told: dict[str, float]) -> None:
    assert linear_density(a_cord(**told)).why == NO_LINEAR_DENSITY


def test_section_by_hand() -> None:
    """3 x 25 mm x 40 um are 3 mm2; u of the width 0.75/sqrt(3)/25 = 1.73 %, of the thickness 2.31 %."""
    found = section_area(a_cord(**FLEECE))
    assert (found.value, found.unit, found.note) == (pytest.approx(3), "mm2", OF_MATERIAL)
    assert doubt(found) == pytest.approx(3 * (0.0173205**2 + 0.0230940**2) ** 0.5, rel=1e-5)


def test_a_single_strip_has_a_section_of_its_own() -> None:
    assert section_area(a_cord(**FLEECE | {"strands": 1})).note is None


@pytest.mark.parametrize(("layers", "times"), [(None, 1), (1, 1), (2, 2), (4, 4)])
def test_folded_strips_count_their_layers(layers: int | None, times: int) -> None:
    assert section_area(a_cord(layers=layers, **FLEECE)).value == pytest.approx(3 * times)


@pytest.mark.parametrize(
    ("missing", "why"), [("strands", NO_STRANDS), ("strip_width_mm", NO_WIDTH), ("film_thickness_um", NO_THICKNESS)]
)
@pytest.mark.parametrize("told", [None, 0])
def test_a_section_with_something_missing_says_what(missing: str, why: str, told: int | None) -> None:
    found = section_area(a_cord(**FLEECE | {missing: told}))
    assert (found.value, found.why) == (None, why)


def test_take_up_by_hand() -> None:
    """260 of 300 mm: 13.3 %; each length to 2.5/sqrt(3) mm."""
    found = take_up(300, 260)
    assert (found.value, found.unit) == (pytest.approx(0.133333, abs=1e-6), "1")
    u = 2.5 / 3**0.5
    assert doubt(found) == pytest.approx(260 / 300 * ((u / 260) ** 2 + (u / 300) ** 2) ** 0.5)
    assert take_up(300, 300).value == 0


@pytest.mark.parametrize(
    ("strip_mm", "cord_mm", "why"),
    [
        (300, None, NO_LENGTHS),
        (None, 260, NO_LENGTHS),
        (300, 0, NO_LENGTHS),
        (300, 5e-324, NO_LENGTHS),
        (300, 301, LONGER_THAN_STRIPS),
    ],
)
def test_no_take_up_says_why(strip_mm: float | None, cord_mm: float | None, why: str) -> None:
    assert take_up(strip_mm, cord_mm).why == why


@given(mass_g=SIZES, area_mm2=SIZES, density=SIZES)
def test_a_sheet_of_that_thickness_weighs_what_was_weighed(mass_g: float, area_mm2: float, density: float) -> None:
    thickness_um = film_thickness(mass_g, area_mm2, density).value
    assert thickness_um is not None
    assert thickness_um / 1e6 * area_mm2 / 1e6 * density * 1000 == pytest.approx(mass_g)


def test_thickness_joins_what_mass_area_and_density_are_good_to() -> None:
    found = film_thickness(0.23, 10000, 920, mass_u_g=0.0023, area_u_mm2=200, density_u_kg_per_m3=9.2)
    assert doubt(found) == pytest.approx(25 * (0.01**2 + 0.02**2 + 0.01**2) ** 0.5)
    assert film_thickness(0.23, 10000, 920).standard_uncertainty == 0


@pytest.mark.parametrize("weighed", [(0, 1, 1), (1, 0, 1), (1, 1, -2)])
def test_nothing_weighed_has_no_thickness(weighed: tuple[float, float, float]) -> None:
    assert film_thickness(*weighed).why == NOTHING_WEIGHED


def test_what_has_no_value_has_no_relative_uncertainty() -> None:
    assert relative_u(none("not asked here", "mm")) == 0
    assert relative_u(Result(value=4.0, unit="mm", standard_uncertainty=1.0)) == 0.25


@given(
    told=st.fixed_dictionaries(
        {},
        optional=dict.fromkeys(
            (
                "gauge_length_mm",
                "strip_width_mm",
                "strip_length_mm",
                "film_thickness_um",
                "cord_mass_g",
                "cord_length_mm",
            ),
            st.floats(-1e9, 1e9),
        ),
    ),
    strands=st.none() | st.integers(-3, 100),
)
def test_no_measure_raises_anything(told: dict[str, Any], strands: int | None) -> None:
    cord = a_cord(strands=strands, **told)
    for found in (
        free_length(cord),
        linear_density(cord),
        section_area(cord),
        take_up(told.get("strip_length_mm"), told.get("cord_length_mm")),
    ):
        assert (found.value is None) == (found.why is not None)
