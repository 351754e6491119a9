"""The sheet that cords are cut from: what it is, how many strips it gives, how long a cord they allow."""

import uuid
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from app.domain.records import DesignRecord, LessonRecord, MaterialRecord, SpecimenRecord
from app.domain.standing import counted, measured
from app.domain.strengths import FILM_STRENGTHS, FilmStrength
from app.mechanics.material import take_up
from app.mechanics.planning import (
    Cut,
    Cuts,
    lengths_of_strip,
    longest_cord_mm,
    sheet_strips,
    strip_for_cord_mm,
    tube_strips,
)
from app.services.planning import PlanChanges, mend_plan
from app.store.database import Database

__all__ = ["FILM_STRENGTHS", "Cords", "FilmStrength", "cords_of", "knot_mm", "save_cutting", "sheet_of_cords"]

KNOT = "knot_strip_mm"
TAKE_UP = "take_up_factor"
"""Where a plan keeps what the teacher typed: strip for one knot with its tail [mm], strip over cord [1]."""

ASSUMED_KNOT_MM = 110.0
ASSUMED_TAKE_UP: Mapping[str, float] = {"strip": 1.0, "bundle": 1.0, "twist": 1.04}
ASSUMED_PLAIT = 1.15
"""Assumptions of workshop practice, from memory; a plait is taken for what nobody described."""


@dataclass(frozen=True, kw_only=True)
class Cords:
    """One design: the strip that a cord of it needs [mm], and what the sheet gives for it; None while not known.

    `take_up_factor`, strip over cord [1], is typed, measured on cords of this lesson, or assumed: `take_up_how` says
    which. Of crosswise, then of lengthwise strips: `longest_mm`, the longest free lengths of whole strips [mm],
    `lengths`, how many of `strip_mm` one strip gives, `cords`, how many cords they make, of whole strips where none is
    long enough; empty while that is not known.
    """

    design: DesignRecord
    take_up_factor: float
    take_up_how: str
    strip_mm: float | None
    cuts: Cuts | None
    longest_mm: tuple[float, ...]
    lengths: tuple[int, ...]
    cords: tuple[int, ...]


def sheet_of_cords(lesson: LessonRecord) -> MaterialRecord | None:
    """The sheet that the plan is cut from: the first that it names."""
    return next(iter(lesson.materials), None)


def knot_mm(lesson: LessonRecord) -> tuple[float, bool]:
    """The strip [mm] that one knot and its tail need, and whether that is only assumed."""
    typed = _number(lesson.planning.get(KNOT))
    return (ASSUMED_KNOT_MM, True) if typed is None else (typed, False)


def _number(value: Any) -> float | None:
    """The number itself; a plan from outside may hold anything there."""
    fits = isinstance(value, int | float) and not isinstance(value, bool) and 0 <= value <= 10_000
    return float(value) if fits else None


def cords_of(lesson: LessonRecord) -> tuple[Cords, ...]:
    """What each design needs and what the sheet gives for it."""
    return tuple(_cords(lesson, design) for design in lesson.designs)


def _cords(lesson: LessonRecord, design: DesignRecord) -> Cords:
    factor, how = _take_up_factor(lesson, design)
    knot, _ = knot_mm(lesson)
    cuts = _cuts(sheet_of_cords(lesson), design.strip_width_mm)
    both = (cuts.crosswise, cuts.lengthwise) if cuts else ()
    strands = (design.strands or 0) * max(design.layers or 1, 1)
    length = design.free_length_mm
    strip_mm = None if length is None else strip_for_cord_mm(length, take_up_factor=factor, knot_mm=knot)
    lengths = tuple(lengths_of_strip(cut.strip_mm, strip_mm) for cut in both) if strip_mm else ()
    pieces = [cut.count * max(many, 1) for cut, many in zip(both, lengths or (1, 1), strict=False)]
    return Cords(
        design=design,
        take_up_factor=factor,
        take_up_how=how,
        strip_mm=strip_mm,
        cuts=cuts,
        longest_mm=tuple(_longest(cut, factor, knot) for cut in both),
        lengths=lengths,
        cords=tuple(many // strands for many in pieces if strands > 0),
    )


def _longest(cut: Cut, factor: float, knot: float) -> float:
    return longest_cord_mm(cut.strip_mm, take_up_factor=factor, knot_mm=knot) if cut.count else 0.0


def _cuts(sheet: MaterialRecord | None, strip_width_mm: float | None) -> Cuts | None:
    """The strips of a sheet; None while its size or the strips' width is not known."""
    if sheet is None or not (sheet.flat_width_mm or 0) > 0 or not (sheet.height_mm or 0) > 0:
        return None
    if not (strip_width_mm or 0) > 0:
        return None
    width, height, strip = sheet.flat_width_mm or 0.0, sheet.height_mm or 0.0, strip_width_mm or 1.0
    if sheet.form != "tube":
        return sheet_strips(width, height, strip_width_mm=strip)
    gusset = max(sheet.gusset_mm or 0.0, 0.0)
    return tube_strips(width, height, strip_width_mm=strip, gusset_mm=gusset, side_seams=sheet.seams == "sides")


def _take_up_factor(lesson: LessonRecord, design: DesignRecord) -> tuple[float, str]:
    """Strip over cord, and how it is known: measured on cords of the design, else typed, else assumed."""
    own = [one for one in (_measured(lesson, cord) for cord in _cords_made(lesson, design)) if one is not None]
    if own:
        return sum(own) / len(own), "measured"
    typed = design.take_up_factor if (design.take_up_factor or 0) > 0 else _number(lesson.planning.get(TAKE_UP))
    if typed:
        return typed, "typed"
    return ASSUMED_TAKE_UP.get(design.lay_up or "", ASSUMED_PLAIT), "assumed"


def _cords_made(lesson: LessonRecord, design: DesignRecord) -> list[SpecimenRecord]:
    return [cord for bench in lesson.benches for cord in bench.specimens if cord.design_id == design.id]


def _measured(lesson: LessonRecord, cord: SpecimenRecord) -> float | None:
    """Strip over cord by the take-up of one cord; None without both lengths, or where the cord is the longer."""
    given = counted(cord.measures, lesson.rulings)
    strip, length = measured(given, "strip_length_mm"), measured(given, "cord_length_mm")
    found = take_up(strip, length).value
    return None if found is None or found >= 1 else 1 / (1 - found)


def save_cutting(
    database: Database, lesson: LessonRecord, *, sheet: Mapping[str, Any], planning: Mapping[str, Any], at: datetime
) -> int:
    """The lesson's sheet has those columns and its plan those numbers (None: back to what is assumed); its new head."""
    first = sheet_of_cords(lesson) or MaterialRecord(id=str(uuid.uuid4()), name="")
    after = [replace(first, **sheet), *lesson.materials[1:]]
    kept = {name: value for name, value in {**lesson.planning, **planning}.items() if value is not None}
    changes = PlanChanges(
        lesson={} if kept == lesson.planning else {"planning": kept},
        materials=None if after == list(lesson.materials) else after,
    )
    return lesson.head if changes == PlanChanges(lesson={}) else mend_plan(database, lesson.id, changes, at=at)
