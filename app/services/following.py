"""What follows from a plan before anything hangs: time, mass, force, and what may be compared. Plain sums only."""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from app.domain.records import LessonRecord
from app.domain.star import differ_words, moved, yardstick_of
from app.mechanics.extension import Scale, reading_u_mm
from app.mechanics.loading import load, tray_of
from app.services.balance import not_weighed

HANDLING_S = 25
"""What a bench needs at each step beside the wait: to hang, to write, to talk (trade.md, P8)."""

_TWICE = 2.0
"""A reading is said to be good to twice its standard uncertainty (JCGM 100:2008, 6.2.1)."""


@dataclass(frozen=True, kw_only=True)
class Beside:
    """One design beside the yardstick cord: the things that differ, and in words when they are two or more."""

    letter: str
    things: tuple[str, ...]
    words: str
    benches: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Following:
    """What follows from the plan. Masses [kg], force [N], times [s], lengths [mm]; None while a mass is not known.

    `settling_n` is the least and the most that the hangers of the benches weigh.
    """

    steps: int
    step_s: int
    test_s: int
    tray_kg: float | None
    class_kg: float | None
    top_n: float | None
    settling_n: tuple[float, float] | None
    reading_mm: float
    extension_mm: float
    designs: tuple[Beside, ...]
    comparable: tuple[tuple[str, ...], ...]
    fewest: int
    most: int
    not_weighed: tuple[str, ...]

    @property
    def lone(self) -> tuple[str, ...]:
        """The designs that only one bench makes, or none."""
        return tuple(one.letter for one in self.designs if len(one.benches) < 2)


def following(lesson: LessonRecord) -> Following:
    """What follows from the lesson's plan as it stands."""
    counts = Counter(bench.design_id for bench in lesson.benches if bench.kind != "pilot")
    per_design = [counts[design.id] for design in lesson.designs]
    beside = _beside(lesson)
    trays = [_whole(lesson, bench.id) for bench in lesson.benches]
    known = [mass for mass, _ in trays if mass is not None]
    all_known = len(known) == len(trays) and bool(known)
    scale = Scale(way="down", division_mm=lesson.scale_division_mm, judgement_mm=lesson.judgement_mm)
    u_mm = reading_u_mm(scale)
    step_s = lesson.wait_s + HANDLING_S
    return Following(
        steps=len(lesson.rungs),
        step_s=step_s,
        test_s=step_s * len(lesson.rungs),
        tray_kg=max(known) if all_known else None,
        class_kg=math.fsum(known) if all_known else None,
        top_n=max(force for _, force in trays if force is not None) if all_known else None,
        settling_n=_settling_n(lesson),
        reading_mm=_TWICE * u_mm,
        extension_mm=_TWICE * math.sqrt(2) * u_mm,
        designs=beside,
        comparable=_comparable(beside),
        fewest=min(per_design, default=0),
        most=max(per_design, default=0),
        not_weighed=tuple(not_weighed(lesson)),
    )


def _whole(lesson: LessonRecord, bench_id: str) -> tuple[float | None, float | None]:
    """Mass [kg] and force [N] of everything that a bench can hang."""
    marks = [rung.mark for rung in lesson.rungs]
    whole = load(tray_of(lesson, bench_id), marks, gravity_m_per_s2=lesson.gravity_m_per_s2)
    return None if whole.mass_g is None else whole.mass_g / 1000, whole.force_n


def _settling_n(lesson: LessonRecord) -> tuple[float, float] | None:
    """The least and the most force [N] of the benches' hangers; None while one of them is not weighed."""
    hangers = [tray_of(lesson, bench.id).hanger for bench in lesson.benches]
    forces = [one.mass_g * lesson.gravity_m_per_s2 / 1000 for one in hangers if one is not None]
    return (min(forces), max(forces)) if forces and len(forces) == len(hangers) else None


def _beside(lesson: LessonRecord) -> tuple[Beside, ...]:
    yardstick = yardstick_of(lesson.designs)
    found = []
    for design in lesson.designs:
        things = moved(design, yardstick) if yardstick else ()
        words = tuple(bench.word for bench in lesson.benches if bench.design_id == design.id)
        found.append(Beside(letter=design.letter, things=things, words=differ_words(things), benches=words))
    return tuple(found)


def _comparable(designs: Sequence[Beside]) -> tuple[tuple[str, ...], ...]:
    """Groups of designs that change the same one thing and so may be compared among themselves too."""
    by_thing: dict[str, list[str]] = {}
    for one in designs:
        if len(one.things) == 1:
            by_thing.setdefault(one.things[0], []).append(one.letter)
    return tuple(tuple(letters) for letters in by_thing.values())
