"""What every test may lean on: a database of each kind, the app on it, the strict reader, a clock that tests set."""

import shutil
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from flask import Flask
from sqlalchemy import URL

from app import create_app
from app.services.migrating import migrate
from app.settings import Settings
from app.store.database import Database, sqlite_url
from tests.databases import KINDS, a_server, an_empty_one, empty, make_file, opened
from tests.reader import Reader

NOON = datetime(2026, 3, 12, 12, 0, tzinfo=UTC)
"""When tests begin, by their clock."""


class Clock:
    """The moment that the product is told; it stands until a test moves it."""

    def __init__(self) -> None:
        self.at = NOON

    def __call__(self) -> datetime:
        return self.at

    def forward(self, seconds: float) -> datetime:
        """The clock is that much later."""
        self.at += timedelta(seconds=seconds)
        return self.at


@pytest.fixture
def clock() -> Clock:
    """A clock that stands at NOON."""
    return Clock()


@pytest.fixture(scope="session")
def postgres_server() -> Iterator[URL]:
    """The address of a PostgreSQL that tests may do anything with."""
    with a_server() as server:
        yield server


@pytest.fixture(scope="session")
def sqlite_template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A migrated database file, to be copied."""
    path = tmp_path_factory.mktemp("template") / "ropewalk.sqlite"
    make_file(path)
    return path


@pytest.fixture(scope="session")
def postgres_database(postgres_server: URL) -> Iterator[Database]:
    """A migrated database for the whole session; who uses it empties it first."""
    with an_empty_one(postgres_server) as url, opened(url) as database:
        migrate(database)
        yield database


@pytest.fixture
def sqlite_database(sqlite_template: Path, tmp_path: Path) -> Iterator[Database]:
    """A migrated SQLite database of the test's own."""
    path = tmp_path / "ropewalk.sqlite"
    shutil.copyfile(sqlite_template, path)
    with opened(sqlite_url(path)) as database:
        yield database


@pytest.fixture(params=KINDS)
def database_kind(request: pytest.FixtureRequest) -> str:
    """Which kind of database the test runs on: once on each."""
    return str(request.param)


@pytest.fixture
def database(database_kind: str, request: pytest.FixtureRequest) -> Database:
    """A migrated database without a row, once of each kind."""
    if database_kind == "sqlite":
        found: Database = request.getfixturevalue("sqlite_database")
        return found
    found = request.getfixturevalue("postgres_database")
    empty(found)
    return found


@pytest.fixture
def bare_database(database_kind: str, tmp_path: Path, request: pytest.FixtureRequest) -> Iterator[Database]:
    """A database without any table, once of each kind: for migrations."""
    if database_kind == "sqlite":
        with opened(sqlite_url(tmp_path / "bare.sqlite")) as database:
            yield database
    else:
        with an_empty_one(request.getfixturevalue("postgres_server")) as url, opened(url) as database:
            yield database


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    """Settings of a small installation: a question is held for a second at most."""
    return Settings(data_folder=tmp_path, secret_key="tests only " * 4, hold_s=1)


@pytest.fixture
def app(settings: Settings, database: Database, clock: Clock) -> Flask:
    """The product on the test's database, told the time by the test's clock; CSRF stays on."""
    return create_app(settings, database=database, clock=clock)


@pytest.fixture
def new_reader(app: Flask) -> Callable[[], Reader]:
    """Makes strict readers, each a browser of its own."""
    return lambda: Reader(app)


@pytest.fixture
def reader(new_reader: Callable[[], Reader]) -> Reader:
    """A strict reader: a browser that nobody has signed in with."""
    return new_reader()
