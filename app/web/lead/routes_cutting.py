"""Prepare, strips: what the sheet gives, how much of it a cord takes."""

from collections.abc import Sequence
from typing import Any

from flask import redirect, render_template, request, url_for

from app.domain.errors import InvalidEntry, LessonOver
from app.domain.records import LessonRecord
from app.services.cutting import FILM_STRENGTHS, cords_of, knot_mm, save_cutting
from app.web.access import for_teacher
from app.web.current import database, now, own_lesson
from app.web.lead import plan_words
from app.web.lead.forms_cutting import CuttingForm, cutting_form, planning_said, sheet_said
from app.web.lead.routes_kit import bp
from app.web.lead.routes_sheet import flash_saved

__all__ = ["bp"]


@bp.get("/lessons/<lesson_id>/sheet/cutting")
@for_teacher
def cutting(lesson_id: str) -> str:
    """The sheet, and the strips and cords that it gives."""
    lesson = own_lesson(lesson_id)
    return _cutting_page(lesson, cutting_form(lesson))


@bp.post("/lessons/<lesson_id>/sheet/cutting")
@for_teacher
def plan_cutting(lesson_id: str) -> Any:
    """The sheet is as typed; or the page again, nothing lost."""
    lesson = own_lesson(lesson_id)
    form = CuttingForm(request.form)
    if not form.validate():
        return _cutting_page(lesson, form), 422
    try:
        save_cutting(database(), lesson, sheet=sheet_said(form), planning=planning_said(form), at=now())
    except (InvalidEntry, LessonOver) as refusal:
        return _cutting_page(lesson, form, [refusal.sentence]), 422
    flash_saved()
    return redirect(url_for("sheet.cutting", lesson_id=lesson_id), 303)


def _cutting_page(lesson: LessonRecord, form: CuttingForm, sentences: Sequence[str] = ()) -> str:
    knot, assumed = knot_mm(lesson)
    return render_template(
        "lead/cutting.html",
        lesson=lesson,
        form=form,
        sentences=sentences,
        cords=cords_of(lesson),
        knot_mm=knot,
        knot_assumed=assumed,
        films=FILM_STRENGTHS,
        words=plan_words,
    )
