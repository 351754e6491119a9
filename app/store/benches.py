"""Benches, the tablets that took them, and the ticks of their lists; no person's name."""

from collections.abc import Sequence
from datetime import datetime

from sqlalchemy import ForeignKey, String, UniqueConstraint, delete, select, update
from sqlalchemy.orm import Mapped, Session, mapped_column

from app.store.base import CODE, ID, Model


class Bench(Model):
    __tablename__ = "bench"
    __table_args__ = (UniqueConstraint("lesson_id", "word"),)

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    lesson_id: Mapped[str] = mapped_column(ForeignKey("lesson.id"), index=True)
    word: Mapped[str] = mapped_column(String(20))
    kind: Mapped[str] = mapped_column(CODE)
    design_id: Mapped[str] = mapped_column(ForeignKey("design.id"))
    slip_code: Mapped[str] = mapped_column(String(6), unique=True)
    scale_unit: Mapped[str] = mapped_column(CODE)
    scale_division_mm: Mapped[float | None]
    scale_way: Mapped[str] = mapped_column(CODE)
    open_again: Mapped[bool]
    place: Mapped[int]


class Tablet(Model):
    __tablename__ = "tablet"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    bench_id: Mapped[str] = mapped_column(ForeignKey("bench.id"), index=True)
    token_hash: Mapped[str] = mapped_column(String(64), unique=True)
    joined_at: Mapped[datetime]
    ended_at: Mapped[datetime | None]
    writes: Mapped[bool]
    last_heard_at: Mapped[datetime]
    unsent: Mapped[int]


class Tick(Model):
    __tablename__ = "tick"

    bench_id: Mapped[str] = mapped_column(ForeignKey("bench.id"), primary_key=True)
    what: Mapped[str] = mapped_column(CODE, primary_key=True)
    on: Mapped[bool]
    at: Mapped[datetime]


def by_slip_code(session: Session, slip_code: str) -> Bench | None:
    """The bench of that slip."""
    return session.scalars(select(Bench).where(Bench.slip_code == slip_code)).first()


def by_word(session: Session, lesson_id: str, word: str) -> Bench | None:
    """The lesson's bench of that word, in any case of letters."""
    benches = session.scalars(select(Bench).where(Bench.lesson_id == lesson_id))
    return next((bench for bench in benches if bench.word.lower() == word.lower()), None)


def slip_codes(session: Session, lesson_id: str) -> dict[str, str]:
    """The slip code of each bench id of a lesson."""
    rows = session.execute(select(Bench.id, Bench.slip_code).where(Bench.lesson_id == lesson_id))
    return dict(rows.all())


def words(session: Session, lesson_id: str) -> dict[str, str]:
    """The word of each bench id of a lesson."""
    rows = session.execute(select(Bench.id, Bench.word).where(Bench.lesson_id == lesson_id))
    return dict(rows.all())


def slip_codes_in_use(session: Session, candidates: Sequence[str]) -> set[str]:
    """Which of these slip codes are taken."""
    return set(session.scalars(select(Bench.slip_code).where(Bench.slip_code.in_(candidates))))


def by_token(session: Session, token_hash: str) -> Tablet | None:
    """The tablet with that token, ended ones too."""
    return session.scalars(select(Tablet).where(Tablet.token_hash == token_hash)).first()


def tablets_here(session: Session, bench_id: str) -> Sequence[Tablet]:
    """The tablets that hold a bench now, first come first."""
    here = select(Tablet).where(Tablet.bench_id == bench_id, Tablet.ended_at.is_(None))
    return session.scalars(here.order_by(Tablet.joined_at, Tablet.id)).all()


def give_writing(session: Session, bench_id: str, tablet_id: str) -> None:
    """Only that tablet of the bench offers the pad from now on."""
    session.execute(update(Tablet).where(Tablet.bench_id == bench_id).values(writes=Tablet.id == tablet_id))


def forget(session: Session, bench_id: str) -> None:
    """A bench without entries is gone, with its tablets and ticks."""
    for model in (Tablet, Tick):
        session.execute(delete(model).where(model.bench_id == bench_id))
    session.execute(delete(Bench).where(Bench.id == bench_id))


def set_tick(session: Session, bench_id: str, what: str, *, on: bool, at: datetime) -> None:
    """The line of the bench's list is ticked or not."""
    session.merge(Tick(bench_id=bench_id, what=what, on=on, at=at))
