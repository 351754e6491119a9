"""Cords under test and what was measured of them."""

from datetime import datetime, timedelta

from sqlalchemy import ForeignKey, String, UniqueConstraint, func, select
from sqlalchemy.orm import Mapped, Session, mapped_column

from app.store.base import CODE, Model
from app.store.entries import EntryColumns, Reading


class Specimen(EntryColumns, Model):
    __tablename__ = "specimen"
    __table_args__ = (UniqueConstraint("bench_id", "specimen_no"),)

    bench_id: Mapped[str] = mapped_column(ForeignKey("bench.id"), index=True)
    specimen_no: Mapped[int]
    design_id: Mapped[str] = mapped_column(ForeignKey("design.id"))
    same_maker: Mapped[bool | None]


class Measure(EntryColumns, Model):
    __tablename__ = "measure"

    bench_id: Mapped[str] = mapped_column(ForeignKey("bench.id"), index=True)
    specimen_id: Mapped[str | None] = mapped_column(ForeignKey("specimen.entry_id"), index=True)
    quantity: Mapped[str] = mapped_column(CODE)
    place: Mapped[int]
    typed: Mapped[str] = mapped_column(String(20))
    unit: Mapped[str] = mapped_column(String(6))
    value: Mapped[float]
    division: Mapped[float | None]


def last_number(session: Session, bench_id: str) -> int:
    """The number of the bench's newest specimen; 0 when it has none."""
    return session.scalar(select(func.max(Specimen.specimen_no)).where(Specimen.bench_id == bench_id)) or 0


def newest(session: Session, bench_id: str) -> Specimen | None:
    """The bench's newest specimen: the one under test."""
    of_bench = select(Specimen).where(Specimen.bench_id == bench_id).order_by(Specimen.specimen_no.desc())
    return session.scalars(of_bench).first()


def first_load_at(session: Session, bench_id: str) -> datetime | None:
    """When the bench typed its first reading of a load; None when nothing hung yet."""
    loads = (
        select(Reading.received_at, Reading.age_s)
        .join(Specimen, Specimen.entry_id == Reading.specimen_id)
        .where(Specimen.bench_id == bench_id, Reading.step >= 1)
    )
    return min((received_at - timedelta(seconds=age_s) for received_at, age_s in session.execute(loads)), default=None)
