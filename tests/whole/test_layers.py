"""Imports run one way: the table of who may import whom, read from the source itself."""

import ast
import sys
from collections.abc import Iterator

import pytest

from tests.whole.source import ROOT, Function, Module, is_public, modules

MAY_IMPORT: dict[str, set[str]] = {
    "domain": {"app.domain"},
    "mechanics": {"app.domain", "app.mechanics", "numpy", "scipy"},
    "figures": {"app.domain", "app.figures", "app.mechanics"},
    "transfer": {"app.domain", "app.transfer"},
    "store": {"app.domain", "app.store", "sqlalchemy"},
    "services": {"app.domain", "app.mechanics", "app.transfer", "app.store", "app.services"},
    "web": {
        "app.domain", "app.figures", "app.services", "app.web", "app.log",
        "flask", "flask_wtf", "itsdangerous", "jinja2", "markupsafe", "pydantic", "pydantic_core",
        "segno", "werkzeug", "wtforms",
    },
    "settings": set(),
    "log": set(),
    "serving": {"app.services.network", "app.settings", "gunicorn"},
    "opening": {"app.settings", "app.store.database"},
    "options": {"click"},
    "statuses": set(),
    "printing": {"app.settings"},
    "analyse_command": {
        "app.domain", "app.services", "app.settings", "app.options", "app.printing", "app.statuses", "click",
    },
    "commands": {
        "app.domain", "app.services", "app.store.database", "app.settings", "app.log", "app.opening", "app.options",
        "app.serving", "app.statuses", "app.analyse_command",
        "click",
    },
    "__init__": {"app.domain", "app.services", "app.settings", "app.store.database", "app.web", "flask", "flask_wtf",
                 "werkzeug"},
    "wsgi": {"app", "app.settings"},
    "__main__": {"app.commands"},
}  # fmt: skip
"""By layer: what it may import beside the standard library. `web` never imports store or mechanics; only `store`
knows SQLAlchemy; nobody imports from the package's root but `wsgi`, which loads it."""

BY_NAME: dict[str, set[str]] = {
    "app.services.migrating": {"alembic"},
    "app.services.teachers": {"werkzeug.security"},
    "app.opening": {"app.services.migrating"},
}
"""What a single module may import beside what its layer may, as its docstring says why."""

MIGRATING = "app.services.migrating"


def _reached(module: Module) -> Iterator[tuple[str, int]]:
    """What a module imports, as whole module names, with the line; the standard library aside."""
    known = {one.name for one in modules()}
    for name, taken, line in module.imports():
        if name.split(".")[0] in sys.stdlib_module_names:
            continue
        inner = [f"{name}.{one}" for one in taken if f"{name}.{one}" in known]
        outer = [name] if len(inner) < len(taken) or not taken else []
        yield from ((one, line) for one in (*inner, *outer))


def _allowed(name: str, allowed: set[str]) -> bool:
    return any(name == one or (one != "app" and name.startswith(f"{one}.")) for one in allowed)


@pytest.mark.parametrize("module", modules(), ids=lambda module: module.place)
def test_imports_run_one_way(module: Module) -> None:
    allowed = MAY_IMPORT[module.layer] | BY_NAME.get(module.name, set())
    wrong = [f"{module.place}:{line} imports {name}" for name, line in _reached(module) if not _allowed(name, allowed)]
    assert not wrong, wrong


def test_every_layer_has_its_line() -> None:
    assert {module.layer for module in modules()} == set(MAY_IMPORT)


def test_every_exception_is_still_needed() -> None:
    by_name = {module.name: module for module in modules()}
    for name, extra in BY_NAME.items():
        reached = [one for one, _ in _reached(by_name[name])]
        assert all(any(_allowed(one, {wanted}) for one in reached) for wanted in extra), f"{name} needs no {extra}"


def test_alembic_stays_out_of_the_served_process() -> None:
    """Only the commands' side and the tests import the module that imports alembic, which takes half a second."""
    users = [one.name for one in modules() if any(name == MIGRATING for name, _ in _reached(one))]
    assert users == ["app.opening"]


def test_pictures_take_only_result_types_of_the_sums() -> None:
    """A figure draws what was worked out: it may name the records of mechanics, and call nothing there."""
    wrong = [
        f"{module.place}:{line} takes {one} of {name}"
        for module in modules()
        if module.layer == "figures"
        for name, taken, line in module.imports()
        if name.startswith("app.mechanics")
        for one in taken
        if not (one[0].isupper() and not one.isupper())
    ]
    assert not wrong, wrong


def test_nothing_is_imported_inside_a_function() -> None:
    wrong = [
        f"{module.place}:{node.lineno}"
        for module in modules()
        for function in module.functions()
        for node in ast.walk(function)
        if isinstance(node, ast.Import | ast.ImportFrom)
    ]
    assert not wrong, wrong


def _calls(module: Module, name: str) -> list[str]:
    return [
        f"{module.place}:{node.lineno}"
        for node in ast.walk(module.tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == name
    ]


def test_only_services_begin_a_transaction() -> None:
    wrong = [
        call
        for module in modules()
        if module.layer not in ("services", "store")
        for call in _calls(module, "transaction")
    ]
    inside = [call for module in modules() if module.layer == "store" for call in _calls(module, "transaction")]
    assert not wrong + inside


def test_nobody_commits_but_the_database() -> None:
    wrong = [call for module in modules() for name in ("commit", "rollback") for call in _calls(module, name)]
    assert not wrong, wrong


def test_sqlalchemy_is_known_to_the_store_and_the_migrations_alone() -> None:
    elsewhere = [
        module.place
        for folder in ("app", "deploy")
        for module in modules(ROOT / folder)
        if module.layer != "store" and any(name.split(".")[0] == "sqlalchemy" for name, _, _ in module.imports())
    ]
    assert not elsewhere


def test_no_module_is_a_drawer() -> None:
    """A module is named for a thing or a verb, never for being handy."""
    drawers = {"utils", "helpers", "common", "misc", "manager", "base", "tools", "lib"}
    found = [one.place for one in modules() if one.name.rpartition(".")[2] in drawers and one.name != "app.store.base"]
    assert not found


def test_verbs_take_the_database_first() -> None:
    """A verb of the services is given the database, then plain values; it finds nothing by itself."""
    wrong = [
        f"{module.place}:{function.lineno} {function.name}"
        for module in modules()
        if module.layer == "services"
        for function in module.tree.body
        if isinstance(function, Function) and is_public(function.name)
        for names in [[one.arg for one in function.args.args]]
        if "database" in names and names[0] != "database"
    ]
    assert not wrong, wrong
