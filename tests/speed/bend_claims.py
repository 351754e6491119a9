"""What mechanics measured of bends: how often they are called, where they lie, what is said when none is seen."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import ArrayLike

from tests.cord_recipe import Case
from tests.speed.claims import Figure, Range, about, percent
from tests.speed.fits import Fits, holds
from tests.speed.tried import (
    EQUAL,
    NO_TOE,
    SMALL_TOE,
    TOE,
    TWO_STAGE,
    bent,
    cases,
    held,
    kinks,
    stiffer,
    tried,
)

A_FALSE_BEND, A_KINK, A_CURVE = "called bent without a bend", "kink called bent", "curve called bent"
POWER = {
    (1.5, NO_TOE, EQUAL): (88, 98, 100),
    (1.5, NO_TOE, TWO_STAGE): (70, 94, 99),
    (1.5, TOE, EQUAL): (62, 93, 99),
    (1.5, TOE, TWO_STAGE): (38, 78, 95),
    (2.0, NO_TOE, EQUAL): (100, 100, 100),
    (2.0, NO_TOE, TWO_STAGE): (97, 100, 100),
    (2.0, TOE, EQUAL): (94, 100, 100),
    (2.0, TOE, TWO_STAGE): (81, 99, 100),
}
"""Share of kinks called bent [%] at 8, 10 and 12 readings."""
STIFF_POWER = {
    (1.5, EQUAL): (55, 90, 99),
    (1.5, TWO_STAGE): (30, 71, 94),
    (2.0, EQUAL): (35, 72, 91),
    (2.0, TWO_STAGE): (17, 48, 78),
    (4.0, EQUAL): (10, 26, 44),
    (4.0, TWO_STAGE): (5, 16, 32),
}
"""The same of cords of that stiffness [N/mm] whose stretch per newton doubles."""
POWER_AT = (8, 10, 12)
RARELY = "short two-stage ladders have fewer and lower bounds than any that the design tells of"
LAST_PLACE = "the last place with two readings beyond it lies there: no such ladder is among those the design tells of"


def _false_bends() -> Iterator[Figure]:
    for case in cases((8, 10, 12, 18, 25)):
        yield tried(A_FALSE_BEND, case, bent, design=percent(1.3, 4.3, half_digit=0.05))
        yield tried("called stiffer", case, stiffer, design=percent(0, 1.1, half_digit=0.05))
    for case in cases(division_mm=5.0):
        yield tried(A_FALSE_BEND, case, bent, design=percent(0, 2.3, half_digit=0.05))
    for toe in (TOE, SMALL_TOE):
        for case in cases(toe=toe):
            yield tried(A_FALSE_BEND, case, bent, design=percent(0.2, 1.9, half_digit=0.05))
            yield tried("called stiffer", case, stiffer, design=percent(0, 3.8, half_digit=0.05))


def _power() -> Iterator[Figure]:
    for (ratio, toe, two_stage), shares in POWER.items():
        for readings, part in zip(POWER_AT, shares, strict=True):
            case = Case(readings=readings, two_stage=two_stage, toe=toe, bend="kink", ratio=ratio)
            yield tried(A_KINK, case, bent, design=percent(part))
    for (stiffness, two_stage), shares in STIFF_POWER.items():
        for readings, part in zip(POWER_AT, shares, strict=True):
            case = Case(readings=readings, two_stage=two_stage, bend="kink", ratio=2.0, stiffness=stiffness)
            yield tried(A_KINK, case, bent, design=percent(part))
    for case in cases(POWER_AT, bend="kink", ratio=3.0, division_mm=5.0):
        low, high = (93, 100) if case.two_stage and case.readings == 8 else (99, 100)
        yield tried(A_KINK, case, bent, design=percent(low, high))


def _curved() -> Iterator[Figure]:
    for ratio in (3.0, 5.0):
        for case in cases((8, 12, 18), bend="gradual", ratio=ratio):
            low, high = (93, 95) if ratio == 3.0 and case.readings == 8 and case.two_stage else (99, 100)
            yield tried(A_CURVE, case, bent, design=percent(low, high))
    for case in cases((8, 12, 18), bend="never straight"):
        yield tried(A_CURVE, case, bent, design=percent(100))


def limit_held(fit: Fits) -> ArrayLike:
    """Whose interval of the bend holds the kink, of those called bent."""
    return holds(fit.limit_low, fit.limit_high, np.full(fit.bent.shape, fit.cords.case.psi_n))[fit.bent]


def limit_too_high(fit: Fits) -> ArrayLike:
    """Whose interval lies over the kink, of those called bent."""
    return np.asarray(fit.limit_low > fit.cords.case.psi_n)[fit.bent]


def limit_too_low(fit: Fits) -> ArrayLike:
    """Whose interval lies under the kink, of those called bent."""
    return (fit.limit_high < fit.cords.case.psi_n)[fit.bent]


def limit_width_steps(fit: Fits) -> ArrayLike:
    """Width of the interval of the bend in steps of 200 g, of those called bent."""
    step_n = float(np.diff(fit.cords.case.force_n)[-1])
    return ((fit.limit_high - fit.limit_low) / step_n)[fit.bent]


def left_line_at_low(fit: Fits) -> ArrayLike:
    """How far the curve has left its first line at the low end of the limit [mm], of those called bent."""
    return fit.cords.departed_mm(np.where(fit.bent, fit.limit_low, fit.cords.case.first_n))[fit.bent]


def left_line_at_high(fit: Fits) -> ArrayLike:
    """Whether the curve has left its first line by over 1 mm at the high end of the limit, of those called bent."""
    return (fit.cords.departed_mm(np.where(fit.bent, fit.limit_high, fit.cords.case.first_n)) > 1.0)[fit.bent]


def compliant_over_tangent(fit: Fits) -> ArrayLike:
    """By how much the straight part's compliance is over that at the very start [%], of those called bent."""
    return 100 * (fit.cords.stiffness / fit.k - 1)[fit.bent]


def chord_held(fit: Fits) -> ArrayLike:
    """Whose interval holds the mean stiffness up to the place of the bend, of those called bent."""
    return holds(fit.k_low, fit.k_high, fit.cords.chord(fit.bend_n))[fit.bent]


def low_over_top(fit: Fits) -> ArrayLike:
    """Where the low end of the limit lies as a part of the last force [%], of those called bent."""
    return (100 * fit.limit_low / fit.cords.case.top_n)[fit.bent]


def doubling_too_high(fit: Fits) -> ArrayLike:
    """Whose bend was not seen although it lies under the doubling bound that was told."""
    return ~fit.bent & (fit.limit_low > fit.cords.case.psi_n)


def doubling_given(fit: Fits) -> ArrayLike:
    """Of those not called bent, which have a doubling bound."""
    return ~np.isnan(fit.limit_low[~fit.bent])


def doubling_over_top(fit: Fits) -> ArrayLike:
    """The doubling bound as a part of the last force [%], where there is one."""
    return (100 * fit.limit_low / fit.cords.case.top_n)[~fit.bent & ~np.isnan(fit.limit_low)]


def zero_held(fit: Fits) -> ArrayLike:
    """Whose interval holds the zero at no force."""
    return holds(fit.zero_low, fit.zero_high, fit.cords.zero_force_mm)


def zero_held_if_bent(fit: Fits) -> ArrayLike:
    """The same of those called bent."""
    return holds(fit.zero_low, fit.zero_high, fit.cords.zero_force_mm)[fit.bent]


def zero_half_width_mm(fit: Fits) -> ArrayLike:
    """Half of that interval [mm]."""
    return (fit.zero_high - fit.zero_low) / 2


def _limits() -> Iterator[Figure]:
    for case in kinks((1.5, 2.0, 3.0, 5.0), (8, 12, 18)):
        low, high = {8: (97, 100), 12: (95, 98), 18: (94, 98)}[case.readings]
        yield tried("limit held, given called bent", case, limit_held, design=percent(low, high))
        for side, of in (("over", limit_too_high), ("under", limit_too_low)):
            yield tried(f"limit all {side} the kink", case, of, design=percent(0, 5))
    for case in cases((8, 12, 18), bend="kink", ratio=2.0, stiffness=1.5):
        yield tried("limit held, given called bent", case, limit_held, design=percent(93, 98))
        for side, of in (("over", limit_too_high), ("under", limit_too_low)):
            yield tried(f"limit all {side} the kink", case, of, design=percent(0, 7))
    for ratio, least, most in ((1.5, 1.3, 4.0), (2.0, 0.6, 2.4), (3.0, 0.3, 1.0)):
        for case in cases((8, 12, 18), bend="kink", ratio=ratio):
            yield tried(
                "typical width of the limit",
                case,
                limit_width_steps,
                design=about(least, most, 0.05),
                unit="steps",
                middle=np.median,
            )


def _gradual() -> Iterator[Figure]:
    for ratio, low, high in ((3.0, 0.0, 0.8), (5.0, 0.8, 1.9)):
        for case in cases((12, 18), bend="gradual", ratio=ratio):
            yield tried(
                "typical departure at the low end",
                case,
                left_line_at_low,
                design=about(low, high, 0.05),
                unit="mm",
                middle=np.median,
            )
            yield tried(
                "departure under 5 mm at the low end",
                case,
                lambda fit: np.asarray(left_line_at_low(fit)) < 5.0,
                design=percent(95, 100),
            )
            yield tried("departure over 1 mm at the high end", case, left_line_at_high, design=percent(95, 100))
    for case in cases((8, 12, 18), bend="never straight"):
        yield tried("stiffness holds the chord up to the bend", case, chord_held, design=percent(96, 100))
        yield tried("stiffness holds the tangent at the start", case, held, design=percent(3, 78))
        yield tried(
            "more compliant than at the start",
            case,
            compliant_over_tangent,
            design=about(25, 45, 0.5),
            middle=np.median,
        )
        yield tried("low end over the last force", case, low_over_top, design=about(33, 33, 8), middle=np.median)


def _doubling() -> Iterator[Figure]:
    for toe in (NO_TOE, TOE):
        for case in cases((8, 10, 12), bend="kink", ratio=2.0, toe=toe):
            hard = toe == TOE and case.readings == 8 and case.two_stage
            yield tried(
                "bound over an unseen kink",
                case,
                doubling_too_high,
                design=percent(0, 2.0 if hard else 0.4),
            )
    for case in cases(stiffness=0.5):
        short = case.two_stage and case.readings <= 10
        yield tried("bound given", case, doubling_given, design=percent(54, 98), remark=RARELY if short else "")
        yield tried(
            "bound over the last force",
            case,
            doubling_over_top,
            design=about(84, 92, 0.5),
            middle=np.median,
            remark=LAST_PLACE if case.readings == 18 else RARELY if short else "",
        )
    for case in cases(stiffness=4.0):
        yield tried("bound given", case, doubling_given, design=percent(3, 8))


def _zeros() -> Iterator[Figure]:
    for toe in (NO_TOE, TOE):
        for case in cases((8, 12, 18), toe=toe):
            yield tried("zero at no force held", case, zero_held, design=percent(93, 97))
        for case in cases((8, 12, 18), toe=toe, bend="kink", ratio=2.0):
            low, high = (99, 99) if case.readings == 8 else (93, 97)
            yield tried(
                "zero at no force held, given called bent",
                case,
                zero_held_if_bent,
                design=percent(low, high),
            )
    for readings, half, digit in ((8, 2.0, 0.5), (12, 1.0, 0.5), (18, 0.8, 0.1)):
        yield _zero_width(Case(readings=readings), about(half, half, digit))
    for readings, half, digit in ((8, 6.0, 0.5), (12, 2.0, 0.5), (18, 1.3, 0.1)):
        case = Case(readings=readings, toe=TOE, bend="kink", ratio=3.0)
        yield _zero_width(case, about(half, half, digit))


def _zero_width(case: Case, design: Range) -> Figure:
    return tried(
        "typical half-width of the zero at no force",
        case,
        zero_half_width_mm,
        design=design,
        unit="mm",
        middle=np.median,
    )


BENDS = (*_false_bends(), *_power(), *_curved())
LIMITS = (*_limits(), *_gradual())
DOUBLING = tuple(_doubling())
ZEROS = tuple(_zeros())
