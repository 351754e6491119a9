"""Prepare: the lesson sheet, and what it leads to."""

from collections.abc import Mapping, Sequence
from typing import Any

from flask import Blueprint, flash, redirect, render_template, request, url_for

from app.domain.errors import InUse, InvalidEntry, LessonOver
from app.domain.records import LessonRecord
from app.domain.star import moved, yardstick_of
from app.figures.rung_bars import rung_bars
from app.services.designing import add_design, new_seed, shared_by_seed, take_design_away
from app.services.following import following
from app.services.gravity import NAMED
from app.services.planning import share_benches_out
from app.services.running import set_stage
from app.services.sheet import save_sheet
from app.web.access import for_teacher
from app.web.current import database, now, own_lesson
from app.web.lead import sheet_words
from app.web.lead.forms import take_refusal
from app.web.lead.forms_sheet import SheetForm, filled, said, typed

bp = Blueprint("sheet", __name__)

THEN: Mapping[str, tuple[str, str | None]] = {
    "benches": ("sheet.benches", None),
    "cutting": ("sheet.cutting", None),
    "ladder": ("sheet.ladder", None),
    "slips": ("prints.paper", "bench-slips"),
    "weigh": ("sheet.weigh", None),
    "test": ("running.lead", None),
}
"""Where a button of the sheet may lead once everything is saved; for a thing to print, its name."""


@bp.get("/lessons/<lesson_id>/sheet")
@for_teacher
def sheet(lesson_id: str) -> str:
    """The lesson sheet as it stands, and what follows from it."""
    lesson = own_lesson(lesson_id)
    return sheet_page(lesson, filled(lesson))


@bp.post("/lessons/<lesson_id>/sheet")
@for_teacher
def save(lesson_id: str) -> Any:
    """The plan is as the sheet says, and then what its button asked is done; or the sheet again, nothing lost."""
    lesson = own_lesson(lesson_id)
    form = typed(request.form)
    if not form.validate():
        return sheet_page(lesson, form), 422
    try:
        save_sheet(database(), lesson, said(form), at=now())
        onwards = _then(own_lesson(lesson_id), request.form, rows=len(form.designs.entries))
    except (InvalidEntry, InUse, LessonOver) as refusal:
        return sheet_page(own_lesson(lesson_id), form, take_refusal(form, refusal)), 422
    return redirect(onwards, 303)


def _then(lesson: LessonRecord, asked: Mapping[str, str], *, rows: int) -> str:
    """What the pressed button asked beyond saving is done; where to go on."""
    if asked.get("then") in THEN:
        return _onwards(lesson, asked["then"])
    place = _mended(lesson, asked.get("do", ""), rows=rows)
    flash_saved()
    return place


def _onwards(lesson: LessonRecord, then: str) -> str:
    """Where that button leads; a lesson that was being prepared is tested from now on, if it leads to Test."""
    if then == "test" and lesson.stage == "preparing" and not lesson.over:
        set_stage(database(), lesson.id, {"stage": "testing"}, at=now())
    endpoint, name = THEN[then]
    return url_for(endpoint, lesson_id=lesson.id, name=name)


def _mended(lesson: LessonRecord, asked: str, *, rows: int) -> str:
    """The designs or their benches are as the button asked; where they stand on the sheet.

    A design is added to the `rows` that the form had: pressed twice, it comes once.
    """
    what, _, letter = asked.partition(" ")
    here = url_for("sheet.sheet", lesson_id=lesson.id)
    if what == "share":
        share_benches_out(database(), lesson.id, seed=new_seed(), at=now())
        return here + "#designs"
    if what == "add":
        if rows == len(lesson.designs):
            add_design(database(), lesson, at=now())
        return here + "#designs"
    if what == "drop":
        take_design_away(database(), lesson, letter, at=now())
        return here + "#designs"
    return here


def flash_saved() -> None:
    """The next page says when it was saved, by the time of day here."""
    moment = now().astimezone()
    flash(f"Saved {moment.hour}:{moment:%M}.")


def sheet_page(lesson: LessonRecord, form: SheetForm, sentences: Sequence[str] = ()) -> str:
    """The lesson sheet with that form in it."""
    follows = following(lesson)
    return render_template(
        "lead/sheet.html",
        lesson=lesson,
        form=form,
        sentences=sentences,
        follows=follows,
        words=sheet_words,
        conventions=NAMED,
        bars=rung_bars([rung.printed_mass_g for rung in lesson.rungs]),
        marks=_marks(lesson),
        shared=shared_by_seed(lesson),
    )


def _marks(lesson: LessonRecord) -> dict[str, tuple[str, ...]]:
    """By letter, what a design changes of the yardstick cord: its cells are underlined."""
    yardstick = yardstick_of(lesson.designs)
    return {design.letter: moved(design, yardstick) if yardstick else () for design in lesson.designs}


def refuse_if_over(lesson: LessonRecord) -> None:
    """Nothing, or LessonOver when the plan can't be changed any more."""
    if lesson.over:
        raise LessonOver("This lesson is over. Take it off the shelf, or out of its last stage, to change its plan.")
