"""Shapes in which the logarithms of breaking forces may scatter: the normal one and the smallest extreme value."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import log_ndtr

Array = NDArray[np.float64]

LN_ROOT_2_PI = math.log(2 * math.pi) / 2
FAR = 300.0
"""Beyond, a hazard of e to the z goes on along its tangent: products of it would run over."""
SMALL_LN = -30.0


@dataclass(frozen=True, kw_only=True)
class Shape:
    """How a standardised logarithm scatters; functions of ends of shape (2, n), low ends first.

    `chance` gives ln of the chance to lie between two ends, shape (n,), and ln of the density at each end over that
    chance, shape (2, n); `fall` is the slope of ln of the density; `median_z` is the median.
    """

    chance: Callable[[Array], tuple[Array, Array]]
    fall: Callable[[Array], Array]
    median_z: float


def _normal(z: Array) -> tuple[Array, Array]:
    """Mirrored where the interval lies farther above zero than below, so that no chance is one less nearly one."""
    mirrored = -z[0]
    near, far = log_ndtr(np.minimum(mirrored, z[1])), log_ndtr(-np.maximum(mirrored, z[1]))
    chance = near + np.log(-np.expm1(far - near))
    return chance, -LN_ROOT_2_PI - z * z / 2 - chance


def _extreme(z: Array) -> tuple[Array, Array]:
    """The chance is exp(-e^low) (1 - exp(-x)), x = e^high - e^low; where x is small, ln x does for ln(1 - exp(-x))."""
    low, high = np.minimum(z[0], FAR - 1), np.minimum(z[1], FAR)
    ln_x = high + np.log(-np.expm1(low - high))
    x = np.exp(np.maximum(ln_x, SMALL_LN))
    part = np.where(ln_x < SMALL_LN, ln_x, np.log(-np.expm1(-x)))
    hazard = np.exp(low) * (1 + np.maximum(z[0] - low, 0))
    return part - hazard, np.array([low, high - x]) - part


def _extreme_fall(z: Array) -> Array:
    return 1 - np.exp(np.minimum(z, FAR))


NORMAL = Shape(chance=_normal, fall=np.negative, median_z=0.0)
SMALLEST_EXTREME = Shape(chance=_extreme, fall=_extreme_fall, median_z=math.log(math.log(2)))
"""Of ln of a force: the force itself is then Weibull, of shape 1/s."""
