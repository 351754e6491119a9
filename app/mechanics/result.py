"""What a sum gives: a value with its uncertainty, interval and unit, or the reason why there is none."""

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from scipy import stats

NORMAL_975 = 1.959963984540054
"""Half-width of a 95 % interval over the standard uncertainty that is printed with it."""

SCALE_ONLY_FACTOR = 2.0
"""Half-width of an interval over an uncertainty that rests on the scale alone."""


@dataclass(frozen=True, kw_only=True)
class Result:
    """A measured figure; `low` and `high` are the ends of its 95 % interval, None where open or not to be had.

    `why` says in one sentence why there is no value; `note` what must be said beside a value.
    """

    value: float | None
    unit: str
    standard_uncertainty: float | None = None
    low: float | None = None
    high: float | None = None
    why: str | None = None
    note: str | None = None

    def noted(self, note: str | None) -> "Result":
        """The same with that note."""
        return replace(self, note=note)


@dataclass(frozen=True, kw_only=True)
class Interval:
    """Two ends in one unit, either of which may be open (None); `why` says why one or both can't be had."""

    low: float | None
    high: float | None
    unit: str
    why: str | None = None


@dataclass(frozen=True, kw_only=True)
class ReadingScatter:
    """Standard uncertainty of one pointer reading of a cord [mm] and its degrees of freedom.

    `dof` None: from the scale only, no fit was had.
    """

    u_mm: float
    dof: int | None = None

    @property
    def factor(self) -> float:
        """Half-width of a 95 % interval over a standard uncertainty that rests on this scatter."""
        return SCALE_ONLY_FACTOR if self.dof is None else student(0.975, self.dof)


@lru_cache(maxsize=4096)
def student(probability: float, dof: float) -> float:
    """The quantile of Student's t.

    Parameters: probability [1], between 0 and 1; dof, degrees of freedom [1], over 0.
    Returns: the quantile [1].
    Raises: nothing.
    Source: Student's distribution, as in JCGM 100:2008 (GUM), annex G.
    """
    return float(stats.t.ppf(probability, dof))


def none(why: str, unit: str) -> Result:
    """A figure that can't be had.

    Parameters: why, one plain sentence; unit, of the figure [its symbol].
    Returns: a result without a value [that unit].
    Raises: nothing.
    Source: our own rule: no number without its uncertainty.
    """
    return Result(value=None, unit=unit, why=why)


def from_interval(value: float, low: float | None, high: float | None, *, unit: str) -> Result:
    """A figure from its 95 % interval, which may be lopsided or open.

    Parameters: value; low, high, the ends, None where open; unit [its symbol].
    Returns: the result, its standard uncertainty half the width over 1.96 [that unit], None when an end is open.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 4.3.4, read backwards: value +- 1.96 u holds for whoever reads only u.
    """
    closed = low is not None and high is not None
    return Result(
        value=value,
        unit=unit,
        standard_uncertainty=(high - low) / 2 / NORMAL_975 if closed else None,  # type: ignore[operator]
        low=low,
        high=high,
    )


def from_scatter(value: float, u: float, factor: float, *, unit: str) -> Result:
    """A figure with a symmetrical 95 % interval.

    Parameters: value; u, its plain standard uncertainty; factor, of the interval [1], Student's t or 2; unit [symbol].
    Returns: value -+ factor u [that unit], with u widened to half the width over 1.96.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), annex G.
    """
    return from_interval(value, value - factor * u, value + factor * u, unit=unit)


def relative_product(*parts: tuple[float, float]) -> float:
    """Relative standard uncertainty of a product or quotient of independent quantities.

    Parameters: parts, each a value and its standard uncertainty in one unit, values not 0.
    Returns: the root of the sum of squared relative uncertainties [1].
    Raises: ZeroDivisionError when a value is 0.
    Source: JCGM 100:2008 (GUM), 5.1.6.
    """
    return math.hypot(*(u / value for value, u in parts))
