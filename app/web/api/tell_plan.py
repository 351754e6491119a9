"""A lesson's plan as /api/v1 tells it."""

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

from app.domain.records import BenchRecord, LessonRecord
from app.services.lessons import Made
from app.web.api import answers_plan as answers
from app.web.api.tell_bench import letter_of


def plan_answer(lesson: LessonRecord, *, mine: bool, slips: Mapping[str, str]) -> answers.PlanAnswer:
    """The plan whole; codes only for the lesson's own teacher."""
    front = next((bench.address for bench in lesson.benches if bench.id == lesson.front_bench_id), None)
    lists: dict[str, Any] = {
        "designs": [answers.DesignPlanSaid(**asdict(design)) for design in lesson.designs],
        "rungs": [answers.RungSaid(**asdict(rung)) for rung in lesson.rungs],
        "benches": [_bench(lesson, bench, slips.get(bench.id) if mine else None) for bench in lesson.benches],
        "variables": [answers.VariableSaid(**asdict(variable)) for variable in lesson.variables],
        "materials": [answers.MaterialSaid(**asdict(material)) for material in lesson.materials],
    }
    more = {
        "lesson_id": lesson.id,
        "mine": mine,
        "lesson_key": lesson.lesson_key if mine else None,
        "front_code": lesson.front_code if mine else None,
        "front_bench": front,
        "paused": lesson.paused_at is not None,
    }
    own = {name: getattr(lesson, name) for name in answers.PlanAnswer.model_fields if hasattr(lesson, name)}
    return answers.PlanAnswer(**{**own, **lists, **more})


def _bench(lesson: LessonRecord, bench: BenchRecord, slip_code: str | None) -> answers.BenchPlanSaid:
    return answers.BenchPlanSaid(
        bench=bench.address,
        word=bench.word,
        kind=bench.kind,
        design=letter_of(lesson, bench),
        scale_unit=bench.scale_unit,
        scale_division_mm=bench.scale_division_mm,
        scale_way=bench.scale_way,
        open_again=bench.open_again,
        place=bench.place,
        slip_code=slip_code,
    )


def made_answer(made: Made, lesson: LessonRecord, slips: Mapping[str, str]) -> answers.LessonMade:
    """A lesson that was made, with every code that opens it."""
    return answers.LessonMade(
        lesson_id=made.lesson_id,
        lesson_key=made.lesson_key,
        front_code=made.front_code,
        benches=[
            answers.BenchMade(
                bench=bench.address, word=bench.word, design=letter_of(lesson, bench), slip_code=slips[bench.id]
            )
            for bench in lesson.benches
        ],
    )


def listed_answer(lesson: LessonRecord, *, mine: bool) -> answers.LessonListed:
    """One lesson in a list."""
    return answers.LessonListed(
        lesson_id=lesson.id,
        title=lesson.title,
        question=lesson.question,
        planned_on=lesson.planned_on,
        stage=lesson.stage,
        shelved_at=lesson.shelved_at,
        mine=mine,
        head=lesson.head,
    )
