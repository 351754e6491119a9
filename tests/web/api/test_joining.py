"""Sign in and join over /api/v1."""

import pytest

from app.domain.limits import WRONG_CODES_PER_MINUTE, WRONG_PASSWORDS_PER_10_MIN
from app.services import running
from app.store.database import Database
from tests.conftest import NOON, Clock
from tests.make import PASSWORD, make_teacher
from tests.web.api.outside import Class, Outside

NO_SUCH_CODE = "ZZZZZZ"


def test_a_teacher_signs_in_for_twelve_hours(outside: Outside, database: Database) -> None:
    make_teacher(database, password=PASSWORD)
    heard = outside.post("/sign-in", {"sign_in_name": "moss", "password": PASSWORD})
    assert heard.status == 200
    assert heard.body["until"] == "2026-03-13T00:00:00Z"
    assert outside.get("/lessons", token=heard.body["teacher_token"]).body == {"lessons": []}


def test_wrong_passwords_are_counted_for_one_name(outside: Outside, database: Database, clock: Clock) -> None:
    make_teacher(database, password=PASSWORD)
    wrong = {"sign_in_name": "moss", "password": "another passphrase"}
    for _ in range(WRONG_PASSWORDS_PER_10_MIN):
        assert outside.post("/sign-in", wrong).problem == "sign-in-needed"
    too_many = outside.post("/sign-in", {**wrong, "password": PASSWORD})
    assert too_many.problem == "too-many"
    assert int(too_many.raw.headers["Retry-After"]) > 0
    assert outside.post("/sign-in", {**wrong, "sign_in_name": "fern"}).problem == "sign-in-needed"
    clock.forward(601)
    assert outside.post("/sign-in", {**wrong, "password": PASSWORD}).status == 200


def test_a_slip_code_takes_its_bench(outside: Outside, a_class: Class) -> None:
    code = a_class.lesson.slips["Hazel"]
    heard = outside.post("/join", {"code": f" {code[:3].lower()} {code[3:]}"})
    assert heard.status == 201
    assert {key: heard.body[key] for key in ("lesson_id", "bench", "word", "design", "writes")} == {
        "lesson_id": a_class.lesson.lesson_id,
        "bench": "hazel",
        "word": "Hazel",
        "design": "B",
        "writes": True,
    }
    assert heard.body["next"]["do"] == "measure"
    mine = outside.get("/bench", token=heard.body["bench_token"]).body
    assert mine["specimens"][-1]["specimen_id"] == heard.body["specimen_id"]


def test_a_lesson_key_names_free_benches_and_takes_one(outside: Outside, a_class: Class) -> None:
    key = a_class.lesson.lesson_key
    free = [{"bench": "hazel", "word": "Hazel", "design": "B"}]
    assert outside.post("/join", {"code": key}).body == {"free_benches": free}
    assert outside.post("/join", {"code": key, "bench": "Hazel"}).status == 201
    assert outside.post("/join", {"code": key}).body == {"free_benches": []}


def test_a_lesson_key_does_not_take_a_bench_from_another(outside: Outside, a_class: Class) -> None:
    key = a_class.lesson.lesson_key
    assert outside.post("/join", {"code": key, "bench": "alder"}).problem == "bench-taken"
    assert outside.post("/join", {"code": key, "bench": "oak"}).problem == "not-found"
    assert outside.post("/join", {"code": a_class.lesson.slips["Alder"]}).status == 201


def test_a_code_ends_with_its_lesson(outside: Outside, a_class: Class, database: Database) -> None:
    running.set_stage(database, a_class.lesson.lesson_id, {"stage": "over"}, at=NOON)
    assert outside.post("/join", {"code": a_class.lesson.slips["Hazel"]}).problem == "lesson-over"


@pytest.mark.parametrize("code", [NO_SUCH_CODE, "", "no", "ABC1O0", "🪢🪢🪢🪢🪢🪢"])
def test_a_code_of_nothing_is_unknown(outside: Outside, a_class: Class, code: str) -> None:
    assert outside.post("/join", {"code": code}).problem == "unknown-code"


def test_wrong_codes_are_counted_by_address(outside: Outside, a_class: Class, clock: Clock) -> None:
    for _ in range(WRONG_CODES_PER_MINUTE):
        assert outside.post("/join", {"code": NO_SUCH_CODE}).problem == "unknown-code"
    right = {"code": a_class.lesson.slips["Hazel"]}
    too_many = outside.post("/join", right)
    assert too_many.problem == "too-many"
    assert int(too_many.raw.headers["Retry-After"]) > 0
    assert outside.post("/join", right, environ_base={"REMOTE_ADDR": "192.0.2.7"}).status == 201
    clock.forward(61)
    assert outside.post("/join", right).status == 201
