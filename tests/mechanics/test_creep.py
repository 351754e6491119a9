"""Creep: the same step read twice."""

import math

from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from app.mechanics.creep import creep
from app.mechanics.result import ReadingScatter


def test_a_step_read_twice() -> None:
    """Second opinion: the package `uncertainties`; twice its standard deviation by the scale alone."""
    other = ufloat(47, 0.408) - ufloat(41, 0.408)
    ours = creep(41, 47, ReadingScatter(u_mm=0.408))
    assert (ours.value, ours.unit) == (other.nominal_value, "mm")
    assert ours.high is not None
    assert math.isclose(ours.high, 6 + 2 * other.std_dev, rel_tol=1e-12)


@given(st.integers(-500, 500), st.integers(-500, 500), st.integers(-9000, 9000), st.integers(2, 30))
def test_where_the_scale_begins_changes_no_creep(first_mm: int, later_mm: int, more_mm: int, dof: int) -> None:
    scatter = ReadingScatter(u_mm=0.6, dof=dof)
    assert creep(first_mm + more_mm, later_mm + more_mm, scatter) == creep(first_mm, later_mm, scatter)
