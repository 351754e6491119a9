"""How uncertainties pass through a sum; published examples are in `tests/published/test_uncertainty.py`."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.mechanics.propagation import difference_u, propagated, propagated_u

SIZE = st.floats(0, 1e4)


@given(one=SIZE, other=SIZE)
def test_a_difference_of_independent_inputs_adds_in_quadrature(one: float, other: float) -> None:
    assert propagated_u((1, -1), ((one**2, 0), (0, other**2))) == pytest.approx(math.hypot(one, other))


@given(u=st.floats(0.1, 100), added=st.floats(0.1, 100))
def test_a_difference_of_nested_loads_knows_only_what_was_added(u: float, added: float) -> None:
    heavy = math.hypot(u, added)
    assert difference_u(u, heavy) == pytest.approx(added, rel=1e-8)
    shared = ((u**2, u**2), (u**2, heavy**2))
    assert propagated_u((-1, 1), shared) == pytest.approx(added, rel=1e-8)


@given(u=SIZE)
def test_a_load_differs_from_itself_by_nothing(u: float) -> None:
    assert difference_u(u, u) == 0
    assert propagated_u((1, -1), ((u**2, u**2), (u**2, u**2))) == 0


def test_rounding_leaves_nothing_less_than_nothing() -> None:
    variance = 0.1**2
    assert propagated_u((3, -0.3), ((variance, 10 * variance), (10 * variance, 100 * variance))) >= 0


def test_two_results_of_one_input_go_together() -> None:
    assert propagated(((2.0,), (-3.0,)), ((0.25,),)) == ((1.0, -1.5), (-1.5, 2.25))
