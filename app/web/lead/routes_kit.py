"""Prepare, further on: benches swapped or renamed, the ladder rung by rung, the balance check."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from flask import flash, redirect, render_template, request, url_for

from app.domain.errors import InUse, InvalidEntry, LessonOver
from app.domain.records import BenchRecord, LessonRecord
from app.services.balance import LOOK_PERCENT, BalanceLine, balance_lines, save_weighings, weighed
from app.services.class_power import MEASURED, RATIOS, class_power
from app.services.designing import shared_by_seed
from app.services.expecting import ladder_plan
from app.services.lessons import slip_codes
from app.services.planning import PlanChanges, mend_plan
from app.services.seating import seat_benches
from app.web.access import for_teacher
from app.web.current import database, now, own_lesson
from app.web.lead import plan_words, sheet_words
from app.web.lead.forms_kit import (
    BalanceForm,
    BenchesForm,
    LadderForm,
    balance_form,
    balance_typed,
    benches_form,
    ladder_form,
    masses_said,
    planning_said,
    rungs_said,
    seats_said,
)
from app.web.lead.routes_sheet import bp, flash_saved, refuse_if_over

__all__ = ["bp"]


@bp.get("/lessons/<lesson_id>/sheet/benches")
@for_teacher
def benches(lesson_id: str) -> str:
    """The benches, each with its word, design and kind."""
    lesson = own_lesson(lesson_id)
    return _benches_page(lesson, benches_form(lesson))


@bp.post("/lessons/<lesson_id>/sheet/benches")
@for_teacher
def seat(lesson_id: str) -> Any:
    """Every bench is what was typed; or the page again, nothing lost."""
    lesson = own_lesson(lesson_id)
    form = benches_form(lesson, request.form)
    if not form.validate():
        return _benches_page(lesson, form), 422
    try:
        refuse_if_over(lesson)
        seat_benches(database(), lesson, seats_said(form), at=now())
    except (InvalidEntry, LessonOver) as refusal:
        return _benches_page(lesson, form, _beside_words(form, refusal)), 422
    flash_saved()
    return redirect(url_for("sheet.benches", lesson_id=lesson_id), 303)


def _beside_words(form: Any, refusal: InvalidEntry | LessonOver) -> list[str]:
    """The faults of benches stand beside their words; what belongs to no row is returned."""
    rows = {row["bench_id"].data: row["word"] for row in form.benches}
    for one in refusal.faults:
        if one.field in rows:
            rows[one.field].errors = [*rows[one.field].errors, one.words]
    return [] if refusal.faults else [refusal.sentence]


def _benches_page(lesson: LessonRecord, form: BenchesForm, sentences: Sequence[str] = ()) -> str:
    codes = slip_codes(database(), lesson.id)
    shared = shared_by_seed(lesson)
    return render_template(
        "lead/benches.html",
        lesson=lesson,
        form=form,
        sentences=sentences,
        codes=codes,
        shared=shared,
        power=class_power(lesson),
        measured=MEASURED,
        ratios=RATIOS,
        words=plan_words,
    )


@bp.get("/lessons/<lesson_id>/sheet/ladder")
@for_teacher
def ladder(lesson_id: str) -> str:
    """The ladder rung by rung."""
    lesson = own_lesson(lesson_id)
    return _ladder_page(lesson, ladder_form(lesson))


@bp.post("/lessons/<lesson_id>/sheet/ladder")
@for_teacher
def mend_ladder(lesson_id: str) -> Any:
    """The ladder is as typed, with one rung more or fewer when that was asked; or the page again, nothing lost."""
    lesson = own_lesson(lesson_id)
    form = LadderForm(request.form)
    if not form.validate():
        return _ladder_page(lesson, form), 422
    rungs = rungs_said(form)
    if request.form.get("do") == "more" and rungs:
        rungs.append(replace(rungs[-1], mark=len(rungs) + 1))
    elif request.form.get("do") == "fewer":
        rungs = rungs[:-1]
    planning = planning_said(lesson, form)
    columns = {} if planning == lesson.planning else {"planning": planning}
    try:
        mend_plan(database(), lesson_id, PlanChanges(lesson=columns, rungs=rungs), at=now())
    except (InvalidEntry, InUse, LessonOver) as refusal:
        return _ladder_page(lesson, form, [refusal.sentence]), 422
    flash_saved()
    return redirect(url_for("sheet.ladder", lesson_id=lesson_id), 303)


def _ladder_page(lesson: LessonRecord, form: LadderForm, sentences: Sequence[str] = ()) -> str:
    plan = ladder_plan(database(), lesson)
    return render_template(
        "lead/ladder.html", lesson=lesson, form=form, sentences=sentences, plan=plan, words=plan_words
    )


@bp.get("/lessons/<lesson_id>/sheet/weigh")
@for_teacher
def weigh(lesson_id: str) -> str:
    """The balance check of every tray, or of one bench's (`tray` in the address)."""
    lesson = own_lesson(lesson_id)
    tray = _tray(lesson)
    bench_id = tray.id if tray else None
    form = balance_form(balance_lines(lesson, bench_id), weighed(lesson, bench_id))
    return _weigh_page(lesson, tray, form)


@bp.post("/lessons/<lesson_id>/sheet/weigh")
@for_teacher
def save_weighed(lesson_id: str) -> Any:
    """What was weighed counts from now on; or the page again, nothing lost."""
    lesson = own_lesson(lesson_id)
    tray = _tray(lesson)
    bench_id = tray.id if tray else None
    lines = balance_lines(lesson, bench_id)
    form: Any = balance_typed(request.form, lines)
    if not form.validate() or _emptied(form, lines):
        return _weigh_page(lesson, tray, form), 422
    said, division_g, entry_id = masses_said(form, lines), form.balance_division_g.number, form.entry_id.entry_id
    try:
        marks = save_weighings(
            database(), lesson, said, bench_id=bench_id, division_g=division_g, entry_id=entry_id, at=now()
        )
    except (InvalidEntry, LessonOver) as refusal:
        return _weigh_page(lesson, tray, form, [refusal.sentence]), 422
    if marks:
        flash_saved()
    else:
        flash("Nothing new was weighed.")
    return redirect(url_for("sheet.weigh", lesson_id=lesson_id, tray=tray.address if tray else None), 303)


def _emptied(form: Any, lines: list[Any]) -> bool:
    """Whether a mass that was weighed before was wiped out; its blank says that it can't be."""
    wiped = [
        (line, row)
        for line, row in zip(lines, form.masses, strict=False)
        if line.balance_mass_g is not None and row.number is None
    ]
    for line, row in wiped:
        row.errors = [f"It was weighed before: {line.balance_mass_g:g} g. Type what the balance says now."]
    return bool(wiped)


def _tray(lesson: LessonRecord) -> BenchRecord | None:
    return lesson.bench(request.args.get("tray", ""))


def _said(line: BalanceLine) -> str:
    return str(line.mark) if line.mark else line.name


def _weigh_page(
    lesson: LessonRecord, tray: BenchRecord | None, form: BalanceForm, sentences: Sequence[str] = ()
) -> str:
    lines = balance_lines(lesson, tray.id if tray else None)
    every = weighed(lesson) if tray else {}
    blank = [line for line in lines if line.balance_mass_g is None and line.mark not in every]
    return render_template(
        "lead/weigh.html",
        lesson=lesson,
        tray=tray,
        form=form,
        lines=lines,
        sentences=sentences,
        every={mark: one.mass_g for mark, one in every.items()},
        by_label=sheet_words.numbered([_said(line) for line in blank if line.printed_mass_g is not None]),
        not_counted=sheet_words.numbered([_said(line) for line in blank if line.printed_mass_g is None]),
        rung_word=lesson.rungs[0].name if lesson.rungs else "rung",
        look_percent=LOOK_PERCENT,
    )
