"""The readings of one section made ready for a fit: sorted, equal forces made equal, and free of units."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.intp]

SAME_LOAD_N = 1e-9
"""Loads that differ by less are one load."""
SAME_FORCE = 1e-9
"""Forces closer than this part of the whole range are one force."""
NO_RANGE = 1e-12
"""A range of forces under this part of the largest is none."""
LEAST_SCATTER = 1e-6
"""No scatter is taken for smaller than this part of the range of readings: closed forms can't tell more."""
LEAST_MOVE = 1e-9
"""Readings that move by less than this part of the scale's own uncertainty are measured in that instead."""
DUST = 16 * float(np.finfo(np.float64).eps)
"""What arithmetic may do to a reading, as a part of its size."""


@dataclass(frozen=True, kw_only=True)
class Section:
    """One section's readings, lowest force first, in units of their own.

    `force` runs from 0 to 1 and `pointer` is counted from its mean, in units of the farthest reading from it, both of
    shape (N,); `steps` are the distinct forces and `first_of_step` where each begins; `order` is the place that each
    reading was given in; `least_variance` is that of one reading from the scale alone.
    """

    force: FloatArray
    pointer: FloatArray
    steps: FloatArray
    first_of_step: IntArray
    order: IntArray
    first_n: float
    span_n: float
    mean_mm: float
    unit_mm: float
    least_variance: float

    @property
    def readings(self) -> int:
        """How many there are."""
        return len(self.force)

    @property
    def no_force(self) -> float:
        """The place of no load at all, outside 0 to 1."""
        return -self.first_n / self.span_n

    def force_n(self, place: float) -> float:
        """A place from 0 to 1 as a force."""
        return self.first_n + float(place) * self.span_n

    def pointer_mm(self, value: float) -> float:
        """A value of the fit as a place on the scale."""
        return self.mean_mm + float(value) * self.unit_mm

    def weights_at(self, place: float, part: tuple[float, float]) -> FloatArray:
        """What each reading, shape (N,), gives to the value there of the least-squares line of one part; 0 off it."""
        on_part = (self.force >= part[0]) & (self.force <= part[1])
        force = self.force[on_part]
        along = force - force.mean()
        weights = np.zeros_like(self.force)
        weights[on_part] = 1 / len(force) + (place - force.mean()) * along / (along @ along)
        return weights

    def as_given(self, values: FloatArray) -> FloatArray:
        """Values of the readings, shape (N,), in the order that the readings were given in."""
        given = np.empty_like(values)
        given[self.order] = values
        return given


def section_of(force_n: Sequence[float], pointer_mm: Sequence[float], *, u0_mm: float) -> Section | None:
    """The readings of one section, ready for a fit.

    Parameters: force_n [N] and pointer_mm [mm], both of shape (N,), in any order; u0_mm, the scale's own part of one
        reading [mm].
    Returns: the section, the same whatever order the readings came in; None where all hang under one force.
    Raises: nothing.
    Source: none needed: a change of units.
    """
    order = np.lexsort((pointer_mm, force_n))
    force, pointer = np.asarray(force_n, float)[order], np.asarray(pointer_mm, float)[order]
    first, last = float(force[0]), float(force[-1])
    if last - first <= max(SAME_LOAD_N, NO_RANGE * max(abs(first), abs(last))):
        return None
    place = (force - first) / (last - first)
    starts = np.flatnonzero(np.concatenate(([True], np.diff(place) > SAME_FORCE)))
    steps = place[starts]
    steps[-1] = 1.0
    mean = float(pointer.mean())
    dust = DUST * float(np.abs(pointer).max())
    unit = max(float(np.abs(pointer - mean).max()), LEAST_MOVE * u0_mm)
    if unit <= dust or not unit:
        pointer, unit = np.full_like(pointer, mean), u0_mm or 1.0
    return Section(
        force=np.repeat(steps, np.diff(np.append(starts, len(place)))),
        pointer=(pointer - mean) / unit,
        steps=steps,
        first_of_step=starts,
        order=order,
        first_n=first,
        span_n=last - first,
        mean_mm=mean,
        unit_mm=unit,
        least_variance=max(u0_mm / unit, dust / unit, LEAST_SCATTER) ** 2,
    )
