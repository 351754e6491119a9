"""Gravity of a lesson; the published values are in `tests/published/test_units.py`."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import InvalidEntry
from app.domain.limits import GRAVITY
from app.domain.quantities import STANDARD_GRAVITY_M_PER_S2
from app.mechanics.gravity import CONVENTIONS, convention_words, normal_gravity_m_per_s2


def test_the_conventions_are_the_standard_and_three_rounded_ones() -> None:
    assert sorted(CONVENTIONS) == [9.8, STANDARD_GRAVITY_M_PER_S2, 9.81, 10.0]
    assert all(GRAVITY[0] <= one <= GRAVITY[1] for one in CONVENTIONS)


def test_a_convention_is_known_by_its_value() -> None:
    assert convention_words(9.80665) == "standard gravity"
    assert convention_words(9.81) == "9.81, as schools use it"
    assert convention_words(9.8124) is None


@given(one=st.floats(0, 90), other=st.floats(0, 90))
def test_gravity_grows_towards_the_poles(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert normal_gravity_m_per_s2(low) <= normal_gravity_m_per_s2(high) + 1e-15


def test_standard_gravity_is_within_three_parts_in_a_thousand_anywhere() -> None:
    for latitude_deg in range(-90, 91, 10):
        assert normal_gravity_m_per_s2(latitude_deg) == pytest.approx(STANDARD_GRAVITY_M_PER_S2, rel=0.0027)


@pytest.mark.parametrize("latitude_deg", [90.1, -91, 1e9, math.inf, math.nan])
def test_no_place_lies_beyond_a_pole(latitude_deg: float) -> None:
    with pytest.raises(InvalidEntry, match="between −90 and 90"):
        normal_gravity_m_per_s2(latitude_deg)
