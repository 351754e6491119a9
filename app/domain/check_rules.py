"""The look-again rules on values: a reading against those before it, in newtons and millimetres.

Each rule gives a note or None; `value_note` asks them in their order and stops at the first that speaks.
"""

import math
import statistics
from collections.abc import Callable
from functools import cached_property
from itertools import pairwise

from app.domain import check_words as words
from app.domain.tested import LOADING
from app.domain.thresholds import AT
from app.domain.told import BenchFacts, Note, Told
from app.domain.trail import Stretch, Trail, reading_u_mm, tens

STARTED_WITH = 3
"""Readings before the new one, at the least, for a rule that needs to know the cord."""
STAND_DOWN = ("still_moving", "necking_seen", "strand_went")
"""Told of a step, they explain a move of any size: what is expected of it does not count."""
BESIDE_A_LOAD = ("later", "return", "hung_again")
"""Phases whose readings lie near the load reading before them."""


class Look:
    """One reading held against its trail."""

    def __init__(self, trail: Trail, new: Told, bench: BenchFacts) -> None:
        self.trail, self.new, self.bench = trail, new, bench
        self.before = trail.path[-1]
        self.earlier = len(trail.path)
        self.unit = bench.unit

    @cached_property
    def u_mm(self) -> float:
        """Standard uncertainty of one reading."""
        return reading_u_mm(self.bench)

    @cached_property
    def move_mm(self) -> float:
        """How far the pointer went, along the stretch."""
        return self.trail.move_mm(self.new)

    @cached_property
    def stretch(self) -> Stretch | None:
        """What the steps before let expect; None while too little is known."""
        return self.trail.stretch(self.new) if self.earlier >= STARTED_WITH else None

    @cached_property
    def explained(self) -> bool:
        """Whether something was told that explains a move of any size."""
        told = (*self.trail.since, *self.new.events, *self.new.events_after)
        return any(kind in STAND_DOWN for kind in told)

    def scatter_mm(self, stretch: Stretch) -> float:
        """Standard deviation of a step: two readings and the cord's own unevenness."""
        return math.hypot(math.sqrt(2) * self.u_mm, stretch.scatter_mm)

    def note(self, row: int, said: str, likely_mm: float | None = None) -> Note:
        """A note about the new reading."""
        return Note(note=row, words=said, about=self.new.key, likely_mm=likely_mm)


def value_note(trail: Trail, new: Told, bench: BenchFacts) -> Note | None:
    """The one question that the value of a reading raises; None when it raises none, or there is nothing before it.

    Those that name a likely number come first (ten times, digits swapped), then those sure of what they see (went
    back, on the tray, nothing hung), then two hung and far larger. After a jump to a tenth or to ten times nothing is
    expected until the numbers are back, and their way back is not asked about: the jump was.
    """
    if not trail.path:
        return None
    look = Look(trail, new, bench)
    if new.phase in BESIDE_A_LOAD:
        return ten_times(look)
    if new.phase not in LOADING or _came_back(look):
        return None
    if trail.tens:
        return ten_times(look)
    return next((note for rule in VALUE_RULES if (note := rule(look)) is not None), None)


def _came_back(look: Look) -> bool:
    jump = tens(look.before.pointer_mm, look.new.pointer_mm)
    return jump != 0 and jump == -look.trail.tens


def ten_times(look: Look) -> Note | None:
    """Rows 1 and 2: about a tenth of the number before, or ten times it."""
    before_mm, now_mm = look.before.pointer_mm, look.new.pointer_mm
    jump = tens(before_mm, now_mm)
    if jump == 0:
        return None
    likely_mm = round(now_mm / 10 if jump > 0 else now_mm * 10, 9)
    said = words.ten_times(before_mm, now_mm, likely_mm, unit=look.unit)
    return look.note(2 if jump > 0 else 1, said, likely_mm)


def digits_swapped(look: Look) -> Note | None:
    """Row 3: off what was expected, and two neighbouring digits changed over bring it near."""
    if look.stretch is None:
        return None
    expected_mm = look.before.pointer_mm + look.trail.sign * look.stretch.expected_mm
    scatter_mm = look.scatter_mm(look.stretch)
    if abs(look.new.pointer_mm - expected_mm) <= max(AT.swapped_off_sp * scatter_mm, AT.swapped_off_mm):
        return None
    near_mm = AT.swapped_lands_sp * scatter_mm + AT.swapped_lands_stretch * look.stretch.expected_mm
    likely_mm = min(swaps(look.new.pointer_mm), key=lambda mm: abs(mm - expected_mm), default=math.inf)
    if not abs(likely_mm - expected_mm) <= near_mm:
        return None
    said = words.swapped(look.before.pointer_mm, look.new.pointer_mm, likely_mm, unit=look.unit)
    return look.note(3, said, likely_mm)


def swaps(mm: float) -> list[float]:
    """The numbers that two neighbouring digits changed over make of one."""
    typed = f"{mm:.9f}".rstrip("0").rstrip(".")
    digits = [place for place, sign in enumerate(typed) if sign.isdigit()]
    return [_swapped(typed, one, other) for one, other in pairwise(digits) if typed[one] != typed[other]]


def _swapped(typed: str, one: int, other: int) -> float:
    signs = list(typed)
    signs[one], signs[other] = signs[other], signs[one]
    return float("".join(signs))


def went_back(look: Look) -> Note | None:
    """Row 8: against the way it stretches; row 6 when twice running, and no more after that; row 25 at 0."""
    limit_mm = -AT.back_u * look.u_mm
    if not look.move_mm < limit_mm:
        return None
    if look.new.pointer_mm == 0:
        return look.note(25, words.nothing_there(unit=look.unit))
    running = [move < limit_mm for move in look.trail.moves_mm(look.new, 3)]
    if running == [True, True, True]:
        return None
    if running[-2:] == [True, True]:
        mm = [told.pointer_mm for told in (*look.trail.path[-2:], look.new)]
        return look.note(6, words.wrong_end(mm, unit=look.unit, way=look.bench.way))
    return look.note(8, words.went_back(look.before.pointer_mm, look.new.pointer_mm, unit=look.unit))


def on_the_tray(look: Look) -> Note | None:
    """Row 20: no stretch for two steps running, where the steps before them let expect some."""
    if look.earlier <= STARTED_WITH or max(look.trail.moves_mm(look.new, 2)) > AT.no_move_mm:
        return None
    before = look.trail.stretch(look.new, back=1)
    if before is None or before.expected_mm < AT.tray_u * look.u_mm:
        return None
    return look.note(20, words.on_the_tray(look.new.pointer_mm, unit=look.unit))


def nothing_hung(look: Look) -> Note | None:
    """Row 11: no stretch where some was expected; at the second step only for exactly the same number."""
    if look.explained or look.move_mm > AT.no_move_mm:
        return None
    if look.earlier == STARTED_WITH - 1 and look.move_mm == 0:
        first, step_n = look.trail.slopes[1], look.trail.step_n(look.new)
        expected_mm = first * step_n if first is not None and step_n is not None else 0.0
    else:
        expected_mm = look.stretch.expected_mm if look.stretch is not None else 0.0
    if expected_mm < AT.nothing_u * look.u_mm:
        return None
    return look.note(11, words.no_stretch(look.before.pointer_mm, look.new, unit=look.unit, moved=look.move_mm > 0))


def third_time(look: Look) -> Note | None:
    """Row 11: the same number for the third time, where the scale would have shown what was expected.

    While nothing is expected yet, a scale coarser than what counts as no move does not ask.
    """
    moves = look.trail.moves_mm(look.new, 3)
    if look.earlier < 2 or moves[-2:] != [0.0, 0.0] or moves == [0.0, 0.0, 0.0]:
        return None
    before = look.trail.stretch(look.new, back=1)
    shows_mm = AT.no_move_mm if before is None else before.expected_mm
    if look.bench.division_mm > shows_mm:
        return None
    return look.note(11, words.third_time(look.new, unit=look.unit))


def two_hung(look: Look) -> Note | None:
    """Row 10: about twice what was expected, of a cord that has moved evenly."""
    stretch = look.stretch
    if stretch is None or look.explained:
        return None
    expected_mm = stretch.expected_mm
    even = stretch.scatter_mm < AT.two_scatter_stretch * expected_mm and expected_mm >= AT.two_u * look.u_mm
    low, high = AT.two_stretch
    if not even or not low * expected_mm < look.move_mm < high * expected_mm:
        return None
    return look.note(10, words.two_hung(look.move_mm, expected_mm, unit=look.unit))


def far_larger(look: Look) -> Note | None:
    """Row 9: far more than what was expected."""
    if look.stretch is None or look.explained:
        return None
    most_mm = AT.larger_stretch * look.stretch.expected_mm + AT.larger_sp * look.scatter_mm(look.stretch)
    if not look.move_mm > most_mm:
        return None
    return look.note(9, words.far_larger(look.move_mm, look.stretch.expected_mm, unit=look.unit))


VALUE_RULES: tuple[Callable[[Look], Note | None], ...] = (
    ten_times,
    digits_swapped,
    went_back,
    on_the_tray,
    nothing_hung,
    third_time,
    two_hung,
    far_larger,
)


def limp_zero(trail: Trail, new: Told, bench: BenchFacts) -> Note | None:
    """Row 18, about the zero: the first mass made far more stretch for its force than the next ones.

    Asked at the third or fourth reading after the zero, once.
    """
    if new.phase not in LOADING or not trail.path or trail.path[0].phase != "zero":
        return None
    slopes = [*trail.slopes[1:], trail.slope(new)] if len(trail.path) in (3, 4) else []
    seen = _limp_mm(trail, slopes)
    if seen is None or _limp_mm(trail, slopes[:-1]) is not None:
        return None
    first_mm, usual_mm = seen
    return Note(note=18, words=words.limp(first_mm, usual_mm, unit=bench.unit), about=trail.path[0].key)


def _limp_mm(trail: Trail, slopes: list[float | None]) -> tuple[float, float] | None:
    """The first move and what it would be at the usual stretch [mm], when they lie as far apart as of a limp cord."""
    known = [slope for slope in slopes if slope is not None]
    if len(slopes) < 3 or len(known) < len(slopes):
        return None
    usual = max(statistics.median(known[1:]), 0.0)
    zero_n, first_n = trail.path[0].force_n, trail.path[1].force_n
    step_n = first_n - zero_n if zero_n is not None and first_n is not None else 0.0
    if not known[0] > AT.limp_times * usual or not (known[0] - usual) * step_n > AT.limp_mm:
        return None
    return known[0] * step_n, usual * step_n
