"""Test: the lead bench, and one bench as the teacher sees it."""

from typing import Any

from flask import Blueprint, redirect, render_template, request, url_for

from app.domain.errors import NotFound, Refusal
from app.services import running, seeding
from app.services.lessons import lesson_record
from app.web.access import for_teacher
from app.web.bench.entries import Bench
from app.web.bench.routes import NOUNS
from app.web.current import database, now, own_door, teachers_target
from app.web.errors import PROBLEMS
from app.web.lead.lead_view import bench_view, lead_view
from app.web.lead.stage_form import Form, stage_asked

bp = Blueprint("running", __name__)

PARTS = {
    "command": "parts/lead_command.html",
    "pace": "parts/pace_strip.html",
    "settle": "parts/settle.html",
    "whole": "parts/whole_class.html",
}
BACK = {
    "lead": "running.lead",
    "graph": "graph.graph",
    "front": "front.screen",
    "keep": "graph.keep",
}


@bp.get("/lessons/<lesson_id>/lead")
@for_teacher
def lead(lesson_id: str) -> Any:
    """The lead bench, or one part of it made again."""
    own_door(lesson_id)
    view = lead_view(lesson_record(database(), lesson_id), at=now())
    part = request.args.get("part")
    if part is not None and part not in PARTS:
        raise NotFound("This page has no such part.")
    return render_template(PARTS[part] if part else "lead/lead.html", view=view, lesson=view.lesson)


@bp.post("/lessons/<lesson_id>/stage")
@for_teacher
def stage(lesson_id: str) -> Any:
    """The lesson goes on as the button said, and the page that asked is shown again."""
    own_door(lesson_id)
    running.set_stage(database(), lesson_id, stage_asked(request.form), at=now())
    return redirect(back_to(lesson_id, request.form), code=303)


def back_to(lesson_id: str, form: Form) -> str:
    """The address of the page that a button stood on; a bench's own, if it names one."""
    bench = form.get("back_bench", "")
    if bench:
        return url_for("running.one_bench", lesson_id=lesson_id, bench=bench)
    return url_for(BACK.get(form.get("back", ""), "running.lead"), lesson_id=lesson_id)


@bp.post("/lessons/<lesson_id>/play")
@for_teacher
def play(lesson_id: str) -> Any:
    """One invented bench of the demo lesson has taken its next reading."""
    own_door(lesson_id)
    seeding.play_one(database(), lesson_id, at=now())
    return redirect(url_for("running.lead", lesson_id=lesson_id), code=303)


@bp.get("/lessons/<lesson_id>/lead/<bench>")
@for_teacher
def one_bench(lesson_id: str, bench: str) -> Any:
    """One bench: its cords, its readings, and what the teacher may do about them."""
    own_door(lesson_id)
    return _bench_page(lesson_id, bench, about=request.args.get("about", ""))


@bp.post("/lessons/<lesson_id>/lead/<bench>/<noun>")
@for_teacher
def entry(lesson_id: str, bench: str, noun: str) -> Any:
    """The entry is recorded as the teacher's; a fault is shown beside its field, with what was typed."""
    if noun not in NOUNS:
        raise NotFound("There is no such form.")
    target, sender = teachers_target(lesson_id, bench)
    try:
        NOUNS[noun](Bench(database=database(), target=target, sender=sender, at=now()))
    except NotFound:
        raise
    except Refusal as refusal:
        about = request.form.get("replaces") or request.form.get("about", "")
        return _bench_page(lesson_id, bench, about=about, noun=noun, refusal=refusal)
    return redirect(back_to(lesson_id, request.form), code=303)


@bp.post("/lessons/<lesson_id>/lead/<bench>/bench")
@for_teacher
def change_bench(lesson_id: str, bench: str) -> Any:
    """The bench has another design, or is open again, or closed again."""
    own_door(lesson_id)
    lesson = lesson_record(database(), lesson_id)
    found = lesson.bench(bench)
    if found is None:
        raise NotFound("This lesson has no bench of that word.")
    asked: dict[str, Any] = {}
    if request.form.get("design"):
        asked["design"] = request.form["design"]
    if "open_again" in request.form:
        asked["open_again"] = request.form["open_again"] == "true"
    try:
        running.change_bench(database(), lesson, found, asked, at=now())
    except Refusal as refusal:
        return _bench_page(lesson_id, bench, noun="bench", refusal=refusal)
    return redirect(url_for("running.one_bench", lesson_id=lesson_id, bench=found.address), code=303)


def _bench_page(lesson_id: str, bench: str, *, about: str = "", noun: str = "", refusal: Refusal | None = None) -> Any:
    view = bench_view(lesson_record(database(), lesson_id), bench, about=about, noun=noun, refusal=refusal)
    page = render_template("lead/one_bench.html", view=view, lesson=view.lesson)
    return page, PROBLEMS[refusal.problem][0] if refusal else 200
