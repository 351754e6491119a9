"""What the cords of a plan may hold, and what its ladder is good for then."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import accumulate
from typing import Any

from app.domain.errors import NotFound
from app.domain.limits import EXPECTED_N
from app.domain.records import DesignRecord, LessonRecord, MaterialRecord
from app.mechanics.breaking import Bracket
from app.mechanics.loading import load, tray_of
from app.mechanics.planning import LadderReach, expected_break, falling_j, kept_share, ladder_reach
from app.services.picture import see
from app.store.database import Database

LOW, HIGH = "break_low_N", "break_high_N"
"""Where a plan keeps what the teacher typed."""

FALL_MM = 100.0
_LAID_UP = ("twist", "plait_flat", "plait_round")


@dataclass(frozen=True, kw_only=True)
class Expected:
    """Between which forces [N] the weakest and the strongest cord may break, and how that is known.

    `how` is typed, here (cords of this lesson broke so), earlier (those of the lesson that the plan comes from) or
    film (from strength, strips and knots: an estimate).
    """

    low_n: float
    high_n: float
    how: str


@dataclass(frozen=True, kw_only=True)
class LadderPlan:
    """What may be expected, how far the ladder of the worst-off bench reaches then, and what falls a hand's breadth.

    `reach` is None while nothing is expected or a mass is not known; `fall_j` [J], of everything that hangs, for each
    FALL_MM that it hangs too high, None while a mass is not known.
    """

    expected: Expected | None
    reach: LadderReach | None
    fall_j: float | None


def ladder_plan(database: Database, lesson: LessonRecord) -> LadderPlan:
    """What the lesson's ladder is good for, as far as anything is known of its cords."""
    found = expected(database, lesson)
    ladders = [_steps(lesson, bench.id) for bench in lesson.benches]
    known = [steps for steps in ladders if steps is not None]
    all_known = bool(known) and len(known) == len(ladders)
    return LadderPlan(
        expected=found,
        reach=_worst_off(known, found) if all_known and found else None,
        fall_j=max(_fall_j(lesson, steps) for steps in known) if all_known else None,
    )


def _steps(lesson: LessonRecord, bench_id: str) -> list[float] | None:
    """The load [N] of each step of a bench, the hanger alone first; None while a mass is not known."""
    hung = tray_of(lesson, bench_id)
    marks = accumulate(((rung.mark,) for rung in lesson.rungs), initial=())
    loads = [load(hung, some, gravity_m_per_s2=lesson.gravity_m_per_s2).force_n for some in marks]
    known = [one for one in loads if one is not None]
    return known if len(known) == len(loads) else None


def _worst_off(ladders: Iterable[list[float]], found: Expected) -> LadderReach:
    reaches = [ladder_reach(steps, low_n=found.low_n, high_n=found.high_n) for steps in ladders]
    return min(reaches, key=lambda reach: (reach.readings_before_low, reach.top_n))


def _fall_j(lesson: LessonRecord, steps: list[float]) -> float:
    mass_g = steps[-1] / lesson.gravity_m_per_s2 * 1000
    return falling_j(mass_g, FALL_MM, gravity_m_per_s2=lesson.gravity_m_per_s2)


def expected(database: Database, lesson: LessonRecord) -> Expected | None:
    """What is expected: as typed, else as cords broke, here or in the lesson before, else by the film; or None."""
    return typed(lesson) or _broken(database, lesson) or _by_film(lesson)


def typed(lesson: LessonRecord) -> Expected | None:
    """What the teacher typed; None when nothing that makes sense is kept."""
    low: Any = lesson.planning.get(LOW)
    high: Any = lesson.planning.get(HIGH)
    fits = _a_range(low, high) and low >= EXPECTED_N[0] and high <= EXPECTED_N[1]
    return Expected(low_n=float(low), high_n=float(high), how="typed") if fits else None


def _a_range(low: Any, high: Any) -> bool:
    """Whether both are numbers that a range may have: a plan from outside may hold anything there."""
    numbers = all(isinstance(one, int | float) and not isinstance(one, bool) for one in (low, high))
    return numbers and 0 < low <= high


def _broken(database: Database, lesson: LessonRecord) -> Expected | None:
    here = _of_brackets(_brackets(database, lesson.id), how="here")
    if here is not None or lesson.copied_from is None:
        return here
    try:
        earlier = see(database, lesson.copied_from).lesson
    except NotFound:
        return None
    ours = earlier.teacher_id == lesson.teacher_id or (earlier.shelved_at is not None and not earlier.own)
    return _of_brackets(_brackets(database, earlier.id), how="earlier") if ours else None


def _brackets(database: Database, lesson_id: str) -> list[Bracket]:
    return [cord.break_bracket for cord in see(database, lesson_id).picture.specimens if cord.left_out is None]


def _of_brackets(brackets: Iterable[Bracket], *, how: str) -> Expected | None:
    """From the lowest load that a broken cord held to the highest that any held or broke under."""
    known = [(one.low_n, one.high_n) for one in brackets if one.low_n is not None]
    lows = [low for low, high in known if high is not None and low > 0]
    if not lows:
        return None
    return Expected(low_n=min(lows), high_n=max(high or low for low, high in known), how=how)


def _by_film(lesson: LessonRecord) -> Expected | None:
    """The weakest and the strongest design by strength, strips and knots; None while a design lacks one of them."""
    sheets = {sheet.id: sheet for sheet in lesson.materials}
    first = next(iter(lesson.materials), None)
    ranges = [_of_film(design, sheets.get(design.material_id or "") or first) for design in lesson.designs]
    known = [one for one in ranges if one is not None]
    if not known or len(known) < len(ranges):
        return None
    return Expected(low_n=min(low for low, _ in known), high_n=max(high for _, high in known), how="film")


def _of_film(design: DesignRecord, sheet: MaterialRecord | None) -> tuple[float, float] | None:
    if sheet is None or not _a_range(sheet.strength_low_mpa, sheet.strength_high_mpa):
        return None
    sizes = (design.strands, design.strip_width_mm, sheet.thickness_um)
    if any(size is None or size <= 0 for size in sizes):
        return None
    found = expected_break(
        (sheet.strength_low_mpa or 0.0, sheet.strength_high_mpa or 0.0),
        strands=(design.strands or 0) * max(design.layers or 1, 1),
        strip_width_mm=design.strip_width_mm or 0.0,
        thickness_mm=(sheet.thickness_um or 0.0) / 1000,
        kept=kept_share(laid_up=design.lay_up in _LAID_UP, knotted=design.end_fixing != "bar"),
    )
    return (found.low, found.high) if found.low is not None and found.high is not None else None
