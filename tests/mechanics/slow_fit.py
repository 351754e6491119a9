"""The straight part worked out the long way: every place of toe and bend its own least-squares problem in newtons and
millimetres, written from the rules alone; what the product's closed forms must agree with."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise, product

import numpy as np
from numpy.typing import NDArray
from scipy import stats

Array = NDArray[np.float64]

NO_PLACE = (None, 0)
ROUND = 1e-9
NAMES = {(False, False): "straight", (True, False): "toe", (False, True): "bent", (True, True): "toe_bent"}


@dataclass(frozen=True, kw_only=True)
class Try:
    """One fit: its shape, where toe and bend lie [N], its squares, figures of the line and their variances."""

    shape: str
    toe_n: float | None
    toe_power: int
    bend_n: float | None
    bend_power: int
    rss: float
    value: Array
    variance: Array


def between(force_n: Array, parts: int) -> list[float]:
    """Forces and the places between them."""
    steps = np.unique(force_n)
    inner = [low + (high - low) * i / parts for low, high in pairwise(steps) for i in range(parts)]
    return [*inner, float(steps[-1])]


def toe_places(force_n: Array) -> list[float]:
    """Where a toe may end."""
    steps, span = np.unique(force_n), np.ptp(force_n)
    last = max(steps[min(3, len(steps) - 1)], steps[0] + 0.25 * span)
    near = [place for place in between(force_n, 3) if steps[1] <= place <= last + ROUND * span]
    return [place for place in near if (force_n >= place).sum() >= 4]


def fits(force_n: Sequence[float], pointer_mm: Sequence[float]) -> list[Try]:
    """Every fit that the rules let stand, right signs only."""
    force, pointer = np.array(force_n, float), np.array(pointer_mm, float)
    toes = list(product(toe_places(force), (1, 2))) if len(force) >= 6 else []
    bends = list(product(between(force, 40), (1, 2))) if len(force) >= 8 else []
    pairs = product([NO_PLACE, *toes], [NO_PLACE, *bends])
    tried = [one for toe, bend in pairs for one in _tried(force, pointer, toe=toe, bend=bend)]
    return [*tried, *(stiffer_fits(force_n, pointer_mm) if bends else [])]


def stiffer_fits(force_n: Sequence[float], pointer_mm: Sequence[float]) -> list[Try]:
    """Of those, the ones that say that the cord gets stiffer."""
    force, pointer = np.array(force_n, float), np.array(pointer_mm, float)
    return [one for psi in between(force, 40) for one in _stiffer(force, pointer, psi)]


def _tried(force: Array, pointer: Array, *, toe: tuple[float | None, int], bend: tuple[float | None, int]) -> list[Try]:
    (toe_n, toe_power), (bend_n, bend_power) = toe, bend
    on_line = (force >= (-np.inf if toe_n is None else toe_n)) & (force <= (np.inf if bend_n is None else bend_n))
    if on_line.sum() < 3 or len(np.unique(force[on_line])) < 2:
        return []
    if bend_n is not None and (force > bend_n).sum() < 2:
        return []
    columns = []
    if toe_n is not None:
        columns.append(-(np.maximum(toe_n - force, 0.0) ** toe_power))
    if bend_n is not None:
        columns.append(np.maximum(force - bend_n, 0.0) ** bend_power)
    shape = NAMES[toe_n is not None, bend_n is not None]
    one, extra = _least_squares(force, pointer, columns)
    if (extra < -ROUND).any():
        return []
    return [_named(one, shape=shape, toe=toe, bend=bend)]


def _stiffer(force: Array, pointer: Array, psi: float) -> list[Try]:
    low, span = force.min(), np.ptp(force)
    far = psi >= low + 0.4 * span - ROUND * span
    if (force <= psi).sum() < 5 or (force > psi).sum() < 3 or not far:
        return []
    one, extra = _least_squares(force, pointer, [np.maximum(force - psi, 0.0)])
    if extra[0] > ROUND:
        return []
    return [_named(one, shape="stiffer", toe=NO_PLACE, bend=(psi, 1))]


def _named(
    one: tuple[float, Array, Array], *, shape: str, toe: tuple[float | None, int], bend: tuple[float | None, int]
) -> Try:
    rss, value, variance = one
    return Try(
        shape=shape,
        toe_n=toe[0],
        toe_power=toe[1],
        bend_n=bend[0],
        bend_power=bend[1],
        rss=rss,
        value=value,
        variance=variance,
    )


def _least_squares(force: Array, pointer: Array, columns: list[Array]) -> tuple[tuple[float, Array, Array], Array]:
    """Squares, figures (slope, value without load, value at the lowest force) and variances; extra coefficients."""
    design = np.column_stack([np.ones_like(force), force, *columns])
    scale = np.linalg.norm(design, axis=0)
    found, *_ = np.linalg.lstsq(design / scale, pointer, rcond=None)
    rest = pointer - design / scale @ found
    found = found / scale
    inverse = np.linalg.inv((design / scale).T @ (design / scale))[:2, :2] / np.outer(scale[:2], scale[:2])
    of = np.array([[0.0, 1.0], [1.0, 0.0], [1.0, force.min()]])
    value, variance = of @ found[:2], np.einsum("ij,jk,ik->i", of, inverse, of)
    return (float(rest @ rest), value, variance), found[2:]


def best(tried: list[Try], *shapes: str) -> float:
    """Least squares over those shapes."""
    return min(one.rss for one in tried if one.shape in shapes)


def gain(simple: float, rich: float, *, dof: int, u0_mm: float) -> float:
    """What the richer shape is better by."""
    return (simple - rich) / max(rich / dof, u0_mm**2)


def interval(
    tried: list[Try], shape: str, *, rivals: tuple[str, ...], dof: int, u0_mm: float
) -> tuple[Array, Array, list[float]]:
    """Lowest and highest of each figure over all rivals within reach, and the places of bend among them [N]."""
    chosen = best(tried, shape)
    reach = stats.t.ppf(0.975, dof) ** 2 * max(chosen / dof, u0_mm**2)
    near = [one for one in tried if one.shape in rivals and reach - (one.rss - chosen) > 0]
    half = [np.sqrt(one.variance * (reach - (one.rss - chosen))) for one in near]
    low = np.min([one.value - each for one, each in zip(near, half, strict=True)], axis=0)
    high = np.max([one.value + each for one, each in zip(near, half, strict=True)], axis=0)
    return low, high, [one.bend_n for one in near if one.bend_n is not None]
