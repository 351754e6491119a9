"""A lesson is made from a plan, and copied."""

import secrets
import uuid
from collections.abc import Callable
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from typing import Any

from app.domain.errors import NotFound
from app.domain.naming import new_code
from app.domain.plan import LESSON_DEFAULTS, BenchPlan, LessonPlan, check_plan, seated
from app.domain.records import LessonRecord
from app.services.gravity import called_by_name
from app.store import benches, feed, lessons
from app.store.database import Database, Session
from app.store.designs import Design, Rung, ids_by_letter
from app.store.snapshot import snapshot
from app.store.specimens import Specimen

SEED_MOST = 9_999


@dataclass(frozen=True, kw_only=True)
class Made:
    """A lesson that was made, with what opens it."""

    lesson_id: str
    lesson_key: str
    front_code: str


def make_lesson(
    database: Database,
    teacher_id: str,
    plan: LessonPlan,
    *,
    at: datetime,
    seed: int | None = None,
    lesson_id: str | None = None,
    copied_from: str | None = None,
) -> Made:
    """The lesson is there with its designs, rungs and benches, each bench with its slip and its first specimen.

    Raises InvalidEntry with every fault of the plan.
    """
    check_plan(plan)
    seed = secrets.randbelow(SEED_MOST) + 1 if seed is None else seed
    lesson = lessons.Lesson(
        **called_by_name({**LESSON_DEFAULTS, **plan.lesson}),
        id=lesson_id or str(uuid.uuid4()),
        teacher_id=teacher_id,
        stage="preparing",
        front_code=secrets.token_urlsafe(16),
        graph_open=False,
        front_view="key",
        own=False,
        allocation_seed=seed,
        copied_from=copied_from,
        head=0,
    )
    with database.transaction() as session:
        lesson.lesson_key = _unused(lambda code: lessons.keys_in_use(session, [code]))
        session.add(lesson)
        session.flush()
        _add_lists(session, lesson.id, plan)
        number = feed.take_number(session, lesson.id)
        for place, bench in enumerate(seated(plan, seed)):
            add_bench(session, lesson.id, bench, place=place, n=number.head, at=at)
        feed.append(session, number, lesson_id=lesson.id, at=at, kind="lesson", about_id=lesson.id, by="teacher")
    return Made(lesson_id=lesson.id, lesson_key=lesson.lesson_key, front_code=lesson.front_code)


def made_before(database: Database, lesson_id: str) -> Made | None:
    """The lesson of that id as it was made; None when it was not."""
    with database.reading() as session:
        row = lessons.by_id(session, lesson_id)
    return None if row is None else Made(lesson_id=row.id, lesson_key=row.lesson_key, front_code=row.front_code)


def _unused(in_use: Callable[[str], set[str]]) -> str:
    while True:
        code = new_code(secrets.choice)
        if not in_use(code):
            return code


def _add_lists(session: Session, lesson_id: str, plan: LessonPlan) -> None:
    for material in plan.materials:
        session.add(lessons.Material(lesson_id=lesson_id, **asdict(material)))
    session.flush()
    session.add_all(lessons.Variable(lesson_id=lesson_id, **asdict(variable)) for variable in plan.variables)
    session.add_all(Design(lesson_id=lesson_id, **asdict(design)) for design in plan.designs)
    session.add_all(Rung(lesson_id=lesson_id, **asdict(rung)) for rung in plan.rungs)
    session.flush()


def add_bench(session: Session, lesson_id: str, plan: BenchPlan, *, place: int, n: int, at: datetime) -> str:
    """The bench is there with a slip code and its first specimen, made with it; its id is returned."""
    design_id = ids_by_letter(session, lesson_id)[plan.design or ""]
    bench = benches.Bench(
        id=str(uuid.uuid4()),
        lesson_id=lesson_id,
        word=plan.word,
        kind=plan.kind,
        design_id=design_id,
        slip_code=_unused(lambda code: benches.slip_codes_in_use(session, [code])),
        scale_unit=plan.scale_unit,
        scale_division_mm=plan.scale_division_mm,
        scale_way=plan.scale_way,
        open_again=False,
        place=place,
    )
    session.add(bench)
    session.flush()
    first: dict[str, Any] = {"entry_id": str(uuid.uuid4()), "bench_id": bench.id, "specimen_no": 1}
    session.add(Specimen(**first, design_id=design_id, by="teacher", age_s=0.0, received_at=at, n=n))
    return bench.id


_NOT_COPIED: dict[str, Any] = {"planned_on": None, "countdown_to": None, "keep_until": None, "notes": ""}
_OF_THE_DEMO = ("invented", "under_way", "begun")
"""What marks a lesson as invented: a copy is the teacher's own."""


def lesson_record(database: Database, lesson_id: str) -> LessonRecord:
    """The lesson whole; NotFound when it is not here or was deleted."""
    with database.reading() as session:
        lesson = snapshot(session, lesson_id)
    if lesson is None or lesson.deleted_at is not None:
        raise NotFound("There is no such lesson.")
    return lesson


@dataclass(frozen=True, kw_only=True)
class Door:
    """What is asked of a lesson before anyone may see it: whose it is, and what is open."""

    lesson_id: str
    teacher_id: str
    own: bool
    on_shelf: bool
    over: bool
    deleted: bool
    graph_open: bool
    head: int


def door(database: Database, *, lesson_id: str | None = None, front_code: str | None = None) -> Door:
    """The door of the lesson with that id, or that front code; NotFound when there is none."""
    with database.reading() as session:
        row = lessons.by_id(session, lesson_id) if lesson_id else lessons.by_front_code(session, front_code or "")
    if row is None:
        raise NotFound("There is no such lesson.")
    return Door(
        lesson_id=row.id,
        teacher_id=row.teacher_id,
        own=row.own,
        on_shelf=row.shelved_at is not None,
        over=row.stage == "over" or row.shelved_at is not None,
        deleted=row.deleted_at is not None,
        graph_open=row.graph_open,
        head=row.head,
    )


def bench_id_of(database: Database, lesson_id: str, word: str) -> str:
    """The id of the lesson's bench of that word; NotFound when there is none."""
    with database.reading() as session:
        bench = benches.by_word(session, lesson_id, word)
    if bench is None:
        raise NotFound("This lesson has no bench of that word.")
    return bench.id


def slip_codes(database: Database, lesson_id: str) -> dict[str, str]:
    """The slip code of each bench id: for the teacher's eyes and the printed slips only."""
    with database.reading() as session:
        return benches.slip_codes(session, lesson_id)


def copy_lesson(
    database: Database, teacher_id: str, lesson_id: str, *, at: datetime, new_id: str | None = None
) -> Made:
    """A new plan like that lesson's, without its readings and with slips of its own."""
    lesson = lesson_record(database, lesson_id)
    seed, plan = lesson.allocation_seed, plan_of(lesson)
    return make_lesson(database, teacher_id, plan, at=at, seed=seed, lesson_id=new_id, copied_from=lesson.id)


def plan_of(lesson: LessonRecord) -> LessonPlan:
    """The plan of a lesson, with fresh ids, to be made again."""
    plan = plan_as_it_is(lesson)
    named: list[Any] = [*plan.designs, *plan.materials, *plan.variables]
    new_ids = {thing.id: str(uuid.uuid4()) for thing in named}

    def fresh(thing: Any) -> Any:
        return replace(thing, id=new_ids[thing.id])

    planning = {name: value for name, value in lesson.planning.items() if name not in _OF_THE_DEMO}
    return replace(
        plan,
        lesson={**plan.lesson, **_NOT_COPIED, "planning": planning},
        designs=[replace(fresh(one), material_id=new_ids.get(one.material_id or "")) for one in plan.designs],
        variables=[fresh(variable) for variable in plan.variables],
        materials=[fresh(material) for material in plan.materials],
    )


def plan_as_it_is(lesson: LessonRecord) -> LessonPlan:
    """The plan of a lesson as it stands, every id its own."""
    letters = {design.id: design.letter for design in lesson.designs}
    return LessonPlan(
        lesson={name: getattr(lesson, name) for name in LESSON_DEFAULTS},
        designs=lesson.designs,
        rungs=lesson.rungs,
        variables=lesson.variables,
        materials=lesson.materials,
        benches=[
            BenchPlan(
                word=bench.word,
                design=letters[bench.design_id],
                kind=bench.kind,
                scale_unit=bench.scale_unit,
                scale_division_mm=bench.scale_division_mm,
                scale_way=bench.scale_way,
            )
            for bench in lesson.benches
        ],
    )
