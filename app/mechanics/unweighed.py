"""What rungs that nobody weighed do to the straight part of a curve."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from app.mechanics.propagation import difference_u
from app.mechanics.result import NORMAL_975, Result, from_interval
from app.mechanics.section import FloatArray, Section

SURE_WITHIN = 0.02
"""Rungs that are right to within this part of their mass are as good as weighed."""
NOT_WEIGHED = "the weights weren't weighed: a wrong weight bends the line as a cord does"


@dataclass(frozen=True, kw_only=True)
class StepDoubt:
    """How well a ladder is known, in parts of its range.

    Its steps and their standard uncertainties, both of shape (forces - 1,), and that of its first force.
    """

    step: FloatArray
    u: FloatArray
    first_u: float

    @property
    def half_width(self) -> float:
        """Half-width of the rectangular doubt of a rung's mass, as a part of it."""
        return math.sqrt(3 * float(self.u @ self.u) / float(self.step @ self.step))

    @property
    def is_unweighed(self) -> bool:
        """Whether the rungs may be wrong enough to bend the line."""
        return self.half_width > SURE_WITHIN * (1 + 1e-9)

    def of_slope(self, inside: NDArray[np.bool_]) -> float:
        """Relative standard uncertainty that the steps inside bring to a slope over them."""
        return math.sqrt(float(self.u[inside] @ self.u[inside])) / float(self.step[inside].sum())


def step_doubt(section: Section, force_u_n: Sequence[float] | None) -> StepDoubt:
    """How well the steps between the forces of a section are known.

    Parameters: section, its readings; force_u_n, standard uncertainty of each total force [N], shape (N,) in the order
        the readings were given in, None where the forces are exact.
    Returns: steps and uncertainties [range of force], shape (forces - 1,). Loads are nested, so the variance of a step
        is the difference of two totals' variances.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 5.2, for totals that share their rungs.
    """
    step = np.diff(section.steps)
    if force_u_n is None:
        return StepDoubt(step=step, u=np.zeros_like(step), first_u=0.0)
    u = np.asarray(force_u_n, float)[section.order][section.first_of_step] / section.span_n
    return StepDoubt(step=step, u=np.array([difference_u(low, high) for low, high in pairwise(u)]), first_u=float(u[0]))


def level_doubt(section: Section, doubt: StepDoubt, *, place: float, part: tuple[float, float]) -> float:
    """What wrong rungs do to the value of a straight line at a force.

    Parameters: section, its readings; doubt, about its steps; place, of the force, and part, the two ends of the
        straight part, from 0 to 1 [range of force].
    Returns: the standard uncertainty, as that of a force [range of force]; the hanger's own is not in it.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 5.1.2, through the weights of least squares: a wrong rung moves all readings above it.
    """
    weights = section.weights_at(place, part)
    moved = np.array([weights[section.force >= step].sum() for step in section.steps[1:]])
    return math.sqrt(float(moved**2 @ doubt.u**2))


def widened_by(figure: Result, more: float, *, least: float = -math.inf) -> Result:
    """A figure with one more doubt in it.

    Parameters: figure, with its interval; more, standard uncertainty to be added, and least, what the figure can't be
        under [its unit].
    Returns: the figure, each half of its interval widened in quadrature by 1.96 times that [its unit].
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 5.1.2; coverage found by simulation of rungs wrong by up to 10 %.
    """
    if figure.value is None:
        return figure
    half = NORMAL_975 * more
    low = None if figure.low is None else max(figure.value - math.hypot(figure.value - figure.low, half), least)
    high = None if figure.high is None else figure.value + math.hypot(figure.high - figure.value, half)
    return from_interval(figure.value, low, high, unit=figure.unit)
