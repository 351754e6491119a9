"""What people say of what was seen: rulings, predictions, sentences, ticks, and what the balance said."""

from datetime import datetime, timedelta
from typing import Any

from app.domain import limits, vocabulary
from app.domain.errors import NotFound, NotOpened, NotThisBench, Sealed, TeacherOnly, fault
from app.domain.limits import within
from app.services.readings import listed
from app.services.recording import Recorded, Sender, Sent, Target, record
from app.store import benches, feed
from app.store.database import Database, Session
from app.store.designs import Weighing, ids_by_letter, marks
from app.store.entries import Prediction, Ruling, Sentence, find_entry
from app.store.lessons import Lesson
from app.store.specimens import first_load_at
from app.store.tables import table_of

FORCE_MOST_N = 10_000.0


def rule(
    database: Database,
    target: Target,
    *,
    kind: str,
    about: str,
    detail: Any,
    sent: Sent,
    sender: Sender,
    at: datetime,
) -> Recorded:
    """The ruling holds from now on for what it is about; a reason is kept with it.

    Raises NotFound when what it is about is not of this bench, NotThisBench when it would replace a ruling about
    another, TeacherOnly for what only a teacher may rule.
    """
    listed("kind", kind, vocabulary.RULINGS)
    if sender.by == "bench" and kind in vocabulary.TEACHER_RULINGS:
        raise TeacherOnly("Only your teacher can say that.")
    if kind == "left_out" and not (sent.reason or "").strip():
        raise fault("reason", "Say why it is left out.")
    if kind == "note_answer":
        listed("detail", detail if isinstance(detail, str) else "", vocabulary.NOTE_ANSWERS)
    if kind == "straight_part" and detail is not None:
        _check_straight_part(detail)
    if len(sent.reason or "") > 80:
        raise fault("reason", "At most 80 characters.")
    with database.reading() as session:
        table = _table(session, target, about)
    if table is None:
        raise NotFound("What that is about is not here yet. The entry is kept and sent again.")
    values = {
        "lesson_id": target.lesson_id,
        "about_table": table,
        "about_id": about,
        "kind": kind,
        "detail": detail,
    }

    def unless_anothers(session: Session) -> None:
        """A bench may not undo another's ruling by naming it as the one that this replaces."""
        before = find_entry(session, Ruling, sent.replaces or "")
        if before is not None and _table(session, target, before.about_id) is None:
            raise NotThisBench("That ruling is not about this bench.")

    return record(database, Ruling, target=target, values=values, sent=sent, sender=sender, at=at, gate=unless_anothers)


def _check_straight_part(detail: Any) -> None:
    """A first and a later last step; nothing at all takes back what was chosen before."""
    said = detail if isinstance(detail, dict) else {}
    first, last = said.get("first_step"), said.get("last_step")
    if not (isinstance(first, int) and isinstance(last, int)):
        raise fault("detail", "Say the first and the last step of the straight part.")
    if first >= last:
        raise fault("last_step", "The last step comes after the first one.")


def _table(session: Session, target: Target, about: str) -> str | None:
    return table_of(session, about, lesson_id=target.lesson_id, bench_id=target.bench_id)


def predict(
    database: Database,
    target: Target,
    *,
    break_force_n: float | None,
    best_design: str | None,
    shape: str | None,
    sent: Sent,
    sender: Sender,
    at: datetime,
) -> Recorded:
    """The bench's guess is sealed; Sealed when it was typed after the first reading of step 1."""
    if break_force_n is not None:
        within("break_force_N", break_force_n, (0.0, FORCE_MOST_N), "N")
    if shape is not None:
        listed("shape", shape, vocabulary.SHAPES)
    with database.reading() as session:
        designs = ids_by_letter(session, target.lesson_id)
    if best_design is not None:
        listed("best_design", best_design, designs)
    typed_at = at - timedelta(seconds=sent.age_s)

    def unless_sealed(session: Session) -> None:
        first = first_load_at(session, target.bench_id or "")
        if first is not None and typed_at > first:
            raise Sealed("Step 1 is read: the guess is sealed as it was.")

    values = {
        "bench_id": target.bench_id,
        "break_force_n": break_force_n,
        "best_design_id": designs.get(best_design or ""),
        "shape": shape,
    }
    return record(
        database, Prediction, target=target, values=values, sent=sent, sender=sender, at=at, gate=unless_sealed
    )


def say(
    database: Database, target: Target, *, topic: str, words: str, sent: Sent, sender: Sender, at: datetime
) -> Recorded:
    """The bench's sentence is kept; NotOpened unless the lesson takes free text."""

    def if_opened(session: Session) -> None:
        if not session.get_one(Lesson, target.lesson_id).free_text:
            raise NotOpened("This lesson takes no free text. Write it by hand.")

    listed("topic", topic, vocabulary.TOPICS)
    tidy = words.strip()
    if not 1 <= len(tidy) <= limits.TEXT_MOST or "\x00" in tidy:
        raise fault("words", f"Write 1 to {limits.TEXT_MOST} characters.")
    values = {"bench_id": target.bench_id, "topic": topic, "words": tidy}
    return record(database, Sentence, target=target, values=values, sent=sent, sender=sender, at=at, gate=if_opened)


def weigh(
    database: Database,
    target: Target,
    *,
    mark: int,
    mass_g: float,
    balance_division_g: float,
    sent: Sent,
    sender: Sender,
    at: datetime,
) -> Recorded:
    """The balance mass of a rung, or of the hanger (mark 0), counts from now on: every force follows.

    Raises InvalidEntry when the ladder has no such mark; a bench weighs its own tray only.
    """
    with database.reading() as session:
        known = marks(session, target.lesson_id)
    if mark != 0 and mark not in known:
        raise fault("mark", "The ladder has no such mark.")
    values = {
        "lesson_id": target.lesson_id,
        "bench_id": target.bench_id,
        "mark": mark,
        "mass_g": within("mass_g", mass_g, limits.ONE_MASS_G, "g"),
        "balance_division_g": within("balance_division_g", balance_division_g, limits.BALANCE_DIVISION_G, "g"),
    }
    return record(database, Weighing, target=target, values=values, sent=sent, sender=sender, at=at)


def tick(database: Database, target: Target, *, what: str, on: bool, by: str, at: datetime) -> int:
    """The line of the bench's list is ticked, or not any more; the lesson's head is returned."""
    listed("what", what, vocabulary.TICKS)
    bench_id = target.bench_id or ""

    def write(session: Session) -> None:
        benches.set_tick(session, bench_id, what, on=on, at=at)

    return note(database, target, write, kind="tick", about_id=bench_id, by=by, at=at, after={what: on})


def note(
    database: Database, target: Target, write: Any, *, kind: str, about_id: str, by: str, at: datetime, after: Any
) -> int:
    """The write is done together with its line in the change feed; its number is returned.

    Raises NotFound for a lesson that is not here or was deleted.
    """
    with database.transaction() as session:
        number = feed.take_number(session, target.lesson_id)
        if number.deleted_at is not None:
            raise NotFound("This lesson was deleted.")
        write(session)
        feed.append(
            session,
            number,
            lesson_id=target.lesson_id,
            at=at,
            kind=kind,
            about_id=about_id,
            by=by,
            bench_id=target.bench_id,
            after=after,
        )
    return number.head
