"""A plan as /api/v1 sent it, made into the plan that the services take.

Ids in a body tie a plan together and are its own: one that the lesson does not have yet gets a fresh id, so that no
plan can lay hold of another lesson's rows.
"""

import uuid
from collections.abc import Mapping, Sequence
from string import ascii_uppercase
from typing import Any

from app.domain.errors import fault
from app.domain.plan import LESSON_DEFAULTS, BenchPlan, LessonPlan
from app.domain.records import DesignRecord, LessonRecord, MaterialRecord, RungRecord, VariableRecord
from app.services.planning import PlanChanges
from app.web.api.bodies_plan import (
    BenchPlanBody,
    DesignBody,
    MaterialBody,
    PlanBody,
    PlanChangesBody,
    PlanColumns,
    RungBody,
    VariableBody,
)


def plan_read(body: PlanBody) -> LessonPlan:
    """The plan of a new lesson."""
    ids = _Ids(())
    materials = _materials(body.materials, ids)
    return LessonPlan(
        lesson=_columns(body),
        designs=_designs(body.designs, ids),
        rungs=_rungs(body.rungs),
        benches=_new_benches(body),
        variables=_variables(body.variables, ids),
        materials=materials,
    )


def changes_read(body: PlanChangesBody, lesson: LessonRecord) -> PlanChanges:
    """The changes of a lesson's plan; what is named by an id of its own stays that very thing."""
    own: list[Any] = [*lesson.designs, *lesson.variables, *lesson.materials]
    ids = _Ids([thing.id for thing in own])
    said: dict[str, Any] = {}
    if body.materials is not None:
        said["materials"] = _materials(body.materials, ids)
    if body.designs is not None:
        said["designs"] = _designs(body.designs, ids)
    if body.rungs is not None:
        said["rungs"] = _rungs(body.rungs)
    if body.variables is not None:
        said["variables"] = _variables(body.variables, ids)
    if body.benches is not None:
        said["benches"] = [_bench(bench, lesson) for bench in _in_place(body.benches)]
    columns = _columns(body)
    if body.allocation_seed is not None:
        columns["allocation_seed"] = body.allocation_seed
    return PlanChanges(lesson=columns, **said)


class _Ids:
    """The ids of one plan: those that its lesson has are kept, any other stands for a fresh one."""

    def __init__(self, known: Sequence[str]) -> None:
        self._ids = {one: one for one in known}

    def of(self, said: str | None) -> str:
        if said is None:
            return str(uuid.uuid4())
        return self._ids.setdefault(said, str(uuid.uuid4()))


def _columns(body: PlanColumns) -> dict[str, Any]:
    said = {name: getattr(body, name) for name in body.model_fields_set if name in LESSON_DEFAULTS}
    return {name: value for name, value in said.items() if value is not None or LESSON_DEFAULTS[name] is None}


def _materials(bodies: Sequence[MaterialBody], ids: _Ids) -> list[MaterialRecord]:
    return [MaterialRecord(**{**body.model_dump(), "id": ids.of(body.id)}) for body in bodies]


def _designs(bodies: Sequence[DesignBody], ids: _Ids) -> list[DesignRecord]:
    taken = {body.letter for body in bodies if body.letter}
    free = iter([letter for letter in ascii_uppercase if letter not in taken])
    return [_design(body, body.letter or next(free), ids) for body in bodies]


def _design(body: DesignBody, letter: str, ids: _Ids) -> DesignRecord:
    material_id = ids.of(body.material_id) if body.material_id else None
    more = {"id": ids.of(body.id), "letter": letter, "material_id": material_id}
    return DesignRecord(**{**body.model_dump(), **more, "name": body.name.strip() or f"Design {letter}"})


def _rungs(bodies: Sequence[RungBody]) -> list[RungRecord]:
    rungs = [
        RungRecord(**{**body.model_dump(), "mark": body.mark or place}) for place, body in enumerate(bodies, start=1)
    ]
    return sorted(rungs, key=lambda rung: rung.mark)


def _variables(bodies: Sequence[VariableBody], ids: _Ids) -> list[VariableRecord]:
    return [
        VariableRecord(
            **{**body.model_dump(), "id": ids.of(body.id), "place": place if body.place is None else body.place}
        )
        for place, body in enumerate(bodies)
    ]


def _in_place(bodies: Sequence[BenchPlanBody]) -> list[BenchPlanBody]:
    """The benches in the order of their places; those that name none keep the order of the list."""
    numbered = enumerate(bodies)
    return [body for _, body in sorted(numbered, key=lambda one: one[0] if one[1].place is None else one[1].place)]


def _new_benches(body: PlanBody) -> list[BenchPlan]:
    if (body.benches is None) == (body.bench_count is None):
        raise fault("benches", "Send the benches as a list, or how many there are as bench_count.")
    if body.benches is None:
        return [BenchPlan() for _ in range(body.bench_count or 0)]
    return [_bench(bench, None) for bench in _in_place(body.benches)]


def _bench(body: BenchPlanBody, lesson: LessonRecord | None) -> BenchPlan:
    """The bench as asked; what is not said of one that is there already stays."""
    here = lesson.bench(body.word) if lesson and body.word else None
    said = body.model_dump(exclude_unset=True, exclude={"place"})
    kept: Mapping[str, Any] = {}
    if here is not None and lesson is not None:
        kept = {
            "word": here.word,
            "design": lesson.design(here.design_id).letter,
            "kind": here.kind,
            "scale_unit": here.scale_unit,
            "scale_division_mm": here.scale_division_mm,
            "scale_way": here.scale_way,
        }
    asked = {name: value for name, value in said.items() if value is not None or name == "scale_division_mm"}
    return BenchPlan(**{**kept, **asked})
