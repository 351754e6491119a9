"""The straight part of many invented cords of one case, its figures as arrays beside the truth."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from zlib import crc32

import numpy as np
from numpy.typing import NDArray

from app.mechanics.extension import Scale, reading_u_mm
from app.mechanics.shape_choice import BENT, TOE_BENT
from app.mechanics.straight import StraightPart, straight_part
from tests.cord_recipe import HANGER_G, Array, Case, Cords, make_cords, masses_g, newtons

Flags = NDArray[np.bool_]

JUDGEMENT_MM = 0.5
UNWEIGHED = 0.10
"""Half-width of the doubt about a printed mass, as a part of it."""


def seed_of(case: object) -> int:
    """The same number for the same case, today and on any machine."""
    return crc32(repr(case).encode())


def u0_mm(case: Case) -> float:
    """What the scale alone gives one reading of that case [mm]."""
    return reading_u_mm(Scale(way="down", division_mm=case.division_mm, judgement_mm=JUDGEMENT_MM))


def name_of(case: Case) -> str:
    """The case in a few words."""
    words = [case.bend if case.bend in ("straight", "never straight") else f"{case.bend} r = {case.ratio:g}"]
    words += [case.toe] if case.toe != "none" else []
    words += [f"k = {case.stiffness:g}"] if case.stiffness else []
    words += [f"{case.division_mm:g} mm scale"] if case.division_mm != 1 else []
    words += [f"scatter {case.scatter_mm:g} mm"] if case.scatter_mm is not None else []
    words += [f"rungs +-{100 * case.rung_error:g} %"] if case.rung_error else []
    return f"{', '.join(words)}, {case.readings}{' two-stage' if case.two_stage else ''}"


@dataclass(frozen=True, kw_only=True)
class Fits:
    """What was found of those cords; an end that is open or can't be had is nan."""

    cords: Cords
    parts: tuple[StraightPart, ...]
    shape: NDArray[np.str_]
    k: Array
    k_low: Array
    k_high: Array
    k_u: Array
    limit_low: Array
    limit_high: Array
    zero_low: Array
    zero_high: Array
    bend_n: Array

    @property
    def bent(self) -> Flags:
        """Which cords were called bent."""
        return np.isin(self.shape, (BENT, TOE_BENT))

    @property
    def holds_stiffness(self) -> Flags:
        """Whose interval holds the true stiffness; an open end holds."""
        return holds(self.k_low, self.k_high, self.cords.stiffness)

    @property
    def half_width(self) -> Array:
        """Half the interval of the stretch per newton (what is fitted) over its value [%]; endless without a value."""
        lowest = np.where(np.isnan(self.k_high), 0.0, 1 / self.k_high)
        width = 50 * (1 / self.k_low - lowest) * self.k
        return np.where(np.isnan(width), np.inf, width)


def holds(low: Array, high: Array, truth: Array) -> Flags:
    """Which intervals hold the truth; open ends (nan) hold."""
    return ~(truth < low) & ~(truth > high)


def unweighed_u_n(case: Case) -> Array:
    """Standard uncertainty of each force when no rung was weighed but the hanger was [N]."""
    rungs_g = np.diff(masses_g(case.readings, two_stage=case.two_stage), prepend=HANGER_G)
    return newtons(np.sqrt(np.cumsum((rungs_g * UNWEIGHED) ** 2) / 3))


@lru_cache(maxsize=256)
def fits(case: Case, runs: int, *, weighed: bool = True) -> Fits:
    """So many cords of the case, fitted."""
    cords = make_cords(case, runs, seed=seed_of(case))
    forces, u0 = case.force_n.tolist(), u0_mm(case)
    force_u_n = None if weighed else unweighed_u_n(case).tolist()
    parts = tuple(straight_part(forces, row, force_u_n=force_u_n, u0_mm=u0) for row in cords.pointer_mm.tolist())
    return Fits(
        cords=cords,
        parts=parts,
        shape=np.array([part.shape for part in parts]),
        k=_array(part.stiffness_n_per_mm.value for part in parts),
        k_low=_array(part.stiffness_n_per_mm.low for part in parts),
        k_high=_array(part.stiffness_n_per_mm.high for part in parts),
        k_u=_array(part.stiffness_n_per_mm.standard_uncertainty for part in parts),
        limit_low=_array(part.limit_n.low for part in parts),
        limit_high=_array(part.limit_n.high for part in parts),
        zero_low=_array(part.zero_force_mm.low for part in parts),
        zero_high=_array(part.zero_force_mm.high for part in parts),
        bend_n=_array(part.bend_at_n for part in parts),
    )


def _array(values: Iterable[float | None]) -> Array:
    return np.array([np.nan if value is None else value for value in values], dtype=float)
