"""The scatter that several designs share, and the interval of a difference that rests on it."""

import math
from collections.abc import Sequence

from app.mechanics.censored import Pooled
from app.mechanics.one_way import tukey_factor, within_squares

PROBABILITY = 0.96
"""Not 0.95: what the steps of the ladder and skew add stays under 5 % so."""
NO_SCATTER_LN = 1e-9
"""Values that agree to nine digits show no scatter that could be reckoned with."""


def pooled_scatter(sets: Sequence[Sequence[float]], floor: float = 0.0) -> Pooled | None:
    """The scatter that several sets share.

    Parameters: sets, of values, here ln of bench values [1], each of at least one; floor, the least that their
        variance can be [1].
    Returns: standard deviation within the sets [1] and its degrees of freedom; None when no set has two values, or
        none shows any scatter.
    Raises: ZeroDivisionError when a set is empty.
    Source: one-way analysis of variance, NIST/SEMATECH e-Handbook 7.4.3.3; the floor is our own.
    """
    total, dof = within_squares(sets)
    s_ln = math.sqrt(max(total / dof, floor)) if dof else 0.0
    return Pooled(s_ln=s_ln, dof=dof) if s_ln > NO_SCATTER_LN else None


def half_width(
    pooled: Pooled, counts: tuple[int, int], *, sets: int, probability: float = PROBABILITY, shared_u: float = 0.0
) -> float:
    """Half the interval of a difference of two means among several.

    Parameters: pooled, the scatter of single values [1]; counts, how many values each of the two means has; sets, how
        many means there are, at least 2; probability, that the intervals of all pairs hold [1]; shared_u, as for
        `standard_error` [1].
    Returns: the half-width [1], in the unit of the scatter.
    Raises: ZeroDivisionError when a count is 0.
    Source: Tukey-Kramer procedure, NIST/SEMATECH e-Handbook 7.4.7.1.
    """
    return tukey_factor(probability, sets, pooled.dof) * standard_error(pooled, counts, shared_u=shared_u)


def standard_error(pooled: Pooled, counts: tuple[int, int], *, shared_u: float = 0.0) -> float:
    """The standard error of a difference of two means.

    Parameters: pooled, the scatter of single values [1]; counts, how many values each of the two means has; shared_u,
        standard uncertainty of what the values of a mean have in common, of both means together [1].
    Returns: the standard error [1], in the unit of the scatter.
    Raises: ZeroDivisionError when a count is 0.
    Source: textbook; JCGM 100:2008 (GUM), 5.1.2.
    """
    return math.hypot(pooled.s_ln * math.sqrt(1 / counts[0] + 1 / counts[1]), shared_u)
