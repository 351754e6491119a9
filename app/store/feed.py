"""The lesson's change feed: running numbers without a gap, in the order of the commits."""

from collections.abc import Sequence
from dataclasses import dataclass, fields
from datetime import datetime
from typing import Any

from sqlalchemy import ForeignKey, String, func, insert, select, update
from sqlalchemy.orm import Mapped, Session, mapped_column
from sqlalchemy.types import JSON

from app.domain.errors import NotFound
from app.store.base import CODE, ID, Model
from app.store.lessons import Lesson


class Change(Model):
    __tablename__ = "change"

    lesson_id: Mapped[str] = mapped_column(ForeignKey("lesson.id"), primary_key=True)
    n: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    at: Mapped[datetime]
    kind: Mapped[str] = mapped_column(CODE)
    bench_id: Mapped[str | None] = mapped_column(ID)
    about_table: Mapped[str] = mapped_column(CODE)
    about_id: Mapped[str] = mapped_column(ID)
    by: Mapped[str] = mapped_column(CODE)
    before: Mapped[Any] = mapped_column(JSON(none_as_null=True), nullable=True)
    after: Mapped[Any] = mapped_column(JSON(none_as_null=True), nullable=True)
    reason: Mapped[str | None] = mapped_column(String(80))


@dataclass(frozen=True)
class Numbered:
    """A number taken from a lesson's feed, and the lesson's state at that moment, under its lock."""

    head: int
    stage: str
    masses_down_at: datetime | None
    shelved_at: datetime | None
    deleted_at: datetime | None


_TAKEN = tuple(getattr(Lesson, field.name) for field in fields(Numbered))


def take_number(session: Session, lesson_id: str) -> Numbered:
    """The next number of the lesson's feed, its row locked until the transaction ends: numbers follow commits.

    Raises NotFound when there is no such lesson.
    """
    step = update(Lesson).where(Lesson.id == lesson_id).values(head=Lesson.head + 1).returning(*_TAKEN)
    taken = session.execute(step.execution_options(synchronize_session=False)).first()
    if taken is None:
        raise NotFound("There is no such lesson.")
    return Numbered(*taken)


def append(
    session: Session,
    numbered: Numbered,
    *,
    lesson_id: str,
    at: datetime,
    kind: str,
    about_id: str,
    by: str,
    bench_id: str | None = None,
    reason: str | None = None,
    before: Any = None,
    after: Any = None,
) -> None:
    """The change is written under the number that was taken; `kind` names the table that it is about."""
    row = {
        "lesson_id": lesson_id,
        "n": numbered.head,
        "at": at,
        "kind": kind,
        "bench_id": bench_id,
        "about_table": kind,
        "about_id": about_id,
        "by": by,
        "before": before,
        "after": after,
        "reason": reason,
    }
    session.execute(insert(Change).values(**row))


def wrote_since(session: Session, lesson_id: str, bench_id: str, *, head: int, since: datetime, most: int) -> bool:
    """Whether the bench has made that many changes since then, or more.

    One look at the change that lies so far back answers it nearly always; counting is for a bench that hurries.
    """
    nth = select(Change.at).where(Change.lesson_id == lesson_id, Change.n == head - most)
    before = session.scalar(nth)
    if before is None or before < since:
        return False
    recent = (Change.lesson_id == lesson_id, Change.bench_id == bench_id, Change.at >= since, Change.by == "bench")
    return (session.scalar(select(func.count()).select_from(Change).where(*recent)) or 0) >= most


def heads(session: Session, lesson_ids: Sequence[str]) -> dict[str, int]:
    """The newest number of each lesson: the cheap question, asked most often."""
    rows = session.execute(select(Lesson.id, Lesson.head).where(Lesson.id.in_(lesson_ids)))
    return dict(rows.all())


def moment_of(session: Session, lesson_id: str, n: int) -> datetime:
    """When the lesson's change n was made."""
    return session.get_one(Change, (lesson_id, n)).at


def after(session: Session, lesson_id: str, n: int, *, most: int) -> Sequence[Change]:
    """The changes after number n, oldest first, at most so many."""
    newer = select(Change).where(Change.lesson_id == lesson_id, Change.n > n).order_by(Change.n).limit(most)
    return session.scalars(newer).all()
