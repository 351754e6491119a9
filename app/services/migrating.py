"""Bring a database to the tables of this version, or back.

Only commands and tests import this module: alembic stays out of the served process.
"""

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.script import ScriptDirectory

from app.store.database import Database

FOLDER = Path(__file__).resolve().parents[2] / "migrations"


def revisions() -> list[str]:
    """The numbers of all migrations, oldest first."""
    scripts = ScriptDirectory(str(FOLDER)).walk_revisions()
    return [script.revision for script in scripts][::-1]


def migrate(database: Database, to: str = "head") -> None:
    """The database stands at that migration; steps back lose what the later tables hold."""
    config = Config()
    config.set_main_option("script_location", str(FOLDER).replace("%", "%%"))  # % asks for another option
    here = database.revision()
    with database.connected() as connection:
        config.attributes["connection"] = connection
        if _is_back(here, to):
            command.downgrade(config, to)
        else:
            command.upgrade(config, to)


def is_newer(database: Database) -> bool:
    """Whether a later version of the product has worked on this database."""
    here = database.revision()
    return here is not None and here not in revisions()


def _is_back(here: str | None, to: str) -> bool:
    if here is None or to == "head":
        return False
    known = ["base", *revisions()]
    return known.index(to) < known.index(here)
