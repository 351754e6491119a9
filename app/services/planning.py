"""A plan is mended: single columns, or whole lists of designs, rungs, benches, variables and materials."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from datetime import date, datetime
from typing import Any

from app.domain.errors import InUse, InvalidEntry, LessonOver, Stale, fault
from app.domain.plan import BenchPlan, LessonPlan, check_plan, column_faults, seated
from app.domain.records import BenchRecord, DesignRecord, LessonRecord, MaterialRecord, RungRecord, VariableRecord
from app.services.lessons import add_bench, lesson_record, plan_of
from app.store import benches, feed, lessons
from app.store.database import Database, Session
from app.store.designs import Design, Rung
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


def mend_plan(
    database: Database, lesson_id: str, changes: PlanChanges, *, at: datetime, if_head: int | None = None
) -> int:
    """The plan is as asked; the lesson's new head is returned.

    Raises Stale when `if_head` is not the lesson's head, InUse when a design, rung or bench with entries would go.
    """
    before = lesson_record(database, lesson_id)
    if changes.benches is not None:
        changes = replace(changes, benches=_with_places(before, changes))
    _check(before, changes)
    with database.transaction() as session:
        number = feed.take_number(session, lesson_id)
        if number.stage == "over" or number.shelved_at is not None:
            raise LessonOver("This lesson is on the shelf. Take it off before you change its plan.")
        if if_head is not None and number.head != if_head + 1:
            raise Stale("Someone changed this lesson meanwhile. Look at it again, then change it.")
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
    plan = plan_of(lesson)
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
    whole = _shallow(plan_of(lesson))
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
            self._check_gone("rung", self._marks_hung(), [rung.mark for rung in changes.rungs])
            self._replace(Rung, self._lesson.rungs, changes.rungs, key=lambda rung: rung.mark)
        if changes.designs is not None:
            self._designs(changes.designs)
        if changes.benches is not None:
            self._benches(changes.benches)
        if changes.materials is not None:
            # Last, since a design has to let go of its material first.
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

    def _marks_hung(self) -> list[int]:
        steps = [
            reading.step
            for bench in self._lesson.benches
            for specimen in bench.specimens
            for reading in specimen.readings
        ]
        return list(range(1, max(steps, default=0) + 1))

    def _check_gone(self, what: str, used: Iterable[Any], wanted: Sequence[Any]) -> None:
        gone = [one for one in used if one not in wanted]
        if gone:
            raise InUse(f"The {what} {gone[0]} is in use: it can be changed, not taken away.")

    def _designs(self, designs: Sequence[DesignRecord]) -> None:
        ids = {design.letter: design.id for design in self._lesson.designs}
        used = {self._lesson.design(design_id).letter for design_id in self._designs_in_use()}
        self._check_gone("design", sorted(used), [design.letter for design in designs])
        after = [DesignRecord(**{**asdict(one), "id": ids.get(one.letter, one.id)}) for one in designs]
        self._replace(Design, self._lesson.designs, after, key=lambda design: design.id)

    def _designs_in_use(self) -> Iterable[str]:
        """The ids of the designs of benches, of their cords as they were made, and of what they expected."""
        for bench in self._lesson.benches:
            yield bench.design_id
            yield from (specimen.design_id for specimen in bench.specimens)
            yield from (guess.best_design_id for guess in bench.predictions if guess.best_design_id)

    def _benches(self, plans: Sequence[BenchPlan]) -> None:
        before = {bench.word.lower(): bench for bench in self._lesson.benches}
        wanted = [(plan.word or "").lower() for plan in plans]
        self._check_gone("bench", [bench.word for bench in before.values() if used(bench)], _words(before, wanted))
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
        design_id = next(design.id for design in self._lesson.designs if design.letter == letter)
        row.design_id = design_id
        for specimen in bench.specimens:
            if not (specimen.readings or specimen.endings):
                self._session.get_one(Specimen, specimen.entry_id).design_id = design_id


def _words(before: Mapping[str, BenchRecord], wanted: Iterable[str]) -> list[str]:
    return [before[word].word for word in wanted if word in before]
