"""A plan is mended: single columns, or whole lists of designs, rungs, benches, variables and materials."""

from collections.abc import Callable, Iterable, Mapping, Sequence, Set
from dataclasses import asdict, dataclass, replace
from datetime import date, datetime
from typing import Any

from app.domain.errors import InUse, InvalidEntry, LessonOver, NotFound, Stale, fault
from app.domain.plan import BenchPlan, LessonPlan, check_plan, column_faults, seated
from app.domain.records import (
    BenchRecord,
    DesignRecord,
    LessonRecord,
    MaterialRecord,
    RungRecord,
    SpecimenRecord,
    VariableRecord,
)
from app.services.gravity import where_from
from app.services.lessons import add_bench, lesson_record, plan_as_it_is
from app.store import benches, feed, lessons
from app.store.database import Database, Session
from app.store.designs import Design, Rung, ids_by_letter
from app.store.snapshot import snapshot
from app.store.specimens import Specimen


@dataclass(frozen=True, kw_only=True)
class PlanChanges:
    """What is to be changed of a plan; a list that is None stays as it is."""

    lesson: Mapping[str, Any]
    designs: Sequence[DesignRecord] | None = None
    rungs: Sequence[RungRecord] | None = None
    benches: Sequence[BenchPlan] | None = None
    variables: Sequence[VariableRecord] | None = None
    materials: Sequence[MaterialRecord] | None = None

    @property
    def of_plan(self) -> bool:
        """Whether more than the teacher's notes would change: those are written when the lesson is over too."""
        lists = (self.designs, self.rungs, self.benches, self.variables, self.materials)
        return any(one is not None for one in lists) or not set(self.lesson) <= {"notes"}


def mend_plan(
    database: Database, lesson_id: str, changes: PlanChanges, *, at: datetime, if_head: int | None = None
) -> int:
    """The plan is as asked; the lesson's new head is returned.

    Raises Stale when `if_head` is not the lesson's head, InUse when a design, rung or bench with entries would go.
    """
    with database.transaction() as session:
        number = feed.take_number(session, lesson_id)
        before = snapshot(session, lesson_id)
        if before is None or before.deleted_at is not None:
            raise NotFound("There is no such lesson.")
        if before.shelved_at is not None or (before.over and changes.of_plan):
            raise LessonOver("This lesson is over or on the shelf: take it off, or out of its last stage, first.")
        if if_head is not None and number.head != if_head + 1:
            raise Stale("Someone changed this lesson meanwhile. Look at it again, then change it.")
        if changes.benches is not None:
            changes = replace(changes, benches=_with_places(before, changes))
        _refuse_gone(before, changes)
        _check(before, changes)
        changes = replace(changes, lesson=where_from(before, changes.lesson))
        row = session.get_one(lessons.Lesson, lesson_id)
        old = {name: getattr(row, name) for name in changes.lesson}
        for name, value in changes.lesson.items():
            setattr(row, name, value)
        _Lists(session, before, number.head, at).mend(changes)
        feed.append(
            session,
            number,
            lesson_id=lesson_id,
            at=at,
            kind="lesson",
            about_id=lesson_id,
            by="teacher",
            before=_json(old),
            after=_json(changes.lesson),
        )
        return number.head


def _with_places(lesson: LessonRecord, changes: PlanChanges) -> Sequence[BenchPlan]:
    """The benches asked for, each with a word and a design: what a new one lacks it gets as in a new lesson."""
    here = {bench.address: lesson.design(bench.design_id).letter for bench in lesson.benches}
    asked = [
        replace(bench, design=bench.design or here.get((bench.word or "").lower())) for bench in changes.benches or ()
    ]
    designs = lesson.designs if changes.designs is None else changes.designs
    plan = LessonPlan(lesson={}, designs=designs, rungs=(), benches=asked)
    return seated(plan, lesson.allocation_seed or 0)


def share_benches_out(database: Database, lesson_id: str, *, seed: int, at: datetime) -> int:
    """Every bench that has no entry yet has a design by that seed; the lesson's new head is returned."""
    lesson = lesson_record(database, lesson_id)
    plan = plan_as_it_is(lesson)
    kept = {bench.word for bench in lesson.benches if used(bench)}
    open_benches = [
        bench if bench.word in kept else BenchPlan(**{**asdict(bench), "design": None}) for bench in plan.benches
    ]
    shared = seated(LessonPlan(**{**_shallow(plan), "benches": open_benches}), seed)
    changes = PlanChanges(lesson={"allocation_seed": seed}, benches=shared)
    return mend_plan(database, lesson_id, changes, at=at)


def _shallow(plan: LessonPlan) -> dict[str, Any]:
    return {name: getattr(plan, name) for name in ("lesson", "designs", "rungs", "benches", "variables", "materials")}


def _check(lesson: LessonRecord, changes: PlanChanges) -> None:
    faults = column_faults(changes.lesson)
    if faults:
        raise InvalidEntry(faults[0].words, faults=tuple(faults))
    if "title" in changes.lesson and not str(changes.lesson["title"]).strip():
        raise fault("title", "Give the lesson a title, so that you find it again.")
    whole = _shallow(plan_as_it_is(lesson))
    said = {name: getattr(changes, name) for name in whole if name != "lesson" and getattr(changes, name) is not None}
    check_plan(LessonPlan(**{**whole, **said}))


def _json(columns: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value.isoformat() if isinstance(value, date) else value for name, value in columns.items()}


def used(bench: BenchRecord) -> bool:
    """Whether anything was ever sent for the bench."""
    return bool(
        bench.measures
        or bench.predictions
        or bench.sentences
        or len(bench.specimens) > 1
        or any(one.readings or one.measures or one.events or one.endings for one in bench.specimens)
    )


def _in_use(lesson: LessonRecord, bench: BenchRecord) -> bool:
    """Whether something of the lesson would be lost with the bench: its entries, its own weighings, what was ruled."""
    cords = {specimen.entry_id for specimen in bench.specimens}
    weighed = any(weighing.bench_id == bench.id for weighing in lesson.weighings)
    return used(bench) or weighed or any(ruling.about_id in cords for ruling in lesson.rulings)


def _refuse_gone(lesson: LessonRecord, changes: PlanChanges) -> None:
    """Nothing, or InUse with the rung, design or bench that is in use and would go."""
    if changes.rungs is not None:
        _keep("rung", _marks_hung(lesson), {rung.mark for rung in changes.rungs})
    if changes.designs is not None:
        _keep("design", _letters_in_use(lesson, changes), {design.letter for design in changes.designs})
    if changes.benches is not None:
        here = [bench.word for bench in lesson.benches if _in_use(lesson, bench)]
        asked = {(plan.word or "").lower() for plan in changes.benches}
        _keep("bench", here, {word for word in here if word.lower() in asked})


def _keep(what: str, used_ones: Iterable[Any], wanted: Set[Any]) -> None:
    gone = [one for one in used_ones if one not in wanted]
    if gone:
        raise InUse(f"The {what} {gone[0]} is in use: it can be changed, not taken away.")


def _marks_hung(lesson: LessonRecord) -> Iterable[int]:
    cords = (specimen for bench in lesson.benches for specimen in bench.specimens)
    return range(1, max((reading.step for cord in cords for reading in cord.readings), default=0) + 1)


def _letters_in_use(lesson: LessonRecord, changes: PlanChanges) -> Iterable[str]:
    """The designs of benches that are not seated anew, of cords that hung, and of what benches expected."""
    ids: set[str] = set()
    for bench in lesson.benches:
        if changes.benches is None:
            ids.add(bench.design_id)
        ids |= {cord.design_id for cord in bench.specimens if changes.benches is None or _hung(cord)}
        ids |= {guess.best_design_id for guess in bench.predictions if guess.best_design_id}
    return sorted(lesson.design(design_id).letter for design_id in ids)


def _hung(cord: SpecimenRecord) -> bool:
    return bool(cord.readings or cord.endings)


class _Lists:
    """The lists of one plan, mended row by row: what is named stays and changes, what is new comes, the rest goes."""

    def __init__(self, session: Session, lesson: LessonRecord, n: int, at: datetime) -> None:
        self._session = session
        self._lesson = lesson
        self._n = n
        self._at = at

    def mend(self, changes: PlanChanges) -> None:
        if changes.materials is not None:
            self._put(lessons.Material, changes.materials)
        if changes.variables is not None:
            self._replace(lessons.Variable, self._lesson.variables, changes.variables, key=lambda one: one.id)
        if changes.rungs is not None:
            self._replace(Rung, self._lesson.rungs, changes.rungs, key=lambda rung: rung.mark)
        if changes.designs is not None:
            self._put(Design, self._with_own_ids(changes.designs))
        if changes.benches is not None:
            self._benches(changes.benches)
        # What goes, goes last: a bench has to let go of its design first, a design of its material.
        if changes.designs is not None:
            self._drop(Design, self._lesson.designs, self._with_own_ids(changes.designs), key=lambda one: one.id)
        if changes.materials is not None:
            self._drop(lessons.Material, self._lesson.materials, changes.materials, key=lambda one: one.id)

    def _replace(self, model: Any, before: Iterable[Any], after: Sequence[Any], *, key: Callable[[Any], Any]) -> None:
        self._drop(model, before, after, key=key)
        self._put(model, after)

    def _drop(self, model: Any, before: Iterable[Any], after: Sequence[Any], *, key: Callable[[Any], Any]) -> None:
        wanted = {key(one) for one in after}
        for one in before:
            if key(one) not in wanted:
                self._session.delete(self._row(model, key(one)))
        self._session.flush()

    def _put(self, model: Any, after: Sequence[Any]) -> None:
        for one in after:
            self._session.merge(model(lesson_id=self._lesson.id, **asdict(one)))
        self._session.flush()

    def _row(self, model: Any, key: Any) -> Any:
        return self._session.get_one(model, (self._lesson.id, key) if model is Rung else key)

    def _with_own_ids(self, designs: Sequence[DesignRecord]) -> Sequence[DesignRecord]:
        ids = {design.letter: design.id for design in self._lesson.designs}
        return [replace(one, id=ids.get(one.letter, one.id)) for one in designs]

    def _benches(self, plans: Sequence[BenchPlan]) -> None:
        before = {bench.word.lower(): bench for bench in self._lesson.benches}
        wanted = [(plan.word or "").lower() for plan in plans]
        for word in before.keys() - set(wanted):
            self._remove(before[word])
        for place, plan in enumerate(plans):
            known = before.get((plan.word or "").lower())
            if known is None:
                add_bench(self._session, self._lesson.id, plan, place=place, n=self._n, at=self._at)
            else:
                self._seat(known, plan, place)

    def _remove(self, bench: BenchRecord) -> None:
        for specimen in bench.specimens:
            self._session.delete(self._session.get_one(Specimen, specimen.entry_id))
        self._session.flush()
        benches.forget(self._session, bench.id)
        if self._lesson.front_bench_id == bench.id:
            self._session.get_one(lessons.Lesson, self._lesson.id).front_bench_id = None

    def _seat(self, bench: BenchRecord, plan: BenchPlan, place: int) -> None:
        row = self._session.get_one(benches.Bench, bench.id)
        row.place = place
        row.kind = plan.kind
        row.scale_unit = plan.scale_unit
        row.scale_division_mm = plan.scale_division_mm
        row.scale_way = plan.scale_way
        if plan.design is not None:
            self._give_design(row, bench, plan.design)

    def _give_design(self, row: benches.Bench, bench: BenchRecord, letter: str) -> None:
        design_id = ids_by_letter(self._session, self._lesson.id)[letter]
        row.design_id = design_id
        for specimen in bench.specimens:
            if not _hung(specimen):
                self._session.get_one(Specimen, specimen.entry_id).design_id = design_id
