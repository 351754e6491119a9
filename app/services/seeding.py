"""The invented demo lessons, loaded entry by entry through the verbs that everyone's lessons go through."""

import json
import uuid
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from app.domain.errors import NotFound
from app.domain.plan import BenchPlan, LessonPlan
from app.domain.records import DesignRecord, LessonRecord, MaterialRecord, RungRecord, VariableRecord
from app.services.lessons import Made, door, lesson_record, made_before, make_lesson
from app.services.seed_script import Script, Seed, name_of, named_id
from app.services.teachers import FIRST_NAME
from app.store import lessons
from app.store import teachers as teacher_rows
from app.store.database import Database

FOLDER = Path(__file__).resolve().parents[2] / "demo_seed"
FINISHED = "7a1c0de0-0000-4000-8000-000000002026"
"""The id of the finished demo lesson, which the first page shows to whoever just looks."""


def load_demo(database: Database, *, at: datetime) -> Made | None:
    """The three demo lessons are there, and the one under way is returned; None when they were there before.

    A load that was cut short goes on where it stopped: what is there already answers as it did the first time.
    """
    if is_loaded(database):
        return None
    teacher_id = _first_teacher(database)
    for name in ("last_year", "this_year"):
        _load(database, teacher_id, _seed(name), at=at)
    made = fresh_copy(database, at=at)
    _set_loaded(database)
    return made


def is_loaded(database: Database) -> bool:
    """Whether the demo lessons were loaded, whole."""
    with database.reading() as session:
        finished = lessons.by_id(session, FINISHED)
    return finished is not None and bool(finished.planning.get("loaded"))


def front_code_to_show(database: Database) -> str | None:
    """The front code of the finished demo lesson, for whoever just looks; None when it is not here, or deleted."""
    with database.reading() as session:
        finished = lessons.by_id(session, FINISHED)
    return None if finished is None or finished.deleted_at is not None else finished.front_code


def _set_loaded(database: Database) -> None:
    with database.transaction() as session:
        finished = session.get_one(lessons.Lesson, FINISHED)
        finished.planning = finished.planning | {"loaded": True}


def fresh_copy(database: Database, *, at: datetime) -> Made:
    """A fresh copy of the demo lesson under way, begun a few minutes ago, with slips and a lesson key of its own."""
    return _load(database, _first_teacher(database), _seed("under_way"), at=at)


def under_way(database: Database) -> LessonRecord | None:
    """The newest demo lesson under way that is still open; None when there is none."""
    teacher_id = _first_teacher(database)
    with database.reading() as session:
        ids = [row.id for row in lessons.of_teacher(session, teacher_id, shelf=False) if row.planning.get("under_way")]
    found = [lesson_record(database, lesson_id) for lesson_id in ids]
    return max((one for one in found if not one.over), key=lambda one: one.planning["begun"], default=None)


def play_one(database: Database, lesson_id: str, *, at: datetime) -> str | None:
    """One invented bench of the demo lesson under way takes its next reading; its word is returned.

    None when all of them have ended, or when the lesson is no demo lesson under way.
    """
    lesson = lesson_record(database, lesson_id)
    if not lesson.planning.get("under_way") or lesson.over:
        return None
    known = {
        entry.entry_id
        for bench in lesson.benches
        for cord in bench.specimens
        for entry in (*cord.readings, *cord.endings)
    }
    script = Script(database, lesson_id, _seed("under_way"), begins=at)
    for entry in script.seed["coming"]:
        if script.entry_id(name_of(entry)) not in known:
            script.play(entry, at)
            return str(entry["bench"])
    return None


def _first_teacher(database: Database) -> str:
    with database.reading() as session:
        teacher = teacher_rows.by_name(session, FIRST_NAME) or next(iter(teacher_rows.all_teachers(session)), None)
        if teacher is None:
            raise NotFound("There is no teacher yet to own the demo lessons; `ropewalk teacher add NAME` makes one.")
        return teacher.id


def _seed(name: str) -> Seed:
    seed: Seed = json.loads((FOLDER / f"{name}.json").read_text(encoding="utf-8"))
    return seed


def _load(database: Database, teacher_id: str, seed: Seed, *, at: datetime) -> Made:
    lesson_id = seed["lesson_id"] or str(uuid.uuid4())
    begins = datetime.fromisoformat(seed["begins"]) if seed["begins"] else at
    plan = _plan(lesson_id, seed, begins)
    made = made_before(database, lesson_id) or make_lesson(
        database, teacher_id, plan, at=begins, seed=seed["seed"], lesson_id=lesson_id
    )
    if door(database, lesson_id=lesson_id).on_shelf:
        return made
    script = Script(database, lesson_id, seed, begins=begins)
    script.weigh()
    for entry in seed["entries"]:
        script.play(entry, begins + timedelta(seconds=entry["at_s"]))
    return made


def _plan(lesson_id: str, seed: Seed, begins: datetime) -> LessonPlan:
    said = seed["plan"]

    def with_id(kind: str, place: int) -> dict[str, Any]:
        return {"id": named_id(lesson_id, f"{kind} {place}")}

    materials = [MaterialRecord(**with_id("material", n), **one) for n, one in enumerate(said["materials"])]
    designs = [
        DesignRecord(**with_id("design", n), material_id=materials[0].id, **one)
        for n, one in enumerate(said["designs"])
    ]
    planning = said["lesson"]["planning"] | {"begun": begins.isoformat()}
    return LessonPlan(
        lesson=said["lesson"] | {"planned_on": begins.date(), "planning": planning},
        designs=designs,
        rungs=[RungRecord(**rung) for rung in said["rungs"]],
        benches=[BenchPlan(**bench) for bench in said["benches"]],
        variables=[VariableRecord(**with_id("variable", n), **one) for n, one in enumerate(said["variables"])],
        materials=materials,
    )
