"""Stiffness between two places of a curve, and what a stiffness says of the material."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from app.domain.tested import TestedCord
from app.mechanics.material import free_length, relative_u, section_area
from app.mechanics.propagation import difference_u
from app.mechanics.reading_sums import CurvePoint
from app.mechanics.result import ReadingScatter, Result, from_interval, none
from app.mechanics.section import SAME_LOAD_N
from app.mechanics.unweighed import widened_by

NO_STRETCH = "It did not get longer as the load grew, so it has no stiffness that could be told."
NO_ZERO_THERE = "The zero does not lie on this part of the curve, so nothing can be counted from it."
NOT_READ_THERE = "No readings were taken on both sides of one of these loads."
ONE_LOAD = "A stiffness between two loads needs two different loads."

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class _Place:
    """A place on the curve: pointer [mm], standard uncertainty of the force [N], pointers put back before it."""

    stretched_mm: float
    force_u_n: float
    joins: float


def turned_round(compliance_mm_per_n: float, low_mm_per_n: float, high_mm_per_n: float) -> Result:
    """The stiffness of a compliance and its interval: k = 1/c, ends swapped.

    Parameters: compliance_mm_per_n, low_mm_per_n and high_mm_per_n, its value and the ends of its interval [mm/N].
    Returns: the stiffness [N/mm], its high end open where the compliance may be nothing; None, with a sentence, when
        the compliance is not over 0.
    Raises: nothing.
    Source: our own rule: the force is set and the reading carries the error, so the reading is regressed on force.
    """
    if compliance_mm_per_n <= 0:
        return none(NO_STRETCH, "N/mm")
    high = 1 / low_mm_per_n if low_mm_per_n > 0 else None
    return from_interval(1 / compliance_mm_per_n, 1 / high_mm_per_n, high, unit="N/mm")


def secant_stiffness(points: Sequence[CurvePoint], force_n: float, scatter: ReadingScatter) -> Result:
    """The stiffness from the zero, with the hanger alone, to a stated force.

    Parameters: points, of one section [N, mm], shape (n,), any order; force_n, where the secant ends [N]; scatter,
        of one reading [mm].
    Returns: the chord from the zero to that force [N/mm], as `chord_stiffness` does; None, with a sentence, when the
        zero lies on another section.
    Raises: nothing.
    Source: secant modulus as in ASTM D882 (from memory), for force and extension.
    """
    zeros_n = [point.force_n for point in points if point.row.phase == "zero"]
    if not zeros_n:
        return none(NO_ZERO_THERE, "N/mm")
    return chord_stiffness(points, (min(zeros_n), force_n), scatter)


def chord_stiffness(points: Sequence[CurvePoint], between_n: tuple[float, float], scatter: ReadingScatter) -> Result:
    """The stiffness between two forces, on the readings joined by straight lines.

    Parameters: points, of one section [N, mm], shape (n,), any order; between_n, the two forces [N]; scatter, of one
        reading [mm].
    Returns: difference of forces over difference of readings [N/mm], its interval from sqrt(2) u_x about the latter,
        sqrt(2) u_x more for each pointer put back in between, and the uncertainty of the masses added in between.
        None, with a sentence, for one load, a load outside the readings, or a cord that did not stretch in between.
    Raises: nothing.
    Source: chord modulus as in ISO 527-1 (from memory), for force and extension; JCGM 100:2008 (GUM), 5.1.2.
    """
    light_n, heavy_n = sorted(between_n)
    forces_n = [point.force_n for point in points]
    if not forces_n or light_n < min(forces_n) or heavy_n > max(forces_n):
        return none(NOT_READ_THERE, "N/mm")
    if heavy_n - light_n < SAME_LOAD_N:
        return none(ONE_LOAD, "N/mm")
    one, other = _places(points, (light_n, heavy_n))
    force_n, stretch_mm = heavy_n - light_n, other.stretched_mm - one.stretched_mm
    half_mm = scatter.factor * scatter.u_mm * math.sqrt(2 + 2 * abs(other.joins - one.joins))
    found = turned_round(stretch_mm / force_n, (stretch_mm - half_mm) / force_n, (stretch_mm + half_mm) / force_n)
    return widened_by(found, (found.value or 0.0) * difference_u(one.force_u_n, other.force_u_n) / force_n, least=0.0)


def _places(points: Sequence[CurvePoint], at_n: Sequence[float]) -> tuple[_Place, ...]:
    """Places on the readings joined by straight lines; several at one force are their mean."""
    force, group = np.unique(np.array([point.force_n for point in points]), return_inverse=True)
    columns = (
        [point.stretched_mm for point in points],
        [point.force_u_n or 0.0 for point in points],
        [float(point.joins) for point in points],
    )
    stretched, u, joins = (np.interp(at_n, force, _means(group, column)).tolist() for column in columns)
    return tuple(
        _Place(stretched_mm=mm, force_u_n=u_n, joins=joined)
        for mm, u_n, joined in zip(stretched, u, joins, strict=True)
    )


def _means(group: NDArray[np.intp], values: Sequence[float]) -> FloatArray:
    return np.bincount(group, weights=np.asarray(values)) / np.bincount(group)


def youngs_modulus(stiffness_n_per_mm: Result, cord: TestedCord) -> Result:
    """The stiffness of the material itself: E = k L0 / A.

    Parameters: stiffness_n_per_mm, of the straight part [N/mm]; cord, as it was told: free length [mm] and section
        [mm2].
    Returns: Young's modulus [MPa], the interval of the stiffness widened by the assumed uncertainties of both; of
        more than one strip with the note that the section is the material's. None, with a sentence for what is
        missing.
    Raises: nothing.
    Source: the definition of Young's modulus; JCGM 100:2008 (GUM), 5.1.6.
    """
    length, area = free_length(cord), section_area(cord)
    for part in (stiffness_n_per_mm, length, area):
        if part.value is None:
            return none(part.why or "", "MPa")
    k, per_mm = stiffness_n_per_mm, (length.value or 0.0) / (area.value or 1.0)
    low, high = (None if end is None else end * per_mm for end in (k.low, k.high))
    modulus = from_interval((k.value or 0.0) * per_mm, low, high, unit="MPa")
    doubt = math.hypot(relative_u(length), relative_u(area))
    return widened_by(modulus, (modulus.value or 0.0) * doubt, least=0.0).noted(area.note)
