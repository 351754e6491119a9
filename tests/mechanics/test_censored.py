"""The likeliest middle of breaking forces that are intervals or "more than"."""

import math
import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats
from scipy.optimize import minimize_scalar

from app.mechanics.censored import LEAST_S, Ends, Estimate, estimate, least_drop
from app.mechanics.scatter_shape import NORMAL, SMALLEST_EXTREME, Shape

STEPPED: Ends = ((16.0, 18.0), (18.0, 20.0), (20.0, 22.0), (22.0, 24.0), (18.0, 20.0))
CENSORED: Ends = ((16.0, 18.0), (20.0, 22.0), (22.0, None), (18.0, 20.0), (22.0, None), (0.0, 17.0))
BOTH = pytest.mark.parametrize(
    ("shape", "known"), [(NORMAL, stats.norm), (SMALLEST_EXTREME, stats.gumbel_l)], ids=["normal", "extreme"]
)


def found(ends: Ends, shape: Shape = NORMAL, top_n: float = 1e3) -> Estimate:
    made = estimate(ends, shape, top_n=top_n)
    assert made is not None
    return made


def profile(ends: Ends, known: stats.rv_continuous, median: float) -> float:
    """The log-likelihood of a median with the likeliest scatter, by the plain formula and a plain search."""

    def less(ln_s: float) -> float:
        s = math.exp(ln_s)
        at = math.log(median) - s * known.median()
        upper = [1.0 if high is None else known.cdf((math.log(high) - at) / s) for _, high in ends]
        lower = [0.0 if low == 0 else known.cdf((math.log(low) - at) / s) for low, _ in ends]
        return -sum(math.log(max(up - down, 1e-300)) for up, down in zip(upper, lower, strict=True))

    return -float(minimize_scalar(less, bounds=(math.log(LEAST_S), 1.0), method="bounded", options={"xatol": 1e-9}).fun)


@pytest.mark.parametrize(("n", "cut"), [(3, 6.98), (4, 5.90), (5, 5.37), (6, 5.05), (8, 4.70), (10, 4.50), (12, 4.38)])
def test_the_cut_for_few_values(n: int, cut: float) -> None:
    assert least_drop(n) == pytest.approx(cut, abs=0.005)


@BOTH
@pytest.mark.parametrize("ends", [STEPPED, CENSORED], ids=["stepped", "censored"])
def test_the_likelihood_is_greatest_there_and_has_dropped_by_the_cut_at_the_ends(
    ends: Ends, shape: Shape, known: stats.rv_continuous
) -> None:
    made = found(ends, shape)
    assert made.low_n is not None
    assert made.high_n is not None
    best = profile(ends, known, made.median_n)
    assert made.log_likelihood == pytest.approx(best, abs=1e-9)
    assert max(profile(ends, known, made.median_n * factor) for factor in (0.998, 1.002)) < best
    for end in (made.low_n, made.high_n):
        assert 2 * (best - profile(ends, known, end)) == pytest.approx(least_drop(len(ends)), abs=1e-6)


@pytest.mark.parametrize("values", [(18.2, 20.1, 23.9), (16.5, 18.2, 20.1, 23.9, 19.0, 21.2, 17.7)])
def test_of_values_without_steps_it_is_the_t_interval(values: tuple[float, ...]) -> None:
    """ln x -+ a hundred-thousandth: narrow enough for 1e-6, wide enough to keep its digits."""
    made = found(tuple((value * (1 - 1e-5), value * (1 + 1e-5)) for value in values))
    logs = np.log(values)
    half = stats.t.ppf(0.975, len(values) - 1) * logs.std(ddof=1) / math.sqrt(len(values))
    expected = [logs.mean() - half, logs.mean(), logs.mean() + half]
    assert [math.log(end or 0) for end in (made.low_n, made.median_n, made.high_n)] == pytest.approx(expected, abs=1e-6)
    assert made.s_ln == pytest.approx(logs.std(), rel=1e-6)


@pytest.mark.parametrize("shape", [NORMAL, SMALLEST_EXTREME], ids=["normal", "extreme"])
@pytest.mark.parametrize(
    ("ends", "between"),
    [
        (((10.0, 12.0),) * 3, (10, 12)),
        (((5.0, 50.0),) * 3, (5, 50)),
        (((5.0, 50.0), (18.0, 20.0), (19.0, 21.0)), (19, 20)),
        (((0.0, 10.0), (8.0, 10.0), (9.0, 11.0)), (9, 10)),
        (((0.0, 10.0), (8.0, 10.0), (9.0, None)), (9, 10)),
    ],
    ids=["alike", "alike and wide", "one wide", "from nothing", "from nothing, unbroken"],
)
def test_brackets_that_all_overlap_have_their_middle_in_what_they_share(
    shape: Shape, ends: Ends, between: tuple[float, float]
) -> None:
    made = found(ends, shape)
    assert between[0] < made.median_n < between[1]
    assert made.low_n is not None
    assert made.high_n is not None
    assert made.low_n < between[0]
    assert made.high_n > between[1]


@pytest.mark.parametrize("shape", [NORMAL, SMALLEST_EXTREME], ids=["normal", "extreme"])
def test_a_middle_that_may_lie_anywhere_below_is_not_given(shape: Shape) -> None:
    assert estimate(((0.0, 10.0), (0.0, 10.0), (0.0, 9.0)), shape, top_n=30.0) is None


def test_a_middle_beyond_what_was_hung_is_not_given() -> None:
    many: Ends = ((2.0, 3.0), (19.0, 20.0), *(((20.0, None),) * 18))
    assert estimate(many, NORMAL, top_n=60.0) is None


def test_an_upper_end_is_open_where_it_does_not_close_in_time() -> None:
    half: Ends = ((20.0, 22.0), (22.0, 24.0), (24.0, None), (24.0, None), (24.0, None))
    closed = found(half, top_n=1e4)
    assert closed.high_n is not None
    assert found(half, top_n=closed.high_n * 1.001).high_n == pytest.approx(closed.high_n, rel=1e-8)
    assert found(half, top_n=closed.high_n * 0.999).high_n is None


lengths = st.tuples(st.floats(0.0, 100.0), st.none() | st.floats(0.05, 50.0)).map(
    lambda pair: (pair[0], None if pair[1] is None else pair[0] + pair[1])
)
classes = st.lists(lengths, min_size=3, max_size=12).filter(lambda ends: sum(high is not None for _, high in ends) > 1)


@settings(max_examples=150, deadline=None)
@given(classes, st.sampled_from([NORMAL, SMALLEST_EXTREME]))
def test_no_brackets_break_it_and_its_interval_holds_its_value(
    ends: list[tuple[float, float | None]], shape: Shape
) -> None:
    top_n = 3 * max(end for pair in ends for end in pair if end is not None)
    made = estimate(tuple(ends), shape, top_n=top_n)
    if made is not None:
        assert (made.low_n or 0) < made.median_n < (made.high_n or math.inf)


@settings(max_examples=40, deadline=None)
@given(classes, st.sampled_from([0.001, 0.5, 9.81, 1000.0]), st.integers(0, 2**32))
def test_order_does_not_matter_and_units_are_but_a_factor(
    ends: list[tuple[float, float | None]], factor: float, seed: int
) -> None:
    top_n = 3 * max(end for pair in ends for end in pair if end is not None)
    mixed = [(low * factor, None if high is None else high * factor) for low, high in ends]
    random.Random(seed).shuffle(mixed)
    one, other = estimate(tuple(ends), NORMAL, top_n=top_n), estimate(tuple(mixed), NORMAL, top_n=top_n * factor)
    assert (one is None) == (other is None)
    if one is not None and other is not None:
        assert other.median_n == pytest.approx(one.median_n * factor, rel=1e-5)
