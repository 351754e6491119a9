"""Form fields that know what a good entry looks like; the raw text stays, so that it is shown again."""

from collections.abc import Sequence
from typing import Any

from wtforms import HiddenField, SelectField, StringField
from wtforms.fields.choices import SelectChoice  # type: ignore[attr-defined]  # newer than the type stubs
from wtforms.validators import ValidationError

from app.domain.errors import InvalidEntry
from app.domain.limits import TEXT_MOST, within
from app.domain.quantities import number_typed


class NumberField(StringField):
    """A number typed with comma or point; `number` holds it once the form is valid, None when left blank."""

    def __init__(
        self,
        label: str = "",
        *,
        bounds: tuple[float, float],
        unit: str = "",
        needed: bool = False,
        whole: bool = False,
        **more: Any,
    ) -> None:
        super().__init__(label, **more)
        self.bounds = bounds
        self.unit = unit
        self.needed = needed
        self.whole = whole
        self.number: float | None = None

    def pre_validate(self, form: Any) -> None:  # noqa: ARG002 - the signature is WTForms'
        """The text is a number within the bounds; else its sentence is beside the field."""
        if not (self.data or "").strip() and not self.needed:
            return
        try:
            value = within(self.name, number_typed(self.name, self.data or ""), self.bounds, self.unit)
        except InvalidEntry as refusal:
            raise ValidationError(refusal.sentence) from refusal
        if self.whole and value != int(value):
            raise ValidationError("A whole number, please.")
        self.number = int(value) if self.whole else value


class WordsField(StringField):
    """A line of text up to a length, without signs that can't be kept."""

    def __init__(self, label: str = "", *, most: int = TEXT_MOST, needed: str = "", **more: Any) -> None:
        super().__init__(label, **more)
        self.most = most
        self.needed = needed

    def pre_validate(self, form: Any) -> None:  # noqa: ARG002 - the signature is WTForms'
        """The text can be kept; else its sentence is beside the field."""
        text = (self.data or "").strip()
        if not text and self.needed:
            raise ValidationError(self.needed)
        if len(text) > self.most:
            raise ValidationError(f"At most {self.most} characters.")
        if "\x00" in text:
            raise ValidationError("There is a sign in it that can't be kept. Type the words again.")


class ChoiceField(SelectField):
    """One of a closed list; blank when none was chosen and none is needed."""

    def __init__(self, label: str = "", *, pairs: Sequence[tuple[str, str]], needed: bool = True, **more: Any) -> None:
        choices = [SelectChoice(value, words) for value, words in pairs]
        if not needed:
            choices.insert(0, SelectChoice("", ""))
        super().__init__(label, choices=choices, **more)


class IdField(HiddenField):
    """A hidden id; blank counts as none."""
