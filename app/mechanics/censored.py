"""Breaking forces of one design that are intervals or "more than", taken together: the likeliest middle of them all.

ln of a breaking force is a middle m plus s times a variate of a fixed shape. In the coordinates (m/s, 1/s) the
log-likelihood is concave, for the densities of the shapes are log-concave: at each m there is one likeliest s, and the
profile in m rises to one top and falls away to both sides. So a search between two signs can't miss.
"""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import numpy as np
from scipy.optimize import brentq

from app.mechanics.result import student
from app.mechanics.scatter_shape import Array, Shape

Ends = tuple[tuple[float, float | None], ...]
"""Low and high end of each breaking force [N]; no high end: more than."""

LEAST_S, MOST_S = 0.01, 100.0
"""Brackets that all overlap would drive s to nil."""
LEAST_WIDTH_LN = 1e-9
"""What has no width has no likelihood."""
OPEN_LN = 1e9
"""Where an open end is put: nothing lies beyond."""
FAR_BELOW_LN = math.log(100)
"""A middle so far under the lowest end is nowhere."""
LEVEL = 1e-9
"""Where all brackets overlap widely, the likelihood is level between their ends to the last digit."""
CLOSE = 1e-9
MOST_STEPS = 100
TOO_STEEP = 1e6
"""Where the likelihood climbs so steeply its bend has lost its digits."""
SIGNS = np.array([[1.0], [-1.0]])


@dataclass(frozen=True, kw_only=True)
class Pooled:
    """Scatter that several designs share: standard deviation of ln of a bench's value, and degrees of freedom."""

    s_ln: float
    dof: int


@dataclass(frozen=True, kw_only=True)
class Estimate:
    """The median of a design's breaking forces and its interval [N], an end None where it does not close.

    `s_ln` is the likeliest scatter of ln, `log_likelihood` that of both.
    """

    median_n: float
    low_n: float | None
    high_n: float | None
    s_ln: float
    log_likelihood: float


class _Place(NamedTuple):
    """The log-likelihood of a middle `m` and a precision 1/s**2 of ln; its slope by m; slope and bend by ln s."""

    m: float
    precision: float
    log_likelihood: float
    by_m: float
    by_scatter: float
    bend: float


def least_drop(n: int) -> float:
    """How far twice the profile log-likelihood drops at the ends of a 95 % interval.

    Parameters: n, how many values there are [1], at least 2.
    Returns: n ln(1 + t**2 / (n - 1)) [1], t the quantile of Student's t at 0.975 with n - 1 degrees of freedom.
    Raises: ZeroDivisionError for n = 1.
    Source: our own; of values without steps or censoring it gives exactly mean -+ t s / sqrt(n).
    """
    return n * math.log1p(student(0.975, n - 1) ** 2 / (n - 1))


@lru_cache(maxsize=1024)
def estimate(ends: Ends, shape: Shape, *, top_n: float) -> Estimate | None:
    """The likeliest median of a design's breaking forces, with its profile-likelihood interval.

    Parameters: ends, low and high of each breaking force [N], at least two of them with both; shape, how ln of them
        scatters; top_n, the force beyond which an upper end is not sought [N].
    Returns: median and interval [N], an end None where it does not close before `top_n`, or a hundredth of the lowest
        end; None when the median itself lies beyond these.
    Raises: nothing.
    Source: maximum likelihood for interval and right-censored observations as in W. Nelson, Applied Life Data Analysis
        (1982), ch. 9 (from memory); s at least 0.01 and the cut `least_drop` are our own.
    """
    search = _Search(_logarithms(ends), shape, top_ln=math.log(top_n))
    best = search.top()
    if best is None:
        return None
    low, high = search.end(best, search.bottom), search.end(best, search.top_ln)
    return Estimate(
        median_n=math.exp(best.m),
        low_n=None if low is None else math.exp(low),
        high_n=None if high is None else math.exp(high),
        s_ln=best.precision**-0.5,
        log_likelihood=best.log_likelihood,
    )


def _logarithms(ends: Ends) -> Array:
    low = np.array([math.log(low) if low > 0 else -OPEN_LN for low, _ in ends])
    high = np.array([OPEN_LN if high is None else math.log(high) for _, high in ends])
    return np.array([low, np.maximum(high, low + LEAST_WIDTH_LN)])


class _Search:
    """The search for the likeliest middle of ends, shape (2, n), in logarithms, and for the ends of its interval."""

    def __init__(self, ends: Array, shape: Shape, *, top_ln: float) -> None:
        self.ends, self.shape, self.top_ln = ends, shape, top_ln
        known = ends[np.abs(ends) < OPEN_LN]
        self.lowest, self.highest = float(known.min()), float(known.max())
        self.bottom = self.lowest - FAR_BELOW_LN
        self.near = max(LEAST_S, float(known.std())) ** -2
        self.profile: dict[float, _Place] = {}

    def place(self, m: float, precision: float) -> _Place:
        """The likelihood at a middle and a precision."""
        root = math.sqrt(precision)
        arm = (self.ends - m) * root
        z = arm + self.shape.median_z
        log_chance, log_pull = self.shape.chance(z)
        pull = np.exp(log_pull) * SIGNS
        turn = pull * arm
        by_scatter = np.add.reduce(turn)
        bend = np.vdot(turn, 1 + arm * self.shape.fall(z)) + np.vdot(by_scatter, by_scatter)
        return _Place(
            m, precision, float(log_chance.sum()), float(pull.sum()) * root, float(by_scatter.sum()), -float(bend)
        )

    def likeliest(self, m: float) -> _Place:
        """The place with the likeliest scatter at a middle, sought from the last one on."""
        if m not in self.profile:
            self.profile[m] = self._sought(m)
            self.near = self.profile[m].precision
        return self.profile[m]

    def _sought(self, m: float) -> _Place:
        """By Newton's steps; one that would leave what is known to hold the place is replaced by the middle of that.

        (`brentq` here, four evaluations in place of one, takes three times as long.)
        """
        least, most = MOST_S**-2, LEAST_S**-2
        low, high, precision = 0.0, math.inf, self.near
        for _ in range(MOST_STEPS):
            found = self.place(m, precision)
            low, high = (low, precision) if found.by_scatter > 0 else (precision, high)
            aim = least if found.by_scatter > 0 else most
            if found.bend < 0 and abs(found.by_scatter) < TOO_STEEP:
                aim = min(max(precision * (1 + 2 * found.by_scatter / found.bend), least), most)
            if abs(aim - precision) <= CLOSE * precision:
                break
            precision = aim if low < aim < high else math.sqrt(max(low, least) * min(high, most))
        return found

    def top(self) -> _Place | None:
        """The likeliest place of all; None when it lies outside what is searched."""

        def slope(m: float) -> float:
            return self.likeliest(m).by_m

        in_common = float(self.ends[0].max() + self.ends[1].min()) / 2
        if in_common > self.bottom and abs(slope(in_common)) < LEVEL:
            return self.likeliest(in_common)
        low = self.lowest if slope(self.lowest) > 0 else self.bottom
        high = self.highest if slope(self.highest) < 0 else self.top_ln
        if slope(low) <= 0 or slope(high) >= 0:
            return None
        return self.likeliest(float(brentq(slope, low, high, xtol=1e-10, rtol=1e-10)))

    def end(self, best: _Place, far: float) -> float | None:
        """Where the profile has dropped as far as an interval goes, between the best middle and a far one."""
        n = self.ends.shape[1]
        drop = math.sqrt(least_drop(n))

        def beyond(m: float) -> float:
            return math.sqrt(max(0.0, 2 * (best.log_likelihood - self.likeliest(m).log_likelihood))) - drop

        step = 1.6 * drop / math.sqrt(n * best.precision)
        close = best.m + math.copysign(min(step, abs(far - best.m)), far - best.m)
        outer = close if beyond(close) > 0 else far
        if beyond(outer) <= 0:
            return None
        return float(brentq(beyond, best.m, outer, xtol=1e-9, rtol=1e-9))
