"""How breaking forces that are intervals or "more than" spread, with no shape of scatter assumed."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np
from scipy.optimize import nnls

from app.mechanics.censored import Ends
from app.mechanics.scatter_shape import Array

SETTLED = 1e-8
MOST_ROUNDS = 100
LEAST_STEP = 1e-9
NO_SHARE = 1e-6


@dataclass(frozen=True, kw_only=True)
class Share:
    """The share of cords that break over `low_n` and at or under `high_n`; None: over `low_n`, nobody knows how far."""

    low_n: float
    high_n: float | None
    share: float


@lru_cache(maxsize=1024)
def shares(ends: Ends) -> tuple[Share, ...]:
    """The likeliest spread of breaking forces: between which forces which share of the cords breaks.

    Parameters: ends, low and high of each breaking force [N], shape (n,), n at least 1; high None: more than.
    Returns: the intervals that hold a share [N], lowest first, with their shares [1], which add up to 1; where within
        an interval it lies can't be known.
    Raises: ValueError when there are no ends.
    Source: B. W. Turnbull, The empirical distribution function with arbitrarily grouped, censored and truncated data,
        J. R. Statist. Soc. B 38 (1976) 290-295: the spread that agrees with itself; found by the steps of Y. Wang,
        J. R. Statist. Soc. B 69 (2007) 185-198 (both from memory), for self-consistency alone may need 20,000 rounds.
    """
    places = _innermost(ends)
    inside = np.array([[_holds(cord, place) for place in places] for cord in ends], dtype=float)
    share = np.full(len(places), 1 / len(places))
    for _ in range(MOST_ROUNDS):
        per_chance = inside / (inside @ share)[:, np.newaxis]
        if per_chance.sum(axis=0).max() <= len(ends) * (1 + SETTLED):
            break
        share = _uphill(inside, share, _aim(per_chance) - share)
    kept = [(place, float(part)) for place, part in zip(places, share, strict=True) if part > NO_SHARE]
    total = math.fsum(part for _, part in kept)
    return tuple(Share(low_n=low, high_n=high, share=part / total) for (low, high), part in kept)


def _aim(per_chance: Array) -> Array:
    """Shares that are greatest for the parabola that touches the likelihood: least squares without negative ones."""
    rows = np.vstack([per_chance - 2, np.ones(per_chance.shape[1])])
    aim, _ = nnls(rows, np.append(np.zeros(len(per_chance)), 1.0))
    return aim / aim.sum()  # type: ignore[no-any-return]


def _uphill(inside: Array, share: Array, way: Array) -> Array:
    """The shares after so much of the way, halved until it climbs as it promised."""
    chance = inside @ share
    promised = (inside @ way / chance).sum() / 3
    step = 1.0
    while step > LEAST_STEP:
        reached = inside @ (share + step * way)
        if reached.min() > 0 and np.log(reached / chance).sum() >= step * promised:
            break
        step /= 2
    return share + step * way


def _innermost(ends: Sequence[tuple[float, float | None]]) -> list[tuple[float, float | None]]:
    """From a low end to the next end above it, where that is a high end; at one force highs come before lows."""
    highs = [(math.inf if high is None else high, 0) for _, high in ends]
    marks = sorted({*highs, *((low, 1) for low, _ in ends)})
    return [
        (low, None if high == math.inf else high)
        for (low, is_low), (high, next_is_low) in pairwise(marks)
        if is_low and not next_is_low
    ]


def _holds(cord: tuple[float, float | None], place: tuple[float, float | None]) -> bool:
    (low, high), (inner_low, inner_high) = cord, place
    return low <= inner_low and (high is None or (inner_high is not None and inner_high <= high))
