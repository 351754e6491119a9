"""The question asked most often: is there anything after n?"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from app.domain.errors import NotFound
from app.store import benches, feed, lessons
from app.store.database import Database

AT_ONCE_MOST = 500
_HEARD_EVERY = timedelta(seconds=15)


@dataclass(frozen=True, kw_only=True)
class News:
    """What changed in a lesson after n, and how the lesson stands."""

    head: int
    changes: Sequence[feed.Change]
    stage: str
    paused: bool
    masses_down_at: datetime | None
    words: Mapping[str, str]

    def bench_of(self, change: feed.Change) -> str | None:
        """The bench of a change, by the word in its address; None for what concerns the whole lesson."""
        return self.words.get(change.bench_id or "", "").lower() or None


def heads(database: Database, lesson_ids: Sequence[str]) -> dict[str, int]:
    """The newest change number of each lesson."""
    with database.reading() as session:
        return feed.heads(session, lesson_ids)


def news_after(database: Database, lesson_id: str, n: int, *, bench_id: str | None = None) -> News:
    """The changes after n; with a bench, only its own and the lesson's."""
    with database.reading() as session:
        lesson = lessons.by_id(session, lesson_id)
        if lesson is None or lesson.deleted_at is not None:
            raise NotFound("There is no such lesson.")
        found = feed.after(session, lesson_id, n, most=AT_ONCE_MOST) if lesson.head > n else []
        words = benches.words(session, lesson_id) if found else {}
    return News(
        head=found[-1].n if len(found) == AT_ONCE_MOST else lesson.head,
        changes=[change for change in found if bench_id is None or change.bench_id in (None, bench_id)],
        stage=lesson.stage,
        paused=lesson.paused_at is not None,
        masses_down_at=lesson.masses_down_at,
        words=words,
    )


def hear_from(database: Database, tablet_id: str, *, unsent: int | None, at: datetime) -> None:
    """The tablet was heard now, with so many readings still to send; written only when that says something new."""
    with database.reading() as session:
        tablet = session.get(benches.Tablet, tablet_id)
        waiting = tablet.unsent if tablet and unsent is None else unsent or 0
        if tablet is None or (tablet.unsent == waiting and at - tablet.last_heard_at < _HEARD_EVERY):
            return
    with database.transaction() as session:
        row = session.get_one(benches.Tablet, tablet_id)
        row.last_heard_at = at
        row.unsent = waiting
