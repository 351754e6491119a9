"""A tablet takes a bench, carries on there, or leaves it."""

import secrets
import uuid
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from app.domain.errors import BenchTaken, InUse, LessonOver, NotFound, UnknownCode
from app.domain.limits import TABLET_DAYS, TABLETS_MOST
from app.domain.naming import looks_like_code, tidy_code
from app.domain.records import BenchRecord, LessonRecord
from app.services.teachers import token_hash
from app.store import benches, feed, lessons
from app.store.database import Database, Session
from app.store.snapshot import snapshot

_NO_SUCH = "No bench or lesson has that code. Look at the slip again: three letters or digits, then three more."


@dataclass(frozen=True, kw_only=True)
class Joined:
    """A tablet that took a bench; the token is told once and only its hash is kept."""

    token: str
    tablet_id: str
    lesson_id: str
    bench_id: str
    writes: bool


@dataclass(frozen=True, kw_only=True)
class TabletHere:
    """Which bench a token holds."""

    tablet_id: str
    bench_id: str
    lesson_id: str
    bench: str
    writes: bool


@dataclass(frozen=True, kw_only=True)
class Offer:
    """What a code opens: one bench (a slip code), or a lesson's free benches (a lesson key)."""

    lesson: LessonRecord
    bench: BenchRecord | None
    free: Sequence[BenchRecord]


def what_opens(database: Database, code: str) -> Offer:
    """What that code opens; UnknownCode when nothing, or when its lesson is over."""
    tidy = tidy_code(code)
    with database.reading() as session:
        bench = benches.by_slip_code(session, tidy) if looks_like_code(tidy) else None
        keyed = lessons.by_key(session, tidy) if looks_like_code(tidy) and bench is None else None
        lesson_id = bench.lesson_id if bench else keyed.id if keyed else None
        lesson = snapshot(session, lesson_id) if lesson_id else None
    if lesson is None or lesson.deleted_at is not None:
        raise UnknownCode(_NO_SUCH)
    if lesson.over:
        raise LessonOver("That lesson is over. Ask your teacher for today's code.")
    found = next((one for one in lesson.benches if bench and one.id == bench.id), None)
    return Offer(lesson=lesson, bench=found, free=[one for one in lesson.benches if not one.here])


def take_bench(database: Database, code: str, *, bench: str | None, at: datetime) -> Joined:
    """The tablet holds the bench of that slip, or of that lesson key and a free bench word.

    Raises BenchTaken when a lesson key is used for a bench that another tablet holds: its slip is needed.
    """
    offer = what_opens(database, code)
    wanted = offer.bench or offer.lesson.bench(bench or "")
    if wanted is None:
        raise NotFound("This lesson has no bench of that word.")
    with database.transaction() as session:
        number = feed.take_number(session, offer.lesson.id)
        here = list(benches.tablets_here(session, wanted.id))
        if offer.bench is None and here:
            raise BenchTaken(f"{wanted.word} is taken. Type the code on its slip to carry on here.")
        _make_room(here, at)
        return _take(session, number, wanted, lesson_id=offer.lesson.id, at=at)


def _make_room(here: list[benches.Tablet], at: datetime) -> None:
    """Tablets silent for a day give their place; a bench that is still full takes no more."""
    for tablet in list(here):
        if len(here) >= TABLETS_MOST and tablet.last_heard_at < at - timedelta(days=1):
            tablet.ended_at = at
            here.remove(tablet)
    if len(here) >= TABLETS_MOST:
        raise InUse(f"This bench has {TABLETS_MOST} tablets already. Leave it on one of them first.")


def _take(session: Session, number: feed.Numbered, bench: BenchRecord, *, lesson_id: str, at: datetime) -> Joined:
    token = secrets.token_urlsafe(24)
    tablet = benches.Tablet(
        id=str(uuid.uuid4()),
        bench_id=bench.id,
        token_hash=token_hash(token),
        joined_at=at,
        writes=True,
        last_heard_at=at,
        unsent=0,
    )
    session.add(tablet)
    session.flush()
    benches.give_writing(session, bench.id, tablet.id)
    _tell(session, number, lesson_id, bench_id=bench.id, tablet_id=tablet.id, at=at)
    return Joined(token=token, tablet_id=tablet.id, lesson_id=lesson_id, bench_id=bench.id, writes=True)


def whose_tablet(database: Database, token: str, *, at: datetime) -> TabletHere | None:
    """The bench that a token holds; None when it holds none any more."""
    with database.reading() as session:
        tablet = benches.by_token(session, token_hash(token))
        if tablet is None or tablet.ended_at is not None or tablet.joined_at < at - timedelta(days=TABLET_DAYS):
            return None
        bench = session.get_one(benches.Bench, tablet.bench_id)
        return TabletHere(
            tablet_id=tablet.id,
            bench_id=bench.id,
            lesson_id=bench.lesson_id,
            bench=bench.word.lower(),
            writes=tablet.writes,
        )


def carry_on(database: Database, tablet: TabletHere, *, at: datetime) -> None:
    """This tablet of the bench offers the pad; its others only look."""
    with database.transaction() as session:
        number = feed.take_number(session, tablet.lesson_id)
        benches.give_writing(session, tablet.bench_id, tablet.tablet_id)
        _tell(session, number, tablet.lesson_id, bench_id=tablet.bench_id, tablet_id=tablet.tablet_id, at=at)


def leave(database: Database, tablet: TabletHere, *, at: datetime) -> None:
    """The tablet holds the bench no more; if it was the writing one, the last that came before it writes."""
    with database.transaction() as session:
        number = feed.take_number(session, tablet.lesson_id)
        row = session.get_one(benches.Tablet, tablet.tablet_id)
        row.ended_at = at
        session.flush()
        others = benches.tablets_here(session, tablet.bench_id)
        if row.writes and others:
            benches.give_writing(session, tablet.bench_id, others[-1].id)
        _tell(session, number, tablet.lesson_id, bench_id=tablet.bench_id, tablet_id=tablet.tablet_id, at=at)


def _tell(
    session: Session, number: feed.Numbered, lesson_id: str, *, bench_id: str, tablet_id: str, at: datetime
) -> None:
    feed.append(
        session,
        number,
        lesson_id=lesson_id,
        at=at,
        kind="tablet",
        about_id=tablet_id,
        by="bench",
        bench_id=bench_id,
    )
