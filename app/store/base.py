"""What every table shares: the model base, the names of constraints, and times that are always UTC."""

from datetime import UTC, datetime
from typing import Any

from sqlalchemy import Boolean, DateTime, Dialect, Double, MetaData, String
from sqlalchemy.orm import DeclarativeBase
from sqlalchemy.types import JSON, TypeDecorator


class UtcTime(TypeDecorator[datetime]):
    """A moment: aware in Python, UTC in the database, on both kinds of database."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """The moment as the database takes it; SQLite knows no zones, so it gets the bare UTC time."""
        if value is None:
            return None
        moment = value.astimezone(UTC)
        return moment.replace(tzinfo=None) if dialect.name == "sqlite" else moment

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002
        """The moment, aware and in UTC."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


class Model(DeclarativeBase):
    """Base of all rows."""

    metadata = MetaData(
        naming_convention={
            "ix": "ix_%(column_0_N_label)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "ck": "ck_%(table_name)s_%(constraint_name)s",
            "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
            "pk": "pk_%(table_name)s",
        }
    )
    type_annotation_map = {  # noqa: RUF012 - the name and shape are SQLAlchemy's
        datetime: UtcTime(),
        float: Double(),
        bool: Boolean(create_constraint=False),
        dict[str, Any]: JSON(none_as_null=True),
    }


ID = String(36)
CODE = String(24)
