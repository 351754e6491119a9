"""One lesson as a frozen record, in a fixed small number of queries: the only road from rows to the sums."""

from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass, fields, replace
from functools import cache
from operator import attrgetter
from typing import Any, TypeVar

from sqlalchemy import ColumnElement, Select, bindparam, or_, select
from sqlalchemy.orm import Session

from app.domain import records
from app.store.benches import Bench, Tablet, Tick
from app.store.designs import Design, Rung, Weighing
from app.store.entries import Ending, Event, Prediction, Reading, Ruling, Sentence
from app.store.lessons import Lesson, Material, Variable
from app.store.specimens import Measure, Specimen

R = TypeVar("R")
_EVERY_CHANGE = 2**31 - 1


def snapshot(
    session: Session,
    lesson_id: str,
    *,
    bench_id: str | None = None,
    up_to: int | None = None,
    cords_only: bool = False,
) -> records.LessonRecord | None:
    """The lesson whole, or with one bench only; `up_to` leaves out the entries after that change.

    `cords_only` leaves out what no sum of a cord needs: variables, materials, guesses, sentences, tablets and ticks.
    """
    rows = _Rows(session, lesson_id, bench_id, _EVERY_CHANGE if up_to is None else up_to, cords_only=cords_only)
    found = rows.of_lesson(records.LessonRecord, Lesson)
    if not found:
        return None
    events = rows.of_lesson(records.Event, Event, order="n")
    return replace(
        found[0],
        designs=rows.of_lesson(records.DesignRecord, Design, order="letter"),
        rungs=rows.of_lesson(records.RungRecord, Rung, order="mark"),
        variables=rows.of_lesson(records.VariableRecord, Variable, order="place"),
        materials=rows.of_lesson(records.MaterialRecord, Material, order="name"),
        weighings=rows.of_lesson(records.Weighing, Weighing, order="n"),
        events=tuple(event for event in events if event.bench_id is None),
        rulings=rows.of_lesson(records.Ruling, Ruling, order="n"),
        benches=tuple(_benches(rows, events)),
    )


def _benches(rows: "_Rows", events: Iterable[records.Event]) -> Iterable[records.BenchRecord]:
    taken = rows.of_benches(records.Measure, Measure, order="n")
    specimens = _grouped(_specimens(rows, events, taken), attrgetter("bench_id"))
    measures = _grouped((one for one in taken if one.specimen_id is None), attrgetter("bench_id"))
    predictions = _grouped(rows.of_benches(records.Prediction, Prediction, order="n"), attrgetter("bench_id"))
    sentences = _grouped(rows.of_benches(records.Sentence, Sentence, order="n"), attrgetter("bench_id"))
    tablets = _grouped(rows.of_benches(_TabletRow, Tablet, order="joined_at"), attrgetter("bench_id"))
    ticks = _grouped(rows.of_benches(_TickRow, Tick, order="what"), attrgetter("bench_id"))
    for bench in rows.of_lesson(records.BenchRecord, Bench, order="place"):
        yield replace(
            bench,
            specimens=specimens[bench.id],
            measures=measures[bench.id],
            predictions=predictions[bench.id],
            sentences=sentences[bench.id],
            ticks={tick.what: tick.on for tick in ticks[bench.id]},
            here=any(tablet.ended_at is None for tablet in tablets[bench.id]),
            last_heard_at=max((tablet.last_heard_at for tablet in tablets[bench.id]), default=None),
            unsent=sum(tablet.unsent for tablet in tablets[bench.id]) if tablets[bench.id] else None,
        )


def _specimens(
    rows: "_Rows", told: Iterable[records.Event], taken: Iterable[records.Measure]
) -> Iterable[records.SpecimenRecord]:
    measures = _grouped(taken, attrgetter("specimen_id"))
    readings = _grouped(rows.of_specimens(records.Reading, Reading), attrgetter("specimen_id"))
    events = _grouped(told, attrgetter("specimen_id"))
    endings = _grouped(rows.of_specimens(records.Ending, Ending), attrgetter("specimen_id"))
    for specimen in rows.of_benches(records.SpecimenRecord, Specimen, order="specimen_no"):
        yield replace(
            specimen,
            measures=measures[specimen.entry_id],
            readings=readings[specimen.entry_id],
            events=events[specimen.entry_id],
            endings=endings[specimen.entry_id],
        )


@dataclass(frozen=True, kw_only=True)
class _TabletRow:
    bench_id: str
    ended_at: Any
    last_heard_at: Any
    unsent: int


@dataclass(frozen=True, kw_only=True)
class _TickRow:
    bench_id: str
    what: str
    on: bool


_BESIDE_CORDS = (Variable, Material, Prediction, Sentence, Tablet, Tick)


class _Rows:
    """The rows of one lesson, or of one bench of it, table by table as records."""

    def __init__(self, session: Session, lesson_id: str, bench_id: str | None, up_to: int, *, cords_only: bool) -> None:
        self._connection = session.connection()
        self._passed_over = _BESIDE_CORDS if cords_only else ()
        self._one_bench = bench_id is not None
        self._said = {"lesson": lesson_id, "bench": bench_id, "up_to": up_to}

    def of_lesson(self, record: type[R], model: Any, *, order: str | None = None) -> tuple[R, ...]:
        return self._read(record, model, "lesson", order)

    def of_benches(self, record: type[R], model: Any, *, order: str) -> tuple[R, ...]:
        return self._read(record, model, "bench", order)

    def of_specimens(self, record: type[R], model: Any) -> tuple[R, ...]:
        return self._read(record, model, "specimen", "n")

    def _read(self, record: type[R], model: Any, owner: str, order: str | None) -> tuple[R, ...]:
        if model in self._passed_over:
            return ()
        statement, names = _statement(record, model, owner, self._one_bench, order)  # type: ignore[arg-type]
        said = {name: self._said[name] for name in names}
        return tuple(record(**row) for row in self._connection.execute(statement, said).mappings())


@cache
def _statement(
    record: type[Any], model: Any, owner: str, one_bench: bool, order: str | None
) -> tuple[Select[Any], tuple[str, ...]]:
    """What to ask for the records of one owner, and the names of what the question leaves open.

    Made once: the same statement asked again costs SQLAlchemy no thought, which was half the time of a reading.
    """
    columns = model.__mapper__.columns
    names = [field.name for field in fields(record) if field.name in columns]
    where = [_OWNED[owner](model, one_bench)]
    if issubclass(record, records.Entry):
        where.append(columns["n"] <= bindparam("up_to"))
    statement = select(*(columns[name].label(name) for name in names)).where(*where)
    statement = statement if order is None else statement.order_by(columns[order])
    return statement, tuple(statement.compile().params)


def _of_lesson(model: Any, one_bench: bool) -> ColumnElement[bool]:
    lesson = model.id if model is Lesson else model.lesson_id
    whole: ColumnElement[bool] = lesson == bindparam("lesson")
    if one_bench and model is Bench:
        return whole & (Bench.id == bindparam("bench"))
    if one_bench and model in (Weighing, Event):
        return whole & or_(model.bench_id.is_(None), model.bench_id == bindparam("bench"))
    return whole


def _of_benches(model: Any, one_bench: bool) -> ColumnElement[bool]:
    if one_bench:
        found: ColumnElement[bool] = model.bench_id == bindparam("bench")
        return found
    wanted: ColumnElement[bool] = model.bench_id.in_(select(Bench.id).where(Bench.lesson_id == bindparam("lesson")))
    return wanted


def _of_specimens(model: Any, one_bench: bool) -> ColumnElement[bool]:
    wanted: ColumnElement[bool] = model.specimen_id.in_(
        select(Specimen.entry_id).where(_of_benches(Specimen, one_bench))
    )
    return wanted


_OWNED: dict[str, Callable[[Any, bool], ColumnElement[bool]]] = {
    "lesson": _of_lesson,
    "bench": _of_benches,
    "specimen": _of_specimens,
}


def _grouped(things: Iterable[R], owner: Callable[[R], Any]) -> dict[Any, tuple[R, ...]]:
    """The things of each owner, in the order in which they came; an owner of none has an empty tuple."""
    groups: dict[Any, list[R]] = defaultdict(list)
    for thing in things:
        groups[owner(thing)].append(thing)
    return defaultdict(tuple, {key: tuple(group) for key, group in groups.items()})
