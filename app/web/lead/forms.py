"""What the forms of a lesson's plan share: a day, an entry id, and where refusals go."""

import uuid
from datetime import date
from typing import Any

from wtforms import Form, HiddenField, StringField
from wtforms.validators import ValidationError

from app.domain.errors import Refusal

FIRST_YEAR, LAST_YEAR = 2000, 2100


class DayField(StringField):
    """A day; `day` holds it once the form is valid, None when left blank."""

    day: date | None = None

    def pre_validate(self, form: Any) -> None:  # noqa: ARG002 - the signature is WTForms'
        """The text is a day; else its sentence is beside the field."""
        text = (self.data or "").strip()
        if not text:
            return
        try:
            self.day = date.fromisoformat(text)
        except ValueError as why:
            raise ValidationError("That is no day. Type it as year, month, day: 2026-03-12.") from why
        if not FIRST_YEAR <= self.day.year <= LAST_YEAR:
            raise ValidationError(f"A year between {FIRST_YEAR} and {LAST_YEAR}, please.")


class EntryIdField(HiddenField):
    """The hidden id that makes a double press harmless; anything that is none gives way to a fresh one."""

    @property
    def entry_id(self) -> str:
        """The id, in lower case."""
        try:
            return str(uuid.UUID(self.data or ""))
        except ValueError:
            return str(uuid.uuid4())


def new_entry_id() -> str:
    """An id for a form that is about to be shown."""
    return str(uuid.uuid4())


def take_refusal(form: Form, refusal: Refusal) -> list[str]:
    """The refusal's sentences stand beside the fields that they are about; those that have none are returned."""
    homeless = [] if refusal.faults else [refusal.sentence]
    for one in refusal.faults:
        field = form._fields.get(one.field)
        if field is None or field.type == "FieldList":
            homeless.append(one.words)
        else:
            field.errors = [*field.errors, one.words]
    return homeless


def first_words(form: Form) -> list[str]:
    """Every sentence of a form's fields, those of its lists too."""
    return [words for field in form for words in _flat(field.errors)]


def _flat(errors: Any) -> list[str]:
    if isinstance(errors, str):
        return [errors]
    parts = errors.values() if isinstance(errors, dict) else errors
    return [words for part in parts for words in _flat(part)]
