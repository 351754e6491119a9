"""The database of this environment, opened for a command and known to fit this version of the product."""

import importlib
import os
from typing import Any

from app.settings import CODE_FOLDER, Settings, SettingsRefused, from_environment
from app.store.database import Database, sqlite_url


def settings_now() -> Settings:
    """The settings that the environment asks for at this moment."""
    return from_environment(os.environ)


def open_database(settings: Settings) -> Database:
    """The database that these settings name, whatever state it is in."""
    return Database(settings.database_url or sqlite_url(settings.database_path))


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


def migrate_to(database: Database, number: str) -> None:
    """The database stands at that migration. Alembic is imported here only, where a migration is to run."""
    migrating: Any = importlib.import_module("app.services.migrating")
    migrating.migrate(database, number)
