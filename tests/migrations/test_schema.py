"""The migrated tables are those of the rows, up, down and up again, with rows in them, on each kind of database."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import Inspector, inspect, text

from app.services.migrating import is_newer, migrate, revisions
from app.store.base import Model
from app.store.database import Database
from tests import make
from tests.databases import TABLES

VERSION_TABLE = "alembic_version"


def differences(database: Database) -> list[Any]:
    """What alembic would still change to bring the tables to the rows: types, nulls, keys and indexes."""
    assert TABLES
    with database.engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True, "compare_server_default": True})
        return list(compare_metadata(context, Model.metadata))


@contextmanager
def looking(database: Database) -> Iterator[Inspector]:
    """The database as it really is."""
    with database.engine.connect() as connection:
        yield inspect(connection)


def tables(database: Database) -> set[str]:
    """The product's tables that are there."""
    with looking(database) as found:
        return set(found.get_table_names()) - {VERSION_TABLE}


def count(database: Database, table: str) -> int:
    """How many rows a table has."""
    with database.engine.connect() as connection:
        return int(connection.execute(text(f'SELECT count(*) FROM "{table}"')).scalar_one())


def fill(database: Database) -> set[str]:
    """A lesson with an entry of every sort is in the database; the tables that have rows by it."""
    lesson = make.make_lesson(database)
    bench = make.join(database, lesson)
    make.make_readings(database, bench)
    make.make_event(database, bench)
    make.make_measure(database, bench)
    made = make.make_ending(database, bench, fail_step=5)
    make.make_ruling(database, lesson.target, about=made.entry.entry_id, reason="told twice")
    make.make_weighing(database, lesson.target)
    return {table for table in tables(database) if count(database, table)}


def test_models_equal_the_migrated_tables(bare_database: Database) -> None:
    migrate(bare_database)
    assert tables(bare_database) == set(Model.metadata.tables)
    assert differences(bare_database) == []


def test_constraints_have_the_names_of_the_convention(bare_database: Database) -> None:
    """So that a later migration can name what it changes, on both kinds of database."""
    migrate(bare_database)
    with looking(bare_database) as found:
        for table in Model.metadata.sorted_tables:
            assert found.get_pk_constraint(table.name)["name"] == f"pk_{table.name}"
            for key in found.get_foreign_keys(table.name):
                columns = "_".join(key["constrained_columns"])
                assert key["name"] == f"fk_{table.name}_{columns}_{key['referred_table']}"
            for unique in found.get_unique_constraints(table.name):
                assert unique["name"] == f"uq_{table.name}_{'_'.join(unique['column_names'])}"


def test_up_down_and_up_again_with_rows_in(bare_database: Database) -> None:
    steps = ["base", *revisions()]
    migrate(bare_database)
    filled = fill(bare_database)
    assert {"lesson", "bench", "tablet", "specimen", "reading", "event", "ending", "ruling", "measure"} <= filled
    for before in reversed(steps[:-1]):
        migrate(bare_database, before)
        assert bare_database.revision() == (None if before == "base" else before)
    assert tables(bare_database) == set()
    for step in steps[1:]:
        migrate(bare_database, step)
        assert bare_database.revision() == step
    assert differences(bare_database) == []
    assert fill(bare_database) == filled, "the same lesson can be made again"


def test_migrating_again_keeps_everything(bare_database: Database) -> None:
    migrate(bare_database)
    fill(bare_database)
    before = {table: count(bare_database, table) for table in tables(bare_database)}
    migrate(bare_database)
    assert {table: count(bare_database, table) for table in tables(bare_database)} == before


def test_a_migration_that_fails_leaves_the_database_as_it_was(bare_database: Database) -> None:
    with bare_database.connected() as connection:
        connection.execute(text("CREATE TABLE bench (id INTEGER PRIMARY KEY)"))
    with pytest.raises(Exception, match="bench"):
        migrate(bare_database)
    assert tables(bare_database) == {"bench"}
    assert bare_database.revision() is None


def test_a_database_of_a_later_version_is_known(bare_database: Database) -> None:
    assert not is_newer(bare_database)
    migrate(bare_database)
    assert not is_newer(bare_database)
    with bare_database.connected() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))
    assert is_newer(bare_database)
