"""What a breaking force says of the material; published figures are in `tests/published/test_units.py`."""

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.mechanics.breaking import Bracket
from app.mechanics.material import NO_LINEAR_DENSITY, NO_STRANDS, NO_THICKNESS
from app.mechanics.result import Result
from app.mechanics.strength import (
    NO_BREAK,
    NO_SECTION_OF_A_PLAIT,
    UNBROKEN,
    breaking_length,
    load_per_linear_density,
    load_per_strand,
    stress_at_break,
    tenacity,
)
from tests.mechanics.told import a_cord, a_row

BROKE = Bracket(low_n=24.0, high_n=28.0)
HELD = Bracket(low_n=32.0, high_n=None)
CORD: dict[str, Any] = {"strands": 2, "linear_density_g_per_m": 1.3, "gravity_m_per_s2": 10.0}
STRIP: dict[str, Any] = {"strands": 1, "strip_width_mm": 20.0, "film_thickness_um": 25.0}
WIDTH_U = 4 / 12**0.5
EVERY = (load_per_strand, load_per_linear_density, tenacity, breaking_length)


def figures(result: Result) -> tuple[float | None, float | None, float | None]:
    return result.low, result.value, result.high


@pytest.mark.parametrize(
    ("of", "factor", "unit"),
    [
        (load_per_strand, 1 / 2, "N"),
        (load_per_linear_density, 1 / 1.3, "N/(g/m)"),
        (tenacity, 0.1 / 1.3, "cN/tex"),
        (breaking_length, 1 / 13, "km"),
    ],
)
def test_the_bracket_goes_through_by_hand(of: Any, factor: float, unit: str) -> None:
    """Over 24, at or under 28 N, two strips, 1.3 g/m, g = 10 m/s2."""
    found = of(BROKE, a_cord(**CORD))
    assert figures(found) == pytest.approx((24 * factor, 26 * factor, 28 * factor))
    assert found.unit == unit
    held = of(HELD, a_cord(**CORD))
    assert (held.value, held.high, held.why) == (None, None, UNBROKEN)
    assert held.low == pytest.approx(32 * factor)


def test_uncertainty_joins_the_width_of_the_bracket_and_the_linear_density() -> None:
    """A bracket 4 N wide: 1.1547 N of 26; linear density 3 %/sqrt(3) = 1.732 %."""
    found = tenacity(BROKE, a_cord(**CORD))
    assert found.standard_uncertainty == pytest.approx(2 * ((WIDTH_U / 26) ** 2 + 0.03**2 / 3) ** 0.5)
    assert load_per_strand(BROKE, a_cord(**CORD)).standard_uncertainty == pytest.approx(WIDTH_U / 2)


def test_masses_nobody_weighed_are_in_the_uncertainty() -> None:
    """The heaviest load read, 1 kg, is good to 20 g: 2 % of the force."""
    cord = a_cord(a_row(0, 200, mass_u_g=9.0), a_row(9, 240, mass_u_g=20.0), **CORD)
    found = load_per_strand(BROKE, cord).standard_uncertainty
    assert found == pytest.approx(13 * ((WIDTH_U / 26) ** 2 + 0.02**2) ** 0.5)


def test_a_break_without_a_low_end_gives_nothing() -> None:
    for of in EVERY:
        unknown = of(Bracket(low_n=None, high_n=None, why="This cord has not ended yet."), a_cord(**CORD))
        assert (figures(unknown), unknown.why) == ((None, None, None), "This cord has not ended yet.")
    assert tenacity(Bracket(low_n=None, high_n=None), a_cord(**CORD)).why == NO_BREAK


@pytest.mark.parametrize(
    ("of", "missing", "why"),
    [
        (load_per_strand, "strands", NO_STRANDS),
        (tenacity, "linear_density_g_per_m", NO_LINEAR_DENSITY),
        (breaking_length, "linear_density_g_per_m", NO_LINEAR_DENSITY),
        (load_per_linear_density, "linear_density_g_per_m", NO_LINEAR_DENSITY),
    ],
)
def test_what_is_missing_is_said(of: Any, missing: str, why: str) -> None:
    found = of(BROKE, a_cord(**CORD | {missing: None}))
    assert (figures(found), found.why) == ((None, None, None), why)


def test_stress_of_a_single_strip_by_hand() -> None:
    """26 N over 0.5 mm2 is 52 MPa; width 2.165 %, thickness 2.309 %, the bracket 4 N wide."""
    area_doubt = ((0.75 / 20) ** 2 / 3 + 0.04**2 / 3) ** 0.5
    at_break = stress_at_break(BROKE, a_cord(**STRIP))
    assert figures(at_break) == pytest.approx((48, 52, 56))
    assert at_break.unit == "MPa"
    assert at_break.standard_uncertainty == pytest.approx(52 * ((WIDTH_U / 26) ** 2 + area_doubt**2) ** 0.5)
    assert stress_at_break(HELD, a_cord(**STRIP)).low == pytest.approx(64)


def test_a_plait_has_no_stress() -> None:
    found = stress_at_break(BROKE, a_cord(**STRIP | {"strands": 3}))
    assert (found.value, found.low, found.why) == (None, None, NO_SECTION_OF_A_PLAIT)
    assert stress_at_break(BROKE, a_cord(strands=1, strip_width_mm=20.0)).why == NO_THICKNESS


@given(low=st.floats(0.01, 1e3), more=st.floats(0.01, 1e3), mu=st.floats(0.01, 1e3))
def test_tenacity_and_breaking_length_say_the_same(low: float, more: float, mu: float) -> None:
    """At standard gravity 1 cN/tex is 1.0197 km, whatever the cord."""
    cord, bracket = a_cord(linear_density_g_per_m=mu, gravity_m_per_s2=9.80665), Bracket(low_n=low, high_n=low + more)
    one, other = tenacity(bracket, cord), breaking_length(bracket, cord)
    assert [end / part for end, part in zip(figures(other), figures(one), strict=True)] == pytest.approx(
        [10 / 9.80665] * 3
    )
    assert one.low < one.value < one.high


@given(held=st.lists(st.floats(0.1, 1e4), min_size=2, max_size=2).map(sorted))
def test_holding_more_never_lowers_a_lower_bound(held: list[float]) -> None:
    less, more = (tenacity(Bracket(low_n=one, high_n=None), a_cord(**CORD)).low for one in held)
    assert less <= more


@pytest.mark.parametrize("tiny", [5e-324, 1e-320, 1e-300])
def test_no_measure_is_too_small_for_a_figure(tiny: float) -> None:
    strip = {"strands": 1, "strip_width_mm": tiny, "film_thickness_um": tiny, "linear_density_g_per_m": tiny}
    cord = a_cord(a_row(0, 200, mass_g=tiny, mass_u_g=1e5), **strip)
    for of in (tenacity, breaking_length, stress_at_break, load_per_strand):
        found = of(BROKE, cord)
        assert found.why or math.isfinite(found.standard_uncertainty or math.inf)
