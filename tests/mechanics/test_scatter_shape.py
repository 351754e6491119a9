"""Two shapes of scatter."""

import math

import numpy as np
import pytest
from scipy import stats

from app.mechanics.scatter_shape import NORMAL, SMALLEST_EXTREME, Shape

SHAPES = pytest.mark.parametrize(
    ("shape", "known"), [(NORMAL, stats.norm), (SMALLEST_EXTREME, stats.gumbel_l)], ids=["normal", "extreme"]
)


def chance(shape: Shape, low: float, high: float) -> tuple[float, list[float]]:
    """ln of the chance to lie between, and ln of the density at both ends over it."""
    between, pull = shape.chance(np.array([[low], [high]]))
    return float(between[0]), [float(end) for end in pull[:, 0]]


@SHAPES
@pytest.mark.parametrize("ends", [(-1, 2), (-3, -2), (-0.5, 1.5), (0, 0.01), (1, 1.2), (-40, 0.5)])
def test_chance_density_and_median_are_those_of_the_distribution(
    shape: Shape, known: stats.rv_continuous, ends: tuple[float, float]
) -> None:
    between, pull = chance(shape, *ends)
    expected = math.log(known.cdf(ends[1]) - known.cdf(ends[0]))
    assert between == pytest.approx(expected, rel=1e-10, abs=1e-12)
    assert pull == pytest.approx([known.logpdf(end) - expected for end in ends], rel=1e-10, abs=1e-10)
    assert shape.median_z == pytest.approx(known.median(), rel=1e-12, abs=1e-15)


@SHAPES
def test_open_ends_are_the_two_tails(shape: Shape, known: stats.rv_continuous) -> None:
    assert chance(shape, -1e9, 0.5)[0] == pytest.approx(known.logcdf(0.5), rel=1e-12)
    assert chance(shape, 0.5, 1e9)[0] == pytest.approx(known.logsf(0.5), rel=1e-12)
    assert chance(shape, -1e9, 1e9)[0] == 0


@SHAPES
def test_the_fall_is_the_slope_of_the_density(shape: Shape, known: stats.rv_continuous) -> None:
    z, step = np.array([[-2.5], [1.5]]), 1e-6
    slope = (known.logpdf(z + step) - known.logpdf(z - step)) / (2 * step)
    assert shape.fall(z) == pytest.approx(slope, rel=1e-7)


def test_the_thin_tails_of_the_normal_lose_no_digits_on_either_side() -> None:
    """What lies beyond 30 by its asymptotic series; what lies beyond 31 is e to the -30.5 of it."""
    z = 30.0
    series = 1 - z**-2 + 3 * z**-4 - 15 * z**-6 + 105 * z**-8
    tail = -z * z / 2 - math.log(z * math.sqrt(2 * math.pi)) + math.log(series)
    assert chance(NORMAL, 30, 31)[0] == pytest.approx(tail, rel=1e-11)
    assert chance(NORMAL, -31, -30)[0] == chance(NORMAL, 30, 31)[0]


@pytest.mark.parametrize(("low", "high"), [(-1001.0, -1000.0), (-45.0, -44.0), (-31.0, -30.5)])
def test_the_low_tail_of_the_extreme_value_goes_on(low: float, high: float) -> None:
    """There its distribution function is e to the z, but for a part of e to the z of that."""
    expected = high + math.log1p(-math.exp(low - high))
    assert chance(SMALLEST_EXTREME, low, high)[0] == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("shape", [NORMAL, SMALLEST_EXTREME], ids=["normal", "extreme"])
@pytest.mark.parametrize("ends", [(-1e11, -1e10), (1e4, 1e5), (290, 310), (800, 900), (-1e11, 1e11)])
def test_nothing_runs_over_far_out(shape: Shape, ends: tuple[float, float]) -> None:
    z = np.array([[ends[0]], [ends[1]]])
    for found in (*shape.chance(z), shape.fall(z)):
        assert np.isfinite(found).all()


def test_the_chance_of_an_extreme_value_goes_on_falling_far_out() -> None:
    far = [chance(SMALLEST_EXTREME, low, low + 1)[0] for low in (290, 299, 301, 350, 900)]
    assert far == sorted(far, reverse=True)
    assert len(set(far)) == len(far)
