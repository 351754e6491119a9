"""Lessons with their variables and materials."""

from collections.abc import Sequence
from datetime import date, datetime
from typing import Any

from sqlalchemy import ForeignKey, String, select
from sqlalchemy.orm import Mapped, Session, mapped_column

from app.store.base import CODE, ID, Model


class Lesson(Model):
    __tablename__ = "lesson"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    teacher_id: Mapped[str] = mapped_column(ForeignKey("teacher.id"), index=True)
    title: Mapped[str] = mapped_column(String(120))
    question: Mapped[str] = mapped_column(String(300))
    year_band: Mapped[str | None] = mapped_column(String(20))
    planned_on: Mapped[date | None]
    depth: Mapped[str] = mapped_column(CODE)
    stage: Mapped[str] = mapped_column(CODE)
    lesson_key: Mapped[str] = mapped_column(String(6), unique=True)
    front_code: Mapped[str] = mapped_column(String(22), unique=True)
    gravity_m_per_s2: Mapped[float]
    gravity_from: Mapped[str | None] = mapped_column(String(40))
    wait_s: Mapped[int]
    later_wait_s: Mapped[int]
    scale_division_mm: Mapped[float]
    judgement_mm: Mapped[float]
    printed_mass_tolerance_percent: Mapped[float]
    offset_strain_percent: Mapped[float]
    return_after_steps: Mapped[str] = mapped_column(String(60))
    own_graph: Mapped[bool]
    free_text: Mapped[bool]
    graph_open: Mapped[bool]
    front_view: Mapped[str] = mapped_column(CODE)
    front_bench_id: Mapped[str | None] = mapped_column(ID)
    countdown_to: Mapped[datetime | None]
    paused_at: Mapped[datetime | None]
    masses_down_at: Mapped[datetime | None]
    over_at: Mapped[datetime | None]
    shelved_at: Mapped[datetime | None]
    own: Mapped[bool]
    keep_until: Mapped[date | None]
    deleted_at: Mapped[datetime | None]
    slot_min: Mapped[int | None]
    allocation_seed: Mapped[int | None]
    planning: Mapped[dict[str, Any]]
    notes: Mapped[str] = mapped_column(String(4000))
    copied_from: Mapped[str | None] = mapped_column(ID)
    head: Mapped[int]


class Variable(Model):
    __tablename__ = "variable"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    lesson_id: Mapped[str] = mapped_column(ForeignKey("lesson.id"), index=True)
    role: Mapped[str] = mapped_column(CODE)
    name: Mapped[str] = mapped_column(String(60))
    unit: Mapped[str | None] = mapped_column(String(12))
    value_words: Mapped[str | None] = mapped_column(String(60))
    instrument: Mapped[str | None] = mapped_column(String(60))
    division: Mapped[float | None]
    place: Mapped[int]


class Material(Model):
    __tablename__ = "material"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    lesson_id: Mapped[str] = mapped_column(ForeignKey("lesson.id"), index=True)
    name: Mapped[str] = mapped_column(String(60))
    form: Mapped[str | None] = mapped_column(CODE)
    flat_width_mm: Mapped[float | None]
    height_mm: Mapped[float | None]
    gusset_mm: Mapped[float | None]
    seams: Mapped[str | None] = mapped_column(CODE)
    woven: Mapped[bool | None]
    direction_found: Mapped[str | None] = mapped_column(String(60))
    mass_per_area_g_m2: Mapped[float | None]
    thickness_um: Mapped[float | None]
    density_kg_m3: Mapped[float | None]
    strength_low_mpa: Mapped[float | None] = mapped_column("strength_low_MPa")
    strength_high_mpa: Mapped[float | None] = mapped_column("strength_high_MPa")
    strength_source: Mapped[str | None] = mapped_column(String(120))


def by_id(session: Session, lesson_id: str) -> Lesson | None:
    """The lesson of that id, deleted ones too."""
    return session.get(Lesson, lesson_id)


def by_key(session: Session, lesson_key: str) -> Lesson | None:
    """The lesson with that lesson key."""
    return session.scalars(select(Lesson).where(Lesson.lesson_key == lesson_key)).first()


def by_front_code(session: Session, front_code: str) -> Lesson | None:
    """The lesson with that front code."""
    return session.scalars(select(Lesson).where(Lesson.front_code == front_code)).first()


def of_teacher(session: Session, teacher_id: str, *, shelf: bool) -> Sequence[Lesson]:
    """A teacher's lessons that are open, or the shelf: their own and those that others put there for all."""
    mine = Lesson.teacher_id == teacher_id
    if shelf:
        choice = select(Lesson).where(Lesson.shelved_at.is_not(None), mine | Lesson.own.is_(False))
    else:
        choice = select(Lesson).where(Lesson.shelved_at.is_(None), mine)
    newest = choice.where(Lesson.deleted_at.is_(None)).order_by(Lesson.planned_on.desc(), Lesson.id)
    return session.scalars(newest).all()


def deleted_since(session: Session, teacher_id: str, since: datetime) -> Sequence[Lesson]:
    """The lessons that the teacher deleted since then, the latest first."""
    mine = select(Lesson).where(Lesson.teacher_id == teacher_id, Lesson.deleted_at >= since)
    return session.scalars(mine.order_by(Lesson.deleted_at.desc(), Lesson.id)).all()


def keys_in_use(session: Session, candidates: Sequence[str]) -> set[str]:
    """Which of these lesson keys are taken."""
    return set(session.scalars(select(Lesson.lesson_key).where(Lesson.lesson_key.in_(candidates))))
