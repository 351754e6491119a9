"""The outside as tests play it: a client without cookies that holds every refusal to its one shape."""

import json
from dataclasses import dataclass
from typing import Any

from flask import Flask
from werkzeug.test import TestResponse

from app.services.teachers import SignedIn
from app.web.current import teacher_token
from app.web.errors import PROBLEMS
from tests.make import JoinedBench, MadeLesson, new_id

SPOKEN = {"type", "title", "status", "detail", "instance"}


@dataclass(frozen=True)
class Heard:
    """One answer: its status, its JSON (None for a file or nothing), and the raw answer."""

    status: int
    body: Any
    raw: TestResponse

    @property
    def problem(self) -> str:
        """The name of the problem; blank when there is none."""
        return str(self.body["type"]).removeprefix("/problems/") if self.status >= 400 else ""

    @property
    def faults(self) -> dict[str, str]:
        """The sentence of each field at fault."""
        return {fault["field"]: fault["words"] for fault in self.body.get("errors", [])}


class Outside:
    """A program that talks to /api/v1 with tokens."""

    def __init__(self, app: Flask) -> None:
        self.app = app

    def token_of(self, teacher: SignedIn) -> str:
        """A token of that teacher, as sign-in gives it."""
        with self.app.test_request_context():
            return teacher_token(teacher)

    def ask(self, method: str, path: str, body: Any = None, *, token: str | None = None, **more: Any) -> Heard:
        """What /api/v1 answers; `body` is sent as JSON."""
        headers = dict(more.pop("headers", {}))
        if token is not None:
            headers["Authorization"] = f"Bearer {token}"
        if body is not None:
            more = {"data": json.dumps(body), "content_type": "application/json", **more}
        client = self.app.test_client(use_cookies=False)
        answer = client.open(f"/api/v1{path}", method=method, headers=headers, **more)
        return _heard(answer)

    def get(self, path: str, *, token: str | None = None, **more: Any) -> Heard:
        """What a question is answered."""
        return self.ask("GET", path, token=token, **more)

    def post(self, path: str, body: Any = None, *, token: str | None = None, **more: Any) -> Heard:
        """What a POST is answered."""
        return self.ask("POST", path, body, token=token, **more)


def _heard(answer: TestResponse) -> Heard:
    body = json.loads(answer.get_data()) if "json" in (answer.mimetype or "") else None
    if answer.status_code >= 400:
        assert answer.mimetype == "application/problem+json", answer.get_data(as_text=True)
        assert set(body) - {"errors"} == SPOKEN
        assert PROBLEMS[body["type"].removeprefix("/problems/")][0] == body["status"] == answer.status_code
        assert body["detail"].endswith((".", "?"))
        assert body["instance"]
    return Heard(answer.status_code, body, answer)


def entry(**said: Any) -> dict[str, Any]:
    """An entry with a fresh id, as a tablet sends it."""
    return {"entry_id": new_id(), "tablet_time": "2026-03-12T09:41:20Z", "age_s": 0.0, **said}


def reading(step: int, typed: str, **said: Any) -> dict[str, Any]:
    """A reading as a tablet sends it; the phase follows from the step when it is not said."""
    return entry(**{"step": step, "phase": "load" if step else "zero", "pointer_typed": typed, **said})


@dataclass(frozen=True, kw_only=True)
class Class:
    """A lesson with Alder taken, and who may ask: tokens of its teacher, of Alder's tablet, and its front code."""

    lesson: MadeLesson
    alder: JoinedBench
    teacher: str

    @property
    def at(self) -> str:
        """Where the lesson is."""
        return f"/lessons/{self.lesson.lesson_id}"

    @property
    def bench(self) -> str:
        """Where Alder is."""
        return f"{self.at}/benches/alder"

    @property
    def tablet(self) -> str:
        """The token of Alder's tablet."""
        return self.alder.token

    @property
    def front(self) -> str:
        """The front code."""
        return self.lesson.front_code
