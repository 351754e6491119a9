"""Values in sets: how far they scatter within and between the sets, and what a difference of two sets must exceed."""

import math
from collections.abc import Sequence
from functools import lru_cache

from scipy import stats


def mean(values: Sequence[float]) -> float:
    """The mean of some values, whatever their order.

    Parameters: values [any unit], shape (n,), n at least 1.
    Returns: the mean [that unit].
    Raises: ZeroDivisionError when there is no value.
    Source: textbook.
    """
    return math.fsum(values) / len(values)


def squares(values: Sequence[float]) -> float:
    """The sum of squared deviations from the mean, good to the last digits that the values have.

    Parameters: values [any unit], shape (n,), n at least 1.
    Returns: the sum of squares [that unit squared], exactly 0 when all are equal.
    Raises: ZeroDivisionError when there is no value.
    Source: the corrected two-pass sum of T. F. Chan, G. H. Golub and R. J. LeVeque (1983), from memory.
    """
    centre = mean(values)
    if min(values) == max(values):
        return 0.0
    apart = [value - centre for value in values]
    rest = math.fsum(apart)
    return max(0.0, math.fsum(one * one for one in apart) - rest * rest / len(values))


def within_squares(sets: Sequence[Sequence[float]]) -> tuple[float, int]:
    """How far values scatter about the means of their own sets.

    Parameters: sets, of values [any unit], each of at least one.
    Returns: the sum of squares [that unit squared] and its degrees of freedom, 0 when no set has two values.
    Raises: ZeroDivisionError when a set is empty.
    Source: one-way analysis of variance, NIST/SEMATECH e-Handbook 7.4.3.3.
    """
    return math.fsum(squares(one) for one in sets), sum(len(one) - 1 for one in sets)


def between_squares(sets: Sequence[Sequence[float]]) -> tuple[float, int]:
    """How far the means of sets lie from the mean of all values.

    Parameters: sets, of values [any unit], each of at least one.
    Returns: the sum of squares [that unit squared], each mean counted as often as its set has values, and its degrees
        of freedom.
    Raises: ZeroDivisionError when there is no set or one is empty.
    Source: one-way analysis of variance, NIST/SEMATECH e-Handbook 7.4.3.3.
    """
    middle = mean([value for one in sets for value in one])
    apart = [(len(one), math.fsum(value - middle for value in one) / len(one)) for one in sets]
    return math.fsum(count * off * off for count, off in apart), len(sets) - 1


@lru_cache(maxsize=1024)
def tukey_factor(probability: float, sets: int, dof: int) -> float:
    """What a difference of two of several means must exceed, in standard errors of that difference.

    Parameters: probability, that none of all pairs of equal sets exceeds it [1]; sets, how many there are, at least
        2; dof, degrees of freedom of the scatter within them, at least 1 [1].
    Returns: the quantile of the studentized range over the root of 2 [1]. Kept, for one takes a twentieth of a second
        and more.
    Raises: nothing.
    Source: Tukey-Kramer procedure, NIST/SEMATECH e-Handbook 7.4.7.1.
    """
    if sets == 2:
        return float(stats.t.ppf((1 + probability) / 2, dof))
    return float(stats.studentized_range.ppf(probability, sets, dof)) / math.sqrt(2)


@lru_cache(maxsize=1024)
def tukey_tail(gap: float, sets: int, dof: int) -> float:
    """How often some pair of equal sets would be so far apart.

    Parameters: gap, difference of two means over its standard error [1], 0 or more; sets, how many there are, at
        least 2; dof, degrees of freedom of the scatter within them, at least 1 [1].
    Returns: the probability [1].
    Raises: nothing.
    Source: Tukey-Kramer procedure, NIST/SEMATECH e-Handbook 7.4.7.1.
    """
    return float(stats.studentized_range.sf(gap * math.sqrt(2), sets, dof))
