"""What mechanics measured of stiffness and toe."""

from collections.abc import Iterator

import numpy as np

from tests.cord_recipe import Case
from tests.speed.claims import Figure, Range, about, percent
from tests.speed.tried import (
    NO_TOE,
    SMALL_TOE,
    TOE,
    bent,
    cases,
    half_width,
    half_width_if_bent,
    held,
    held_if_bent,
    held_unweighed,
    kinks,
    toe_found,
    tried,
    value_and_u_hold,
)

HOLDS = "stiffness held"
WIDE = "typical half-width of the stretch per newton"


def _toed(case: Case) -> Range:
    hard = (case.toe == SMALL_TOE and case.readings == 18) or (case.readings == 8 and case.two_stage)
    return percent(92, 98) if hard else percent(93, 98)


def _straight() -> Iterator[Figure]:
    for case in cases():
        yield tried(HOLDS, case, held, design=percent(93, 97))
        yield tried("value +- 1.96 u holds", case, value_and_u_hold, design=percent(96, 99))
    for toe in (TOE, SMALL_TOE):
        for case in cases(toe=toe):
            yield tried(HOLDS, case, held, design=_toed(case))
    for toe in ("none", TOE):
        for case in cases(toe=toe, division_mm=5.0):
            yield tried(HOLDS, case, held, design=percent(94, 99))
    for case in kinks((1.5, 2.0, 3.0), (8, 12, 18)):
        yield tried(f"{HOLDS}, given called bent", case, held_if_bent, design=percent(94, 100))
    for case in cases((8,), bend="kink", ratio=2.0, stiffness=1.5):
        yield tried(f"{HOLDS}, bend seen or not", case, held, design=percent(50, 62))


def _widths() -> Iterator[Figure]:
    for readings, low, high in ((8, 7, 9), (10, 3, 5), (12, 3, 5), (18, 2, 2)):
        for case in cases((readings,)):
            yield tried(WIDE, case, half_width, design=about(low, high, 0.5), middle=np.median)
    for readings, low, high in ((8, 20, 37), (10, 12, 20), (12, 12, 20), (18, 5, 8)):
        for case in cases((readings,), bend="kink", ratio=2.0):
            yield tried(WIDE, case, half_width_if_bent, design=about(low, high, 0.5), middle=np.median)
    for case in cases((8,), bend="kink", ratio=3.0, toe=TOE):
        yield tried(WIDE, case, half_width_if_bent, design=about(38, 56, 0.5), middle=np.median)


def _short() -> Iterator[Figure]:
    for case, low, high in ((Case(readings=4), 99.6, 99.6), (Case(readings=5), 98, 98)):
        yield tried(HOLDS, case, held, design=percent(low, high))
    for toe in (NO_TOE, TOE):
        for case in cases((6, 7), toe=toe):
            yield tried(HOLDS, case, held, design=percent(98, 100))
            yield tried(WIDE, case, half_width, design=about(10, 34, 0.5), middle=np.median)
    for readings, half in ((4, 23), (5, 12)):
        case = Case(readings=readings)
        yield tried(WIDE, case, half_width, design=about(half, half, 0.5), middle=np.median)


def _wrong_rungs() -> Iterator[Figure]:
    for readings, share in ((8, 3), (12, 7), (18, 12)):
        case = Case(readings=readings, rung_error=0.10)
        yield tried("called bent, rungs wrong", case, bent, design=percent(share))
        yield tried(f"{HOLDS}, widened for unweighed rungs", case, held_unweighed, design=percent(92, 95))
        yield tried(f"{HOLDS}, not widened", case, held, design=percent(64, 89))
        nearly = Case(readings=readings, rung_error=0.02)
        yield tried("called bent, rungs wrong", nearly, bent, design=percent(3, 5))
        yield tried(HOLDS, nearly, held, design=percent(91, 96))


def _toes() -> Iterator[Figure]:
    for case in cases():
        yield tried("a toe said of none", case, toe_found, design=percent(3, 6))
    for case in cases(division_mm=5.0):
        yield tried("a toe said of none", case, toe_found, design=percent(0, 4))
    for case in cases(toe=TOE):
        yield tried("toe found", case, toe_found, design=percent(88, 98))
    for case in cases(toe=SMALL_TOE):
        yield tried("toe found", case, toe_found, design=percent(44, 72))


STRAIGHT = (*_straight(), *_widths(), *_short(), *_wrong_rungs())
TOES = tuple(_toes())
