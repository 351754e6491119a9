"""Throw-away databases: a file a test on SQLite; on PostgreSQL a migrated database a session, emptied in between."""

import os
import subprocess
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import URL, make_url, text

from app.services.migrating import migrate
from app.store import benches, designs, entries, feed, lessons, specimens, teachers
from app.store.base import Model
from app.store.database import Database, sqlite_url

ROOT = Path(__file__).resolve().parents[1]
KINDS = ("sqlite", "postgresql")
TABLES = (benches, designs, entries, feed, lessons, specimens, teachers)
"""The modules whose import fills the metadata."""


@contextmanager
def a_server() -> Iterator[URL]:
    """The address of a throw-away PostgreSQL: the one that the check started, else one of our own."""
    given = os.environ.get("ROPEWALK_TEST_POSTGRES")
    if given:
        yield make_url(given)
        return
    # The helper's own command waits for the end of its input, which comes when we let go, however we end.
    command = ["sh", "deploy/postgres.sh", "sh", "-c", 'echo "$ROPEWALK_TEST_POSTGRES"; cat']
    with subprocess.Popen(command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as helper:
        assert helper.stdin is not None
        assert helper.stdout is not None
        address = helper.stdout.readline().strip()
        assert address, "deploy/postgres.sh could not start a PostgreSQL; its own words are above."
        yield make_url(address)
        helper.stdin.close()


@contextmanager
def an_empty_one(server: URL) -> Iterator[URL]:
    """The address of a fresh PostgreSQL database without any table, gone afterwards."""
    name = f"ropewalk_{uuid.uuid4().hex}"
    admin = Database(server)
    free = admin.engine.execution_options(isolation_level="AUTOCOMMIT")
    with free.connect() as connection:
        connection.execute(text(f'CREATE DATABASE "{name}"'))
    try:
        yield server.set(database=name)
    finally:
        with free.connect() as connection:
            connection.execute(text(f'DROP DATABASE "{name}" WITH (FORCE)'))
        admin.close()


@contextmanager
def opened(url: URL) -> Iterator[Database]:
    """The database of that address, every connection of it closed afterwards."""
    database = Database(url)
    try:
        yield database
    finally:
        database.close()


def make_file(path: Path) -> None:
    """The file is a migrated SQLite database, whole in itself: nothing of it waits in a file beside it."""
    with opened(sqlite_url(path)) as database:
        migrate(database)
        with database.engine.connect() as connection:
            connection.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")


def empty(database: Database) -> None:
    """No table has a row. Measured: 3 ms; TRUNCATE takes 25 ms, a database copied from a template 35 ms."""
    with database.connected() as connection:
        for table in reversed(Model.metadata.sorted_tables):
            connection.execute(table.delete())
