"""The bench page and its forms."""

from collections.abc import Callable, Mapping
from typing import Any

from flask import Blueprint, redirect, request, session, url_for

from app.domain.errors import EntryReused, InUse, InvalidEntry, LessonOver, MassesDown, NotFound, NotThisBench, Refusal
from app.services import joining
from app.web.access import for_bench
from app.web.bench import entries
from app.web.bench.entries import Bench, bench_of
from app.web.bench.printing import printed
from app.web.bench.view import PANELS, Asked
from app.web.current import database, now, tablet_here
from app.web.typed import form_again, shown_again

bp = Blueprint("bench", __name__)

NOUNS: Mapping[str, Callable[[Bench], None]] = {
    "readings": entries.record_reading,
    "events": entries.record_events,
    "endings": entries.record_ending,
    "measures": entries.record_measures,
    "specimens": entries.record_cord,
    "rulings": entries.record_ruling,
    "ticks": entries.record_ticks,
}
_STATUS: Mapping[type[Refusal], int] = {
    InvalidEntry: 422,
    NotThisBench: 403,
    NotFound: 404,
    EntryReused: 409,
    MassesDown: 409,
    LessonOver: 409,
    InUse: 409,
}
"""Refusals that are answered with the page itself: the sentence on it, what was typed kept."""


PARTS = {"worked": "parts/bench_worked.html"}


def _bench() -> Bench:
    return bench_of(database(), tablet_here(), now())


@bp.get("/bench")
@for_bench
def page() -> str:
    """The bench page as the bench stands, or one part of it made again."""
    said = request.args
    part = said.get("part")
    if part is not None and part not in PARTS:
        raise NotFound("This page has no such part.")
    panel = said.get("show", "")
    asked = Asked(
        panel=panel if panel in PANELS else "",
        about=said.get("about", ""),
        hung=said.get("hung", ""),
        typed={"pointer_typed": shown_again(said.get("typed", ""))},
    )
    return printed(_bench(), asked, template=PARTS[part] if part else "bench/page.html")


@bp.post("/bench/<noun>")
@for_bench
def enter(noun: str) -> Any:
    """What the form says is stored, then the page again; or the page with a sentence, what was typed kept."""
    if noun not in NOUNS:
        raise NotFound("There is no such form.")
    bench = _bench()
    try:
        NOUNS[noun](bench)
    except tuple(_STATUS) as refusal:
        return printed(bench, _refused(refusal)), _STATUS[type(refusal)]
    typed = request.form.get("pointer_typed", "") if noun in ("events", "measures", "ticks") else ""
    return redirect(url_for("bench.page", typed=typed[:20] or None), 303)


def _refused(refusal: Refusal) -> Asked:
    """The page that a refused form is answered with: its own panel, what was typed, the sentence beside its field."""
    beside = {fault.field: fault.words for fault in refusal.faults}
    panel = request.form.get("panel", "")
    return Asked(
        panel=panel if panel in PANELS else "",
        about=request.form.get("replaces", "") or request.form.get("about", ""),
        hung=request.form.get("hung", "")[:2],
        typed=form_again(request.form.items(multi=True)),
        ticked=request.form.getlist("kind"),
        faults=beside,
        notice=_notice(refusal),
    )


def _notice(refusal: Refusal) -> str:
    if isinstance(refusal, EntryReused):
        return "That page was used before: its number is saved. Look at the readings, then type again if you need to."
    return "" if isinstance(refusal, InvalidEntry) else refusal.sentence


@bp.post("/bench/carry-on")
@for_bench
def carry_on() -> Any:
    """This tablet writes for the bench; its others look on."""
    joining.carry_on(database(), tablet_here(), at=now())
    return redirect(url_for("bench.page"), 303)


@bp.post("/bench/leave")
@for_bench
def leave() -> Any:
    """This tablet holds the bench no more."""
    joining.leave(database(), tablet_here(), at=now())
    session.pop("tablet", None)
    return redirect(url_for("public.join"), 303)
