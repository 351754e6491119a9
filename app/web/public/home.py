"""The first page, and how a tablet takes a bench: by a slip code, its QR, or the lesson key and a free bench."""

from collections.abc import Callable
from typing import Any

from flask import redirect, render_template, request, url_for

from app.domain.errors import BenchTaken, InUse, LessonOver, NotFound, Refusal, UnknownCode
from app.domain.naming import tidy_code
from app.services import joining, seeding, teachers
from app.services.joining import Offer
from app.web.access import for_anyone
from app.web.current import address_hash, database, hold_bench_here, now, who
from app.web.public.blueprint import bp
from app.web.typed import shown_again

_LOOPBACK = ("127.0.0.1", "localhost", "[::1]")
_ANSWERED = (UnknownCode, LessonOver, BenchTaken, NotFound, InUse)
"""Refusals of a code that are told beside its field."""


@bp.get("/")
@for_anyone
def home() -> str:
    """The first page: a bench's door, the teacher's door."""
    asker = who()
    nearby = None if request.host.rsplit(":", 1)[0] in _LOOPBACK else request.host_url.rstrip("/")
    bench = asker.tablet.bench.capitalize() if asker.tablet else None
    demo = seeding.front_code_to_show(database())
    return render_template("public/home.html", bench=bench, teacher=asker.teacher, nearby=nearby, demo=demo)


@bp.get("/join")
@for_anyone
def join() -> str:
    """The page that takes a slip code or a lesson key."""
    return _join_page()


@bp.post("/join")
@for_anyone
def take_by_code() -> Any:
    """The bench of the code is this tablet's; a lesson key alone shows its free benches."""
    code, bench = request.form.get("code", ""), request.form.get("bench", "")
    if len(tidy_code(code)) > 50 or shown_again(code + bench) != code + bench:
        wrong = "That is no code. A code has three letters or digits, then three."
        return _join_page(code=shown_again(code)[:50], wrong=wrong), 422
    try:
        offer = _tried(lambda: joining.what_opens(database(), code))
        if offer.bench is None and not bench:
            return redirect(url_for("public.slip", code=tidy_code(code)), 303)
        _take(code, bench or None)
    except _ANSWERED as refusal:
        return _refused(refusal, code, bench)
    return redirect(url_for("bench.page"), 303)


@bp.get("/slip/<code>")
@for_anyone
def slip(code: str) -> Any:
    """What a code opens: the bench of a slip, with the question whether to take it; a lesson key's free benches."""
    try:
        offer = _tried(lambda: joining.what_opens(database(), code))
    except _ANSWERED as refusal:
        return _refused(refusal, code, "")
    if offer.bench is None:
        return _join_page(key=code, offer=offer)
    holds = who().tablet is not None and who().tablet.bench_id == offer.bench.id  # type: ignore[union-attr]
    design = offer.lesson.design(offer.bench.design_id)
    return render_template("public/slip.html", offer=offer, design=design, code=code, holds=holds)


@bp.post("/slip/<code>")
@for_anyone
def take_by_slip(code: str) -> Any:
    """The bench of the slip is this tablet's, and this tablet writes."""
    try:
        _tried(lambda: joining.what_opens(database(), code))
        _take(code, None)
    except _ANSWERED as refusal:
        return _refused(refusal, code, "")
    return redirect(url_for("bench.page"), 303)


def _tried(look_up: Callable[[], Offer]) -> Offer:
    """What the code opens; a wrong one is counted against the address that it came from."""
    from_there = address_hash()
    teachers.check_tries(database(), teachers.CODES, from_there, at=now())
    try:
        return look_up()
    except UnknownCode:
        teachers.note_failure(database(), teachers.CODES, from_there, at=now())
        raise


def _take(code: str, bench: str | None) -> None:
    """The bench is held here; a tablet that holds it already carries on, so a second press takes no second place."""
    offer = joining.what_opens(database(), code)
    wanted = offer.bench or offer.lesson.bench(bench or "")
    held = who().tablet
    if held and wanted and held.bench_id == wanted.id:
        joining.carry_on(database(), held, at=now())
        return
    joined = joining.take_bench(database(), code, bench=bench, at=now())
    if held:
        joining.leave(database(), held, at=now())
    hold_bench_here(joined)


def _refused(refusal: Refusal, code: str, bench: str) -> Any:
    """The join page with the sentence beside the field that it is about, what was typed kept."""
    if bench and not isinstance(refusal, UnknownCode | LessonOver):
        return _join_page(key=code, offer=joining.what_opens(database(), code), taken=refusal.sentence), 422
    return _join_page(code=code, wrong=refusal.sentence), 422


def _join_page(*, code: str = "", wrong: str = "", key: str = "", offer: Offer | None = None, taken: str = "") -> str:
    return render_template("public/join.html", code=code, wrong=wrong, key=key, offer=offer, taken=taken)
