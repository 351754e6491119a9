"""What pointers put back do to a straight line: each brings one error that all readings after it share."""

from collections.abc import Sequence

import numpy as np

from app.mechanics.section import FloatArray, Section


def joins_doubt(section: Section, joins: Sequence[int], *, part: tuple[float, float]) -> FloatArray:
    """What pointers put back do to the slope of a straight line, to its value without load and at the lowest force.

    Parameters: section, its readings; joins, pointers put back before each [1], shape (N,) in the order the readings
        were given in; part, the two ends of the straight part, from 0 to 1 [range of force].
    Returns: the three standard uncertainties, shape (3,) [standard uncertainty of one reading, the first for the whole
        range of force].
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 5.1.2, through the weights of least squares: two readings tell how far the pointer
        moved, so all readings after it are off by the same error, sqrt(2) times that of one.
    """
    before = np.asarray(joins)[section.order]
    at_start, without_load = (section.weights_at(place, part) for place in (0.0, section.no_force))
    weights = np.array([section.weights_at(1.0, part) - at_start, without_load, at_start])
    moved = [weights[:, before > put_back].sum(axis=1) for put_back in range(before.max())]
    together: FloatArray = np.sqrt(2 * np.square(moved).sum(axis=0)) if moved else np.zeros(3)
    return together


def farther(value: FloatArray, end: FloatArray, more: FloatArray) -> FloatArray:
    """Ends of intervals with one more doubt in them.

    Parameters: value, figures, and end, one end of the interval of each [any units], shape (k,); more, half-widths
        that are added in quadrature [the same units], shape (k,).
    Returns: the ends, moved away from their values [the same units], shape (k,).
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 5.1.2.
    """
    moved: FloatArray = value + np.copysign(np.hypot(end - value, more), end - value)
    return moved
