"""What mechanics measured of designs compared: false alarms, power, ratios, the school habit, agreement of benches."""

from collections.abc import Iterator, Sequence
from functools import lru_cache, partial

import numpy as np
from numpy.typing import ArrayLike

from app.mechanics.agreement import Agreement, agreement
from app.mechanics.permutation import alike_p
from app.mechanics.result import Result
from tests.cord_recipe import Array
from tests.speed.claims import Figure, about, percent
from tests.speed.classes import KINDS, QUANTITY, Classroom, Kind, compared
from tests.speed.fits import holds, seed_of

FALSE_ALARMS = {
    (3, 2): 4.6,
    (3, 3): 3.8,
    (4, 4): 4.7,
    (5, 5): 4.3,
    (6, 6): 3.9,
    (2, 2, 2): 3.8,
    (3, 3, 3): 5.0,
    (4, 4, 4): 4.5,
    (2, 2, 2, 2): 4.3,
    (3, 2, 2, 2): 4.4,
    (3, 3, 3, 3): 4.2,
    (2, 2, 2, 2, 2): 4.3,
    (3, 3, 2, 2, 2): 4.4,
}
"""Worst share of classes of equal designs in which some pair is called different [%]."""
POWER = {
    (3, 3): (24, 65, 97),
    (4, 4): (36, 84, 100),
    (3, 3, 3): (17, 55, 97),
    (4, 4, 4): (24, 79, 100),
    (3, 2, 2, 2): (9, 32, 79),
    (2, 2, 2, 2, 2): (6, 22, 63),
    (2, 2, 2): (6, 24, 60),
    (3, 2): (19, 46, 85),
}
RATIOS = (1.25, 1.5, 2.0)
"""Share of classes in which the stronger design is called different from a given other one [%], by its ratio."""
HABIT: dict[tuple[int, ...], tuple[int, int]] = {(2, 2): (12, 24), (3, 2): (6, 14), (3, 3): (3, 6), (4, 4): (1, 1)}
HABIT_SOMEWHERE: dict[tuple[int, ...], tuple[int, int]] = {
    (2, 2, 2): (26, 46),
    (3, 3, 3): (7, 14),
    (3, 2, 2, 2): (33, 54),
    (2, 2, 2, 2, 2): (50, 77),
}
"""Share of classes of equal designs with two whose ranges do not overlap [%]."""
ALL_ALIKE_PART = 4
"""Arrangements take their time: of so many classes one is tried."""
GROUPS_RATIOS = {3: 6.6, 5: 3.9, 8: 2.8, 10: 2.5}
"""High over low end of the repeatability's interval, by the number of benches with two cords each."""


def called_different(classroom: Classroom, runs: int) -> ArrayLike:
    """In which classes any pair is called different."""
    return [any(pair.verdict == "different" for pair in one.differences) for one in compared(classroom, runs)]


def stronger_found(classroom: Classroom, runs: int) -> ArrayLike:
    """In which classes the first design is called different from the second, and greater."""
    return [
        any(pair.verdict == "different" and (pair.one, pair.other) == ("A", "B") for pair in one.differences)
        for one in compared(classroom, runs)
    ]


def ranges_apart(classroom: Classroom, runs: int) -> ArrayLike:
    """In which classes the ranges of some pair do not overlap."""
    return [any(not pair.overlap for pair in one.differences) for one in compared(classroom, runs)]


def not_alike(classroom: Classroom, runs: int) -> ArrayLike:
    """In which classes chance arrangements say that not all designs are alike."""
    found = compared(classroom, runs)[: runs // ALL_ALIKE_PART]
    return [(alike_p(one.sets) or 1.0) < 0.05 for one in found]


def _different() -> Iterator[Figure]:
    for benches, worst in FALSE_ALARMS.items():
        for kind in KINDS:
            yield _said("equal designs called different", Classroom(benches=benches, kind=kind), 0, worst)
    doubled = Classroom(benches=(2,) * 5, scatters=(2.0, 1.0, 1.0, 1.0, 1.0))
    yield _said("one design twice as scattered, called different", doubled, 0, 9)
    for benches in ((3, 3), (3, 3, 3), (2,) * 5):
        for top in (0.0, 0.5, 1.0):
            yield _said("equal designs called different", Classroom(benches=benches, kind=Kind(top=top)), 0, 2.5)
    for benches in ((3, 3), (2, 2, 2), (3, 3, 3)):
        classroom = Classroom(benches=benches)
        yield Figure(
            what="equal designs said not to be all alike",
            case=classroom.name,
            found=partial(not_alike, classroom),
            design=percent(0, 5),
        )


def _said(what: str, classroom: Classroom, low: float, high: float) -> Figure:
    return Figure(
        what=what,
        case=classroom.name,
        found=partial(called_different, classroom),
        design=percent(low, high, half_digit=0.05),
    )


def _power() -> Iterator[Figure]:
    for benches, shares in POWER.items():
        for ratio, part in zip(RATIOS, shares, strict=True):
            classroom = Classroom(benches=benches, ratios=(ratio, *[1.0] * (len(benches) - 1)))
            yield Figure(
                what=f"first design {ratio:g} times as strong, found",
                case=classroom.name,
                found=partial(stronger_found, classroom),
                design=percent(part),
            )
    for benches in ((3, 3), (4, 4, 4)):
        classroom = Classroom(benches=benches, kind=Kind(top=1.0), ratios=(1.5, *[1.0] * (len(benches) - 1)))
        yield Figure(
            what="first design 1.5 times as strong, found",
            case=classroom.name,
            found=partial(stronger_found, classroom),
            design=percent(0, 33),
        )


def _habit() -> Iterator[Figure]:
    for benches, (low, high) in {**HABIT, **HABIT_SOMEWHERE}.items():
        for kind in KINDS:
            classroom = Classroom(benches=benches, kind=kind)
            yield Figure(
                what="ranges of equal designs that do not overlap",
                case=classroom.name,
                found=partial(ranges_apart, classroom),
                design=percent(low, high),
            )


@lru_cache(maxsize=8)
def agreements(groups: int, cords: int, between: float, runs: int) -> tuple[Agreement, ...]:
    """Benches that differ by so many standard deviations of a cord, with so many cords each: about 20 N, s = 1 N."""
    rng = np.random.default_rng(seed_of((groups, cords, between)))
    values = 20 + between * rng.standard_normal((runs, groups, 1)) + rng.standard_normal((runs, groups, cords))
    return tuple(
        agreement(QUANTITY, {str(place): tuple(own) for place, own in enumerate(one)}, unit="N")
        for one in values.tolist()
    )


def some_beyond(groups: int, cords: int, runs: int) -> ArrayLike:
    """In which classes of equal benches one lies beyond its line."""
    return [any(group.beyond for group in one.groups) for one in agreements(groups, cords, 0.0, runs)]


def repeatability_held(groups: int, cords: int, between: float, runs: int) -> ArrayLike:
    """Whose interval of the repeatability holds it."""
    found = [one.repeatability for one in agreements(groups, cords, between, runs)]
    return holds(_ends(found, "low"), _ends(found, "high"), np.ones(len(found)))


def reproducibility_held(groups: int, cords: int, between: float, runs: int) -> ArrayLike:
    """Whose interval of the reproducibility holds it."""
    found = [one.reproducibility for one in agreements(groups, cords, between, runs)]
    return holds(_ends(found, "low"), _ends(found, "high"), np.full(len(found), np.hypot(1.0, between)))


def repeatability_ratio(groups: int, cords: int, runs: int) -> ArrayLike:
    """High over low end of the repeatability's interval."""
    found = [one.repeatability for one in agreements(groups, cords, 0.0, runs)]
    return _ends(found, "high") / _ends(found, "low")


def _ends(results: Sequence[Result], end: str) -> Array:
    return np.array([getattr(one, end) for one in results], dtype=float)


def _agreement() -> Iterator[Figure]:
    for groups, ratio in GROUPS_RATIOS.items():
        for cords in (2, 3):
            where = f"{groups} benches, {cords} cords each"
            yield Figure(
                what="some bench of equals beyond its line",
                case=where,
                found=partial(some_beyond, groups, cords),
                design=percent(4.8, 5.1, half_digit=0.05),
            )
            for between in (0.0, 1.0, 2.0):
                told = f"{where}, benches differ by {between:g} s"
                yield Figure(
                    what="repeatability held",
                    case=told,
                    found=partial(repeatability_held, groups, cords, between),
                    design=percent(95),
                )
                yield Figure(
                    what="reproducibility held",
                    case=told,
                    found=partial(reproducibility_held, groups, cords, between),
                    design=percent(95, 97),
                )
        yield Figure(
            what="high over low end of the repeatability",
            case=f"{groups} benches, 2 cords each",
            found=partial(repeatability_ratio, groups, 2),
            design=about(ratio, ratio, 0.05),
            unit="",
            middle=np.median,
        )


DIFFERENT, POWER_FOUND, SCHOOL_HABIT, AGREEMENT = (
    tuple(figures) for figures in (_different(), _power(), _habit(), _agreement())
)
