"""Teachers and tries that failed."""

from collections.abc import Sequence
from datetime import datetime

from sqlalchemy import String, delete, func, select
from sqlalchemy.orm import Mapped, Session, mapped_column

from app.store.base import CODE, ID, Model


class Teacher(Model):
    __tablename__ = "teacher"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    sign_in_name: Mapped[str] = mapped_column(String(40), unique=True)
    password_hash: Mapped[str | None] = mapped_column(String(255))
    first_hash: Mapped[str | None] = mapped_column(String(64))
    made_at: Mapped[datetime]
    password_made_at: Mapped[datetime | None]
    off_at: Mapped[datetime | None]


class FailedTry(Model):
    __tablename__ = "failed_try"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    what: Mapped[str] = mapped_column(CODE)
    from_hash: Mapped[str] = mapped_column(String(64), index=True)
    at: Mapped[datetime]


def by_name(session: Session, sign_in_name: str) -> Teacher | None:
    """The teacher of that name."""
    return session.scalars(select(Teacher).where(Teacher.sign_in_name == sign_in_name)).first()


def by_id(session: Session, teacher_id: str) -> Teacher | None:
    """The teacher of that id."""
    return session.get(Teacher, teacher_id)


def by_first_hash(session: Session, first_hash: str) -> Teacher | None:
    """The teacher whose first sign-in link this is."""
    return session.scalars(select(Teacher).where(Teacher.first_hash == first_hash)).first()


def all_teachers(session: Session) -> Sequence[Teacher]:
    """Every teacher, oldest first."""
    return session.scalars(select(Teacher).order_by(Teacher.made_at, Teacher.id)).all()


def failures_since(session: Session, what: str, from_hash: str, since: datetime) -> int:
    """How many tries of that kind failed from there since then."""
    wanted = (FailedTry.what == what, FailedTry.from_hash == from_hash, FailedTry.at >= since)
    return session.scalar(select(func.count()).select_from(FailedTry).where(*wanted)) or 0


def forget_failures(session: Session, before: datetime) -> None:
    """Tries older than that are gone."""
    session.execute(delete(FailedTry).where(FailedTry.at < before))
