"""The readings of one cord so far, as the look-again rules see them: what the next one is compared with."""

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.domain.tested import LOADING
from app.domain.thresholds import AT
from app.domain.told import BenchFacts, Told
from app.domain.vocabulary import CURVE_BREAKS

SIGN = {"down": 1.0, "up": -1.0}
MAD_TO_DEVIATION = 1.4826
"""A median absolute deviation times this is the standard deviation of normal scatter."""
LOOK_BACK = 4
FIRST_STEP_FADES = 5
"""With so many readings in, the first step (slack, knots) is left out of what is expected."""
UNDER_LOAD = (*LOADING, "later")


def reading_u_mm(bench: BenchFacts) -> float:
    """Standard uncertainty of one reading [mm]: the scale's own part, or what hands and swing make at the least."""
    own = math.hypot(bench.division_mm / math.sqrt(12), bench.judgement_mm / math.sqrt(3))
    return max(AT.least_u_mm, own)


def tens(before_mm: float, now_mm: float) -> int:
    """1 when the pointer stands at about ten times the number before, -1 at a tenth of it, else 0."""
    ratio = now_mm / before_mm if before_mm else 0.0
    return _within(ratio, AT.tenfold) - _within(ratio, AT.tenth)


def _within(value: float, bounds: tuple[float, float]) -> bool:
    return bounds[0] <= value <= bounds[1]


@dataclass(frozen=True, kw_only=True)
class Stretch:
    """What the steps before let expect of one of `step_n` newtons: its move, never back, and its scatter [mm]."""

    expected_mm: float
    scatter_mm: float


class Trail:
    """Walks along one cord's readings in the order of the test.

    `path` holds those of the first loading that count since the last gap (slip, pointer or support moved), of each
    step the newest; `slopes` their stretch per newton [mm/N], None where the force is not known to have grown; `tens`
    is 1 while the numbers stand at ten times what they were, -1 at a tenth; `since` is what was told since the last
    of the path.
    """

    def __init__(self, way: str) -> None:
        self.sign = SIGN[way]
        self.path: list[Told] = []
        self.slopes: list[float | None] = []
        self.tens = 0
        self.since: frozenset[str] = frozenset()
        self.heaviest: Told | None = None
        self.top_step = 0

    def come_to(self, new: Told) -> None:
        """The trail ends where `new` is compared with it: a gap told before it lies behind, its own step before it."""
        if new.phase == "pointer_put_back" or _gap(new.events):
            self._begin_again()
        if new.counts and new.phase in LOADING and self.path and self.path[-1].step == new.step:
            self.path.pop()
            self.slopes.pop()

    def take(self, new: Told) -> None:
        """The reading is part of the trail."""
        self.since |= {*new.events}
        if new.phase in UNDER_LOAD:
            self.top_step = max(self.top_step, new.step)
        if new.counts and new.phase in (*LOADING, "pointer_put_back"):
            self._lengthen(new)
        self.since |= {*new.events_after}
        if _gap(new.events_after):
            self._begin_again()

    def _lengthen(self, new: Told) -> None:
        if self.path:
            self.tens += tens(self.path[-1].pointer_mm, new.pointer_mm)
        self.slopes.append(self.slope(new))
        self.path.append(new)
        self.since = frozenset()
        self.heaviest = new

    def _begin_again(self) -> None:
        self.path, self.slopes, self.tens = [], [], 0

    def move_mm(self, new: Told) -> float:
        """How far the pointer went since the reading before, along the stretch."""
        return self.sign * (new.pointer_mm - self.path[-1].pointer_mm)

    def moves_mm(self, new: Told, count: int) -> list[float]:
        """The last so many moves, the one to `new` among them; fewer where the path is shorter."""
        along = [told.pointer_mm for told in (*self.path[-count:], new)]
        return [self.sign * (after - before) for before, after in pairwise(along)]

    def step_n(self, new: Told) -> float | None:
        """How much the force grew since the reading before; None when it is not known to have grown."""
        before = self.path[-1].force_n if self.path else None
        if before is None or new.force_n is None or not new.force_n > before:
            return None
        return new.force_n - before

    def slope(self, new: Told) -> float | None:
        """The stretch per newton of the step to `new` [mm/N]."""
        step_n = self.step_n(new)
        return None if step_n is None else self.move_mm(new) / step_n

    def stretch(self, new: Told, *, back: int = 0) -> Stretch | None:
        """What the steps before `new` let expect of it, the newest `back` of them left aside; None under two steps."""
        step_n = self.step_n(new)
        known = _known(self.slopes, len(self.slopes) - back)
        if step_n is None or len(known) < 2:
            return None
        per_n = statistics.median(known)
        spread = statistics.median([abs(slope - per_n) for slope in known])
        return Stretch(expected_mm=max(per_n, 0.0) * step_n, scatter_mm=MAD_TO_DEVIATION * spread * step_n)


def _known(slopes: Sequence[float | None], end: int) -> list[float]:
    """The last few slopes before `end` that are known; the first reading of a section has none."""
    first = 2 if end >= FIRST_STEP_FADES else 1
    return [slope for slope in slopes[max(first, end - LOOK_BACK) : max(end, 0)] if slope is not None]


def _gap(events: Sequence[str]) -> bool:
    return any(kind in CURVE_BREAKS for kind in events)
