"""Who may do what over /api/v1, door by door (contract.md 5 and 7)."""

from typing import Any

import pytest

from app.services import running
from app.store.database import Database
from tests.conftest import NOON
from tests.make import join, make_lesson, make_teacher, new_id
from tests.web.api.outside import Class, Heard, Outside, entry, reading

LESSON = "/lessons/{lesson}"
BENCH = f"{LESSON}/benches/alder"
REFUSED = {"nobody": "sign-in-needed", "front": "teacher-only", "tablet": "teacher-only"}
OTHERS = {"other_tablet": "not-this-bench", "other_teacher": "not-found"}

FOR_BENCH_AND_TEACHER = {"nobody": "sign-in-needed", "front": "teacher-only", **OTHERS}
FOR_TEACHER = {**REFUSED, "other_tablet": "teacher-only", "other_teacher": "not-found"}
FOR_READERS = {"nobody": "sign-in-needed", "other_front": "not-found", **OTHERS}

DOORS: list[tuple[str, str, Any, dict[str, str]]] = [
    ("GET", "/bench", None, {"nobody": "sign-in-needed", "teacher": "sign-in-needed", "front": "sign-in-needed"}),
    ("GET", BENCH, None, FOR_BENCH_AND_TEACHER),
    ("POST", f"{BENCH}/carry-on", None, {"nobody": "sign-in-needed", "other_tablet": "not-this-bench"}),
    ("PATCH", BENCH, {}, FOR_TEACHER),
    ("POST", f"{BENCH}/specimens", entry(), FOR_BENCH_AND_TEACHER),
    ("POST", f"{BENCH}/measures", entry(quantity="free_length_mm", typed="300"), FOR_BENCH_AND_TEACHER),
    ("POST", f"{BENCH}/readings", reading(0, "218"), FOR_BENCH_AND_TEACHER),
    ("POST", f"{BENCH}/events", entry(kind="pause"), FOR_BENCH_AND_TEACHER),
    ("POST", f"{BENCH}/endings", entry(kind="did_not_break"), FOR_BENCH_AND_TEACHER),
    ("POST", f"{BENCH}/predictions", entry(break_force_N=5.0), FOR_BENCH_AND_TEACHER),
    ("POST", f"{BENCH}/rulings", entry(kind="put_back", about=new_id()), FOR_BENCH_AND_TEACHER),
    ("POST", f"{BENCH}/sentences", entry(topic="conclusion", words="It held."), FOR_BENCH_AND_TEACHER),
    ("POST", f"{BENCH}/ticks", {"what": "goggles", "on": True}, FOR_BENCH_AND_TEACHER),
    (
        "POST",
        f"{LESSON}/weighings",
        entry(mark=1, mass_g=99.0, balance_division_g=1.0),
        FOR_BENCH_AND_TEACHER | {"tablet": "not-this-bench"},
    ),
    ("GET", f"{LESSON}/changes", None, FOR_READERS),
    ("GET", f"{LESSON}/class-picture", None, FOR_READERS | {"tablet": "not-opened"}),
    ("GET", f"{LESSON}/class-graph", None, FOR_READERS | {"tablet": "not-opened"}),
    ("GET", f"{LESSON}/class.csv", None, FOR_TEACHER),
    ("GET", "/lessons", None, REFUSED),
    ("POST", "/lessons", {}, REFUSED),
    ("GET", LESSON, None, FOR_TEACHER),
    ("PATCH", LESSON, {}, FOR_TEACHER),
    ("DELETE", LESSON, None, FOR_TEACHER),
    ("POST", f"{LESSON}/stage", {"paused": True}, FOR_TEACHER),
    ("POST", f"{LESSON}/shelf", {}, FOR_TEACHER),
    ("POST", f"{LESSON}/copy", None, FOR_TEACHER),
    ("POST", f"{LESSON}/bring-back", None, FOR_TEACHER),
]


@pytest.fixture
def tokens(outside: Outside, a_class: Class, database: Database) -> dict[str, str | None]:
    """A token of everyone who might ask: of this lesson, and of another one."""
    other = make_lesson(database, teacher=make_teacher(database, name="fern"))
    return {
        "nobody": None,
        "tablet": a_class.tablet,
        "front": a_class.front,
        "teacher": a_class.teacher,
        "other_tablet": join(database, other).token,
        "other_front": other.front_code,
        "other_teacher": outside.token_of(other.teacher),
    }


def test_a_door_is_shut_to_whom_it_is_not_for(outside: Outside, a_class: Class, tokens: dict[str, str | None]) -> None:
    for method, path, body, refused in DOORS:
        address = path.format(lesson=a_class.lesson.lesson_id)
        heard = {who: outside.ask(method, address, body, token=tokens[who]).problem for who in refused}
        assert heard == refused, f"{method} {path}"


def test_a_token_of_nothing_opens_nothing(outside: Outside, a_class: Class) -> None:
    for token in ("", "x", "a.b.c", "é"):
        assert outside.get(a_class.bench, token=token).problem == "sign-in-needed"


def test_another_bench_of_the_same_lesson_may_not_write_here(
    outside: Outside, a_class: Class, database: Database
) -> None:
    hazel = join(database, a_class.lesson, bench="Hazel").token
    assert outside.post(f"{a_class.bench}/readings", reading(0, "218"), token=hazel).problem == "not-this-bench"
    assert outside.get(a_class.bench, token=hazel).problem == "not-this-bench"


def test_what_is_on_the_shelf_for_all_is_read_and_copied_and_nothing_else(
    outside: Outside, a_class: Class, tokens: dict[str, str | None], database: Database
) -> None:
    running.put_on_shelf(database, a_class.lesson.lesson_id, on_shelf=True, own=None, at=NOON)

    def ask(method: str, path: str, body: Any = None) -> Heard:
        return outside.ask(method, a_class.at + path, body, token=tokens["other_teacher"])

    plan = ask("GET", "").body
    assert (plan["mine"], plan["lesson_key"], plan["front_code"]) == (False, None, None)
    assert [bench["slip_code"] for bench in plan["benches"]] == [None, None]
    assert [ask("GET", path).status for path in ("/class-picture", "/class-graph", "/class.csv")] == [200] * 3
    assert ask("POST", "/copy").status == 201
    assert [ask("PATCH", "", {}).problem, ask("DELETE", "").problem] == ["not-found"] * 2
    running.put_on_shelf(database, a_class.lesson.lesson_id, on_shelf=True, own=True, at=NOON)
    assert ask("GET", "").problem == "not-found"


def test_a_write_by_cookie_needs_the_pages_token(outside: Outside, a_class: Class) -> None:
    client = outside.app.test_client()
    with client.session_transaction() as session:
        session["tablet"] = a_class.tablet
    assert client.get("/api/v1/bench").status_code == 200
    answer = client.post("/api/v1" + a_class.bench + "/readings", json=reading(0, "218"))
    assert (answer.status_code, answer.get_json()["type"]) == (403, "/problems/csrf")
