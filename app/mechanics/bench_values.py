"""What the groups found for one design, one value a group: the unit in which designs are compared."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from app.mechanics.one_way import mean, within_squares


@dataclass(frozen=True, kw_only=True)
class BenchValue:
    """What one group found for its design; `low` and `high` are the ends of its bracket or interval, None where open.

    `at_least`: not broken, `value` is what it held. Both ends None of any other: the value is taken as exact.
    """

    group: str
    value: float
    low: float | None
    high: float | None
    at_least: bool = False
    relative_u: float | None = None


@dataclass(frozen=True, kw_only=True)
class DesignValues:
    """One design's bench values as they are compared: `low` and `high` span all of them, None where open."""

    design: str
    groups: tuple[str, ...]
    ln_values: tuple[float, ...]
    unbroken: int
    low: float | None
    high: float | None

    @property
    def mean_ln(self) -> float:
        """The mean of ln of the bench values; unbroken ones count with what they held."""
        return mean(self.ln_values)

    @property
    def s_ln(self) -> float | None:
        """Their scatter; None when there are fewer than two, or one was not broken."""
        if len(self.ln_values) < 2 or self.unbroken:
            return None
        total, dof = within_squares([self.ln_values])
        return math.sqrt(total / dof)


def bench_value(group: str, cords: Sequence[BenchValue]) -> BenchValue:
    """What one group found for a design of which it made several cords.

    Parameters: group, its name; cords, the values of its cords [one unit, positive], shape (n,), n at least 1.
    Returns: geometric means of the values and of their ends [that unit]; "at least" when one cord was not broken.
    Raises: ZeroDivisionError when there is no cord.
    Source: our own rule: two cords by one group are not two independent tries.
    """
    known = [cord.relative_u for cord in cords if cord.relative_u is not None]
    return BenchValue(
        group=group,
        value=_geometric_mean([cord.value for cord in cords]),
        low=_mean_end([cord.low for cord in cords]),
        high=_mean_end([cord.high for cord in cords]),
        at_least=any(cord.at_least for cord in cords),
        relative_u=math.sqrt(math.fsum(u * u for u in known)) / len(known) if len(known) == len(cords) else None,
    )


def _geometric_mean(values: Sequence[float]) -> float:
    return math.exp(mean([math.log(value) for value in values])) if min(values, default=1) > 0 else 0.0


def _mean_end(ends: Sequence[float | None]) -> float | None:
    known = [end for end in ends if end is not None]
    return _geometric_mean(known) if len(known) == len(ends) else None


def design_values(letter: str, values: Sequence[BenchValue]) -> DesignValues:
    """One design's bench values, ready to be compared.

    Parameters: letter, of the design; values, one a group [one unit, positive], shape (n,), n at least 1.
    Returns: ln of them [1], and lowest low and highest high of all [that unit].
    Raises: ValueError when a value is not positive.
    Source: our own definition.
    """
    lows = [value.value if value.low is None and (value.at_least or _exact(value)) else value.low for value in values]
    highs = [value.value if _exact(value) else value.high for value in values]
    return DesignValues(
        design=letter,
        groups=tuple(value.group for value in values),
        ln_values=tuple(math.log(value.value) for value in values),
        unbroken=sum(value.at_least for value in values),
        low=None if None in lows else min(low for low in lows if low is not None),
        high=None if None in highs else max(high for high in highs if high is not None),
    )


def _exact(value: BenchValue) -> bool:
    return value.low is None and value.high is None and not value.at_least


def least_variance(values: Sequence[BenchValue]) -> float:
    """The variance that the steps of the ladder, or the values' own uncertainties, make alone.

    Parameters: values, one a group [one unit, positive], shape (n,), may be empty; unbroken ones are passed over.
    Returns: the mean over the rest of the variance of ln [1]: the square of the relative standard uncertainty where
        there is one, else that of a rectangular distribution over the bracket; 0 when none is known.
    Raises: nothing.
    Source: rectangular distribution, JCGM 100:2008 (GUM), 4.3.7.
    """
    broken = (value for value in values if not value.at_least)
    known = [variance for value in broken if (variance := _own_variance(value)) is not None]
    return mean(known) if known else 0.0


def _own_variance(value: BenchValue) -> float | None:
    if value.relative_u is not None:
        return value.relative_u * value.relative_u
    if value.low is None or value.high is None:
        return None
    width = (value.high - value.low) / value.value
    return width * width / 12
