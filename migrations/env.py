"""Alembic's entry: the caller hands over an open connection; the tables are those of the store."""

from alembic import context

from app.store import benches, designs, entries, feed, lessons, specimens, teachers
from app.store.base import Model

TABLES = (benches, designs, entries, feed, lessons, specimens, teachers)
"""The modules whose import fills the metadata."""


def run() -> None:
    """The migrations asked for have run on the connection that was given."""
    context.configure(
        connection=context.config.attributes["connection"],
        target_metadata=Model.metadata,
        render_as_batch=True,
        compare_type=True,
    )
    with context.begin_transaction():
        context.run_migrations()


run()
