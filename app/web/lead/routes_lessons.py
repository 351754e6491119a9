"""The list of open lessons; a new one; copy, delete, bring back."""

from typing import Any

from flask import Blueprint, flash, redirect, render_template, request, url_for

from app.domain.errors import InvalidEntry, NotFound
from app.services import lessons, running
from app.services.beginning import BACK_DAYS, Beginning, beginning, deleted_lessons, make_new_lesson
from app.services.shelf import listed
from app.web.access import for_teacher
from app.web.current import database, now, own_door, own_lesson, readable_door, signed_in
from app.web.lead.forms import new_entry_id, take_refusal
from app.web.lead.forms_lesson import CopyForm, NewLessonForm

bp = Blueprint("lessons", __name__)


@bp.get("/lessons")
@for_teacher
def open_lessons() -> str:
    """The teacher's open lessons, newest first, and what can be brought back."""
    teacher = signed_in()
    return render_template(
        "lead/lessons.html",
        teacher=teacher,
        listed=listed(database(), teacher.teacher_id, shelf=False),
        deleted=deleted_lessons(database(), teacher.teacher_id, at=now()),
        back_days=BACK_DAYS,
        new_entry_id=new_entry_id,
    )


@bp.get("/lessons/new")
@for_teacher
def new() -> str:
    """The few questions of a new lesson, with what the last one said."""
    begun = beginning(database(), signed_in().teacher_id)
    said = begun.plan.lesson
    form = NewLessonForm(
        data={
            "planned_on": now().astimezone().date().isoformat(),
            "year_band": said.get("year_band") or "",
            "question": said.get("question") or "",
            "bench_count": str(len(begun.plan.benches)),
            "entry_id": new_entry_id(),
        }
    )
    return _new_page(form, begun)


@bp.post("/lessons/new")
@for_teacher
def make() -> Any:
    """The lesson is there and its sheet opens; or the questions again, each fault beside its field."""
    teacher_id = signed_in().teacher_id
    form = NewLessonForm(request.form)
    begun = beginning(database(), teacher_id)
    if not form.validate():
        return _new_page(form, begun), 422
    lesson_id = form.entry_id.entry_id
    if _is_mine(lesson_id):
        return redirect(url_for("sheet.sheet", lesson_id=lesson_id), 303)
    try:
        make_new_lesson(database(), teacher_id, **_said(form), lesson_id=lesson_id, at=now())
    except InvalidEntry as refusal:
        return _new_page(form, begun, take_refusal(form, refusal)), 422
    return redirect(url_for("sheet.sheet", lesson_id=lesson_id), 303)


def _said(form: Any) -> dict[str, Any]:
    return {
        "title": form.title.data.strip(),
        "question": (form.question.data or "").strip(),
        "planned_on": form.planned_on.day,
        "year_band": (form.year_band.data or "").strip() or None,
        "bench_count": form.bench_count.number,
    }


def _new_page(form: NewLessonForm, begun: Beginning, sentences: list[str] | None = None) -> str:
    return render_template("lead/new.html", form=form, begun=begun, sentences=sentences or [])


def _is_mine(lesson_id: str) -> bool:
    try:
        own_door(lesson_id)
    except NotFound:
        return False
    return True


@bp.post("/lessons/<lesson_id>/copy")
@for_teacher
def copy(lesson_id: str) -> Any:
    """A new lesson by that one's plan, opened at its sheet."""
    readable_door(lesson_id)
    new_id = CopyForm(request.form).entry_id.entry_id
    if not _is_mine(new_id):
        lessons.copy_lesson(database(), signed_in().teacher_id, lesson_id, at=now(), new_id=new_id)
        flash("Copied without its readings, with new bench slips. Give it its own day.")
    return redirect(url_for("sheet.sheet", lesson_id=new_id), 303)


@bp.post("/lessons/<lesson_id>/delete")
@for_teacher
def delete(lesson_id: str) -> Any:
    """The lesson is out of sight, and the list says how to bring it back."""
    lesson = own_lesson(lesson_id)
    running.delete_lesson(database(), lesson_id, at=now())
    flash(f"Deleted: {lesson.title}. It can be brought back for {BACK_DAYS} days, below.")
    return redirect(url_for("lessons.open_lessons"), 303)


@bp.post("/lessons/<lesson_id>/bring-back")
@for_teacher
def bring_back(lesson_id: str) -> Any:
    """The deleted lesson is where it was."""
    own_door(lesson_id)
    running.bring_back(database(), lesson_id, at=now())
    flash("It is back where it was.")
    return redirect(url_for("lessons.open_lessons"), 303)
