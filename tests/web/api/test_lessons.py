"""Lessons over /api/v1: mended, run, shelved, deleted and brought back."""

from typing import Any

import pytest

from app.store.database import Database
from tests.make import make_lesson, make_teacher, new_id
from tests.web.api.outside import Class, Heard, Outside, entry, reading

MATERIAL = new_id()


def _mend(outside: Outside, a_class: Class, body: dict[str, Any], **more: Any) -> Heard:
    return outside.ask("PATCH", a_class.at, body, token=a_class.teacher, **more)


def test_a_plan_is_mended_column_by_column(outside: Outside, a_class: Class) -> None:
    heard = _mend(outside, a_class, {"wait_s": 45, "planned_on": "2026-03-12", "year_band": None})
    assert heard.status == 200
    assert (heard.body["wait_s"], heard.body["planned_on"]) == (45, "2026-03-12")
    assert heard.body["title"] == "Three strands or two"
    assert outside.get(a_class.bench, token=a_class.tablet).body["lesson"]["wait_s"] == 45


def test_a_plan_is_mended_only_when_nobody_changed_it_meanwhile(outside: Outside, a_class: Class) -> None:
    told = outside.get(a_class.at, token=a_class.teacher)
    head = told.body["head"]
    assert told.raw.headers["ETag"] == f'"{head}"'
    assert _mend(outside, a_class, {"wait_s": 30}, headers={"If-Match": f'"{head}"'}).status == 200
    for stale in (f'"{head}"', str(head), "x", "999999999999"):
        assert _mend(outside, a_class, {"wait_s": 31}, headers={"If-Match": stale}).problem == "stale"
    assert _mend(outside, a_class, {"wait_s": 32}, headers={"If-Match": "*"}).body["wait_s"] == 32


def test_a_list_that_is_sent_back_stays_what_it_was(outside: Outside, a_class: Class) -> None:
    told = outside.get(a_class.at, token=a_class.teacher).body
    lists = {name: told[name] for name in ("designs", "rungs", "variables", "materials")}
    kept = _mend(outside, a_class, lists).body
    assert {name: kept[name] for name in lists} == lists


def test_benches_come_stay_and_go(outside: Outside, a_class: Class) -> None:
    outside.post(f"{a_class.bench}/readings", reading(0, "218"), token=a_class.tablet)
    heard = _mend(outside, a_class, {"benches": [{"word": "alder"}, {"word": "Oak", "kind": "pilot"}, {}]})
    assert [(bench["bench"], bench["kind"], bench["place"]) for bench in heard.body["benches"]] == [
        ("alder", "class", 0),
        ("oak", "pilot", 1),
        ("hazel", "class", 2),
    ]
    assert {bench["design"] for bench in heard.body["benches"]} <= {"A", "B"}
    assert outside.get("/bench", token=a_class.tablet).body["readings"]
    assert _mend(outside, a_class, {"benches": [{"word": "Oak"}]}).problem == "in-use"


def test_what_hangs_or_is_made_is_mended_not_removed(outside: Outside, a_class: Class) -> None:
    for step in range(3):
        outside.post(f"{a_class.bench}/readings", reading(step, "218"), token=a_class.tablet)
    assert _mend(outside, a_class, {"rungs": [{"printed_mass_g": 100.0}]}).problem == "in-use"
    assert _mend(outside, a_class, {"rungs": [{"printed_mass_g": 100.0}] * 2}).status == 200
    assert outside.get("/bench", token=a_class.tablet).body["readings"][1]["total_mass_g"] == 100.0
    assert _mend(outside, a_class, {"designs": [{"letter": "A"}]}).problem == "in-use"


def test_a_design_that_was_only_expected_to_be_best_is_in_use_too(outside: Outside, a_class: Class) -> None:
    _mend(outside, a_class, {"designs": [{"letter": letter} for letter in "ABC"]})
    outside.post(f"{a_class.bench}/predictions", entry(best_design="C"), token=a_class.tablet)
    assert _mend(outside, a_class, {"designs": [{"letter": "A"}, {"letter": "B"}]}).problem == "in-use"


def test_a_material_goes_with_the_design_that_was_made_of_it(outside: Outside, a_class: Class) -> None:
    made = _mend(
        outside,
        a_class,
        {
            "materials": [{"id": MATERIAL, "name": "fleece"}],
            "designs": [{"letter": "A", "material_id": MATERIAL}, {"letter": "B"}],
        },
    )
    assert made.body["designs"][0]["material_id"] == made.body["materials"][0]["id"]
    assert "designs" in _mend(outside, a_class, {"materials": []}).faults
    gone = _mend(outside, a_class, {"materials": [], "designs": [{"letter": "A"}, {"letter": "B"}]})
    assert (gone.status, gone.body["materials"]) == (200, [])


def test_no_plan_lays_hold_of_another_lessons_rows(outside: Outside, a_class: Class, database: Database) -> None:
    other = make_lesson(database, teacher=make_teacher(database, name="fern"))
    at, fern = f"/lessons/{other.lesson_id}", outside.token_of(other.teacher)
    outside.ask("PATCH", at, {"materials": [{"name": "fleece"}]}, token=fern)
    before = outside.get(at, token=fern).body
    taken = {"id": before["materials"][0]["id"], "name": "taken"}
    designs = [{**design, "name": "taken"} for design in before["designs"]]
    assert _mend(outside, a_class, {"materials": [taken], "designs": designs}).status == 200
    assert outside.get(at, token=fern).body == before


def test_the_list_and_the_shelf(outside: Outside, a_class: Class) -> None:
    lesson_id = a_class.lesson.lesson_id

    def listed(shelf: str) -> list[str]:
        told = outside.get(f"/lessons{shelf}", token=a_class.teacher).body["lessons"]
        return [one["lesson_id"] for one in told]

    assert (listed(""), listed("?shelf=true"), listed("?shelf=false")) == ([lesson_id], [], [lesson_id])
    assert outside.post(f"{a_class.at}/shelf", {"on_shelf": True}, token=a_class.teacher).status == 200
    assert (listed(""), listed("?shelf=true")) == ([], [lesson_id])
    assert _mend(outside, a_class, {"wait_s": 1}).problem == "lesson-over"
    stage = outside.post(f"{a_class.at}/stage", {"paused": True}, token=a_class.teacher)
    assert stage.problem == "lesson-over"
    assert outside.post(f"{a_class.at}/shelf", {"on_shelf": False}, token=a_class.teacher).status == 200
    assert listed("") == [lesson_id]


def test_a_deleted_lesson_is_brought_back(outside: Outside, a_class: Class) -> None:
    assert outside.ask("DELETE", a_class.at, token=a_class.teacher).status == 204
    for method, path, body in (
        ("GET", "", None),
        ("DELETE", "", None),
        ("PATCH", "", {}),
        ("POST", "/stage", {"paused": True}),
        ("POST", "/shelf", {}),
        ("POST", "/copy", None),
        ("GET", "/class-picture", None),
        ("GET", "/class.csv", None),
        ("GET", "/changes", None),
    ):
        assert outside.ask(method, a_class.at + path, body, token=a_class.teacher).problem == "not-found", path
    assert outside.get(a_class.bench, token=a_class.tablet).problem == "not-found"
    assert outside.post(f"{a_class.bench}/readings", reading(0, "218"), token=a_class.tablet).problem == "not-found"
    assert outside.get("/lessons", token=a_class.teacher).body["lessons"] == []
    for _ in range(2):
        assert outside.post(f"{a_class.at}/bring-back", token=a_class.teacher).status == 200
    assert outside.get(a_class.at, token=a_class.teacher).status == 200


def test_a_copy_is_a_new_plan_without_readings(outside: Outside, a_class: Class) -> None:
    outside.post(f"{a_class.bench}/readings", reading(0, "218"), token=a_class.tablet)
    made = outside.post(f"{a_class.at}/copy", token=a_class.teacher)
    assert made.status == 201
    assert made.body["lesson_key"] != a_class.lesson.lesson_key
    assert not {bench["slip_code"] for bench in made.body["benches"]} & set(a_class.lesson.slips.values())
    copied = outside.get(f"/lessons/{made.body['lesson_id']}/benches/alder", token=a_class.teacher).body
    assert copied["readings"] == []
    told = outside.get(f"/lessons/{made.body['lesson_id']}", token=a_class.teacher).body
    assert told["copied_from"] == a_class.lesson.lesson_id


def test_the_lesson_runs_as_asked(outside: Outside, a_class: Class) -> None:
    asked = {
        "stage": "testing",
        "paused": True,
        "masses_down": True,
        "graph_open": True,
        "front_view": "one_bench",
        "front_bench": "alder",
    }
    heard = outside.post(f"{a_class.at}/stage", asked, token=a_class.teacher)
    assert heard.status == 200
    told = outside.get(a_class.at, token=a_class.teacher).body
    assert told["head"] == heard.body["head"]
    assert {key: told[key] for key in asked if key != "masses_down"} == {
        key: value for key, value in asked.items() if key != "masses_down"
    }
    assert told["masses_down_at"]
    outside.post(f"{a_class.at}/stage", {"masses_down": False, "front_bench": None}, token=a_class.teacher)
    told = outside.get(a_class.at, token=a_class.teacher).body
    assert (told["masses_down_at"], told["front_bench"], told["stage"]) == (None, None, "testing")


@pytest.mark.parametrize(
    ("asked", "field"),
    [
        ({}, ""),
        ({"stage": "break"}, "stage"),
        ({"front_view": "wall"}, "front_view"),
        ({"front_bench": "oak"}, "front_bench"),
    ],
)
def test_a_wrong_stage_is_refused(outside: Outside, a_class: Class, asked: dict[str, Any], field: str) -> None:
    heard = outside.post(f"{a_class.at}/stage", asked, token=a_class.teacher)
    assert (heard.problem, set(heard.faults)) == ("invalid-entry", {field})
