"""What was typed, as it may stand in a page again."""

from collections.abc import Iterable, Mapping

MOST = 600
"""Signs of one field that are shown again: more than any field takes, fewer than would swell a page."""


def holdable(text: str) -> str:
    """The text without signs that a page can't hold."""
    return "".join(sign for sign in text if sign.isprintable() or sign == "\n")


def shown_again(text: str) -> str:
    """The text without signs that a page can't hold, and not longer than any field takes."""
    return holdable(text[:MOST])


def form_again(items: Iterable[tuple[str, str]]) -> Mapping[str, str]:
    """A form's fields by name, the first of each, ready to be shown again."""
    found: dict[str, str] = {}
    for name, text in items:
        found.setdefault(name, shown_again(text))
    return found
