"""The only road from rows to the sums: a lesson whole, in a fixed small number of questions."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import fields, is_dataclass
from typing import Any

import pytest
from sqlalchemy import event

from app.domain import records
from app.store.base import Model
from app.store.database import Database
from app.store.entries import EntryColumns
from app.store.snapshot import snapshot
from tests import make
from tests.databases import TABLES


@contextmanager
def counted(database: Database) -> Iterator[list[str]]:
    """The statements that the block asks."""
    asked: list[str] = []

    def note(_connection: Any, _cursor: Any, statement: str, *_: Any) -> None:
        if statement.lstrip().upper().startswith("SELECT"):
            asked.append(statement)

    event.listen(database.engine, "before_cursor_execute", note)
    try:
        yield asked
    finally:
        event.remove(database.engine, "before_cursor_execute", note)


def look(database: Database, lesson_id: str, **which: Any) -> records.LessonRecord:
    """The lesson's record."""
    with database.reading() as session:
        found = snapshot(session, lesson_id, **which)
    assert found is not None
    return found


@pytest.mark.parametrize("benches", [1, 6])
def test_it_asks_the_same_number_of_questions_however_many_benches(database: Database, benches: int) -> None:
    lesson = make.make_lesson(database, benches=[f"Bench{n}" for n in "abcdef"[:benches]])
    for word in lesson.slips:
        bench = make.join(database, lesson, bench=word)
        make.make_readings(database, bench)
        make.make_ending(database, bench)
    with counted(database) as asked:
        record = look(database, lesson.lesson_id)
    assert len(record.benches) == benches
    assert len(asked) <= 17
    assert len(asked) == len(set(asked)), "no question is asked twice"


def test_everything_is_where_it_belongs(database: Database) -> None:
    lesson = make.make_lesson(database)
    ones = [make.join(database, lesson, bench=word) for word in ("Alder", "Hazel")]
    for one in ones:
        make.make_measure(database, one)
        make.make_readings(database, one)
        make.make_event(database, one)
        make.make_fresh_cord(database, one)
        make.make_ending(database, one, kind="out_of_time")
    for bench, one in zip(look(database, lesson.lesson_id).benches, ones, strict=True):
        first, second = bench.specimens
        assert (bench.id, first.entry_id) == (one.bench_id, one.specimen_id)
        assert [len(part) for part in (first.measures, first.readings, first.events, first.endings)] == [1, 5, 1, 0]
        assert [len(part) for part in (second.measures, second.readings, second.events, second.endings)] == [0, 0, 0, 1]
        assert all(reading.specimen_id == first.entry_id for reading in first.readings)


def test_one_bench_alone_has_the_whole_plan(database: Database) -> None:
    lesson = make.make_lesson(database)
    bench = make.join(database, lesson, bench="Hazel")
    make.make_readings(database, bench)
    whole, one = look(database, lesson.lesson_id), look(database, lesson.lesson_id, bench_id=bench.bench_id)
    assert one.benches == whole.benches[1:]
    assert (one.designs, one.rungs, one.weighings, one.rulings) == (
        whole.designs, whole.rungs, whole.weighings, whole.rulings,
    )  # fmt: skip


def test_an_entrys_answer_asks_for_cords_only(database: Database) -> None:
    lesson = make.make_lesson(database)
    ours, theirs = (make.join(database, lesson, bench=word) for word in ("Alder", "Hazel"))
    for one in (ours, theirs):
        make.make_measure(database, one)
        make.make_readings(database, one)
        make.make_event(database, one)
    whole = look(database, lesson.lesson_id, bench_id=ours.bench_id)
    with counted(database) as asked:
        cords = look(database, lesson.lesson_id, bench_id=ours.bench_id, cords_only=True)
    assert len(asked) <= 11
    assert cords.benches[0].specimens == whole.benches[0].specimens
    assert (cords.designs, cords.rungs, cords.weighings) == (whole.designs, whole.rungs, whole.weighings)
    assert whole.benches[0].here
    assert not cords.benches[0].here


def test_up_to_a_change_it_is_the_lesson_as_it_stood(database: Database) -> None:
    bench = make.make_bench(database)
    answers = make.make_readings(database, bench)
    make.make_ruling(database, bench.target, about=answers[0].entry.entry_id)
    then = look(database, bench.lesson_id, up_to=answers[2].entry.n)
    cord = then.benches[0].specimens[0]
    assert [reading.entry_id for reading in cord.readings] == [answer.entry.entry_id for answer in answers[:3]]
    assert then.rulings == ()


def test_what_is_not_there_is_none(database: Database) -> None:
    with database.reading() as session:
        assert snapshot(session, make.new_id()) is None


def test_every_stored_column_of_an_entry_reaches_its_record() -> None:
    """Else a column would be written and never read: only what names a tablet's owner or a parent is left out."""
    assert TABLES
    kinds = {
        kind.__name__.removesuffix("Record").lower(): kind
        for kind in vars(records).values()
        if isinstance(kind, type) and is_dataclass(kind)
    }
    parents = {"lesson_id"}
    for mapper in Model.registry.mappers:
        table = mapper.class_.__tablename__
        if not issubclass(mapper.class_, EntryColumns):
            continue
        told = {field.name for field in fields(kinds[table])}
        assert {column.key for column in mapper.column_attrs} - told <= parents, table
