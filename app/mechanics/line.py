"""Single straight lines of y on x, with plain standard errors: of scattered values, through the origin, of stated u.

The sums are those of the centroid, as ISO/TS 28037 sets them out. `scipy.stats.linregress` gives the same line, but
takes its standard errors from 1 - r**2, which has no digits left where a line is nearly perfect, and no covariance.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from app.domain.errors import InvalidEntry
from app.mechanics.propagation import propagated_u

TOO_FEW = "A straight line and its scatter need three values or more."
ONE_PLACE = "A straight line needs values at two different places or more."
NO_U = "Each value needs a standard uncertainty over nothing."

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Line:
    """y = intercept + slope x, with the plain standard errors of both and their covariance.

    `residual_squares` is the sum of squared distances of the values from the line, each over its own uncertainty
    where one was stated (the observed chi-squared); `dof` the values less the figures fitted.
    """

    intercept: float
    slope: float
    intercept_u: float
    slope_u: float
    covariance: float
    residual_squares: float
    dof: int

    @property
    def scatter(self) -> float:
        """The residual standard deviation; 0 where no degree of freedom is left."""
        return math.sqrt(self.residual_squares / self.dof) if self.dof else 0.0

    def at(self, x: float) -> tuple[float, float]:
        """The line's value at x and its standard uncertainty, the covariance kept."""
        covariance = ((self.intercept_u**2, self.covariance), (self.covariance, self.slope_u**2))
        return self.intercept + self.slope * x, propagated_u((1.0, x), covariance)

    def _scattered(self, scatter: float) -> "Line":
        """The same line when each value has this standard uncertainty, not 1."""
        return replace(
            self,
            intercept_u=self.intercept_u * scatter,
            slope_u=self.slope_u * scatter,
            covariance=self.covariance * scatter**2,
        )


def least_squares(x: Sequence[float], y: Sequence[float]) -> Line:
    """The straight line of least squares; its standard errors come from the scatter about it.

    Parameters: x [any unit] and y [any unit], both of shape (n,), n of 3 or more.
    Returns: the line, n - 2 degrees of freedom [1], intercept [of y], slope [of y per x].
    Raises: InvalidEntry for fewer than three values, or all at one x.
    Source: ordinary least squares, as in JCGM 100:2008 (GUM), H.3; NIST StRD holds it to 9 digits and more.
    """
    if len(x) < 3:
        raise InvalidEntry(TOO_FEW)
    line = _fitted(np.asarray(x, dtype=float), np.asarray(y, dtype=float), np.ones(len(x)))
    return line._scattered(line.scatter)


def with_stated_u(x: Sequence[float], y: Sequence[float], u: Sequence[float]) -> Line:
    """The straight line of values whose standard uncertainties are known beforehand.

    Parameters: x [any unit], y and u, its standard uncertainty [any unit, one for both], all of shape (n,).
    Returns: the line weighted by 1 / u**2, n - 2 degrees of freedom [1] of the observed chi-squared; standard errors
        from u alone.
    Raises: InvalidEntry for a u of nothing, or values all at one x.
    Source: ISO/TS 28037:2010, clause 6.
    """
    stated = np.asarray(u, dtype=float)
    if not np.all(stated > 0):
        raise InvalidEntry(NO_U)
    return _fitted(np.asarray(x, dtype=float), np.asarray(y, dtype=float), stated**-2)


def through_origin(x: Sequence[float], y: Sequence[float]) -> Line:
    """The straight line of least squares through the origin.

    Parameters: x [any unit] and y [any unit], both of shape (n,), n of 2 or more.
    Returns: the line, its intercept 0 without uncertainty, n - 1 degrees of freedom [1], slope [of y per x].
    Raises: InvalidEntry when there is one value, or all x are 0.
    Source: ordinary least squares; NIST StRD, NoInt1, holds it.
    """
    place, value = np.asarray(x, dtype=float), np.asarray(y, dtype=float)
    squares = float(place @ place)
    if len(x) < 2 or squares == 0:
        raise InvalidEntry(ONE_PLACE)
    slope = float(place @ value) / squares
    left = value - slope * place
    line = Line(
        intercept=0.0,
        slope=slope,
        intercept_u=0.0,
        slope_u=squares**-0.5,
        covariance=0.0,
        residual_squares=float(left @ left),
        dof=len(x) - 1,
    )
    return line._scattered(line.scatter)


def _fitted(x: FloatArray, y: FloatArray, weight: FloatArray) -> Line:
    total = float(weight.sum())
    if not total:
        raise InvalidEntry(ONE_PLACE)
    mean_x, mean_y = float(weight @ x) / total, float(weight @ y) / total
    dx, dy = x - mean_x, y - mean_y
    squares = float(weight @ dx**2)
    if squares == 0 or np.ptp(x) == 0:
        raise InvalidEntry(ONE_PLACE)
    slope = float(weight @ (dx * dy)) / squares
    left = dy - slope * dx
    return Line(
        intercept=mean_y - slope * mean_x,
        slope=slope,
        intercept_u=math.sqrt(1 / total + mean_x**2 / squares),
        slope_u=squares**-0.5,
        covariance=-mean_x / squares,
        residual_squares=float(weight @ left**2),
        dof=len(x) - 2,
    )
