"""Figures of one case of invented cords, and the cases that mechanics names."""

from collections.abc import Callable, Iterator, Sequence
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from app.mechanics.shape_choice import STIFFER, TOE_BENT
from app.mechanics.shape_choice import TOE as TOE_SEEN
from tests.cord_recipe import Case
from tests.speed.claims import Figure, Range
from tests.speed.fits import Fits, fits, holds, name_of

SIZES = (8, 10, 12, 18)
EQUAL, TWO_STAGE = False, True
LADDERS = (EQUAL, TWO_STAGE)
NO_TOE, TOE, SMALL_TOE = "none", "toe", "small toe"


def tried(
    what: str,
    case: Case,
    of: Callable[[Fits], ArrayLike],
    *,
    design: Range,
    unit: str = "%",
    middle: Callable[..., Any] | None = None,
    remark: str = "",
) -> Figure:
    """A figure of the fitted cords of one case."""
    return Figure(
        what=what,
        case=name_of(case),
        found=lambda runs: of(fits(case, runs)),
        design=design,
        unit=unit,
        middle=middle,
        remark=remark,
    )


def cases(readings: Sequence[int] = SIZES, ladders: Sequence[bool] = LADDERS, **more: Any) -> Iterator[Case]:
    """A case for each number of readings on each kind of ladder."""
    return (Case(readings=n, two_stage=two_stage, **more) for n in readings for two_stage in ladders)


def kinks(ratios: Sequence[float], readings: Sequence[int], **more: Any) -> Iterator[Case]:
    """Kinks of those ratios, without and with a toe."""
    return (
        case
        for ratio in ratios
        for toe in (NO_TOE, TOE)
        for case in cases(readings, bend="kink", ratio=ratio, toe=toe, **more)
    )


def held(fit: Fits) -> ArrayLike:
    """Whose interval holds the stiffness."""
    return fit.holds_stiffness


def held_unweighed(fit: Fits) -> ArrayLike:
    """The same when it is told that no rung was weighed."""
    return fits(fit.cords.case, len(fit.parts), weighed=False).holds_stiffness


def held_if_bent(fit: Fits) -> ArrayLike:
    """The same of those called bent."""
    return fit.holds_stiffness[fit.bent]


def value_and_u_hold(fit: Fits) -> ArrayLike:
    """Whose value +- 1.96 u holds the stiffness."""
    return holds(fit.k - 1.96 * fit.k_u, fit.k + 1.96 * fit.k_u, fit.cords.stiffness)


def half_width(fit: Fits) -> ArrayLike:
    """Half of the interval of the stretch per newton over its value [%]."""
    return fit.half_width


def half_width_if_bent(fit: Fits) -> ArrayLike:
    """The same of those called bent."""
    return fit.half_width[fit.bent]


def bent(fit: Fits) -> ArrayLike:
    """Which were called bent."""
    return fit.bent


def stiffer(fit: Fits) -> ArrayLike:
    """Which were said to get stiffer."""
    return np.asarray(fit.shape == STIFFER)


def toe_found(fit: Fits) -> ArrayLike:
    """In which a toe was seen."""
    return np.isin(fit.shape, (TOE_SEEN, TOE_BENT))
