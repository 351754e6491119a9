"""What the bench page's forms ask of the services: each function records what one form says."""

import uuid
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from flask import request

from app.domain import vocabulary
from app.domain.errors import InvalidEntry, fault
from app.services import readings, rulings
from app.services.bench_state import BenchState, state_of
from app.services.joining import TabletHere
from app.services.readings import EndingSeen, EventSeen, MeasureSeen, ReadingSeen
from app.services.recording import Sender, Sent, Target
from app.web.bench.forms import CordForm, EndingForm, EntryForm, EventForm, MeasureForm, ReadingForm, RulingForm, taken

TYPED = "typed."
"""Before a quantity's name in the set-up form."""
WITH_FAIL_STEP = ("broke_adding", "broke_waiting", "knot_undone", "touched_tray")
"""Endings of which the failing step says something; the form sends one with each."""


@dataclass(frozen=True, kw_only=True)
class Bench:
    """Where a form's entries go, who sends them, and when."""

    database: Any
    target: Target
    sender: Sender
    at: datetime

    @property
    def how(self) -> dict[str, Any]:
        """What every service asks beside the entry."""
        return {"sender": self.sender, "at": self.at}

    def state(self) -> BenchState:
        """The bench as it stands."""
        return state_of(self.database, self.target.lesson_id, self.target.bench_id or "")


def bench_of(database: Any, tablet: TabletHere, at: datetime) -> Bench:
    """The bench that a tablet holds."""
    target = Target(lesson_id=tablet.lesson_id, bench_id=tablet.bench_id)
    return Bench(database=database, target=target, sender=Sender(by="bench", tablet_id=tablet.tablet_id), at=at)


def record_reading(bench: Bench) -> None:
    """The reading is stored, and before it the measures and events that the same form told."""
    form = taken(ReadingForm)
    unit = form.pointer_unit.data or bench.state().bench.scale_unit
    readings.pointer_mm(form.pointer_typed.data or "", unit)
    if form.phase.data == "zero":
        _record_measures(bench, form)
        _record_ticks(bench)
    told = taken(EventForm) if request.form.getlist("kind") else None
    if told:
        _record_events(bench, told, request.form.getlist("kind"))
    seen = ReadingSeen(
        specimen_id=form.specimen_id.data,
        step=int(form.step.number or 0),
        phase=form.phase.data or "",
        turn=int(form.turn.number or 1),
        pointer_typed=form.pointer_typed.data or "",
        pointer_unit=unit,
        waited_s=form.waited_s.number,
    )
    readings.take_reading(bench.database, bench.target, seen, sent=form.sent(), **bench.how)


def record_events(bench: Bench) -> None:
    """Everything that was ticked under "Something happened?" is told."""
    kinds = request.form.getlist("kind")
    if not kinds:
        raise fault("kind", "Tick what happened, then save it.")
    _record_events(bench, taken(EventForm), kinds)


def _record_events(bench: Bench, form: EventForm, kinds: Iterable[str]) -> None:
    for kind in kinds:
        seen = EventSeen(
            specimen_id=form.specimen_id.data,
            step=None if form.step.number is None else int(form.step.number),
            after_reading=bool(form.after_reading.data),
            kind=kind,
            mark=int(form.mark.number) if form.mark.number is not None and kind == "other_mass" else None,
            words=form.words.data,
        )
        sent = (
            _beside(form, f"{kind} {seen.mark}") if len(request.form.getlist("kind")) > 1 or _rides() else form.sent()
        )
        readings.tell_event(bench.database, bench.target, seen, sent=sent, **bench.how)


def _rides() -> bool:
    """Whether events came along with a reading, which owns the form's entry id."""
    return "pointer_typed" in request.form and bool(request.form["pointer_typed"].strip())


def _beside(form: EntryForm, what: str) -> Sent:
    """The part of an entry that comes along with the form's own: its id follows from that one, so that a second
    press makes the same.
    """
    return Sent(entry_id=str(uuid.uuid5(uuid.UUID(form.own_id()), what)))


def record_ending(bench: Bench) -> None:
    """How the cord ended is stored."""
    form = taken(EndingForm)
    if not form.kind.data:
        raise fault("kind", "Say how it ended.")
    step = form.fail_step.number
    seen = EndingSeen(
        specimen_id=form.specimen_id.data,
        kind=form.kind.data,
        fail_step=int(step) if step is not None and form.kind.data in WITH_FAIL_STEP else None,
        hung_s=form.hung_s.number,
        place=form.place.data or None,
        look=form.look.data or None,
        from_top_knot_mm=form.from_top_knot_mm.number,
        remark=form.remark.data,
    )
    _record_ticks(bench)
    readings.tell_ending(bench.database, bench.target, seen, sent=form.sent(), **bench.how)


def record_measures(bench: Bench) -> None:
    """One measure by its API names, or every measure that the set-up form holds."""
    if "quantity" not in request.form:
        _record_measures(bench, taken(EntryForm))
        return
    form = taken(MeasureForm)
    seen = MeasureSeen(
        specimen_id=form.specimen_id.data,
        quantity=form.quantity.data or "",
        place=int(form.place.number or 1),
        typed=form.typed.data or "",
        unit=form.unit.data or "",
    )
    readings.take_measure(bench.database, bench.target, seen, sent=form.sent(), **bench.how)


def _record_measures(bench: Bench, form: EntryForm) -> None:
    """Measures of the set-up form that say something new; all are looked at before the first is stored."""
    fresh = dict(_said_anew(request.form))
    for quantity, typed in fresh.items():
        try:
            readings.measure_value(quantity, typed, vocabulary.QUANTITIES[quantity][1])
        except InvalidEntry as refusal:
            raise fault(TYPED + quantity, refusal.sentence) from refusal
    for quantity, typed in fresh.items():
        seen = MeasureSeen(
            specimen_id=form.specimen_id.data,
            quantity=quantity,
            typed=typed,
            unit=vocabulary.QUANTITIES[quantity][1],
        )
        sent = _beside(form, f"{quantity} {typed}")
        readings.take_measure(bench.database, bench.target, seen, sent=sent, **bench.how)


def _said_anew(form: Mapping[str, str]) -> Iterable[tuple[str, str]]:
    """Quantity and text of each field that is not blank and not as the page showed it."""
    for name, typed in form.items():
        quantity = name.removeprefix(TYPED)
        shown = form.get(f"shown.{quantity}", "")
        if name.startswith(TYPED) and quantity in vocabulary.QUANTITIES and typed.strip() not in ("", shown):
            yield quantity, typed.strip()


def record_ticks(bench: Bench) -> None:
    """One line of a list by its API names, or the whole list that the form holds."""
    if "what" in request.form and "on" in request.form:
        on = request.form["on"].lower() in ("true", "1", "on", "yes")
        _tick(bench, request.form["what"], on=on)
        return
    _record_ticks(bench)


def _record_ticks(bench: Bench) -> None:
    """Lines of the list that the form shows (`ticks`) are as ticked; those already so are left alone."""
    now = bench.state().bench.ticks
    for what in request.form.get("ticks", "").split():
        on = what in request.form.getlist("what")
        if now.get(what, False) != on:
            _tick(bench, what, on=on)


def _tick(bench: Bench, what: str, *, on: bool) -> None:
    rulings.tick(bench.database, bench.target, what=what, on=on, by=bench.sender.by, at=bench.at)


def record_ruling(bench: Bench) -> None:
    """The bench's word on what it saw: left out, put back, which counts, where it is straight, the answer to a note."""
    form = taken(RulingForm)
    if not form.about.data:
        raise fault("about", "Say what it is about.")
    rulings.rule(
        bench.database,
        bench.target,
        kind=form.kind.data or "",
        about=form.about.data,
        detail=form.detail_said(),
        sent=form.sent(),
        **bench.how,
    )


def record_cord(bench: Bench) -> None:
    """A fresh cord is under test."""
    form = taken(CordForm)
    same = {"true": True, "false": False}.get(form.same_maker.data or "")
    readings.fresh_cord(
        bench.database, bench.target, same_maker=same, reason=form.said(), sent=form.sent(), **bench.how
    )
