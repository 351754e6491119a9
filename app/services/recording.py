"""One way for every entry into the database: once, numbered, gated, with its line in the change feed."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from app.domain.errors import EntryReused, InUse, LessonOver, MassesDown, NotFound, NotThisBench, TooMany, fault
from app.domain.limits import AGE_S, ENTRIES_MOST, WRITES_PER_MINUTE, within
from app.domain.vocabulary import REASONS
from app.store import benches, entries, feed
from app.store.database import Database, Session

REASON_MOST = 80
Gate = Callable[[Session], None]


@dataclass(frozen=True, kw_only=True)
class Sent:
    """What every entry carries from where it was typed."""

    entry_id: str
    tablet_time: datetime | None = None
    age_s: float = 0.0
    replaces: str | None = None
    reason: str | None = None


@dataclass(frozen=True, kw_only=True)
class Sender:
    """Who sends an entry: `by` is bench, teacher or paper; a tablet has its id."""

    by: str
    tablet_id: str | None = None


@dataclass(frozen=True, kw_only=True)
class Target:
    """Where an entry belongs; `bench_id` is None for what concerns the whole lesson."""

    lesson_id: str
    bench_id: str | None = None


@dataclass(frozen=True, kw_only=True)
class Recorded:
    """An entry that is in the database under change `n`; `new` is false when it was there before."""

    entry_id: str
    n: int
    new: bool


class _Here(Exception):
    """The entry id is in the table already."""


def record(
    database: Database,
    model: type[entries.EntryColumns],
    *,
    target: Target,
    values: Mapping[str, Any],
    sent: Sent,
    sender: Sender,
    at: datetime,
    gate: Gate | None = None,
) -> Recorded:
    """The entry is in the database once, with its change; sent again it answers as the first time.

    Raises EntryReused when the id holds something else, LessonOver and MassesDown by the lesson's state.
    """
    within("age_s", sent.age_s, AGE_S, "s")
    try:
        with database.transaction() as session:
            lesson = feed.take_number(session, target.lesson_id)
            if not entries.insert_entry(session, model, _row(lesson.head, values, sent=sent, sender=sender, at=at)):
                raise _Here
            _check_open(session, lesson, model, target=target, sent=sent, sender=sender, at=at)
            _check_hurry(session, lesson, target=target, sender=sender, at=at)
            _check_replaced(session, model, values=values, sent=sent, sender=sender)
            _check_room(session, model, values)
            if gate:
                gate(session)
            feed.append(
                session,
                lesson,
                lesson_id=target.lesson_id,
                at=at,
                kind=_name(model),
                about_id=sent.entry_id,
                by=sender.by,
                bench_id=target.bench_id,
                reason=sent.reason,
            )
            return Recorded(entry_id=sent.entry_id, n=lesson.head, new=True)
    except _Here:
        return _found_again(database, model, values, sent)


def _row(n: int, values: Mapping[str, Any], *, sent: Sent, sender: Sender, at: datetime) -> dict[str, Any]:
    return {
        **values,
        "entry_id": sent.entry_id,
        "replaces": sent.replaces,
        "reason": sent.reason,
        "by": sender.by,
        "tablet_id": sender.tablet_id,
        "tablet_time": sent.tablet_time,
        "age_s": sent.age_s,
        "received_at": at,
        "n": n,
    }


def _name(model: type[entries.EntryColumns]) -> str:
    return str(model.__tablename__)  # type: ignore[attr-defined]


def _check_open(
    session: Session,
    lesson: feed.Numbered,
    model: type[entries.EntryColumns],
    *,
    target: Target,
    sent: Sent,
    sender: Sender,
    at: datetime,
) -> None:
    if lesson.deleted_at is not None:
        raise NotFound("This lesson was deleted.")
    if lesson.stage == "over" or lesson.shelved_at is not None:
        raise LessonOver("This lesson is over. It takes no more entries unless your teacher takes it off the shelf.")
    if lesson.masses_down_at is None or sender.by != "bench" or not _closes_with_masses(model, sent):
        return
    taken_at = at - timedelta(seconds=sent.age_s)
    bench = session.get(benches.Bench, target.bench_id)
    if taken_at > lesson.masses_down_at and not (bench and bench.open_again):
        raise MassesDown("Masses are down: readings are closed. One still on your paper? Your teacher can add it.")


def _check_hurry(session: Session, lesson: feed.Numbered, *, target: Target, sender: Sender, at: datetime) -> None:
    """A bench's tablets write at most so often a minute, each; how many it has is asked only when it matters."""
    if sender.by != "bench" or target.bench_id is None:
        return
    bench_id, since = target.bench_id, at - timedelta(minutes=1)

    def hurries(most: int) -> bool:
        return feed.wrote_since(session, target.lesson_id, bench_id, head=lesson.head, since=since, most=most)

    if hurries(WRITES_PER_MINUTE) and hurries(WRITES_PER_MINUTE * len(benches.tablets_here(session, bench_id))):
        raise TooMany("That is faster than a bench can read. What you typed is kept, and sent again.", retry_after_s=10)


def _closes_with_masses(model: type[entries.EntryColumns], sent: Sent) -> bool:
    return model is entries.Reading or (model is entries.Event and sent.replaces is not None)


def _check_replaced(
    session: Session, model: type[entries.EntryColumns], *, values: Mapping[str, Any], sent: Sent, sender: Sender
) -> None:
    """The entry to be replaced, if it is here, is the same bench's, and not the teacher's when a bench asks."""
    if sent.replaces is None:
        return
    if sent.reason is None:
        raise fault("reason", "Say why it is changed.")
    before = entries.find_entry(session, model, sent.replaces)
    if before is None:
        return
    owner = next(name for name in ("specimen_id", "bench_id", "lesson_id") if hasattr(before, name))
    if getattr(before, owner) != values.get(owner):
        raise fault("replaces", "That entry belongs to another cord.")
    if sender.by == "bench" and before.by != "bench":
        raise NotThisBench("Your teacher wrote that one. Ask your teacher to change it.")


def _check_room(session: Session, model: type[Any], values: Mapping[str, Any]) -> None:
    specimen_id = values.get("specimen_id")
    if specimen_id and entries.count_of_specimen(session, model, specimen_id) > ENTRIES_MOST:
        raise InUse(f"One cord takes at most {ENTRIES_MOST} entries of a kind.")


def _found_again(
    database: Database, model: type[entries.EntryColumns], values: Mapping[str, Any], sent: Sent
) -> Recorded:
    with database.reading() as session:
        before = entries.find_entry(session, model, sent.entry_id)
    same = {**values, "replaces": sent.replaces, "reason": sent.reason}
    if before is None or any(getattr(before, name) != value for name, value in same.items()):
        raise EntryReused("That entry id was used for another entry. Make a fresh one.")
    return Recorded(entry_id=before.entry_id, n=before.n, new=False)


def check_reason(reason: str | None) -> str | None:
    """The reason of a correction, tidied; refused when it is none of the list and not `other: words`."""
    if reason is None or not reason.strip():
        return None
    code, _, words = reason.strip().partition(":")
    if code.strip() not in REASONS or (words and code.strip() != "other"):
        raise fault("reason", "Choose a reason: " + ", ".join(REASONS.values()) + ".")
    tidy = f"{code.strip()}: {words.strip()}" if words.strip() else code.strip()
    if len(tidy) > REASON_MOST:
        raise fault("reason", f"At most {REASON_MOST} characters.")
    return tidy
