"""A bench's entries of a cord: readings, events and endings, measures and fresh cords."""

from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from typing import Any

from app.domain import limits, vocabulary
from app.domain.errors import NotFound, fault
from app.domain.limits import within
from app.domain.quantities import length_mm, number_typed
from app.mechanics.classwork import Point
from app.services.bench_state import BenchState, state_of
from app.services.recording import Recorded, Sender, Sent, Target, check_reason, record
from app.store import benches, entries, specimens
from app.store.database import Database
from app.store.entries import Ending, Event, Reading


@dataclass(frozen=True, kw_only=True)
class ReadingSeen:
    """A reading as it was typed; the unit is the bench's own when none is said."""

    specimen_id: str | None
    step: int
    phase: str
    pointer_typed: str
    pointer_unit: str | None = None
    turn: int = 1
    waited_s: float | None = None


@dataclass(frozen=True, kw_only=True)
class EventSeen:
    specimen_id: str | None
    step: int | None
    kind: str
    after_reading: bool = False
    mark: int | None = None
    words: str | None = None


@dataclass(frozen=True, kw_only=True)
class EndingSeen:
    specimen_id: str | None
    kind: str
    fail_step: int | None = None
    hung_s: float | None = None
    place: str | None = None
    look: str | None = None
    from_top_knot_mm: float | None = None
    remark: str | None = None


@dataclass(frozen=True, kw_only=True)
class MeasureSeen:
    """A measure as it was typed; `specimen_id` is None for what is true of the whole bench, as the room."""

    specimen_id: str | None
    quantity: str
    typed: str
    unit: str
    place: int = 1


@dataclass(frozen=True, kw_only=True)
class Answer:
    """What a tablet hears of its entry; worked out when it is asked for, as the bench stood right after the entry."""

    database: Database
    target: Target
    entry: Recorded

    @cached_property
    def state(self) -> BenchState:
        """The bench right after the entry, whatever came since."""
        return state_of(self.database, self.target.lesson_id, self.target.bench_id or "", up_to=self.entry.n)

    @property
    def _points(self) -> list[Point]:
        return [point for cord in self.state.cords for point in cord.points]

    @cached_property
    def point(self) -> Point | None:
        """Of a reading, its point; None for other entries, and for a reading that was replaced before it came."""
        return next((point for point in self._points if point.reading.entry_id == self.entry.entry_id), None)

    @property
    def same_step(self) -> tuple[str, ...]:
        """The entry ids of other standing readings of the same cord, step, phase and turn."""
        if self.point is None:
            return ()
        mine = self.point.reading
        turn = (mine.specimen_id, mine.step, mine.phase, mine.turn)
        others = (point.reading for point in self._points if point is not self.point)
        return tuple(
            other.entry_id for other in others if (other.specimen_id, other.step, other.phase, other.turn) == turn
        )

    @property
    def word(self) -> str:
        """The state of the entry: stands, matched, differs or ruled_out."""
        return self.point.state if self.point else "stands"


def take_reading(
    database: Database, target: Target, seen: ReadingSeen, *, sent: Sent, sender: Sender, at: datetime
) -> Answer:
    """The reading is stored as it was typed, once; the answer says what it means."""
    unit = seen.pointer_unit or _scale_unit(database, target)
    values = {
        "specimen_id": _specimen(database, target, seen.specimen_id, Reading, sent),
        "step": _step(seen.step, seen.phase),
        "phase": listed("phase", seen.phase, vocabulary.PHASES),
        "turn": int(within("turn", seen.turn, limits.TURN)),
        "pointer_typed": seen.pointer_typed.strip(),
        "pointer_unit": listed("pointer_unit", unit, vocabulary.SCALE_UNITS),
        "pointer_mm": pointer_mm(seen.pointer_typed, unit),
        "waited_s": within("waited_s", seen.waited_s, limits.WAIT_S, "s") if seen.waited_s is not None else None,
    }
    return _plain(database, Reading, target=target, values=values, sent=sent, sender=sender, at=at)


def pointer_mm(typed: str, unit: str) -> float:
    """The pointer in millimetres; refused with a sentence when it is no number or off every scale."""
    listed("pointer_unit", unit, vocabulary.SCALE_UNITS)
    return within("pointer_typed", length_mm(number_typed("pointer_typed", typed), unit), limits.POINTER_MM, "mm")


def _step(step: int, phase: str) -> int:
    whole = int(within("step", step, limits.STEP))
    if (phase == "zero") != (whole == 0) and phase in ("zero", "load"):
        raise fault("step", "The zero is step 0, and every load has a step from 1.")
    return whole


def listed(field: str, code: str, closed_list: Any) -> str:
    """The code itself; refused when it is not of the closed list."""
    if code not in closed_list:
        raise fault(field, "Choose one of: " + ", ".join(closed_list) + ".")
    return code


def tell_event(
    database: Database, target: Target, seen: EventSeen, *, sent: Sent, sender: Sender, at: datetime
) -> Answer:
    """What happened is on the curve, at its step."""
    listed("kind", seen.kind, vocabulary.EVENTS)
    if seen.kind == "other_mass" and seen.mark is None:
        raise fault("mark", "Say which one hangs.")
    values = {
        "lesson_id": target.lesson_id,
        "bench_id": target.bench_id,
        "specimen_id": _specimen(database, target, seen.specimen_id, Event, sent),
        "step": None if seen.step is None else int(within("step", seen.step, limits.STEP)),
        "after_reading": seen.after_reading,
        "kind": seen.kind,
        "mark": None if seen.mark is None else int(within("mark", seen.mark, (1, limits.RUNGS_MOST))),
        "words": _words("words", seen.words, 80),
    }
    return _plain(database, Event, target=target, values=values, sent=sent, sender=sender, at=at)


def tell_ending(
    database: Database, target: Target, seen: EndingSeen, *, sent: Sent, sender: Sender, at: datetime
) -> Answer:
    """How the cord ended is stored; its breaking force follows from it."""
    fall = (0.0, limits.GAUGE_LENGTH_MM[1])
    values = {
        "specimen_id": _specimen(database, target, seen.specimen_id, Ending, sent),
        "kind": listed("kind", seen.kind, vocabulary.ENDINGS),
        "fail_step": None if seen.fail_step is None else int(within("fail_step", seen.fail_step, limits.STEP)),
        "hung_s": None if seen.hung_s is None else within("hung_s", seen.hung_s, (0, 86_400), "s"),
        "place": None if seen.place is None else listed("place", seen.place, vocabulary.PLACES),
        "look": None if seen.look is None else listed("look", seen.look, vocabulary.LOOKS),
        "from_top_knot_mm": None
        if seen.from_top_knot_mm is None
        else within("from_top_knot_mm", seen.from_top_knot_mm, fall, "mm"),
        "remark": _words("remark", seen.remark, 120),
    }
    return _plain(database, Ending, target=target, values=values, sent=sent, sender=sender, at=at)


def take_measure(
    database: Database, target: Target, seen: MeasureSeen, *, sent: Sent, sender: Sender, at: datetime
) -> Answer:
    """The measure is stored as it was typed, with its value in the quantity's own unit."""
    listed("quantity", seen.quantity, vocabulary.QUANTITIES)
    of_bench = seen.specimen_id is None and seen.quantity == "room_c"
    values = {
        "bench_id": target.bench_id,
        "specimen_id": None if of_bench else _specimen(database, target, seen.specimen_id, specimens.Measure, sent),
        "quantity": seen.quantity,
        "place": int(within("place", seen.place, limits.TURN)),
        "typed": seen.typed.strip(),
        "unit": seen.unit,
        "value": measure_value(seen.quantity, seen.typed, seen.unit),
        "division": None,
    }
    return _plain(database, specimens.Measure, target=target, values=values, sent=sent, sender=sender, at=at)


def measure_value(quantity: str, typed: str, unit: str) -> float:
    """The measure in its own unit; refused with a sentence when it can't be."""
    words, own = vocabulary.QUANTITIES[quantity]
    value = number_typed("typed", typed)
    if own == "mm" and unit in vocabulary.SCALE_UNITS:
        value = length_mm(value, unit)
    elif unit not in ("", own):
        raise fault("unit", f"The unit of {words} is {own or 'none: it is a count'}.")
    if quantity in vocabulary.COUNTS and not value.is_integer():
        raise fault("typed", "A whole number, please.")
    return within("typed", value, limits.QUANTITY_LIMITS[quantity], own)


def fresh_cord(
    database: Database,
    target: Target,
    *,
    same_maker: bool | None,
    reason: str | None,
    sent: Sent,
    sender: Sender,
    at: datetime,
) -> Answer:
    """The bench has a new cord under test; its id is the entry's."""
    with database.reading() as session:
        newest = specimens.newest(session, target.bench_id or "")
        known = session.get(specimens.Specimen, sent.entry_id)
    if newest is None:
        raise NotFound("There is no such bench.")
    number = known.specimen_no if known else newest.specimen_no + 1
    values = {
        "bench_id": target.bench_id,
        "specimen_no": int(within("specimen_no", number, (1, limits.SPECIMENS_MOST))),
        "design_id": (known or newest).design_id,
        "same_maker": same_maker,
    }
    stamped = Sent(
        entry_id=sent.entry_id, tablet_time=sent.tablet_time, age_s=sent.age_s, reason=_words("reason", reason, 80)
    )
    entry = record(database, specimens.Specimen, target=target, values=values, sent=stamped, sender=sender, at=at)
    return Answer(database=database, target=target, entry=entry)


def _specimen(database: Database, target: Target, specimen_id: str | None, model: Any, sent: Sent) -> str:
    """The cord meant: the one named, if it is this bench's; else that of the same entry sent before, or the newest."""
    bench_id = target.bench_id or ""
    with database.reading() as session:
        if specimen_id:
            found = session.get(specimens.Specimen, specimen_id)
        else:
            before = entries.find_entry(session, model, sent.entry_id)
            sent_for = session.get(specimens.Specimen, before.specimen_id) if before and before.specimen_id else None
            found = sent_for if sent_for and sent_for.bench_id == bench_id else specimens.newest(session, bench_id)
    if found is None or found.bench_id != bench_id:
        raise NotFound("That cord is not here yet. The entry is kept and sent again.")
    return found.entry_id


def _scale_unit(database: Database, target: Target) -> str:
    with database.reading() as session:
        return session.get_one(benches.Bench, target.bench_id).scale_unit


def _words(field: str, words: str | None, most: int) -> str | None:
    tidy = (words or "").strip()
    if len(tidy) > most:
        raise fault(field, f"At most {most} characters.")
    if "\x00" in tidy:
        raise fault(field, "There is a sign in it that can't be kept. Type the words again.")
    return tidy or None


def _entry(
    database: Database,
    model: Any,
    *,
    target: Target,
    values: dict[str, Any],
    sent: Sent,
    sender: Sender,
    at: datetime,
) -> Recorded:
    said = Sent(
        entry_id=sent.entry_id,
        tablet_time=sent.tablet_time,
        age_s=sent.age_s,
        replaces=sent.replaces,
        reason=check_reason(sent.reason),
    )
    return record(database, model, target=target, values=values, sent=said, sender=sender, at=at)


def _plain(database: Database, model: Any, *, target: Target, **entry: Any) -> Answer:
    return Answer(database=database, target=target, entry=_entry(database, model, target=target, **entry))
