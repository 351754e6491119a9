"""Comparisons that assume no shape of scatter: how often a chance arrangement of the same values does as much."""

import math
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray
from scipy import stats

Floats = NDArray[np.float64]

ALL_UNDER = 20_000
DRAWN = 9_999
SEED = 20_000


def permutation_p(
    samples: Sequence[Sequence[float]],
    statistic: Callable[..., Any],
    *,
    alternative: Literal["two-sided", "greater"] = "two-sided",
    arrangement: Literal["independent", "samples"] = "independent",
    all_under: int = ALL_UNDER,
) -> float:
    """How often a chance arrangement of some values gives a statistic at least as far out.

    Parameters: samples, of values [any unit]; statistic, of them and `axis`; alternative, which way is far out;
        arrangement, independent (any value may come in any sample) or samples (one sample of differences of pairs,
        each of either sign); all_under, below how many arrangements all of them are tried.
    Returns: the probability [1]: exact, or from 9,999 arrangements drawn with a fixed seed.
    Raises: nothing.
    Source: R. A. Fisher, The Design of Experiments (1935), section 21.
    """
    every = _arrangements([len(sample) for sample in samples], arrangement) < all_under
    found = stats.permutation_test(
        [np.asarray(sample, dtype=float) for sample in samples],
        statistic,
        permutation_type=arrangement,
        vectorized=True,
        n_resamples=np.inf if every else DRAWN,
        alternative=alternative,
        rng=np.random.default_rng(SEED),
    )
    return float(found.pvalue)


def _arrangements(counts: Sequence[int], arrangement: str) -> int:
    if arrangement == "samples":
        return int(2 ** counts[0])
    return math.factorial(sum(counts)) // math.prod(math.factorial(count) for count in counts)


@lru_cache(maxsize=256)
def alike_p(sets: tuple[tuple[float, ...], ...]) -> float | None:
    """How often designs that are all alike would differ so much.

    Parameters: sets, bench values of each design [one unit], designs with at least two.
    Returns: the probability [1] by the sum of n mean^2, n values a design, whatever their order; None for fewer than
        two designs.
    Raises: nothing.
    Source: permutation test of one-way layouts, R. A. Fisher (1935), as above.
    """
    if len(sets) < 2:
        return None
    middle = math.fsum(value for one in sets for value in one) / sum(map(len, sets))
    centred = sorted(sorted(value - middle for value in one) for one in sets)
    return permutation_p(centred, _between, alternative="greater")


def _between(*samples: Floats, axis: int) -> Floats:
    parts = [sample.shape[axis] * sample.mean(axis=axis) ** 2 for sample in samples]
    return np.asarray(np.sum(parts, axis=0))


@lru_cache(maxsize=256)
def pair_p(one: tuple[float, ...], other: tuple[float, ...]) -> float:
    """How often two designs that are alike would differ so much, one way or the other.

    Parameters: one and other, bench values of two designs [one unit], each at least one.
    Returns: the probability [1] by the difference of the means.
    Raises: nothing.
    Source: permutation test of two samples, R. A. Fisher (1935), as above.
    """
    return permutation_p([one, other], _apart)


def _apart(one: Floats, other: Floats, axis: int) -> Floats:
    return np.asarray(one.mean(axis=axis) - other.mean(axis=axis))
