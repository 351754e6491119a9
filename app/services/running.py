"""The lesson while it runs: its stage, waits, masses down, what the front screen shows; and one bench of it."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from app.domain import limits, vocabulary
from app.domain.errors import LessonOver, fault
from app.domain.limits import within
from app.domain.records import BenchRecord, LessonRecord
from app.services.lessons import lesson_record
from app.services.readings import listed
from app.services.recording import Target
from app.services.rulings import note
from app.store import benches, feed, lessons
from app.store.database import Database, Session
from app.store.specimens import Specimen


def set_stage(database: Database, lesson_id: str, asked: Mapping[str, Any], *, at: datetime) -> int:
    """The lesson is as asked: stage, paused, masses_down, graph_open, front_view, front_bench; its head is returned."""
    lesson = lesson_record(database, lesson_id)
    if lesson.shelved_at is not None:
        raise LessonOver("This lesson is on the shelf. Take it off to run it again.")
    columns = _columns(lesson, asked, at)

    def write(session: Session) -> None:
        row = session.get_one(lessons.Lesson, lesson_id)
        for name, value in columns.items():
            setattr(row, name, value)

    return note(
        database,
        Target(lesson_id=lesson_id),
        write,
        kind="lesson",
        about_id=lesson_id,
        by="teacher",
        at=at,
        after=dict(asked),
    )


def _columns(lesson: LessonRecord, asked: Mapping[str, Any], at: datetime) -> dict[str, Any]:
    columns: dict[str, Any] = {}
    if "stage" in asked:
        columns["stage"] = listed("stage", asked["stage"], vocabulary.STAGES)
        columns["over_at"] = at if asked["stage"] == "over" else None
    if "paused" in asked:
        columns["paused_at"] = (lesson.paused_at or at) if asked["paused"] else None
    if "masses_down" in asked:
        columns["masses_down_at"] = (lesson.masses_down_at or at) if asked["masses_down"] else None
    if "graph_open" in asked:
        columns["graph_open"] = bool(asked["graph_open"])
    if "front_view" in asked:
        columns["front_view"] = listed("front_view", asked["front_view"], vocabulary.FRONT_VIEWS)
    if "front_bench" in asked:
        columns["front_bench_id"] = _front_bench(lesson, asked["front_bench"])
    return columns


def _front_bench(lesson: LessonRecord, word: str | None) -> str | None:
    if word is None:
        return None
    bench = lesson.bench(word)
    if bench is None:
        raise fault("front_bench", "This lesson has no bench of that word.")
    return bench.id


def change_bench(
    database: Database, lesson: LessonRecord, bench: BenchRecord, asked: Mapping[str, Any], *, at: datetime
) -> int:
    """The bench has the design, scale, kind or opening that was asked; the head is returned.

    A bench moved to another design takes its cords along: it was the plan that was wrong about them.
    """
    columns, design_id = _bench_columns(lesson, asked)

    def write(session: Session) -> None:
        row = session.get_one(benches.Bench, bench.id)
        for name, value in columns.items():
            setattr(row, name, value)
        if design_id is not None:
            for specimen in bench.specimens:
                session.get_one(Specimen, specimen.entry_id).design_id = design_id

    return note(
        database,
        Target(lesson_id=lesson.id, bench_id=bench.id),
        write,
        kind="bench",
        about_id=bench.id,
        by="teacher",
        at=at,
        after=dict(asked),
    )


def _bench_columns(lesson: LessonRecord, asked: Mapping[str, Any]) -> tuple[dict[str, Any], str | None]:
    columns: dict[str, Any] = {}
    design_id = None
    if asked.get("design") is not None:
        designs = {design.letter: design.id for design in lesson.designs}
        design_id = columns["design_id"] = designs[listed("design", asked["design"], designs)]
    if asked.get("kind") is not None:
        columns["kind"] = listed("kind", asked["kind"], vocabulary.BENCH_KINDS)
    if asked.get("open_again") is not None:
        columns["open_again"] = bool(asked["open_again"])
    scale = asked.get("scale") or {}
    if "unit" in scale:
        columns["scale_unit"] = listed("scale.unit", scale["unit"], vocabulary.SCALE_UNITS)
    if "way" in scale:
        columns["scale_way"] = listed("scale.way", scale["way"], vocabulary.SCALE_WAYS)
    if "division_mm" in scale:
        division_mm = scale["division_mm"]
        known = None if division_mm is None else within("scale.division_mm", division_mm, limits.DIVISION_MM, "mm")
        columns["scale_division_mm"] = known
    return columns, design_id


def put_on_shelf(database: Database, lesson_id: str, *, on_shelf: bool, own: bool | None, at: datetime) -> int:
    """The lesson is on the shelf, read only, or open again; `own` keeps it from other teachers."""
    columns: dict[str, Any] = {"shelved_at": at if on_shelf else None}
    if not on_shelf:
        columns["over_at"] = None
    if own is not None:
        columns["own"] = own

    def write(session: Session) -> None:
        row = session.get_one(lessons.Lesson, lesson_id)
        for name, value in columns.items():
            setattr(row, name, value)
        if not on_shelf and row.stage == "over":
            row.stage = "tidying"

    return note(
        database,
        Target(lesson_id=lesson_id),
        write,
        kind="lesson",
        about_id=lesson_id,
        by="teacher",
        at=at,
        after={"on_shelf": on_shelf},
    )


def delete_lesson(database: Database, lesson_id: str, *, at: datetime) -> None:
    """The lesson is out of sight; it can be brought back for 30 days."""
    _set_deleted(database, lesson_id, at, at=at)


def bring_back(database: Database, lesson_id: str, *, at: datetime) -> None:
    """A deleted lesson is where it was."""
    _set_deleted(database, lesson_id, None, at=at)


def _set_deleted(database: Database, lesson_id: str, deleted_at: datetime | None, *, at: datetime) -> None:
    with database.transaction() as session:
        number = feed.take_number(session, lesson_id)
        session.get_one(lessons.Lesson, lesson_id).deleted_at = deleted_at
        feed.append(
            session,
            number,
            lesson_id=lesson_id,
            at=at,
            kind="lesson",
            about_id=lesson_id,
            by="teacher",
            after={"deleted": deleted_at is not None},
        )
