"""The OpenAPI 3.1 document of /api/v1, written from the routes that are registered and what each says of itself."""

import re
from collections.abc import Iterator
from typing import Any

from flask import current_app
from pydantic.json_schema import models_json_schema
from werkzeug.routing import Rule

from app.web.api.described import Description
from app.web.api.kinds import ID_PATTERN, Answer, Body, Query
from app.web.errors import PROBLEMS

PREFIX = "/api/v1"
METHODS = ("GET", "POST", "PATCH", "DELETE")
_REF = "#/components/schemas/{model}"
_WRITES = ("POST", "PATCH", "DELETE")
ABOUT = (
    "Readings of a class cord test. Units stand in the names of fields; times are UTC. A field that is not described "
    "here is refused. Whatever is refused is answered as application/problem+json, with a sentence for each field."
)


def document() -> dict[str, Any]:
    """The whole document."""
    routes = list(described_routes())
    return {
        "openapi": "3.1.0",
        "info": {"title": "Ropewalk", "version": "1", "description": ABOUT},
        "paths": _paths(routes),
        "components": {
            "schemas": _schemas(routes) | {"Problem": _problem()},
            "securitySchemes": {
                "token": {
                    "type": "http",
                    "scheme": "bearer",
                    "description": "A bench token, a teacher token, or for reading a front code.",
                },
                "cookie": {
                    "type": "apiKey",
                    "in": "cookie",
                    "name": "ropewalk",
                    "description": "A page's own cookie; a write so made needs the header X-CSRFToken.",
                },
            },
        },
    }


def described_routes() -> Iterator[tuple[Rule, str, Description]]:
    """Each route of /api/v1 by its rule and method, with its description."""
    for rule in current_app.url_map.iter_rules():
        if rule.rule.startswith(PREFIX):
            view: Any = current_app.view_functions[rule.endpoint]
            for method in METHODS:
                if method in (rule.methods or ()):
                    yield rule, method, view.description


def _paths(routes: list[tuple[Rule, str, Description]]) -> dict[str, Any]:
    paths: dict[str, Any] = {}
    for rule, method, description in routes:
        path = re.sub(r"<(\w+)>", r"{\1}", rule.rule)
        paths.setdefault(path, {})[method.lower()] = _operation(rule, method, description)
    return dict(sorted(paths.items()))


def _operation(rule: Rule, method: str, description: Description) -> dict[str, Any]:
    view: Any = current_app.view_functions[rule.endpoint]
    public = view.audience == ("public",)
    said: dict[str, Any] = {
        "operationId": rule.endpoint.removeprefix("api_").replace(".", "_"),
        "summary": description.summary,
        "description": "For: " + ("anyone" if public else ", ".join(view.audience)) + ".",
        "security": [] if public else [{"token": []}, {"cookie": []}],
        "parameters": [*_in_path(rule), *_in_query(description.query), *_in_headers(description.headers)],
        "responses": _responses(rule, method, description, public=public),
    }
    if description.body:
        content = {"application/json": {"schema": _ref(description.body)}}
        said["requestBody"] = {"required": True, "content": content}
    return said


def _in_path(rule: Rule) -> Iterator[dict[str, Any]]:
    for name in sorted(rule.arguments, key=rule.rule.index):
        schema = {"type": "string", "pattern": ID_PATTERN} if name == "lesson_id" else {"type": "string"}
        yield {"name": name, "in": "path", "required": True, "schema": schema}


def _in_query(query: type[Query] | None) -> Iterator[dict[str, Any]]:
    if query is None:
        return
    for name, schema in query.model_json_schema(by_alias=True)["properties"].items():
        yield {"name": name, "in": "query", "required": False, "schema": schema}


def _in_headers(names: tuple[str, ...]) -> Iterator[dict[str, Any]]:
    for name in names:
        said = "The lesson's head, in quotes or bare."
        yield {"name": name, "in": "header", "required": False, "description": said, "schema": {"type": "string"}}


def _responses(rule: Rule, method: str, description: Description, *, public: bool) -> dict[str, Any]:
    said = {str(status): _answer(answer) for status, answer in description.answers.items()}
    for status in _refusals(rule, method, description, public=public):
        names = [name for name, (code, _) in PROBLEMS.items() if code == status]
        said[str(status)] = {"description": ", ".join(names), **_problem_content()}
    return said | {"default": {"description": "Any other refusal.", **_problem_content()}}


def _answer(answer: type[Answer] | str) -> dict[str, Any]:
    if isinstance(answer, str):
        file = {"content": {answer: {"schema": {"type": "string"}}}} if answer == "text/csv" else {}
        return {"description": answer, **file}
    words = (answer.__doc__ or answer.__name__).strip()
    return {"description": words, "content": {"application/json": {"schema": _ref(answer)}}}


def _refusals(rule: Rule, method: str, description: Description, *, public: bool) -> list[int]:
    """The statuses of refusals that the route may answer."""
    found: set[int] = set() if public else {401, 403}
    if rule.arguments:
        found.add(404)
    if description.query:
        found.add(422)
    if description.body:
        found |= {400, 413, 415, 422, 429}
    if method in _WRITES:
        found |= {403, 409, 503}
    if "If-Match" in description.headers:
        found.add(412)
    if rule.endpoint in ("api_join.join", "api_join.sign_in"):
        found |= {401, 404}
    return sorted(found)


def _ref(model: type[Body] | type[Answer]) -> dict[str, str]:
    return {"$ref": _REF.format(model=model.__name__)}


def _schemas(routes: list[tuple[Rule, str, Description]]) -> dict[str, Any]:
    bodies = [description.body for _, _, description in routes if description.body]
    answers = [
        answer for _, _, description in routes for answer in description.answers.values() if not isinstance(answer, str)
    ]
    wanted: list[Any] = [*((body, "validation") for body in bodies), *((answer, "serialization") for answer in answers)]
    _, whole = models_json_schema(wanted, by_alias=True, ref_template=_REF)
    found: dict[str, Any] = whole["$defs"]
    return dict(sorted(found.items()))


def _problem_content() -> dict[str, Any]:
    return {"content": {"application/problem+json": {"schema": {"$ref": _REF.format(model="Problem")}}}}


def _problem() -> dict[str, Any]:
    """RFC 9457, with the faults of an entry field by field."""
    text = {"type": "string"}
    fault = {"type": "object", "required": ["field", "words"], "properties": {"field": text, "words": text}}
    return {
        "type": "object",
        "required": ["type", "title", "status", "detail", "instance"],
        "properties": {
            "type": {"type": "string", "enum": [f"/problems/{name}" for name in PROBLEMS]},
            "title": text,
            "status": {"type": "integer"},
            "detail": text,
            "instance": text,
            "errors": {"type": "array", "items": fault},
        },
    }
