"""A lesson begins with what the teacher's last one said, or else with the first plan; and deleted ones come back."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from app.domain.first_plan import first_plan
from app.domain.plan import BenchPlan, LessonPlan
from app.domain.records import LessonRecord
from app.services.lessons import Made, lesson_record, make_lesson, plan_of
from app.store import lessons
from app.store.database import Database

BACK_DAYS = 30
"""How long a deleted lesson can be brought back."""


@dataclass(frozen=True, kw_only=True)
class Beginning:
    """The plan that a new lesson begins with, and the lesson that it is taken from (None: the first plan)."""

    plan: LessonPlan
    last: LessonRecord | None


@dataclass(frozen=True, kw_only=True)
class Deleted:
    """A deleted lesson that can be brought back."""

    lesson_id: str
    title: str
    planned_on: date | None
    deleted_at: datetime


def beginning(database: Database, teacher_id: str) -> Beginning:
    """What a new lesson of the teacher begins with: the plan of their last one, else the first plan."""
    last = _last(database, teacher_id)
    return Beginning(plan=plan_of(last) if last else first_plan(), last=last)


def _last(database: Database, teacher_id: str) -> LessonRecord | None:
    with database.reading() as session:
        rows = [row for shelf in (False, True) for row in lessons.of_teacher(session, teacher_id, shelf=shelf)]
    mine = [row for row in rows if row.teacher_id == teacher_id and not row.planning.get("invented")]
    last = max(mine, key=lambda row: (row.planned_on or date.min, row.id), default=None)
    return lesson_record(database, last.id) if last else None


def make_new_lesson(
    database: Database,
    teacher_id: str,
    *,
    title: str,
    question: str,
    planned_on: date | None,
    year_band: str | None,
    bench_count: int,
    lesson_id: str,
    at: datetime,
) -> Made:
    """The lesson is there, by the teacher's last plan or the first one; asked again with the same id it is not doubled.

    Raises InvalidEntry with every fault.
    """
    begun = beginning(database, teacher_id)
    said = {"title": title, "question": question, "planned_on": planned_on, "year_band": year_band}
    plan = replace(begun.plan, lesson={**begun.plan.lesson, **said}, benches=_benches(begun.plan, bench_count))
    copied_from = begun.last.id if begun.last else None
    return make_lesson(database, teacher_id, plan, at=at, lesson_id=lesson_id, copied_from=copied_from)


def _benches(plan: LessonPlan, count: int) -> Sequence[BenchPlan]:
    """So many benches, words and scales as in the plan, their designs to be shared out by a fresh seed."""
    like = plan.benches[-1] if plan.benches else BenchPlan()
    kept = [replace(bench, design=None, kind="class") for bench in plan.benches[:count]]
    return kept + [replace(like, word=None, design=None, kind="class") for _ in range(count - len(kept))]


def deleted_lessons(database: Database, teacher_id: str, *, at: datetime) -> list[Deleted]:
    """The teacher's lessons that can still be brought back, the latest deleted first."""
    with database.reading() as session:
        rows = lessons.deleted_since(session, teacher_id, at - timedelta(days=BACK_DAYS))
        return [
            Deleted(lesson_id=row.id, title=row.title, planned_on=row.planned_on, deleted_at=row.deleted_at)
            for row in rows
            if row.deleted_at is not None
        ]
