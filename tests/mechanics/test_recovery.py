"""Set, recovery and elastic limit: what came back, and what could not have been seen."""

import math
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from uncertainties import ufloat

from app.mechanics.recovery import (
    ALL_BACK,
    NO_RETURN,
    NONE_BACK,
    TOO_LITTLE,
    elastic_limit,
    permanent_set,
    recovery,
)
from app.mechanics.result import ReadingScatter

SCATTER = ReadingScatter(u_mm=0.6, dof=10)
BY_SCALE = ReadingScatter(u_mm=0.408)


def test_alder_s_two_returns() -> None:
    """Invented demo lesson: back at 220 and 231 mm from a zero of 218 mm; 28 of 41 mm came back, 68 %."""
    early, late = permanent_set(220 - 218, BY_SCALE), permanent_set(231 - 218, BY_SCALE)
    assert (early.value, late.value, late.unit) == (2, 13, "mm")
    share = recovery(259 - 218, 231 - 218, BY_SCALE)
    assert share.value == 28 / 41
    assert (f"{share.value:.0%}", share.unit) == ("68%", "1")


def test_a_set_is_a_difference_of_two_readings() -> None:
    found = permanent_set(2.0, SCATTER)
    half_mm = stats.t.ppf(0.975, 10) * math.sqrt(2) * 0.6
    assert (found.low, found.high) == pytest.approx((2 - half_mm, 2 + half_mm), rel=1e-12)
    assert found.standard_uncertainty == pytest.approx(half_mm / stats.norm.ppf(0.975), rel=1e-12)


@pytest.mark.parametrize(("zeros", "joins", "times"), [(1, 0, 2), (2, 0, 1.5), (4, 0, 1.25), (1, 1, 4), (2, 2, 5.5)])
def test_repeated_zeros_and_put_back_pointers_in_a_set(zeros: int, joins: int, times: float) -> None:
    found = permanent_set(0.0, BY_SCALE, zeros=zeros, joins=joins)
    assert found.high == pytest.approx(2 * 0.408 * math.sqrt(times), rel=1e-12)


@pytest.mark.parametrize("zeros", [1, 2, 5])
def test_recovery_beside_another_calculator(zeros: int) -> None:
    """Second opinion: the package `uncertainties`, which follows the shared zero by itself."""
    zero_mm = sum(ufloat(218, 0.6) for _ in range(zeros)) / zeros
    reached_mm, back_mm = ufloat(259, 0.6), ufloat(231, 0.6)
    other = (reached_mm - back_mm) / (reached_mm - zero_mm)
    ours = recovery(41, 13, SCATTER, zeros=zeros)
    half = stats.t.ppf(0.975, 10) * other.std_dev
    assert (ours.value, ours.low, ours.high) == pytest.approx(
        (other.nominal_value, other.nominal_value - half, other.nominal_value + half), rel=1e-12
    )


def test_a_join_is_counted_at_its_worst_place() -> None:
    """Second opinion: `uncertainties`, the pointer put back between the reading under load and the one back."""
    reached_mm, back_mm = ufloat(259, 0.6), ufloat(217, 0.6) + ufloat(14, 0.6 * math.sqrt(2))
    other = (reached_mm - back_mm) / (reached_mm - ufloat(218, 0.6))
    ours = recovery(41, 13, SCATTER, joins=1)
    assert ours.high == pytest.approx(other.nominal_value + stats.t.ppf(0.975, 10) * other.std_dev, rel=1e-12)


@pytest.mark.parametrize(("reached_mm", "told"), [(2.99, False), (3.0, True), (-41.0, False), (0.0, False)])
def test_no_recovery_of_a_stretch_that_can_hardly_be_seen(reached_mm: float, told: bool) -> None:
    found = recovery(reached_mm, 0.0, SCATTER)
    assert (found.value is not None, found.why) == (told, None if told else TOO_LITTLE)


def test_bracket_of_the_elastic_limit() -> None:
    found = elastic_limit((4.8, 8.7, 12.7, 16.6), (0.4, 1.1, 4.0, 13.0), SCATTER)
    assert (found.limit.low, found.limit.high, found.limit.unit, found.limit.why) == (8.7, 12.7, "N", None)
    assert (found.came_back_n, found.stayed_n) == ((4.8, 8.7), (12.7, 16.6))
    assert found.seen_from_mm == pytest.approx(stats.t.ppf(1 - 0.05 / 4, 10) * math.sqrt(2) * 0.6, rel=1e-12)


@pytest.mark.parametrize(
    ("backs_mm", "ends", "why"),
    [
        ((), (None, None), NO_RETURN),
        ((0.0, 1.0), (16.6, None), ALL_BACK),
        ((4.0, 13.0), (None, 4.8), NONE_BACK),
    ],
)
def test_an_end_that_there_is_none_of(
    backs_mm: tuple[float, ...], ends: tuple[float | None, float | None], why: str
) -> None:
    found = elastic_limit((4.8, 16.6)[: len(backs_mm)], backs_mm, SCATTER)
    assert (found.limit.low, found.limit.high, found.limit.why) == (*ends, why)


@pytest.mark.parametrize("heavy_n", [4.8, 16.6])
def test_back_after_it_had_not_come_back_both_are_named(heavy_n: float) -> None:
    found = elastic_limit((4.8, heavy_n), (6.0, 0.5), SCATTER)
    assert (found.limit.low, found.limit.high) == (None, None)
    assert found.limit.why is not None
    assert f"from {heavy_n}\u00a0N but not from 4.8\u00a0N" in found.limit.why
    assert (found.came_back_n, found.stayed_n) == ((heavy_n,), (4.8,))


@pytest.mark.parametrize(("returns", "factor"), [(1, 2.0), (2, 2.0), (4, 2.2414)])
def test_the_set_that_can_be_seen_by_the_scale_alone(returns: int, factor: float) -> None:
    """Never under twice the uncertainty of a difference; from three returns on the quantile of 1 - 0.05/m is more."""
    found = elastic_limit(range(returns), [0.0] * returns, BY_SCALE)
    assert found.seen_from_mm == pytest.approx(factor * math.sqrt(2) * 0.408, rel=1e-4)


@pytest.mark.parametrize(("back_mm", "stayed"), [(5.0, False), (10.0, True)])
def test_one_division_off_is_no_set(back_mm: float, stayed: bool) -> None:
    """A pointer between two marks is read as either; on a 5 mm scale that would be called a set 6 times in 100."""
    found = elastic_limit((8.7,), (back_mm,), ReadingScatter(u_mm=1.47, dof=10), division_mm=5.0)
    assert (found.stayed_n == (8.7,), found.seen_from_mm) == (stayed, 5.0)


returns = st.lists(st.tuples(st.floats(0.5, 50), st.floats(-5, 60)), min_size=1, max_size=6)
scatters = st.builds(ReadingScatter, u_mm=st.floats(0.05, 3), dof=st.none() | st.integers(2, 30))


@given(returns, scatters, st.randoms())
def test_the_order_of_returns_does_not_matter(
    pairs: list[tuple[float, float]], scatter: ReadingScatter, dice: Random
) -> None:
    mixed = list(pairs)
    dice.shuffle(mixed)
    found, again = (
        elastic_limit([load for load, _ in some], [back for _, back in some], scatter) for some in (pairs, mixed)
    )
    assert found == again
    assert len(found.came_back_n) + len(found.stayed_n) == len(pairs)
    assert found.limit.low is None or found.limit.high is None or found.limit.low < found.limit.high


@given(st.floats(1, 500), st.floats(-20, 500), scatters, st.floats(0.1, 100))
def test_another_unit_of_length_changes_no_share(
    reached_mm: float, back_mm: float, scatter: ReadingScatter, times: float
) -> None:
    one = recovery(reached_mm, back_mm, scatter)
    other = recovery(reached_mm * times, back_mm * times, ReadingScatter(u_mm=scatter.u_mm * times, dof=scatter.dof))
    if one.value is None or other.value is None:  # a stretch of just 5 u may fall on either side by rounding
        assert reached_mm <= 5.000001 * scatter.u_mm
        return
    assert (other.value, other.low, other.high) == pytest.approx((one.value, one.low, one.high), rel=1e-9, abs=1e-9)
