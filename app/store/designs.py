"""Designs, the ladder of rungs, and what the balance said."""

from sqlalchemy import ForeignKey, String, UniqueConstraint, select
from sqlalchemy.orm import Mapped, Session, mapped_column

from app.store.base import CODE, ID, Model
from app.store.entries import EntryColumns


class Design(Model):
    __tablename__ = "design"
    __table_args__ = (UniqueConstraint("lesson_id", "letter"),)

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    lesson_id: Mapped[str] = mapped_column(ForeignKey("lesson.id"), index=True)
    letter: Mapped[str] = mapped_column(String(1))
    name: Mapped[str] = mapped_column(String(60))
    material_id: Mapped[str | None] = mapped_column(ForeignKey("material.id"))
    is_yardstick: Mapped[bool]
    level: Mapped[float | None]
    level_words: Mapped[str | None] = mapped_column(String(40))
    strands: Mapped[int | None]
    layers: Mapped[int | None]
    lay_up: Mapped[str | None] = mapped_column(CODE)
    direction: Mapped[str | None] = mapped_column(CODE)
    strip_width_mm: Mapped[float | None]
    free_length_mm: Mapped[float | None]
    take_up_factor: Mapped[float | None]
    linear_density_g_per_m: Mapped[float | None]
    end_fixing: Mapped[str | None] = mapped_column(CODE)
    pitch_per_100_mm: Mapped[float | None]


class Rung(Model):
    __tablename__ = "rung"

    lesson_id: Mapped[str] = mapped_column(ForeignKey("lesson.id"), primary_key=True)
    mark: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    name: Mapped[str] = mapped_column(String(40))
    printed_mass_g: Mapped[float | None]
    printed_kind: Mapped[str] = mapped_column(CODE)


class Weighing(EntryColumns, Model):
    __tablename__ = "weighing"

    lesson_id: Mapped[str] = mapped_column(ForeignKey("lesson.id"), index=True)
    bench_id: Mapped[str | None] = mapped_column(ForeignKey("bench.id"))
    mark: Mapped[int]
    mass_g: Mapped[float]
    balance_division_g: Mapped[float]


def ids_by_letter(session: Session, lesson_id: str) -> dict[str, str]:
    """The id of each design of a lesson, by its letter."""
    rows = session.execute(select(Design.letter, Design.id).where(Design.lesson_id == lesson_id))
    return dict(rows.all())


def marks(session: Session, lesson_id: str) -> set[int]:
    """The marks of a lesson's ladder."""
    return set(session.scalars(select(Rung.mark).where(Rung.lesson_id == lesson_id)))
