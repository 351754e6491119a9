"""One commit layer: whole or not at all, one consistent look, writers in turn, refusals that ask to try again."""

import threading
import time
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest
from sqlalchemy import select, text

from app.domain.errors import Busy, InvalidEntry
from app.store.database import Database, sqlite_url
from app.store.teachers import Teacher, by_name
from tests.databases import opened
from tests.make import MORNING, new_id


def a_teacher(name: str, *, at: datetime = MORNING) -> Teacher:
    """A row that needs no other."""
    return Teacher(id=new_id(), sign_in_name=name, made_at=at)


def names(database: Database) -> list[str]:
    """The teachers that are there."""
    with database.reading() as session:
        return sorted(session.scalars(select(Teacher.sign_in_name)))


class TestTransaction:
    def test_it_is_there_when_the_block_ends_well(self, database: Database) -> None:
        with database.transaction() as session:
            session.add(a_teacher("moss"))
        assert names(database) == ["moss"]

    def test_it_is_undone_when_the_block_does_not(self, database: Database) -> None:
        def halfway() -> None:
            with database.transaction() as session:
                session.add(a_teacher("moss"))
                session.flush()
                raise RuntimeError("halfway")

        with pytest.raises(RuntimeError, match="halfway"):
            halfway()
        assert names(database) == []

    def test_two_that_take_the_same_name_at_once_are_asked_to_try_again(self, database: Database) -> None:
        with database.transaction() as session:
            session.add(a_teacher("moss"))
        with pytest.raises(Busy), database.transaction() as session:
            session.add(a_teacher("moss"))
        assert names(database) == ["moss"]

    def test_many_writers_take_turns_and_none_is_refused(self, database: Database) -> None:
        def write(place: int) -> None:
            with database.transaction() as session:
                session.add(a_teacher(f"teacher-{place}"))

        with ThreadPoolExecutor(12) as threads:
            list(threads.map(write, range(60)))
        assert len(names(database)) == 60


class TestReading:
    def test_it_sees_one_moment(self, database: Database) -> None:
        with database.reading() as session:
            assert by_name(session, "moss") is None
            with database.transaction() as other:
                other.add(a_teacher("moss"))
            assert session.scalars(select(Teacher)).all() == []
        assert names(database) == ["moss"]

    def test_it_does_not_wait_for_a_writer(self, database: Database) -> None:
        begun, done = threading.Event(), threading.Event()

        def write() -> None:
            with database.transaction() as session:
                session.add(a_teacher("moss"))
                session.flush()
                begun.set()
                assert done.wait(5)

        writer = threading.Thread(target=write)
        writer.start()
        assert begun.wait(5)
        before = time.monotonic()
        assert names(database) == []
        assert time.monotonic() - before < 2
        done.set()
        writer.join()
        assert names(database) == ["moss"]


class TestRefusals:
    def test_a_text_that_no_column_takes_is_refused_where_the_database_says_so(
        self, postgres_database: Database
    ) -> None:
        """SQLite takes any length and any sign; the checks before it are the same for both."""
        for name in ("x" * 41, "a\x00b"):
            with pytest.raises(InvalidEntry), postgres_database.transaction() as session:
                session.add(a_teacher(name))

    def test_a_database_that_is_away_is_busy(self, tmp_path: Path) -> None:
        away = "postgresql+psycopg://nobody@/nothing?host=" + str(tmp_path)
        for url in (away, sqlite_url(tmp_path)):
            with opened(url) as database, pytest.raises(Busy):  # type: ignore[arg-type]
                names(database)

    def test_a_file_that_is_no_database_is_said_to_be_none(self, tmp_path: Path) -> None:
        path = tmp_path / "notes.sqlite"
        path.write_text("These are notes and no database, whatever the name says.", encoding="utf-8")
        with opened(sqlite_url(path)) as database, pytest.raises(Busy) as refused:
            database.revision()
        assert "not a database" in refused.value.sentence


class TestTimes:
    @pytest.mark.parametrize(
        "moment",
        [
            datetime(2026, 3, 12, 9, 40, 0, 123456, tzinfo=UTC),
            datetime(2026, 3, 12, 11, 40, tzinfo=timezone(timedelta(hours=2))),
            datetime(2026, 10, 25, 1, 30, tzinfo=timezone(timedelta(hours=-11))),
        ],
    )
    def test_a_moment_comes_back_the_same_and_in_utc(self, database: Database, moment: datetime) -> None:
        with database.transaction() as session:
            session.add(a_teacher("moss", at=moment))
        with database.reading() as session:
            kept = session.scalars(select(Teacher.made_at)).one()
        assert kept == moment
        assert kept.utcoffset() == timedelta(0)


class TestSettings:
    """What stack.md measured and chose for each kind of database."""

    def test_sqlite_survives_a_loss_of_power_and_keeps_its_keys(self, sqlite_database: Database) -> None:
        with sqlite_database.engine.connect() as connection:
            said = [
                connection.execute(text(f"PRAGMA {name}")).scalar()
                for name in ("journal_mode", "synchronous", "foreign_keys", "busy_timeout")
            ]
        assert said == ["wal", 2, 1, 10_000]

    def test_postgresql_gives_up_waiting(self, postgres_database: Database) -> None:
        with postgres_database.engine.connect() as connection:
            said = [
                connection.execute(text(f"SHOW {name}")).scalar()
                for name in ("lock_timeout", "statement_timeout", "timezone", "synchronous_commit")
            ]
        assert said == ["5s", "15s", "UTC", "on"]

    def test_any_path_names_its_own_file(self, tmp_path: Path) -> None:
        """A percent sign or a question mark in a path would be decoded in an address written by hand."""
        path = tmp_path / "50% of?what.sqlite"
        with opened(sqlite_url(path)) as database, database.connected() as connection:
            connection.execute(text("CREATE TABLE one (id INTEGER)"))
        assert path.exists()
