"""Invented cords with known truth, for trying the sums on many: ladders, readings, ends; every draw from a seed.

The recipe is the one the thresholds of the sums were set with: a hanger of 86 g, steps of 200 g (equal) or four of
100 g and then 200 g (two-stage), g = 9.81 m/s2; straight cords with toes and bends of known place, normal scatter,
readings rounded to the scale. They are no evidence about any real cord.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

HANGER_G, STEP_G, SMALL_STEP_G, SMALL_STEPS = 86.0, 200.0, 100.0, 4
GRAVITY = 9.81
LIMIT_OVER_TOP = 1.25
"""Force at which a cord that is never straight would stretch without end, over the top of the ladder."""
KINK_AT = 0.55
"""Where a kink lies within the range of forces."""
GRADUAL_POWER = 6
TOES_MM = {"none": (0.0, 0.0), "toe": (2.0, 8.0), "small toe": (1.0, 3.0)}
BENDS = ("straight", "kink", "gradual", "never straight")


def masses_g(readings: int, *, two_stage: bool = False) -> Array:
    """Total mass hung at each reading [g], the hanger alone first."""
    steps = np.full(readings - 1, STEP_G)
    if two_stage:
        steps[:SMALL_STEPS] = SMALL_STEP_G
    return HANGER_G + np.concatenate([[0.0], np.cumsum(steps)])


def newtons(mass_g: Array) -> Array:
    """The forces of those masses [N]."""
    return mass_g * GRAVITY / 1000.0


@dataclass(frozen=True, kw_only=True)
class Case:
    """What the cords of one case have in common.

    `stiffness` [N/mm]: None for 0.15 to 0.7; `scatter_mm`: None for 0.4 to 0.8 mm, drawn for each cord; `ratio`:
    stretch per newton beyond a bend over that before it; `rung_error`: half-width of a rung's relative error, which
    nobody knows of.
    """

    readings: int
    two_stage: bool = False
    toe: str = "none"
    bend: str = "straight"
    ratio: float = 1.0
    stiffness: float | None = None
    scatter_mm: float | None = None
    division_mm: float = 1.0
    rung_error: float = 0.0

    @property
    def force_n(self) -> Array:
        """The forces as the class believes them [N], shape (readings,)."""
        return newtons(masses_g(self.readings, two_stage=self.two_stage))

    @property
    def first_n(self) -> float:
        """The force of the hanger alone [N]."""
        return float(self.force_n[0])

    @property
    def top_n(self) -> float:
        """The force of the last reading [N]."""
        return float(self.force_n[-1])

    @property
    def psi_n(self) -> float:
        """Where a kink lies [N]."""
        return self.first_n + KINK_AT * (self.top_n - self.first_n)


@dataclass(frozen=True, kw_only=True)
class Cords:
    """Cords of one case: their truth, shape (n,), and what was read of them, shape (n, readings)."""

    case: Case
    compliance: Array
    start_mm: Array
    toe_mm: Array
    toe_n: Array
    scatter_mm: Array
    pointer_mm: Array

    @property
    def stiffness(self) -> Array:
        """True stiffness of the straight part [N/mm]."""
        return 1.0 / self.compliance

    @property
    def zero_force_mm(self) -> Array:
        """Where the straight part would begin without any load [mm]."""
        return self.start_mm + self.toe_mm - self.compliance * self.case.first_n

    def exact_mm(self, force_n: Array) -> Array:
        """Where the pointers truly stand [mm], at the same forces for all (m,) or each cord's own (n, m)."""
        force_n = np.atleast_2d(force_n)
        toe = column(self.toe_mm) * -np.expm1((self.case.first_n - force_n) / column(self.toe_n))
        return column(self.start_mm) + toe + column(self.compliance) * _stretched(self.case, force_n)

    def chord(self, upper_n: Array) -> Array:
        """Mean stiffness from the first force to the upper one of each cord [N/mm], toe left out."""
        first = _stretched(self.case, np.array([self.case.first_n]))
        return (upper_n - self.case.first_n) / (self.compliance * (_stretched(self.case, upper_n) - first))

    def departed_mm(self, force_n: Array) -> Array:
        """How far each cord has left its first straight line at its own force [mm]."""
        return self.compliance * (_stretched(self.case, force_n) - (force_n - self.case.first_n))


def column(values: Array) -> Array:
    """One value a row, to meet tables of one row a cord."""
    return values.reshape(-1, 1)


def _stretched(case: Case, force_n: Array) -> Array:
    """Stretch without the toe over the compliance at the start [N]."""
    first_n, top_n = case.first_n, case.top_n
    if case.bend == "never straight":
        limit_n = LIMIT_OVER_TOP * top_n
        return -limit_n * np.log((1 - force_n / limit_n) / (1 - first_n / limit_n))
    along = force_n - first_n
    if case.bend == "kink":
        return along + (case.ratio - 1) * np.maximum(force_n - case.psi_n, 0.0)
    if case.bend == "gradual":
        return along + (case.ratio - 1) * top_n / GRADUAL_POWER * (force_n / top_n) ** GRADUAL_POWER
    return along


def rounded(pointer_mm: Array, division_mm: float) -> Array:
    """The readings to the nearest division [mm]."""
    return np.round(pointer_mm / division_mm) * division_mm


def _true_force_n(case: Case, n: int, rng: np.random.Generator) -> Array:
    mass_g = masses_g(case.readings, two_stage=case.two_stage)
    if not case.rung_error:
        return newtons(mass_g)
    wrong = rng.uniform(-case.rung_error, case.rung_error, (n, case.readings - 1))
    rungs_g = np.cumsum(np.diff(mass_g) * (1 + wrong), axis=1)
    return newtons(HANGER_G + np.column_stack([np.zeros(n), rungs_g]))


def make_cords(case: Case, n: int, *, seed: int) -> Cords:
    """So many cords of that case, the same ones for the same seed."""
    assert case.bend in BENDS, case.bend
    rng = np.random.default_rng(seed)
    stiffness = rng.uniform(0.15, 0.7, n) if case.stiffness is None else np.full(n, case.stiffness)
    truth = Cords(
        case=case,
        compliance=1.0 / stiffness,
        start_mm=rng.uniform(180.0, 260.0, n),
        toe_mm=rng.uniform(*TOES_MM[case.toe], n),
        toe_n=rng.uniform(0.4, 1.2, n),
        scatter_mm=rng.uniform(0.4, 0.8, n) if case.scatter_mm is None else np.full(n, case.scatter_mm),
        pointer_mm=np.empty((n, 0)),
    )
    exact_mm = truth.exact_mm(_true_force_n(case, n, rng))
    read_mm = exact_mm + column(truth.scatter_mm) * rng.standard_normal((n, case.readings))
    return replace(truth, pointer_mm=rounded(read_mm, case.division_mm))


def read_again(cords: Cords, exact_mm: Array, *, seed: int) -> Array:
    """Those places read once more with each cord's own scatter [mm], shape (n, m)."""
    rng = np.random.default_rng(seed)
    read = exact_mm + column(cords.scatter_mm) * rng.standard_normal(exact_mm.shape)
    return rounded(read, cords.case.division_mm)


@dataclass(frozen=True, kw_only=True)
class Breaks:
    """Breaking forces [N] of many classes, shape (classes, benches): the truth, held, and failed under (inf: held)."""

    force_n: Array
    low_n: Array
    high_n: Array

    def brackets(self, of_class: int) -> list[tuple[float, float | None]]:
        """Held and failed under [N] of one class's cords in order; None for one that never broke."""
        pairs = zip(self.low_n[of_class].tolist(), self.high_n[of_class].tolist(), strict=True)
        return [(low, high if math.isfinite(high) else None) for low, high in pairs]


TYPICAL_N = 20.0
WEIBULL_SHAPES = {0.10: 12.2, 0.15: 7.9, 0.20: 5.8}
"""Shape of a Weibull distribution by its coefficient of variation."""
SPOILED_ONE_IN, SPOILED_TO = 10, 0.6


@dataclass(frozen=True, kw_only=True)
class Strengths:
    """How cords break: typical forces over 20 N (one a bench), their scatter and its law, and the steps of the ladder.

    `top`: how many standard deviations over the median the masses run out, so that the last step is the one at or under
    it; None for never. `scatters` multiplies the scatter bench by bench.
    """

    medians: Sequence[float]
    cv: float = 0.15
    law: str = "normal"
    step_n: float = 2.0
    top: float | None = None
    scatters: Sequence[float] | None = None


def make_breaks(strengths: Strengths, classes: int, *, seed: int) -> Breaks:
    """The breaks of so many classes, one cord a bench, on one ladder a class with a random first step."""
    rng = np.random.default_rng(seed)
    shape = (classes, len(strengths.medians))
    force_n = TYPICAL_N * np.asarray(strengths.medians) * _relative(strengths, shape, rng)
    start_n = rng.uniform(0.0, strengths.step_n, (classes, 1))
    low_n = start_n + np.floor((force_n - start_n) / strengths.step_n) * strengths.step_n
    high_n = low_n + strengths.step_n
    if strengths.top is not None:
        end_n = TYPICAL_N * math.exp(strengths.top * log_scatter(strengths.cv))
        last_n = start_n + np.floor((end_n - start_n) / strengths.step_n) * strengths.step_n
        unbroken = force_n > last_n
        low_n = np.where(unbroken, last_n, low_n)
        high_n = np.where(unbroken, np.inf, high_n)
    return Breaks(force_n=force_n, low_n=np.maximum(low_n, 0.0), high_n=high_n)


def log_scatter(cv: float) -> float:
    """Standard deviation of the logarithm of a log-normal force with that coefficient of variation."""
    return math.sqrt(math.log1p(cv**2))


def _relative(strengths: Strengths, shape: tuple[int, int], rng: np.random.Generator) -> Array:
    """Forces over their median of 1."""
    if strengths.law == "weibull":
        power = WEIBULL_SHAPES[strengths.cv]
        drawn: Array = rng.weibull(power, shape) / math.log(2) ** (1 / power)
        return drawn
    widths = log_scatter(strengths.cv) * np.asarray(strengths.scatters or [1.0])
    drawn = np.exp(widths * rng.standard_normal(shape))
    if strengths.law == "spoiled":
        drawn = np.where(rng.integers(SPOILED_ONE_IN, size=shape) == 0, SPOILED_TO * drawn, drawn)
    return drawn
