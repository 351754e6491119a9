"""One lesson as a frozen record, in a fixed small number of queries: the only road from rows to the sums."""

from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import fields, replace
from functools import cache
from operator import attrgetter
from typing import Any, TypeVar

from sqlalchemy import ColumnElement, Select, select
from sqlalchemy.orm import Session

from app.domain import records
from app.store.base import Model
from app.store.benches import Bench, Tablet, Tick
from app.store.designs import Design, Rung, Weighing
from app.store.entries import Ending, Event, Prediction, Reading, Ruling, Sentence
from app.store.lessons import Lesson, Material, Variable
from app.store.specimens import Measure, Specimen

R = TypeVar("R")


def snapshot(
    session: Session, lesson_id: str, *, bench_id: str | None = None, up_to: int | None = None
) -> records.LessonRecord | None:
    """The lesson whole, or with one bench only; `up_to` leaves out the entries after that change."""
    found = _read(session, records.LessonRecord, Lesson, Lesson.id == lesson_id)
    if not found:
        return None
    of_lesson = _Shelf(session, lesson_id, bench_id, up_to)
    return replace(
        found[0],
        designs=of_lesson.plan(records.DesignRecord, Design, Design.letter),
        rungs=of_lesson.plan(records.RungRecord, Rung, Rung.mark),
        variables=of_lesson.plan(records.VariableRecord, Variable, Variable.place),
        materials=of_lesson.plan(records.MaterialRecord, Material, Material.name),
        weighings=of_lesson.entries(records.Weighing, Weighing),
        events=tuple(event for event in of_lesson.entries(records.Event, Event) if event.bench_id is None),
        rulings=of_lesson.entries(records.Ruling, Ruling),
        benches=of_lesson.benches(),
    )


class _Shelf:
    """The rows of one lesson, fetched table by table and put together by their owners."""

    def __init__(self, session: Session, lesson_id: str, bench_id: str | None, up_to: int | None) -> None:
        self._session = session
        self._lesson_id = lesson_id
        self._up_to = up_to
        wanted = select(Bench.id).where(Bench.lesson_id == lesson_id)
        self._benches = wanted if bench_id is None else wanted.where(Bench.id == bench_id)
        self._specimens = select(Specimen.entry_id).where(Specimen.bench_id.in_(self._benches))

    def plan(self, record: type[R], model: Any, order: Any) -> tuple[R, ...]:
        return _read(self._session, record, model, model.lesson_id == self._lesson_id, order=order)

    def entries(self, record: type[R], model: Any) -> tuple[R, ...]:
        return self._entries(record, model, model.lesson_id == self._lesson_id)

    def benches(self) -> tuple[records.BenchRecord, ...]:
        rows = _read(self._session, records.BenchRecord, Bench, Bench.id.in_(self._benches), order=Bench.place)
        specimens = _grouped(self._specimen_records(), attrgetter("bench_id"))
        measures = _grouped(self._of_bench(records.Measure, Measure), attrgetter("bench_id"))
        predictions = _grouped(self._of_bench(records.Prediction, Prediction), attrgetter("bench_id"))
        sentences = _grouped(self._of_bench(records.Sentence, Sentence), attrgetter("bench_id"))
        heard = self._tablets()
        ticks = self._ticks()
        return tuple(
            replace(
                bench,
                specimens=specimens[bench.id],
                measures=tuple(measure for measure in measures[bench.id] if measure.specimen_id is None),
                predictions=predictions[bench.id],
                sentences=sentences[bench.id],
                ticks=ticks[bench.id],
                **heard.get(bench.id, {}),
            )
            for bench in rows
        )

    def _specimen_records(self) -> Iterable[records.SpecimenRecord]:
        measures = self._of_specimens(records.Measure, Measure)
        readings = self._of_specimens(records.Reading, Reading)
        events = self._of_specimens(records.Event, Event)
        endings = self._of_specimens(records.Ending, Ending)
        for specimen in sorted(self._of_bench(records.SpecimenRecord, Specimen), key=lambda made: made.specimen_no):
            yield replace(
                specimen,
                measures=measures[specimen.entry_id],
                readings=readings[specimen.entry_id],
                events=events[specimen.entry_id],
                endings=endings[specimen.entry_id],
            )

    def _of_specimens(self, record: type[R], model: Any) -> dict[Any, tuple[R, ...]]:
        entries = self._entries(record, model, model.specimen_id.in_(self._specimens))
        return _grouped(entries, attrgetter("specimen_id"))

    def _of_bench(self, record: type[R], model: Any) -> tuple[R, ...]:
        return self._entries(record, model, model.bench_id.in_(self._benches))

    def _entries(self, record: type[R], model: Any, *where: ColumnElement[bool]) -> tuple[R, ...]:
        until = () if self._up_to is None else (model.n <= self._up_to,)
        return _read(self._session, record, model, *where, *until, order=model.n)

    def _tablets(self) -> dict[str, dict[str, Any]]:
        """Of each bench that a tablet holds: that it is here, when it was last heard, and what waits on it."""
        rows = self._session.execute(
            select(Tablet.bench_id, Tablet.ended_at, Tablet.last_heard_at, Tablet.unsent).where(
                Tablet.bench_id.in_(self._benches)
            )
        ).all()
        of_bench = _grouped(rows, attrgetter("bench_id"))
        return {
            bench_id: {
                "here": any(tablet.ended_at is None for tablet in tablets),
                "last_heard_at": max(tablet.last_heard_at for tablet in tablets),
                "unsent": sum(tablet.unsent for tablet in tablets),
            }
            for bench_id, tablets in of_bench.items()
        }

    def _ticks(self) -> dict[str, dict[str, bool]]:
        ticks: dict[str, dict[str, bool]] = defaultdict(dict)
        for bench_id, what, on in self._session.execute(
            select(Tick.bench_id, Tick.what, Tick.on).where(Tick.bench_id.in_(self._benches))
        ):
            ticks[bench_id][what] = on
        return ticks


@cache
def _columns(record: type[Any], model: type[Model]) -> Select[Any]:
    """What to select of a model for a record: its fields that are columns, in the record's own order and names."""
    names = [field.name for field in fields(record) if hasattr(model, field.name)]
    return select(*(getattr(model, name).label(name) for name in names))


def _read(
    session: Session, record: type[R], model: Any, *where: ColumnElement[bool], order: Any = None
) -> tuple[R, ...]:
    choice: Select[Any] = _columns(record, model).where(*where)  # type: ignore[arg-type]
    if order is not None:
        choice = choice.order_by(order)
    return tuple(record(**row) for row in session.execute(choice).mappings())


def _grouped(things: Iterable[R], owner: Callable[[R], Any]) -> dict[Any, tuple[R, ...]]:
    """The things of each owner, in the order in which they came; an owner of none has an empty tuple."""
    groups: dict[Any, list[R]] = defaultdict(list)
    for thing in things:
        groups[owner(thing)].append(thing)
    return defaultdict(tuple, {key: tuple(group) for key, group in groups.items()})
