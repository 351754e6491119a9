"""Who may do what: every route has its audience, said by one decorator, and keeps to it."""

import ast

import pytest
from flask import Flask
from werkzeug.routing import Rule

from app import create_app
from app.settings import Settings
from app.web.access import AUDIENCES
from tests.whole.source import Function, Module, modules

DECORATORS = {"for_anyone", "for_bench", "for_teacher", "for_some"}
ADDRESSES = {"route", "get", "post", "put", "patch", "delete"}
NOBODY = "00000000-0000-4000-8000-000000000000"
FITTING = {
    "lesson_id": NOBODY,
    "bench": "alder",
    "noun": "readings",
    "name": "not-found",
    "mark": "0",
    "code": "ABCDEF",
}
"""What stands in an address for a thing that is not there."""

OPEN_TO_ALL = {
    "/": "home",
    "/join": "a slip code or lesson key is needed",
    "/slip/<code>": "the code is what opens it",
    "/sign-in": "name and passphrase are needed",
    "/first/<token>": "the token is what opens it",
    "/sign-out": "to leave needs no right",
    "/words": "glossary",
    "/sources": "where the sums come from",
    "/cautions": "cautions",
    "/problems/<name>": "what a refusal means",
    "/healthz": "whether the process lives",
    "/readyz": "whether the database is ready",
    "/assets/<mark>/<path:name>": "styles and scripts",
    "/assets/plotly.<mark>.js": "the graph script",
    "/api/v1/openapi.json": "the description of /api/v1",
    "/api/v1/sign-in": "name and passphrase are needed",
    "/api/v1/join": "a slip code or lesson key is needed",
    "/front/<front_code>": "the code is what opens it",
}
"""Every address that asks for no sign-in and no bench (contract.md 5), and why it may."""


def _audience(app: Flask, rule: Rule) -> tuple[str, ...]:
    return tuple(getattr(app.view_functions[rule.endpoint], "audience", ()))


@pytest.fixture(scope="module")
def routes(tmp_path_factory: pytest.TempPathFactory) -> Flask:
    """The product, assembled; its database is never opened."""
    return create_app(Settings(data_folder=tmp_path_factory.mktemp("routes"), secret_key="tests only " * 4))


def test_every_route_has_an_audience(routes: Flask) -> None:
    rules = list(routes.url_map.iter_rules())
    silent = [rule.rule for rule in rules if not _audience(routes, rule)]
    strange = [rule.rule for rule in rules if not set(_audience(routes, rule)) <= set(AUDIENCES)]
    assert rules
    assert not silent + strange


def test_only_what_is_listed_is_open_to_all(routes: Flask) -> None:
    is_open = {rule.rule for rule in routes.url_map.iter_rules() if "public" in _audience(routes, rule)}
    assert is_open <= set(OPEN_TO_ALL), f"open and not on the list: {sorted(is_open - set(OPEN_TO_ALL))}"
    assert set(OPEN_TO_ALL) <= is_open, f"on the list and not open: {sorted(set(OPEN_TO_ALL) - is_open)}"


def _name(decorator: ast.expr) -> str:
    called = decorator.func if isinstance(decorator, ast.Call) else decorator
    if isinstance(called, ast.Attribute) and called.attr in ADDRESSES:
        return "bp"
    return called.id if isinstance(called, ast.Name) else ""


def _routes_of(module: Module) -> list[Function]:
    return [one for one in module.functions() if "bp" in map(_name, one.decorator_list)]


def test_the_audience_stands_directly_under_the_address() -> None:
    """Above it the route would be registered without its guard."""
    wrong = []
    for module in modules():
        for route in _routes_of(module):
            names = [_name(one) for one in route.decorator_list]
            after = names[len(names) - names[::-1].index("bp") :]
            if not after or after[0] not in DECORATORS or len(DECORATORS & set(names)) != 1:
                wrong.append(f"{module.place}:{route.lineno} {route.name}: {names}")
    assert not wrong, wrong


def _address(rule: Rule) -> str:
    parts = [
        part if place % 2 == 0 else FITTING.get(part.split(":")[-1], "x") for place, part in enumerate(_split(rule))
    ]
    return "".join(parts)


def _split(rule: Rule) -> list[str]:
    return rule.rule.replace(">", "<").split("<")


def test_a_stranger_is_let_in_nowhere_else(app: Flask) -> None:
    """Nobody signed in, no bench taken: each guarded address sends to a way in, or refuses before it looks at all."""
    let_in = []
    for rule in app.url_map.iter_rules():
        if "public" in _audience(app, rule):
            continue
        for method in (rule.methods or set()) - {"HEAD", "OPTIONS"}:
            answer = app.test_client().open(_address(rule), method=method)
            wanted = (401,) if rule.rule.startswith("/api/") else (302, 401) if method == "GET" else (401, 403)
            if answer.status_code not in wanted:
                let_in.append(f"{method} {rule.rule} as {_address(rule)}: {answer.status_code}")
    assert not let_in, let_in
