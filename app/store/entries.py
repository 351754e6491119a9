"""Append-only entries of a bench: a correction is a new row that replaces the old; one row for one entry id."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from sqlalchemy import ForeignKey, String, func, select
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Mapped, Session, mapped_column
from sqlalchemy.types import JSON

from app.store.base import CODE, ID, Model


class EntryColumns:
    """The columns that every append-only table has."""

    entry_id: Mapped[str] = mapped_column(ID, primary_key=True)
    replaces: Mapped[str | None] = mapped_column(ID)
    reason: Mapped[str | None] = mapped_column(String(80))
    by: Mapped[str] = mapped_column(CODE)
    tablet_id: Mapped[str | None] = mapped_column(ID)
    tablet_time: Mapped[datetime | None]
    age_s: Mapped[float]
    received_at: Mapped[datetime]
    n: Mapped[int]


class Reading(EntryColumns, Model):
    __tablename__ = "reading"

    specimen_id: Mapped[str] = mapped_column(ForeignKey("specimen.entry_id"), index=True)
    step: Mapped[int]
    phase: Mapped[str] = mapped_column(CODE)
    turn: Mapped[int]
    pointer_typed: Mapped[str] = mapped_column(String(20))
    pointer_unit: Mapped[str] = mapped_column(CODE)
    pointer_mm: Mapped[float]
    waited_s: Mapped[float | None]


class Event(EntryColumns, Model):
    __tablename__ = "event"

    lesson_id: Mapped[str] = mapped_column(ForeignKey("lesson.id"), index=True)
    bench_id: Mapped[str | None] = mapped_column(ForeignKey("bench.id"))
    specimen_id: Mapped[str | None] = mapped_column(ForeignKey("specimen.entry_id"), index=True)
    step: Mapped[int | None]
    after_reading: Mapped[bool]
    kind: Mapped[str] = mapped_column(CODE)
    mark: Mapped[int | None]
    words: Mapped[str | None] = mapped_column(String(80))


class Ending(EntryColumns, Model):
    __tablename__ = "ending"

    specimen_id: Mapped[str] = mapped_column(ForeignKey("specimen.entry_id"), index=True)
    kind: Mapped[str] = mapped_column(CODE)
    fail_step: Mapped[int | None]
    hung_s: Mapped[float | None]
    place: Mapped[str | None] = mapped_column(CODE)
    look: Mapped[str | None] = mapped_column(CODE)
    from_top_knot_mm: Mapped[float | None]
    remark: Mapped[str | None] = mapped_column(String(120))


class Prediction(EntryColumns, Model):
    __tablename__ = "prediction"

    bench_id: Mapped[str] = mapped_column(ForeignKey("bench.id"), index=True)
    break_force_n: Mapped[float | None] = mapped_column("break_force_N")
    best_design_id: Mapped[str | None] = mapped_column(ForeignKey("design.id"))
    shape: Mapped[str | None] = mapped_column(CODE)


class Ruling(EntryColumns, Model):
    __tablename__ = "ruling"

    lesson_id: Mapped[str] = mapped_column(ForeignKey("lesson.id"), index=True)
    about_table: Mapped[str] = mapped_column(CODE)
    about_id: Mapped[str] = mapped_column(ID)
    kind: Mapped[str] = mapped_column(CODE)
    detail: Mapped[Any] = mapped_column(JSON(none_as_null=True), nullable=True)


class Sentence(EntryColumns, Model):
    __tablename__ = "sentence"

    bench_id: Mapped[str] = mapped_column(ForeignKey("bench.id"), index=True)
    topic: Mapped[str] = mapped_column(CODE)
    words: Mapped[str] = mapped_column(String(500))


_INSERTS: dict[str, Any] = {"sqlite": sqlite.insert, "postgresql": postgresql.insert}


def insert_entry(session: Session, model: type[EntryColumns], values: Mapping[str, Any]) -> bool:
    """Whether the entry was new and is now there; one that was here already is left as it is."""
    insert = _INSERTS[session.get_bind().dialect.name]
    once = insert(model).values(**values).on_conflict_do_nothing(index_elements=["entry_id"])
    return session.execute(once.returning(model.entry_id)).first() is not None


def find_entry(session: Session, model: type[EntryColumns], entry_id: str) -> Any:
    """The row of that entry; None when it is not here."""
    return session.get(model, entry_id)


def count_of_specimen(session: Session, model: type[Any], specimen_id: str) -> int:
    """How many entries of one kind a specimen has."""
    return session.scalar(select(func.count()).where(model.specimen_id == specimen_id)) or 0
