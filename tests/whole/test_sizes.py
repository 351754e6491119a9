"""The size budget: small files, small functions; whoever needs more writes it down here with a reason."""

import ast
import statistics
from collections.abc import Iterable
from pathlib import Path

import pytest

from tests.whole.source import APP, ROOT, Function, Module, code_lines, modules

FILE_MOST, FILE_MEDIAN_MOST = 300, 120
FUNCTION_MOST, FUNCTION_MEDIAN_MOST, ROUTE_MOST = 40, 10, 25
SCRIPT_MOST, STYLE_MOST = 150, 300
TEMPLATE_MEDIAN_MOST = 45

WAIVERS: dict[str, str] = {}
"""By place of a file, or place and name of a function: why it may be longer."""

PYTHON = [one for folder in ("app", "deploy", "tests") for one in modules(ROOT / folder)]
"""Migrations are left out: each is one table after another, written once and never changed."""


def _lines(path: Path) -> int:
    return len(path.read_text(encoding="utf-8").splitlines())


def _over(sizes: Iterable[tuple[str, int]], most: int) -> list[str]:
    return [f"{name}: {size} lines" for name, size in sizes if size > most and name not in WAIVERS]


@pytest.mark.parametrize("module", PYTHON, ids=lambda module: module.place)
def test_a_file_is_short(module: Module) -> None:
    assert not _over([(module.place, len(module.text.splitlines()))], FILE_MOST)


def test_most_files_are_shorter_still() -> None:
    assert statistics.median(len(module.text.splitlines()) for module in modules() if module.text) <= FILE_MEDIAN_MOST


def _sizes(module: Module) -> list[tuple[str, int]]:
    return [(f"{module.place} {one.name}", code_lines(one, module.text)) for one in module.functions()]


def test_a_function_is_short() -> None:
    assert not [over for module in PYTHON for over in _over(_sizes(module), FUNCTION_MOST)]


def test_most_functions_are_shorter_still() -> None:
    sizes = [size for module in modules() for _, size in _sizes(module)]
    assert statistics.median(sizes) <= FUNCTION_MEDIAN_MOST


def _is_route(function: Function) -> bool:
    calls = [one.func for one in function.decorator_list if isinstance(one, ast.Call)]
    return any(
        isinstance(one, ast.Attribute) and isinstance(one.value, ast.Name) and one.value.id == "bp" for one in calls
    )


def test_a_route_only_translates() -> None:
    routes = [
        (f"{module.place} {one.name}", code_lines(one, module.text))
        for module in modules()
        for one in module.functions()
        if _is_route(one)
    ]
    assert len(routes) > 5, "no routes were found"
    assert not _over(routes, ROUTE_MOST)


def _files(folder: str, ending: str) -> list[tuple[str, int]]:
    return [(path.relative_to(ROOT).as_posix(), _lines(path)) for path in sorted((APP / folder).rglob(f"*.{ending}"))]


def test_scripts_and_styles_are_short() -> None:
    assert not _over(_files("static", "js"), SCRIPT_MOST) + _over(_files("static", "css"), STYLE_MOST)


def test_most_templates_are_short() -> None:
    assert statistics.median(size for _, size in _files("templates", "html")) <= TEMPLATE_MEDIAN_MOST


def test_every_waiver_is_still_needed() -> None:
    known = {module.place for module in PYTHON} | {name for module in PYTHON for name, _ in _sizes(module)}
    assert set(WAIVERS) <= known
