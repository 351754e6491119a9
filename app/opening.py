"""The database of this environment, opened for a command and known to fit this version of the product."""

import importlib
import os
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

from app.settings import CODE_FOLDER, Settings, SettingsRefused, from_environment
from app.store.database import Database, sqlite_url


def settings_now() -> Settings:
    """The settings that the environment asks for at this moment."""
    return from_environment(os.environ)


def open_database(settings: Settings) -> Database:
    """The database that these settings name, whatever state it is in."""
    return Database(settings.database_url) if settings.database_url else _sqlite(settings.database_path)


def _sqlite(path: Path) -> Database:
    """The database in that file; a new one is for its owner's eyes only, and SQLite's own files beside it follow."""
    path.touch(mode=0o600, exist_ok=True)
    return Database(sqlite_url(path))


def ready_database(settings: Settings) -> Database:
    """The database, whose tables are those of this version; SettingsRefused with a sentence when they are not."""
    database = open_database(settings)
    if refuse_newer(database) != numbers()[-1]:
        raise SettingsRefused("The database is not ready for this version; run `ropewalk migrate` first.")
    return database


def numbers() -> list[str]:
    """The numbers of this version's migrations, oldest first, told by their file names: alembic takes half a second."""
    return sorted(path.name.partition("_")[0] for path in (CODE_FOLDER / "migrations/versions").glob("[0-9]*.py"))


def refuse_newer(database: Database) -> str | None:
    """The migration that the database stands at; SettingsRefused when a newer version has worked on it."""
    here = database.revision()
    if here is not None and here not in numbers():
        raise SettingsRefused(
            f"The database is from a newer version of Ropewalk (migration {here[:40]}); start that version instead."
        )
    return here


@contextmanager
def mended_database(settings: Settings) -> Iterator[Database]:
    """The database, to be brought to this version and filled; a new SQLite file is there only when the block ends well.

    So a first start that was cut short leaves none behind, and the next one makes it whole.
    """
    path = settings.database_path
    if settings.database_url or path.exists():
        with closing(open_database(settings)) as database:
            yield database
        return
    beside = path.with_name("first.sqlite")
    _remove(beside)
    with closing(_sqlite(beside)) as database:
        yield database
    beside.replace(path)
    _remove(beside)


def _remove(path: Path) -> None:
    """Neither the file nor what lies beside it under its name is there."""
    for found in path.parent.glob(path.name + "*"):
        found.unlink()


def migrate_to(database: Database, number: str) -> None:
    """The database stands at that migration. Alembic is imported here only, where a migration is to run."""
    migrating: Any = importlib.import_module("app.services.migrating")
    migrating.migrate(database, number)
