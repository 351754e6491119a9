"""Creep: how far the pointer went on while the same masses hung."""

import math

from app.mechanics.result import ReadingScatter, Result, from_scatter


def creep(first_mm: float, later_mm: float, scatter: ReadingScatter) -> Result:
    """How far the pointer went between two readings of one step.

    Parameters: first_mm and later_mm, extension at the earlier and the later reading of the step [mm]; scatter, of
        one reading [mm].
    Returns: later - first [mm], u = sqrt(2) u_x; zero and joins are the same for both and drop out.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 5.1.2 (difference of two independent readings).
    """
    return from_scatter(later_mm - first_mm, math.sqrt(2) * scatter.u_mm, scatter.factor, unit="mm")
