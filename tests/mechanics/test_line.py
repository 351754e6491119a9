"""Single straight lines; published ones are in `tests/published/test_lines.py`."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from app.domain.errors import InvalidEntry
from app.mechanics.line import Line, least_squares, through_origin, with_stated_u

NUMBERS = st.floats(-1e4, 1e4, allow_subnormal=False)
PAIRS = st.lists(st.tuples(NUMBERS, NUMBERS), min_size=3, max_size=20)


def spread(pairs: list[tuple[float, float]]) -> bool:
    """Whether the places differ by enough for a line that means something."""
    places = [x for x, _ in pairs]
    return max(places) - min(places) > 0.01


@given(pairs=PAIRS.filter(spread))
def test_the_line_is_that_of_a_statistics_library(pairs: list[tuple[float, float]]) -> None:
    x, y = ([pair[i] for pair in pairs] for i in (0, 1))
    line, theirs = least_squares(x, y), stats.linregress(x, y)
    size = max(map(abs, y)) + 1e-9
    reach = max(map(abs, x)) / (max(x) - min(x)) + 1
    assert line.slope * (max(x) - min(x)) == pytest.approx(theirs.slope * (max(x) - min(x)), abs=1e-9 * size)
    assert line.intercept == pytest.approx(theirs.intercept, abs=1e-9 * size * reach)
    assert line.dof == len(x) - 2


def test_standard_errors_are_those_of_a_statistics_library() -> None:
    rng = np.random.default_rng(4)
    x = rng.uniform(0, 30, 12)
    y = 220 + 3 * x + rng.normal(0, 0.6, 12)
    line, theirs = least_squares(x.tolist(), y.tolist()), stats.linregress(x, y)
    assert line.slope_u == pytest.approx(theirs.stderr, rel=1e-9)
    assert line.intercept_u == pytest.approx(theirs.intercept_stderr, rel=1e-9)
    _, covariance = np.polyfit(x, y, 1, cov=True)
    assert line.covariance == pytest.approx(covariance[0, 1], rel=1e-9)


def test_a_nearly_perfect_line_keeps_its_standard_error() -> None:
    """1 - r**2 is 1e-26 here, which no double holds; the residuals do."""
    x = [0.0, 1.0, 2.0, 3.0, 4.0]
    off = [1e-9, -1e-9, 0.0, -1e-9, 1e-9]
    line = least_squares(x, [100 * one + more for one, more in zip(x, off, strict=True)])
    assert line.scatter == pytest.approx(math.sqrt(4e-18 / 3), rel=1e-3)


@given(pairs=PAIRS.filter(spread), u=st.floats(0.01, 100))
def test_one_uncertainty_for_all_changes_no_line(pairs: list[tuple[float, float]], u: float) -> None:
    x, y = ([pair[i] for pair in pairs] for i in (0, 1))
    plain, stated = least_squares(x, y), with_stated_u(x, y, [u] * len(x))
    assert stated.slope == pytest.approx(plain.slope, rel=1e-6, abs=1e-9 * max(map(abs, y)))
    assert stated.residual_squares * u**2 == pytest.approx(plain.residual_squares, rel=1e-6, abs=1e-6)


def test_a_reading_known_ten_times_better_draws_the_line() -> None:
    line = with_stated_u([0, 1, 2], [0, 1, 5], [0.01, 0.01, 1.0])
    assert line.slope == pytest.approx(1, abs=0.001)


def line_of(x: list[float]) -> Line:
    return least_squares(x, [3.0, 3.5, 5.0, 4.0][: len(x)])


@pytest.mark.parametrize("x", [[], [1.0], [1.0, 2.0]])
def test_two_readings_have_a_line_but_no_scatter(x: list[float]) -> None:
    with pytest.raises(InvalidEntry):
        line_of(x)


@pytest.mark.parametrize("x", [[2.0, 2.0, 2.0], [0.0, 1e-200, 2e-200]])
def test_one_place_has_no_line(x: list[float]) -> None:
    with pytest.raises(InvalidEntry):
        line_of(x)
    with pytest.raises(InvalidEntry):
        with_stated_u(x, [1.0, 2.0, 3.0], [1.0, 1.0, 1.0])


@pytest.mark.parametrize("u", [0.0, -1.0, math.nan])
def test_a_stated_uncertainty_is_over_nothing(u: float) -> None:
    with pytest.raises(InvalidEntry):
        with_stated_u([0, 1, 2], [0, 1, 2], [1, 1, u])


def test_no_values_have_no_line() -> None:
    with pytest.raises(InvalidEntry):
        with_stated_u([], [], [])


@pytest.mark.parametrize("x", [[], [3.0], [0.0, 0.0]])
def test_a_line_through_the_origin_needs_two_values_and_one_away_from_it(x: list[float]) -> None:
    with pytest.raises(InvalidEntry):
        through_origin(x, [1.0] * len(x))


def test_two_stated_values_fix_a_line_and_leave_nothing_over() -> None:
    line = with_stated_u([1, 3], [2, 6], [0.1, 0.1])
    assert (line.intercept, line.slope, line.scatter, line.dof) == (0, 2, 0, 0)
    assert line.at(2) == (4, pytest.approx(0.1 / math.sqrt(2)))
