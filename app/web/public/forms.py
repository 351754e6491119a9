"""The forms of the doors: sign in, first sign-in, own passphrase."""

from typing import Any

from wtforms import BooleanField, Form, HiddenField
from wtforms.validators import ValidationError

from app.domain.errors import InvalidEntry
from app.domain.limits import PASSWORD_MOST
from app.services.teachers import NAME_MOST, check_password_words
from app.web.fields import WordsField


class FreshPassphrase(WordsField):
    """A passphrase to be set: long enough, as typed, blanks and all."""

    def pre_validate(self, form: Any) -> None:  # noqa: ARG002 - the signature is WTForms'
        """It is long enough; else how much is missing."""
        try:
            check_password_words(self.data or "")
        except InvalidEntry as refusal:
            raise ValidationError(refusal.sentence) from refusal


class SignInForm(Form):
    """Name and passphrase, and where to go then."""

    sign_in_name = WordsField("Name", most=NAME_MOST, needed="Type the name that you sign in with.")
    password = WordsField("Passphrase", most=PASSWORD_MOST, needed="Type your passphrase.")
    show = BooleanField("Show what I type")
    next = HiddenField()


class FirstForm(Form):
    """The first passphrase."""

    password = FreshPassphrase("Passphrase")
    show = BooleanField("Show what I type")


class PasswordForm(Form):
    """Another passphrase, by who knows the old one."""

    old_password = WordsField("Passphrase of now", most=PASSWORD_MOST, needed="Type the passphrase of now.")
    password = FreshPassphrase("New passphrase")
    show = BooleanField("Show what I type")
