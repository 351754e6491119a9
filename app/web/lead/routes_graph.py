"""Discuss and Keep: the class graph and the class CSV."""

import re
import unicodedata
from typing import Any

from flask import Blueprint, Response, redirect, render_template, request, url_for

from app.domain.errors import InvalidEntry, NotFound, NotOpened
from app.domain.records import LessonRecord
from app.services.files import class_csv as csv_of
from app.services.lessons import door
from app.services.planning import PlanChanges, mend_plan
from app.web.access import for_some, for_teacher
from app.web.current import database, now, own_door, readable_door, seen, signed_in, who
from app.web.lead.designs_view import designs_view
from app.web.lead.graph_view import graph_view

bp = Blueprint("graph", __name__)

DESIGN_PARTS = {"figures": "parts/design_figures.html", "worked-out": "parts/design_asked.html"}
PARTS = {"twin": "parts/graph_twin.html", "views": "parts/graph_views.html", "front-keys": "parts/front_keys.html"}


@bp.get("/lessons/<lesson_id>/graph")
@for_some("teacher", "bench")
def graph(lesson_id: str) -> Any:
    """The class graph and its table: for the teacher, and for the lesson's benches while the teacher opened it."""
    teacher = who().teacher
    if teacher:
        mine = readable_door(lesson_id).teacher_id == teacher.teacher_id
    else:
        _check_opened(lesson_id)
        mine = False
    view = graph_view(seen(lesson_id), request.args, mine=mine, teacher=teacher is not None)
    part = request.args.get("part")
    if part is not None and part not in PARTS:
        raise NotFound("This page has no such part.")
    return render_template(PARTS[part] if part else "lead/graph.html", view=view, lesson=view.lesson)


@bp.get("/lessons/<lesson_id>/designs")
@for_teacher
def designs(lesson_id: str) -> Any:
    """The figures by cord and by design, and what may be said of two designs; or one part of the page made again."""
    mine = readable_door(lesson_id).teacher_id == signed_in().teacher_id
    part = request.args.get("part")
    if part is not None and part not in DESIGN_PARTS:
        raise NotFound("This page has no such part.")
    view = designs_view(seen(lesson_id), request.args, mine=mine)
    return render_template(DESIGN_PARTS[part] if part else "lead/designs.html", view=view, lesson=view.lesson)


def _check_opened(lesson_id: str) -> None:
    tablet = who().tablet
    if tablet is None or tablet.lesson_id != lesson_id:
        raise NotFound("There is no such lesson.")
    if not door(database(), lesson_id=lesson_id).graph_open:
        raise NotOpened("Your teacher has not opened the class graph yet. Your own curve is on your bench page.")


@bp.get("/lessons/<lesson_id>/class.csv")
@for_teacher
def class_csv(lesson_id: str) -> Response:
    """The class CSV, to be saved."""
    readable_door(lesson_id)
    found = seen(lesson_id)
    answer = Response(csv_of(found.picture), mimetype="text/csv")
    answer.headers["Content-Disposition"] = f'attachment; filename="{file_name(found.lesson)}.csv"'
    return answer


def file_name(lesson: LessonRecord) -> str:
    """The title and the date of a lesson as a file may be called everywhere."""
    plain = unicodedata.normalize("NFKD", lesson.title).encode("ascii", "ignore").decode()
    slug = re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")[:60] or "lesson"
    return f"{slug}-{lesson.planned_on.isoformat()}" if lesson.planned_on else slug


@bp.get("/lessons/<lesson_id>/keep")
@for_teacher
def keep(lesson_id: str) -> Any:
    """What stays of the lesson: notes, files, the shelf."""
    own_door(lesson_id)
    return _keep_page(lesson_id)


@bp.post("/lessons/<lesson_id>/keep")
@for_teacher
def save_notes(lesson_id: str) -> Any:
    """The notes to self are kept as typed."""
    own_door(lesson_id)
    notes = request.form.get("notes", "").replace("\r\n", "\n").strip()
    if "\x00" in notes:
        wrong = "There was a sign in it that can't be kept. Look at it, then save it again."
        return _keep_page(lesson_id, notes=notes.replace("\x00", ""), wrong=wrong), 422
    try:
        mend_plan(database(), lesson_id, PlanChanges(lesson={"notes": notes}), at=now())
    except InvalidEntry as refusal:
        return _keep_page(lesson_id, notes=notes, wrong=refusal.sentence), 422
    return redirect(url_for("graph.keep", lesson_id=lesson_id), code=303)


def _keep_page(lesson_id: str, *, notes: str | None = None, wrong: str = "") -> str:
    view = graph_view(seen(lesson_id), {}, mine=True, teacher=True)
    return render_template(
        "lead/keep.html",
        view=view,
        lesson=view.lesson,
        notes=view.lesson.notes if notes is None else notes,
        wrong=wrong,
    )
