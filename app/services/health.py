"""Whether the database is the one that this version works on."""

from functools import cache
from pathlib import Path

from app.store.database import Database

_HEAD = Path(__file__).resolve().parents[2] / "migrations" / "HEAD"


@cache
def head() -> str:
    """The number of this version's last migration: told by a file, since alembic takes half a second to import."""
    return _HEAD.read_text(encoding="ascii").strip()


def fits(database: Database) -> bool:
    """Whether the database has the tables of this version; Busy when it does not answer."""
    return database.revision() == head()
