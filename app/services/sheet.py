"""The lesson sheet: what it says of a lesson in plain values, and the lesson mended by what was written into it."""

import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from app.domain.errors import InvalidEntry, fault
from app.domain.plan import BenchPlan, seated
from app.domain.quantities import number_typed, plain
from app.domain.records import DesignRecord, LessonRecord, RungRecord, VariableRecord
from app.domain.star import design_name, level_text
from app.domain.two_stage import TwoStage, ladder_of, said_of
from app.services.designing import in_use
from app.services.gravity import gravity_asked, latitude_of
from app.services.lessons import plan_of
from app.services.planning import PlanChanges, mend_plan
from app.store.database import Database

ON_DESIGNS = {"strip width": "strip_width_mm", "free length": "free_length_mm"}
"""Kept variables that stand on each design as a number too."""

_ALWAYS = ("sheet", "knot", "room")


@dataclass(frozen=True, kw_only=True)
class DesignLine:
    """One design as the sheet says it; `level` as typed."""

    letter: str
    strands: int | None
    lay_up: str | None
    direction: str | None
    level: str


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """What the lesson sheet says. `latitude_deg` is None when g came from elsewhere, `ladder` when the rungs have a
    table of their own; blanks of the scale and of what stands on the designs are None where benches or designs differ
    in it."""

    lesson: Mapping[str, Any]
    latitude_deg: float | None
    hanger_name: str
    changed: str
    changed_unit: str
    designs: Sequence[DesignLine]
    strip_width_mm: float | None
    free_length_mm: float | None
    kept: Sequence[tuple[str, str]]
    ladder: TwoStage | None
    scale_unit: str | None
    scale_way: str | None
    bench_count: int


LESSON_BLANKS = (
    "title", "planned_on", "year_band", "question", "depth", "wait_s", "gravity_m_per_s2", "scale_division_mm",
)  # fmt: skip
"""The columns of a lesson that the sheet has blanks for."""


def sheet_of(lesson: LessonRecord) -> Sheet:
    """The sheet of a lesson as it stands."""
    changed = next((one for one in lesson.variables if one.role == "changed"), None)
    return Sheet(
        lesson={name: getattr(lesson, name) for name in LESSON_BLANKS},
        latitude_deg=latitude_of(lesson.gravity_from),
        hanger_name=str(lesson.planning.get("hanger_name") or ""),
        changed=changed.name if changed else "",
        changed_unit=(changed.unit or "") if changed else "",
        designs=[_line(design) for design in lesson.designs],
        strip_width_mm=_alike([design.strip_width_mm for design in lesson.designs]),
        free_length_mm=_alike([design.free_length_mm for design in lesson.designs]),
        kept=_kept(lesson),
        ladder=said_of(lesson.rungs),
        scale_unit=_alike([bench.scale_unit for bench in lesson.benches]),
        scale_way=_alike([bench.scale_way for bench in lesson.benches]),
        bench_count=len(lesson.benches),
    )


def _line(design: DesignRecord) -> DesignLine:
    return DesignLine(
        letter=design.letter,
        strands=design.strands,
        lay_up=design.lay_up,
        direction=design.direction,
        level=level_text(design),
    )


def _alike(values: Sequence[Any]) -> Any:
    return values[0] if values and set(values) == {values[0]} else None


def _kept(lesson: LessonRecord) -> list[tuple[str, str]]:
    said = {
        one.name: one.value_words or "" for one in lesson.variables if one.role == "kept" and one.name not in ON_DESIGNS
    }
    return [(name, said.pop(name, "")) for name in _ALWAYS] + list(said.items())


def save_sheet(database: Database, lesson: LessonRecord, sheet: Sheet, *, at: datetime) -> int:
    """The lesson's plan is as the sheet says; its head is returned.

    Raises InvalidEntry with the field, InUse when a rung or a bench with entries would go.
    """
    columns = dict(sheet.lesson)
    columns |= gravity_asked(lesson, gravity_m_per_s2=columns.pop("gravity_m_per_s2"), latitude_deg=sheet.latitude_deg)
    columns["planning"] = {**lesson.planning, "hanger_name": sheet.hanger_name}
    columns = {name: value for name, value in columns.items() if value != getattr(lesson, name)}
    changes = PlanChanges(
        lesson=columns,
        designs=_if_new(_designs(lesson, sheet), lesson.designs),
        rungs=_if_new(_rungs(lesson, sheet), lesson.rungs),
        variables=_if_new(_variables(lesson, sheet), lesson.variables),
        benches=_if_new(_benches(lesson, sheet), plan_of(lesson).benches),
    )
    if changes == PlanChanges(lesson={}):
        return lesson.head
    return mend_plan(database, lesson.id, changes, at=at)


def _if_new(after: Sequence[Any], before: Sequence[Any]) -> Sequence[Any] | None:
    return None if list(after) == list(before) else after


def _designs(lesson: LessonRecord, sheet: Sheet) -> list[DesignRecord]:
    lines = {line.letter: line for line in sheet.designs}
    return [_mended(design, lines.get(design.letter), sheet) for design in lesson.designs]


def _mended(design: DesignRecord, line: DesignLine | None, sheet: Sheet) -> DesignRecord:
    cells = _cells(line) if line else {}
    if sheet.strip_width_mm is not None:
        cells["strip_width_mm"] = sheet.strip_width_mm
    if sheet.free_length_mm is not None:
        cells["free_length_mm"] = sheet.free_length_mm
    after = replace(design, **cells)
    if line and (_line(after) != _line(design) or not design.name):
        return replace(after, name=design_name(after, sheet.changed_unit))
    return after


def _cells(line: DesignLine) -> dict[str, Any]:
    level: float | None = None
    words: str | None = None
    try:
        level = number_typed("level", line.level)
    except InvalidEntry:
        words = line.level.strip() or None
    return {
        "strands": line.strands,
        "lay_up": line.lay_up,
        "direction": line.direction,
        "level": level,
        "level_words": words,
    }


def _rungs(lesson: LessonRecord, sheet: Sheet) -> Sequence[RungRecord]:
    if sheet.ladder is None or sheet.ladder == said_of(lesson.rungs):
        return lesson.rungs
    return ladder_of(sheet.ladder, lesson.rungs)


def _variables(lesson: LessonRecord, sheet: Sheet) -> list[VariableRecord]:
    ours = {one.name: one for one in lesson.variables if one.role == "kept"}
    changed = next((one for one in lesson.variables if one.role == "changed"), None)
    others = [one for one in lesson.variables if one.role not in ("kept", "changed")]
    made = [
        replace(changed or _variable("changed", sheet.changed), name=sheet.changed, unit=sheet.changed_unit or None),
        *others,
        *(_on_designs(ours, name, getattr(sheet, column)) for name, column in ON_DESIGNS.items()),
        *(
            replace(ours.get(name) or _variable("kept", name), value_words=words or None)
            for name, words in sheet.kept
            if name and (words or name in _ALWAYS)
        ),
    ]
    order = {one.id: place for place, one in enumerate(lesson.variables)}
    made.sort(key=lambda one: order.get(one.id, len(order)))
    return [replace(one, place=place) for place, one in enumerate(made)]


def _variable(role: str, name: str) -> VariableRecord:
    return VariableRecord(id=str(uuid.uuid4()), role=role, name=name, place=0)


def _on_designs(ours: Mapping[str, VariableRecord], name: str, value: float | None) -> VariableRecord:
    known = ours.get(name) or replace(_variable("kept", name), unit="mm")
    return known if value is None else replace(known, value_words=plain(value))


def _benches(lesson: LessonRecord, sheet: Sheet) -> list[BenchPlan]:
    plan = plan_of(lesson)
    scale = {"scale_unit": sheet.scale_unit, "scale_way": sheet.scale_way}
    said: dict[str, Any] = {name: value for name, value in scale.items() if value is not None}
    benches = [replace(bench, **said) for bench in plan.benches]
    if sheet.bench_count < len(benches):
        return _fewer(lesson, benches, sheet.bench_count)
    more = [BenchPlan(**said) for _ in range(sheet.bench_count - len(benches))]
    return seated(replace(plan, benches=[*benches, *more]), lesson.allocation_seed or 0) if more else benches


def _fewer(lesson: LessonRecord, benches: list[BenchPlan], count: int) -> list[BenchPlan]:
    surplus = len(benches) - count
    unused = [bench.word for bench in lesson.benches if not in_use(bench)]
    if len(unused) < surplus:
        raise fault(
            "bench_count", f"{len(benches) - len(unused)} benches have readings or guesses: no fewer than that."
        )
    gone = set(unused[-surplus:])
    return [bench for bench in benches if bench.word not in gone]
