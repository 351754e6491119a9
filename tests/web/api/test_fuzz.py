"""A fuzzer that reads the document drives /api/v1: no answer is a 500, and each is one that the document promises.

Bounded and the same on every run; schemathesis makes the requests, good and bad, from the OpenAPI document alone.
"""

from typing import Any

import pytest
import schemathesis
from flask import Flask
from hypothesis import HealthCheck, Phase, given
from hypothesis import settings as bounded
from schemathesis import GenerationMode
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)

from app.store.database import Database
from tests.conftest import Clock
from tests.make import join, make_lesson, make_teacher
from tests.web.api.outside import Outside

EXAMPLES = 3
MODES = (GenerationMode.POSITIVE, GenerationMode.NEGATIVE)
CHECKS = [status_code_conformance, content_type_conformance, response_schema_conformance]


@pytest.mark.filterwarnings("ignore::DeprecationWarning")
def test_no_request_breaks_the_server(app: Flask, outside: Outside, database: Database, clock: Clock) -> None:
    teacher = make_teacher(database)
    schema = schemathesis.openapi.from_wsgi("/api/v1/openapi.json", app)
    for found in schema.get_all_operations():
        operation = found.ok()
        lesson = make_lesson(database, teacher=teacher, free_text=True)
        tablet = join(database, lesson).token
        told = operation.definition.raw["description"]
        token = tablet if told == "For: bench." else outside.token_of(teacher)
        for mode in MODES:
            _drive(operation, mode, lesson_id=lesson.lesson_id, token=token, clock=clock)


def _drive(operation: Any, mode: GenerationMode, *, lesson_id: str, token: str, clock: Clock) -> None:
    @bounded(
        max_examples=EXAMPLES,
        derandomize=True,
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(case=operation.as_strategy(generation_mode=mode))
    def drive(case: Any) -> None:
        known = {"lesson_id": lesson_id, "bench": "alder"}
        case.path_parameters = {name: known[name] for name in case.path_parameters or {}}
        if isinstance(case.query, dict) and "wait_s" in case.query:
            case.query["wait_s"] = 0
        clock.forward(2)
        answer = case.call(headers={"Authorization": f"Bearer {token}"})
        assert answer.status_code < 500, f"{operation.label}: {answer.text}"
        if mode is GenerationMode.POSITIVE:
            case.validate_response(answer, checks=CHECKS)

    drive()
