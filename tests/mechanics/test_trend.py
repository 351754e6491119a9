"""The line on a numeric variable."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.api import OLS, add_constant

from app.mechanics.bench_values import BenchValue
from app.mechanics.trend import NO_SCATTER, TOO_FEW_BENCHES, TOO_FEW_LEVELS, UNBROKEN, Trend, trend
from tests.mechanics.bench_class import exact, held

Pairs = list[tuple[float, float]]
SIX: Pairs = [(2, 2.0), (2, 2.1), (3, 3.0), (3, 3.3), (4, 4.0), (4, 4.6)]


def line(pairs: Pairs, *more: tuple[float, BenchValue]) -> Trend:
    values = [(level, value) for (level, _), value in zip(pairs, exact(*(y for _, y in pairs)), strict=True)]
    return trend("break_force_N", [*values, *more], unit="N", slope_unit="N/strip")


def test_the_line_by_hand() -> None:
    """Means 2.05, 3.15 and 4.3 at 2, 3 and 4: slope (4.3 - 2.05)/2, the mean of all 19/6 at 3."""
    found = line(SIX)
    assert found.slope.value == pytest.approx(1.125, rel=1e-12)
    assert found.intercept.value == pytest.approx(19 / 6 - 3 * 1.125, rel=1e-12)
    assert (found.slope.unit, found.intercept.unit, found.dof) == ("N/strip", "N", 4)


def test_a_second_opinion() -> None:
    """statsmodels, ordinary least squares of the same six: line, intervals and scatter."""
    other = OLS([y for _, y in SIX], add_constant([x for x, _ in SIX])).fit()
    found = line(SIX)
    ends = [(found.intercept.low, found.intercept.high), (found.slope.low, found.slope.high)]
    assert ends == [pytest.approx(tuple(row), rel=1e-9) for row in other.conf_int()]
    assert found.s == pytest.approx(math.sqrt(other.mse_resid), rel=1e-9)


def test_the_lack_of_fit_by_hand() -> None:
    """Means 1, 5, 3 at 2, 3, 4: slope 1, off the line by -1, 2, -1, so twice 1 + 4 + 1; repeats 2 + 2 + 2."""
    found = line([(2, 0), (2, 2), (3, 4), (3, 6), (4, 2), (4, 4)]).lack_of_fit
    assert found is not None
    assert (found.dof, found.dof_repeats) == (1, 3)
    assert found.f == pytest.approx(12 / (6 / 3), rel=1e-12)


@pytest.mark.parametrize(
    ("pairs", "more", "why"),
    [
        (SIX[:4] + SIX[:2], (), TOO_FEW_LEVELS),
        (SIX[:5], (), TOO_FEW_BENCHES),
        (SIX, ((4.0, held(5)),), UNBROKEN),
    ],
)
def test_no_line_says_why(pairs: Pairs, more: tuple[tuple[float, BenchValue], ...], why: str) -> None:
    found = line(pairs, *more)
    assert (found.slope.why, found.intercept.why, found.s, found.lack_of_fit) == (why, why, None, None)


@pytest.mark.parametrize("step", [0.0, 1.0])
def test_results_on_a_line_make_no_interval(step: float) -> None:
    found = line([(level, 1 + step * level) for level in (2, 2, 3, 3, 4, 4)])
    assert (found.slope.value, found.slope.note, found.slope.low) == (pytest.approx(step, abs=1e-12), NO_SCATTER, None)
    assert found.lack_of_fit is None


@given(st.lists(st.tuples(st.integers(1, 6), st.integers(1, 400)), min_size=1, max_size=12))
def test_any_benches_in_any_order(some: list[tuple[int, int]]) -> None:
    pairs: Pairs = [(float(level), value / 10) for level, value in some]
    before, after = line(pairs), line(pairs[::-1])
    assert before.slope.why == after.slope.why
    for one, other in ((before.slope, after.slope), (before.intercept, after.intercept)):
        assert (one.value is None) == (other.value is None)
        assert one.value is None or one.value == pytest.approx(other.value, rel=1e-9, abs=1e-9)
