"""Names of quantities are coined once: the glossary of app/mechanics, which names unit and meaning."""

import ast
import re
from collections.abc import Iterator

from tests.whole.source import Module, modules

UNITS = {"g": "g", "g2": "g2", "n": "N", "mm": "mm", "s": "s", "percent": "%", "m_per_s2": "m/s2", "g_per_m": "g/m"} | {
    "n_per_mm": "N/mm", "mm_per_n": "mm/N", "j": "J", "mpa": "MPa", "cn_per_tex": "cN/tex", "km": "km", "um": "um",
    "kg_per_m3": "kg/m3", "mm2": "mm2",
}  # fmt: skip
"""Ends of names, each with its unit as the glossary writes it."""

SUFFIX = re.compile(rf"_({'|'.join(sorted(UNITS, key=len, reverse=True))})$")
ROW = re.compile(
    r"^\| (?P<symbol>[^|]+) \| (?P<names>[^|]+) \| (?P<unit>[^|]+) \| (?P<meaning>[^|]+) \|$", re.MULTILINE
)


def _mechanics() -> Module:
    return next(module for module in modules() if module.name == "app.mechanics")


def _glossary() -> dict[str, str]:
    """Each name of the glossary with its unit."""
    rows = [row for row in ROW.finditer(ast.get_docstring(_mechanics().tree) or "") if "`" in row["names"]]
    return {name: row["unit"].strip() for row in rows for name in re.findall(r"`(\w+)`", row["names"])}


def _fields(module: Module) -> Iterator[str]:
    for node in ast.walk(module.tree):
        if isinstance(node, ast.ClassDef):
            yield from (
                one.target.id
                for one in node.body
                if isinstance(one, ast.AnnAssign) and isinstance(one.target, ast.Name)
            )


def _results() -> set[str]:
    return {name for module in modules() if module.layer == "mechanics" for name in _fields(module)}


def test_every_result_with_a_unit_is_in_the_glossary() -> None:
    unknown = sorted(name for name in _results() if SUFFIX.search(name) and name not in _glossary())
    assert not unknown, f"coined outside the glossary of app/mechanics/__init__.py: {unknown}"


def test_the_glossary_and_the_names_agree_on_units() -> None:
    told = _glossary()
    assert len(told) > 10, "the glossary could not be read"
    wrong = {name: unit for name, unit in told.items() if (end := SUFFIX.search(name)) and UNITS[end[1]] != unit}
    assert not wrong, wrong
