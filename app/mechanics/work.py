"""Work: the area under the curve up to the last reading, what lies beyond it, and what a loop did not give back."""

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from app.mechanics.result import ReadingScatter, Result, from_scatter, none
from app.mechanics.section import SAME_LOAD_N

N_MM_PER_J = 1000.0

GAP = "The curve has a gap, and no work can be counted across a gap."
ONE_READING = "Work needs two readings at least: the zero and one load."
NO_FAILING_LOAD = "The load that the cord failed under is not known."
NOT_HEAVIER = "The load that the cord failed under is not heavier than the last one read."
NO_LAST_SLOPE = "The pointer did not go on in the last step read, so that step can't be carried on."
IF_IT_WENT_ON = "Not read: if the last slope went on, the failing step added up to this much."
NO_UNLOADING = "The cord was not unloaded step by step."
OPEN_LOOP = "The cord was not unloaded back to the hanger, so the loop does not close."

Floats = NDArray[np.float64]


def work_to_break(
    force_n: Sequence[float],
    pointer_mm: Sequence[float],
    scatter: ReadingScatter,
    *,
    gap: bool,
    force_u_n: Sequence[float] | None = None,
    joined_at: Sequence[int] = (),
) -> Result:
    """What the masses did to a cord up to its last held reading: at least so much work went into it until it broke.

    Parameters: force_n, the loads of one joined section, zero first [N], shape (n,); pointer_mm, the pointer at each,
        the way the scale grows counted as plus, put-back pointers joined [mm], shape (n,); scatter, of one reading
        [mm]; gap, whether the cord's curve has a part that is not joined to this one; force_u_n, standard
        uncertainties of the loads [N], shape (n,), None when the masses carry none; joined_at, places in the section
        of the first reading after each pointer put back [1].
    Returns: the sum of (F_i + F_i+1)/2 (x_i+1 - x_i) [J], a lower bound; its u from the readings by their weights
        (F_i-1 - F_i+1)/2, from each join by the weights after it, and from the loads, each of which hangs in every
        heavier one. None, with a sentence, over a gap or under two readings.
    Raises: ValueError when the sequences differ in length.
    Source: the trapezium rule; JCGM 100:2008 (GUM), 5.1.2, and 5.2.2 for loads that share their masses.
    """
    if gap:
        return none(GAP, "J")
    if len(force_n) < 2:
        return none(ONE_READING, "J")
    return _area(force_n, pointer_mm, scatter, force_u_n=force_u_n, joined_at=joined_at)


def failing_step_work(
    force_n: Sequence[float], pointer_mm: Sequence[float], *, gap: bool, fail_n: float | None
) -> Result:
    """What the step that a cord failed in may have added to the work, which nobody read.

    Parameters: force_n and pointer_mm, as for the work to break [N] [mm], shape (n,); gap, whether a part is not
        joined; fail_n, the load that it failed under [N], None when not known.
    Returns: F_f c (F_f - F_h) [J], c the compliance of the last step read, with the words that it was not read and
        without uncertainty: it is a bound, not a measurement. None, with a sentence, over a gap, when there is no
        such step, or the pointer did not go on in the last step read.
    Raises: nothing.
    Source: our own definition.
    """
    if gap:
        return none(GAP, "J")
    if fail_n is None:
        return none(NO_FAILING_LOAD, "J")
    if len(force_n) < 2:
        return none(ONE_READING, "J")
    if fail_n <= force_n[-1]:
        return none(NOT_HEAVIER, "J")
    more_n, more_mm = force_n[-1] - force_n[-2], pointer_mm[-1] - pointer_mm[-2]
    if more_n <= SAME_LOAD_N or more_mm <= 0:
        return none(NO_LAST_SLOPE, "J")
    beyond_mm = more_mm / more_n * (fail_n - force_n[-1])
    return Result(value=fail_n * beyond_mm / N_MM_PER_J, unit="J", note=IF_IT_WENT_ON)


def loop_work(
    force_n: Sequence[float],
    pointer_mm: Sequence[float],
    scatter: ReadingScatter,
    *,
    gap: bool,
    force_u_n: Sequence[float] | None = None,
    joined_at: Sequence[int] = (),
) -> Result:
    """What a cord did not give back when it was unloaded: the area of loading less that of unloading.

    Parameters: force_n, the loads in the order of the test, up from the hanger and down to it again [N], shape (n,);
        pointer_mm, the pointer at each, signed and joined [mm], shape (n,); scatter, of one reading [mm]; gap,
        whether a part is not joined; force_u_n, standard uncertainties of the loads [N], shape (n,), or None;
        joined_at, places of the first reading after each pointer put back [1].
    Returns: the energy lost [J], u by the same weights as the work to break. None, with a sentence, over a gap,
        without unloading, or when the last load is not the first again.
    Raises: ValueError when the sequences differ in length.
    Source: the trapezium rule; JCGM 100:2008 (GUM), 5.1.2 and 5.2.2.
    """
    if gap:
        return none(GAP, "J")
    if len(force_n) < 3 or force_n[-1] >= max(force_n):
        return none(NO_UNLOADING, "J")
    if not math.isclose(force_n[-1], force_n[0], rel_tol=1e-9, abs_tol=1e-9):
        return none(OPEN_LOOP, "J")
    return _area(force_n, pointer_mm, scatter, force_u_n=force_u_n, joined_at=joined_at)


def _area(
    force_n: Sequence[float],
    pointer_mm: Sequence[float],
    scatter: ReadingScatter,
    *,
    force_u_n: Sequence[float] | None,
    joined_at: Sequence[int],
) -> Result:
    """The area under the path from reading to reading: what comes back on the way down counts as minus."""
    loads, pointers = np.asarray(force_n, dtype=float), np.asarray(pointer_mm, dtype=float)
    if loads.shape != pointers.shape:
        raise ValueError("a load for each pointer reading")
    weights_n = -_half_neighbours(loads)
    weights_n[0] -= loads[0]
    weights_n[-1] += loads[-1]
    joins_n = [float(weights_n[place:].sum()) for place in joined_at]
    from_readings = scatter.u_mm**2 * (float(weights_n @ weights_n) + 2 * math.fsum(one**2 for one in joins_n))
    from_loads = 0.0 if force_u_n is None else _nested_variance(_half_neighbours(pointers), np.asarray(force_u_n))
    value = float(weights_n @ (pointers - pointers[0])) / N_MM_PER_J
    return from_scatter(value, math.sqrt(from_readings + from_loads) / N_MM_PER_J, scatter.factor, unit="J")


def _half_neighbours(values: Floats) -> Floats:
    """Half of next less previous at each place; at an end the neighbour that is missing is the end itself."""
    padded = np.pad(values, 1, mode="edge")
    return (padded[2:] - padded[:-2]) / 2


def _nested_variance(weights_mm: Floats, force_u_n: Floats) -> float:
    """Variance that the loads bring: two loads share what the lighter one weighs, so that is their covariance."""
    shared = np.minimum.outer(force_u_n, force_u_n) ** 2
    return max(0.0, float(weights_mm @ shared @ weights_mm))
