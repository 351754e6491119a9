"""The bench page's forms: what was sent as plain values, or every fault beside its field."""

import uuid
from typing import Any, TypeVar

from flask import request
from wtforms import BooleanField, Form, StringField
from wtforms.validators import ValidationError

from app.domain import limits
from app.domain.errors import FieldFault, InvalidEntry, fault
from app.services.recording import Sent
from app.web.fields import IdField, NumberField, WordsField

AnyForm = TypeVar("AnyForm", bound=Form)
REASON_MOST = 80


class EntryIdField(IdField):
    """A hidden id of an entry or a cord; blank counts as none."""

    def pre_validate(self, form: Any) -> None:  # noqa: ARG002 - the signature is WTForms'
        """The id has the form of one."""
        self.data = (self.data or "").strip().lower() or None
        if self.data is None:
            return
        try:
            fits = str(uuid.UUID(self.data)) == self.data
        except ValueError:
            fits = False
        if not fits:
            raise ValidationError("That is no entry of this page. Load the page again.")


class EntryForm(Form):
    """What every entry carries; `reason_words` says more where the reason is "other"."""

    entry_id = EntryIdField()
    replaces = EntryIdField()
    specimen_id = EntryIdField()
    reason = WordsField(most=REASON_MOST)
    reason_words = WordsField(most=REASON_MOST - 10)

    def sent(self) -> Sent:
        """The entry's own part; a page without an id gets one here."""
        return Sent(entry_id=self.own_id(), replaces=self.replaces.data, reason=self.said())

    def own_id(self) -> str:
        """The entry's id."""
        if self.entry_id.data is None:
            self.entry_id.data = str(uuid.uuid4())
        return str(self.entry_id.data)

    def said(self) -> str | None:
        """The reason as it is kept."""
        reason = (self.reason.data or "").strip()
        words = (self.reason_words.data or "").strip()
        return f"other: {words}" if reason == "other" and words else reason or None


class ReadingForm(EntryForm):
    step = NumberField(bounds=limits.STEP, needed=True, whole=True)
    phase = StringField(default="load")
    turn = NumberField(bounds=limits.TURN, whole=True)
    pointer_typed = StringField()
    pointer_unit = StringField()
    waited_s = NumberField(bounds=limits.WAIT_S, unit="s")


class EventForm(EntryForm):
    step = NumberField(bounds=limits.STEP, whole=True)
    after_reading = BooleanField(false_values=(False, "false", "", "0"))
    mark = NumberField(bounds=(1, limits.RUNGS_MOST), whole=True)
    words = WordsField(most=80)


class EndingForm(EntryForm):
    kind = StringField()
    fail_step = NumberField(bounds=limits.STEP, whole=True)
    hung_s = NumberField(bounds=(0, 86_400), unit="s")
    place = StringField()
    look = StringField()
    from_top_knot_mm = NumberField(bounds=(0, limits.GAUGE_LENGTH_MM[1]), unit="mm")
    remark = WordsField(most=120)


class MeasureForm(EntryForm):
    quantity = StringField()
    place = NumberField(bounds=limits.TURN, whole=True)
    typed = StringField()
    unit = StringField()


class RulingForm(EntryForm):
    kind = StringField()
    about = EntryIdField()
    detail = StringField()
    first_step = NumberField(bounds=limits.STEP, whole=True)
    last_step = NumberField(bounds=limits.STEP, whole=True)

    def detail_said(self) -> Any:
        """What is said beside the kind: the two steps of a straight part, or one word; None where there is nothing."""
        if self.kind.data != "straight_part":
            return self.detail.data or None
        steps = (self.first_step, self.last_step)
        if not any(field.raw_data for field in steps):
            return None
        for field in steps:
            if field.number is None:
                raise fault(field.name, "Choose a step.")
        return {field.name: field.number for field in steps}


class CordForm(EntryForm):
    same_maker = StringField()


def taken(form_class: type[AnyForm]) -> AnyForm:
    """The form as it was sent; InvalidEntry with every fault of it."""
    form = form_class(request.form)
    if not form.validate():
        faults = tuple(FieldFault(field.name, str(field.errors[0])) for field in form if field.errors)
        raise InvalidEntry(faults[0].words, faults=faults)
    return form
