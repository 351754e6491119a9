"""How far cords were stretched at one force that all of them reached, and what a stretch is for a cord's length."""

import math
import statistics
from collections.abc import Sequence

import numpy as np

from app.domain.tested import TestedCord
from app.mechanics.cord_sums import CordSums
from app.mechanics.material import free_length, relative_u
from app.mechanics.reading_sums import CurvePoint
from app.mechanics.result import Result, from_interval, from_scatter, none
from app.mechanics.unweighed import widened_by

EARLY = 0.5
"""A cord whose last reading lies under this part of the middle cord's ended early and takes no part."""

NO_COMMON_FORCE = "There is no load that every cord was read at or beyond."
NOT_REACHED = "This cord was not read up to that load in one piece with its zero."


def common_force_n(cords: Sequence[CordSums]) -> float | None:
    """The heaviest load up to which every cord that did not end early has a curve from its zero.

    Parameters: cords, their sums, forces [N], shape (n,), may be empty; those without such a curve are passed over.
    Returns: the least of the cords' greatest forces [N], cords passed over that were read to less than half of the
        middle cord's; None when there is none over the settling load of each.
    Raises: nothing.
    Source: our own rule: a mean over the cords still whole would flatter a design that loses its weak ones, and one
        early break would compare all others where nothing had stretched yet.
    """
    curves = [curve for cord in cords if len(curve := _curve(cord)) > 1]
    if not curves:
        return None
    middle_n = statistics.median(curve[-1][0] for curve in curves)
    least_n = min(curve[-1][0] for curve in curves if curve[-1][0] >= EARLY * middle_n)
    return least_n if all(curve[0][0] < least_n for curve in curves) else None


def stretch_at(cord: CordSums, force_n: float | None) -> Result:
    """The extension of one cord at a force, between its readings along a straight line.

    Parameters: cord, its sums; force_n, the force [N], None when the class has none in common.
    Returns: the extension [mm], its u that of two readings, and two more for each pointer put back on the way; None,
        with a sentence, when it was not read so far.
    Raises: nothing.
    Source: linear interpolation; JCGM 100:2008 (GUM), 5.1.2.
    """
    if force_n is None:
        return none(NO_COMMON_FORCE, "mm")
    curve = _curve(cord)
    if len(curve) < 2 or not curve[0][0] <= force_n <= curve[-1][0]:
        return none(NOT_REACHED, "mm")
    forces_n, extensions_mm = zip(*curve, strict=True)
    scatter = cord.straight.scatter
    value = float(np.interp(force_n, forces_n, extensions_mm))
    joins = max(point.joins for point in _whole(cord) if point.force_n <= forces_n[np.searchsorted(forces_n, force_n)])
    return from_scatter(value, math.sqrt(2 + 2 * joins) * scatter.u_mm, scatter.factor, unit="mm")


def strain_of(extension_mm: Result, cord: TestedCord) -> Result:
    """A stretch for the length of its cord.

    Parameters: extension_mm, with its interval [mm]; cord, as it was told, its free length [mm].
    Returns: extension / free length [1], the interval widened by the assumed uncertainty of the length; None, with a
        sentence, when either is missing.
    Raises: nothing.
    Source: the definition of engineering strain, as in ISO 527-1 (from memory); JCGM 100:2008 (GUM), 5.1.6.
    """
    length = free_length(cord)
    for part in (extension_mm, length):
        if part.value is None:
            return none(part.why or "", "1")
    value, low, high = (
        None if end is None else end / (length.value or 1.0)
        for end in (extension_mm.value, extension_mm.low, extension_mm.high)
    )
    share = from_interval(value or 0.0, low, high, unit="1")
    return widened_by(share, abs(share.value or 0.0) * relative_u(length))


def _curve(cord: CordSums) -> list[tuple[float, float]]:
    """Force and extension of the first loading from the zero up to a gap, lightest first, repeats as their mean."""
    at_force: dict[float, list[float]] = {}
    for point in _whole(cord):
        at_force.setdefault(point.force_n, []).append(point.extension_mm or 0.0)
    return sorted((force_n, math.fsum(read) / len(read)) for force_n, read in at_force.items())


def _whole(cord: CordSums) -> list[CurvePoint]:
    """The readings that are in one piece with the zero."""
    return [point for point in cord.loaded if point.section == 1 and point.extension_mm is not None]
