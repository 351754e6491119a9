"""The list of sources and the list of words: each once, in order, and nothing that a sum cites is missing."""

import ast
import re
from itertools import pairwise

import pytest

from app.domain.glossary import OURS, TRADE
from app.domain.sources import OWN, SOURCES
from tests.whole.source import modules

CITED = re.compile(
    r"ISO(?:/TS)? \d[\d-]*\d|ASTM [A-Z]\d+|WGS 84|World Geodetic System 1984|e-Handbook|StRD|Nelson|Turnbull|Fisher|"
    r"Bonferroni|Graybill|Satterthwaite|Golub|CGPM|trapezium|annex G|H\.[23]|4\.3\.[47]|5\.1\.[26]|5\.2\.2|6\.2\.1"
)
LISTED = " ".join(f"{one.key} {one.title} {one.says} {one.used_for}" for one in SOURCES)


def sources_of_sums() -> dict[str, str]:
    """What each function of mechanics says after "Source:", by its name."""
    told = {}
    for module in modules():
        for node in ast.walk(module.tree):
            if module.layer == "mechanics" and isinstance(node, ast.FunctionDef):
                _, _, source = (ast.get_docstring(node) or "").partition("Source:")
                told[f"{module.name}.{node.name}"] = " ".join(source.split())
    return told


def test_everything_that_a_sum_cites_is_listed() -> None:
    cited = {(name, found[0]) for name, source in sources_of_sums().items() for found in CITED.finditer(source)}
    assert len({what for _, what in cited}) > 15, "the docstrings could not be read"
    missing = sorted((name, what) for name, what in cited if what.lower() not in LISTED.lower())
    assert not missing, missing


def test_what_a_docstring_cites_from_memory_is_marked_so() -> None:
    marked = {one.key for one in SOURCES if "from memory" in one.says}
    assert {"ASTM D882 A1", "ISO 6892-1", "ISO 527-1", "ISO 1144", "ISO 4591", "ISO 7211-3", "Nelson 1982"} <= marked
    assert {"Turnbull 1976", "ISO 5725-2", "ASTM E691", "Graybill and Wang 1980", "Bonferroni"} <= marked
    assert not marked & {"GUM 4.3.7", "NIST 7.4.7.1", "WGS 84", "CGPM 1901"}


def test_each_source_stands_once() -> None:
    keys = [one.key for one in SOURCES]
    assert len(set(keys)) == len(keys)
    assert len({word for word, _ in OWN}) == len(OWN)


@pytest.mark.parametrize("words", [TRADE, OURS])
def test_words_stand_in_order_and_once(words: tuple[tuple[str, str], ...]) -> None:
    assert all(one.lower() < other.lower() for (one, _), (other, _) in pairwise(words))


@pytest.mark.parametrize(("word", "meaning"), [*TRADE, *OURS, *OWN])
def test_a_meaning_is_plain_sentences(word: str, meaning: str) -> None:
    assert meaning.endswith("."), word
    assert len(meaning) < 220, word
