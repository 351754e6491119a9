"""Scatter within and between sets of values."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.mechanics.one_way import between_squares, mean, squares, tukey_factor, tukey_tail, within_squares
from app.mechanics.shared_scatter import half_width, pooled_scatter, standard_error

values = st.lists(st.floats(-100, 100), min_size=1, max_size=6)


def test_sums_of_squares_by_hand() -> None:
    """1, 2, 3 and 5, 7: means 2 and 6, of all 3.6; within 2 + 2, between 3 x 1.6^2 + 2 x 2.4^2."""
    sets = [[1.0, 2.0, 3.0], [5.0, 7.0]]
    assert within_squares(sets) == (pytest.approx(4.0, rel=1e-15), 3)
    assert between_squares(sets) == (pytest.approx(19.2, rel=1e-15), 1)


@given(st.lists(values, min_size=1, max_size=5))
def test_what_is_within_and_between_is_all_there_is(sets: list[list[float]]) -> None:
    total = squares([value for one in sets for value in one])
    parts = within_squares(sets)[0] + between_squares(sets)[0]
    assert parts == pytest.approx(total, rel=1e-9, abs=1e-9)


@given(values)
def test_order_does_not_matter_to_the_last_digit(some: list[float]) -> None:
    assert mean(some) == mean(sorted(some))
    assert squares(some) == pytest.approx(squares(sorted(some)), rel=1e-12)


@given(st.floats(0.1, 1e6), st.integers(1, 9))
def test_equal_values_do_not_scatter_at_all(value: float, count: int) -> None:
    assert squares([value] * count) == 0
    assert pooled_scatter([[value] * count]) is None


def test_the_floor_is_the_least_scatter() -> None:
    pooled = pooled_scatter([[1.0, 1.0], [2.0, 2.0]], floor=0.04)
    assert pooled is not None
    assert (pooled.s_ln, pooled.dof) == (0.2, 2)
    assert pooled_scatter([[1.0], [2.0]], floor=0.04) is None


def test_the_half_width_by_hand() -> None:
    """s = 0.2 and three values a mean: standard error 0.2 x root of 2/3."""
    pooled = pooled_scatter([[1.0, 1.0], [2.0, 2.0], [3.0, 3.0]], floor=0.04)
    assert pooled is not None
    assert standard_error(pooled, (3, 3)) == pytest.approx(0.2 * (2 / 3) ** 0.5, rel=1e-15)
    assert half_width(pooled, (3, 3), sets=3) == pytest.approx(tukey_factor(0.96, 3, 3) * 0.163299316, rel=1e-8)


@pytest.mark.parametrize(("sets", "dof"), [(2, 3), (3, 6), (5, 4)])
def test_factor_and_tail_undo_each_other(sets: int, dof: int) -> None:
    assert tukey_tail(tukey_factor(0.96, sets, dof), sets, dof) == pytest.approx(0.04, rel=1e-6)
