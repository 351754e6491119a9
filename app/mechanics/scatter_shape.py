"""Shapes in which the logarithms of breaking forces may scatter: the normal one and the smallest extreme value."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import log_ndtr

Array = NDArray[np.float64]

LN_ROOT_2_PI = math.log(2 * math.pi) / 2
EXTREME_MOST = 600.0
"""What lies farther out is brought back to this: its exponential would run over."""
SMALL_LN = -30.0


@dataclass(frozen=True, kw_only=True)
class Shape:
    """How a standardised logarithm scatters; functions of ends of shape (2, n), low ends first.

    `log_between` is ln of the chance to lie between two ends, `log_density` ln of the density at each end, `fall` the
    slope of that; `median_z` is the median.
    """

    log_between: Callable[[Array], Array]
    log_density: Callable[[Array], Array]
    fall: Callable[[Array], Array]
    median_z: float


def _normal_between(z: Array) -> Array:
    """Mirrored where the interval lies farther above zero than below, so that no chance is one less nearly one."""
    mirrored = -z[0]
    near, far = log_ndtr(np.minimum(mirrored, z[1])), log_ndtr(-np.maximum(mirrored, z[1]))
    return near + np.log(-np.expm1(far - near))  # type: ignore[no-any-return]


def _normal_density(z: Array) -> Array:
    return -LN_ROOT_2_PI - z * z / 2


def _extreme_between(z: Array) -> Array:
    """The chance is exp(-e^low) (1 - exp(-x)), x = e^high - e^low; where x is small, its own ln does instead."""
    low, high = np.minimum(z[0], EXTREME_MOST - 1), np.minimum(z[1], EXTREME_MOST)
    ln_x = high + np.log(-np.expm1(low - high))
    ln_part = np.log(-np.expm1(-np.exp(np.maximum(ln_x, SMALL_LN))))
    return np.where(ln_x < SMALL_LN, ln_x, ln_part) - np.exp(low)  # type: ignore[no-any-return]


def _extreme_density(z: Array) -> Array:
    within = np.minimum(z, EXTREME_MOST)
    return within - np.exp(within)


def _extreme_fall(z: Array) -> Array:
    return 1 - np.exp(np.minimum(z, EXTREME_MOST))


NORMAL = Shape(log_between=_normal_between, log_density=_normal_density, fall=np.negative, median_z=0.0)
SMALLEST_EXTREME = Shape(
    log_between=_extreme_between,
    log_density=_extreme_density,
    fall=_extreme_fall,
    median_z=math.log(math.log(2)),
)
"""Of ln of a force: the force itself is then Weibull, of shape 1/s."""
