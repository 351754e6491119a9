"""Our own words: none that services for quizzes, pin-boards, video calls or marking made their own, anywhere.

The list is that of the words page of the design; technical senses are allowed one by one, each with its reason.
"""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.whole.source import APP, ROOT, modules

FORBIDDEN = (
    "lobby",
    "game code",
    "room code",
    "class code",
    "wall",
    "board",
    "host",
    "player",
    "points",
    "leaderboard",
    "stream",
    "assignment",
    "turn in",
    "spotlight",
    "nudge",
    "breakout",
    "console",
)
FOUND = re.compile(
    rf"(?<![a-z])({'|'.join(word.replace(' ', '[ _-]?') for word in FORBIDDEN)})(?![a-z])", re.IGNORECASE
)

_CURVE = "the points of a curve, as contract.md 3 names them; nobody scores any"
_LISTEN = "the address to listen on, as contract.md 2 and 4 name the option and the variable"
ALLOWED: dict[tuple[str, str], str] = {
    ("app/options.py", "host"): _LISTEN,
    ("app/serving.py", "host"): _LISTEN,
    ("app/settings.py", "host"): _LISTEN,
    ("app/figures/", "points"): _CURVE,
    ("app/mechanics/", "points"): _CURVE,
    ("app/services/analysing.py", "points"): _CURVE,
    ("app/web/", "points"): _CURVE,
    ("app/static/js/", "points"): _CURVE,
}
"""By start of a place and word: the technical sense that it has there. Pages (app/templates) have none."""

ATTRIBUTES = re.compile(r"\.points\b|\spoints=|[\"']points[\"'],|\bpoints\s*[}=:]")
"""Not words on a page: the attribute of a polyline in SVG, and of a curve in a template or a script."""

FILES = sorted(path for path in APP.rglob("*") if path.suffix in (".html", ".js", ".css", ".svg"))


def _hits(place: str, text: str) -> Iterator[tuple[str, str, str]]:
    for match in FOUND.finditer(ATTRIBUTES.sub(" ", text)):
        around = " ".join(match.string[max(0, match.start() - 30) : match.end() + 30].split())
        yield place, match[1].lower(), around


def _strings() -> Iterator[tuple[str, str]]:
    """Every string of the Python source, docstrings too, with its place."""
    for module in modules():
        for node in ast.walk(module.tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                yield f"{module.place}:{node.lineno}", node.value


def _seen() -> list[tuple[str, str, str]]:
    texts = [(path.relative_to(ROOT).as_posix(), path.read_text(encoding="utf-8")) for path in FILES]
    names = [(place, Path(place).name) for place, _ in texts]
    return [hit for place, text in (*texts, *names, *_strings()) for hit in _hits(place, text)]


def _is_allowed(place: str, word: str) -> bool:
    return any(place.startswith(start) and word == allowed for start, allowed in ALLOWED)


def test_no_word_of_those_services_is_ours() -> None:
    wrong = [f"{place}: {around}" for place, word, around in _seen() if not _is_allowed(place, word)]
    assert not wrong, wrong


@pytest.mark.parametrize("allowance", ALLOWED)
def test_every_allowance_is_still_needed(allowance: tuple[str, str]) -> None:
    start, word = allowance
    assert any(place.startswith(start) and found == word for place, found, _ in _seen())


@pytest.mark.parametrize("word", FORBIDDEN)
def test_the_list_would_be_noticed(word: str) -> None:
    assert list(_hits("somewhere", f"Go to the {word.title()} now."))
