"""Invented blunders at a bench, made into the readings of invented cords; item 6 of the recipe of `cord_recipe`.

One blunder a cord, at a random reading from the fourth on. What is asked of it is told by the product's own rules.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from app.domain.check_rules import swaps
from app.domain.checks import notes_along
from app.domain.told import TEACHER, BenchFacts, Note, Told
from tests.cord_recipe import Array, Case, Cords, make_cords, read_again, rounded

FOURTH = 3
TENTH, TENFOLD, SWAPPED, BACK, LARGER, TWO, NOTHING, LIMP, TRAY = 1, 2, 3, 8, 9, 10, 11, 18, 20
"""Rows of the list of blunders."""
SWAPS_OVER_MM = 8.0


@dataclass(frozen=True, kw_only=True)
class Spoiled:
    """A cord's readings with a blunder at reading `at`, which may be asked about up to reading `until`.

    `right` are the rows that name it, `likely_mm` what the number should have been, where one number is wrong;
    `step_mm` how far the pointer truly goes at that step.
    """

    pointer_mm: Array
    at: int
    until: int
    right: tuple[int, ...]
    likely_mm: float | None = None
    step_mm: float


@dataclass(frozen=True, kw_only=True)
class Bench:
    """One cord of a case, what it truly does, and every reading of it taken once more."""

    exact_mm: Array
    pointer_mm: Array
    again_mm: Array
    division_mm: float
    scatter_mm: float

    def step_mm(self, at: int) -> float:
        """How far the pointer truly goes at that step."""
        return float(self.exact_mm[at] - self.exact_mm[at - 1])


Blunder = Callable[[Bench, int, np.random.Generator], Spoiled | None]


def _one_number(row: int, wrong: Callable[[float], float]) -> Blunder:
    def spoil(bench: Bench, at: int, _rng: np.random.Generator) -> Spoiled:
        pointer_mm = bench.pointer_mm.copy()
        pointer_mm[at] = wrong(pointer_mm[at])
        likely_mm = float(bench.pointer_mm[at])
        return Spoiled(
            pointer_mm=pointer_mm, at=at, until=at, right=(row,), likely_mm=likely_mm, step_mm=bench.step_mm(at)
        )

    return spoil


def _swapped(bench: Bench, at: int, rng: np.random.Generator) -> Spoiled | None:
    true_mm = float(bench.pointer_mm[at])
    wrong = [mm for mm in swaps(true_mm) if abs(mm - true_mm) > SWAPS_OVER_MM]
    if not wrong:
        return None
    spoil = _one_number(SWAPPED, lambda _mm: wrong[int(rng.integers(len(wrong)))])
    return spoil(bench, at, rng)


def _moved(low_mm: float, high_mm: float, row: int) -> Blunder:
    def spoil(bench: Bench, at: int, rng: np.random.Generator) -> Spoiled:
        pointer_mm = bench.pointer_mm.copy()
        pointer_mm[at:] = rounded(pointer_mm[at:] + rng.uniform(low_mm, high_mm), bench.division_mm)
        return Spoiled(pointer_mm=pointer_mm, at=at, until=at, right=(row,), step_mm=bench.step_mm(at))

    return spoil


def _not_hung(bench: Bench, at: int, _rng: np.random.Generator) -> Spoiled:
    pointer_mm = bench.pointer_mm.copy()
    pointer_mm[at] = bench.again_mm[at - 1]
    return Spoiled(pointer_mm=pointer_mm, at=at, until=at, right=(NOTHING, TRAY), step_mm=bench.step_mm(at))


def _two_hung(bench: Bench, at: int, _rng: np.random.Generator) -> Spoiled | None:
    if at + 1 == len(bench.pointer_mm):
        return None
    pointer_mm = bench.pointer_mm.copy()
    pointer_mm[at] = bench.again_mm[at + 1]
    return Spoiled(pointer_mm=pointer_mm, at=at, until=at, right=(TWO,), step_mm=bench.step_mm(at + 1))


def _on_the_tray(bench: Bench, at: int, rng: np.random.Generator) -> Spoiled | None:
    if at + 1 == len(bench.pointer_mm):
        return None
    pointer_mm = bench.pointer_mm.copy()
    rest_mm = bench.exact_mm[at - 1] + bench.scatter_mm * rng.standard_normal(len(pointer_mm) - at)
    pointer_mm[at:] = rounded(rest_mm, bench.division_mm)
    return Spoiled(pointer_mm=pointer_mm, at=at, until=at + 1, right=(TRAY, NOTHING), step_mm=bench.step_mm(at))


def _limp(bench: Bench, _at: int, rng: np.random.Generator) -> Spoiled:
    pointer_mm = bench.pointer_mm.copy()
    pointer_mm[0] = rounded(pointer_mm[0] - rng.uniform(15.0, 40.0), bench.division_mm)
    return Spoiled(pointer_mm=pointer_mm, at=FOURTH, until=FOURTH + 1, right=(LIMP,), step_mm=bench.step_mm(1))


BLUNDERS: dict[str, Blunder] = {
    "cm for mm": _one_number(TENTH, lambda mm: mm / 10),
    "ten times": _one_number(TENFOLD, lambda mm: mm * 10),
    "pointer back 10-25 mm": _moved(-25.0, -10.0, BACK),
    "digits swapped": _swapped,
    "slip or pointer +10-25 mm": _moved(10.0, 25.0, LARGER),
    "slip or pointer +5-10 mm": _moved(5.0, 10.0, LARGER),
    "nothing hung": _not_hung,
    "two hung": _two_hung,
    "on the tray": _on_the_tray,
    "zero taken limp 15-40 mm": _limp,
}


def benches_of(case: Case, n: int, *, seed: int) -> Iterator[Bench]:
    """So many cords of a case, one by one."""
    cords: Cords = make_cords(case, n, seed=seed)
    exact_mm = cords.exact_mm(case.force_n)
    again_mm = read_again(cords, exact_mm, seed=seed + 1)
    for place in range(n):
        yield Bench(
            exact_mm=exact_mm[place],
            pointer_mm=cords.pointer_mm[place],
            again_mm=again_mm[place],
            division_mm=case.division_mm,
            scatter_mm=float(cords.scatter_mm[place]),
        )


def asked_of(case: Case, pointer_mm: Array) -> list[Note]:
    """What a bench is asked of those readings; each note is about the place of a reading."""
    told = [
        Told(
            key=str(place),
            step=place,
            phase="load" if place else "zero",
            pointer_mm=round(float(mm), 9),
            force_n=float(force_n),
        )
        for place, (mm, force_n) in enumerate(zip(pointer_mm, case.force_n, strict=True))
    ]
    notes = notes_along(told, BenchFacts(division_mm=case.division_mm))
    return [note for note in notes if note.severity != TEACHER]


def caught(case: Case, spoiled: Spoiled) -> tuple[bool, bool]:
    """Whether a blunder is asked about in time, and whether the first question names it."""
    notes = asked_of(case, spoiled.pointer_mm[: case.readings])
    window = range(spoiled.at, spoiled.until + 1)
    found = [note for note in notes if int(note.about) in window or (note.note == LIMP and LIMP in spoiled.right)]
    first = next((note for note in found if note.note in spoiled.right), None) if LIMP in spoiled.right else None
    first = first or next(iter(found), None)
    if first is None:
        return False, False
    right = first.note in spoiled.right and spoiled.likely_mm in (None, first.likely_mm)
    return True, right
