"""A text on standard output, whatever stands behind it: a terminal of any encoding, a full disk, a pipe that closed."""

import os
import sys

from app.settings import SettingsRefused

PLAIN = {"−": "-", "–": "-", "±": "+/-", "×": "x", "“": '"', "”": '"', "’": "'", "µ": "u", "²": "2"}
"""What stands for a sign where the output can't show it; for any other a question mark."""


def print_text(text: str) -> None:
    """The text stands on standard output; a reader that has gone away (`| head`) is no fault.

    SettingsRefused when it can't be written.
    """
    if sys.stdout is None:
        return
    try:
        sys.stdout.write(_showable(text, sys.stdout.encoding or "utf-8"))
        sys.stdout.flush()
    except BrokenPipeError:
        _let_go()
    except OSError as why:
        _let_go()
        raise SettingsRefused(f"The output can't be written ({why.strerror}).") from why


def _showable(text: str, encoding: str) -> str:
    strange = [sign for sign in set(text) if not _fits(sign, encoding)]
    return text.translate({ord(sign): PLAIN.get(sign, "?") for sign in strange}) if strange else text


def _fits(sign: str, encoding: str) -> bool:
    try:
        sign.encode(encoding)
    except UnicodeEncodeError:
        return False
    return True


def _let_go() -> None:
    """What is still to be written goes nowhere, or the process would complain of it as it ends."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
