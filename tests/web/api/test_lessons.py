"""Lessons over /api/v1: made, mended, run, shelved, deleted and brought back."""

from typing import Any

import pytest

from app.store.database import Database
from tests.make import make_teacher, new_id
from tests.web.api.outside import Class, Heard, Outside, entry, reading

PLAN: dict[str, Any] = {
    "title": "Three strands or two",
    "designs": [{"strands": 3, "is_yardstick": True}, {"strands": 2}],
    "rungs": [{"printed_mass_g": 100.0}, {"printed_mass_g": 100.0}, {"printed_mass_g": 200.0}],
    "bench_count": 3,
}
MATERIAL = new_id()
WHOLE: dict[str, Any] = {
    "title": "A whole plan",
    "question": "Does the direction matter?",
    "year_band": "12 to 13",
    "planned_on": "2026-03-12",
    "depth": "third",
    "gravity_m_per_s2": 9.81,
    "gravity_from": "the club's own",
    "wait_s": 30,
    "later_wait_s": 60,
    "scale_division_mm": 5.0,
    "judgement_mm": 1.0,
    "printed_mass_tolerance_percent": 5.0,
    "offset_strain_percent": 0.2,
    "return_after_steps": "4 10",
    "own_graph": False,
    "free_text": True,
    "countdown_to": "2026-03-12T10:30:00Z",
    "keep_until": "2027-07-31",
    "slot_min": 60,
    "allocation_seed": 7,
    "planning": {"hanger_name": "bucket", "heights_mm": [800, 900.5]},
    "notes": "Bring the tray.",
    "designs": [
        {
            "letter": "R",
            "name": "3 plaited, along",
            "material_id": MATERIAL,
            "is_yardstick": True,
            "level": 3.0,
            "level_words": "three",
            "strands": 3,
            "layers": 1,
            "lay_up": "plait_flat",
            "direction": "along",
            "strip_width_mm": 25.0,
            "free_length_mm": 300.0,
            "take_up_factor": 1.1,
            "linear_density_g_per_m": 1.479,
            "end_fixing": "knot",
            "pitch_per_100_mm": 12.0,
        }
    ],
    "rungs": [{"mark": 1, "name": "pouch", "printed_mass_g": 100.0, "printed_kind": "net"}],
    "benches": [
        {
            "word": "Juniper",
            "design": "R",
            "kind": "catch_up",
            "scale_unit": "cm",
            "scale_division_mm": 1.0,
            "scale_way": "up",
            "place": 0,
        }
    ],
    "variables": [
        {
            "role": "changed",
            "name": "direction",
            "unit": "deg",
            "value_words": "along",
            "instrument": "ruler",
            "division": 1.0,
            "place": 0,
        }
    ],
    "materials": [
        {
            "id": MATERIAL,
            "name": "garden fleece",
            "form": "sheet",
            "flat_width_mm": 400.0,
            "height_mm": 500.0,
            "gusset_mm": 0.0,
            "seams": "none",
            "woven": False,
            "direction_found": "stretch",
            "mass_per_area_g_m2": 17.0,
            "thickness_um": 100.0,
            "density_kg_m3": 910.0,
            "strength_low_MPa": 10.0,
            "strength_high_MPa": 30.0,
            "strength_source": "invented",
        }
    ],
}


@pytest.fixture
def teacher(outside: Outside, database: Database) -> str:
    """The token of a teacher without lessons."""
    return outside.token_of(make_teacher(database, name="fern"))


def test_a_lesson_is_made_from_the_least_that_is_needed(outside: Outside, teacher: str) -> None:
    made = outside.post("/lessons", PLAN, token=teacher)
    assert made.status == 201
    assert set(made.body) == {"lesson_id", "lesson_key", "front_code", "benches"}
    assert [(bench["bench"], bench["word"]) for bench in made.body["benches"]] == [
        ("alder", "Alder"),
        ("hazel", "Hazel"),
        ("birch", "Birch"),
    ]
    assert sorted(bench["design"] for bench in made.body["benches"]) == ["A", "A", "B"]
    assert len({bench["slip_code"] for bench in made.body["benches"]}) == 3
    told = outside.get(f"/lessons/{made.body['lesson_id']}", token=teacher).body
    assert [design["letter"] for design in told["designs"]] == ["A", "B"]
    assert [rung["mark"] for rung in told["rungs"]] == [1, 2, 3]


def test_a_plan_is_told_as_it_was_sent(outside: Outside, teacher: str) -> None:
    made = outside.post("/lessons", WHOLE, token=teacher).body
    told = outside.get(f"/lessons/{made['lesson_id']}", token=teacher).body
    lists = ("designs", "rungs", "benches", "variables", "materials")
    assert {name: told[name] for name in WHOLE if name not in lists} == {
        name: value for name, value in WHOLE.items() if name not in lists
    }
    for name in lists:
        sent, said = WHOLE[name][0], told[name][0]
        tied = {"id", "material_id"}
        assert {key: said[key] for key in sent if key not in tied} == {
            key: value for key, value in sent.items() if key not in tied
        }
    assert told["designs"][0]["material_id"] == told["materials"][0]["id"]
    assert (told["lesson_key"], told["front_code"]) == (made["lesson_key"], made["front_code"])
    assert told["benches"][0]["slip_code"] == made["benches"][0]["slip_code"]


def test_two_lessons_of_the_same_plan_share_nothing(outside: Outside, teacher: str) -> None:
    one, other = (outside.post("/lessons", WHOLE, token=teacher) for _ in range(2))
    assert (one.status, other.status) == (201, 201)
    told = [outside.get(f"/lessons/{made.body['lesson_id']}", token=teacher).body for made in (one, other)]
    assert told[0]["materials"][0]["id"] != told[1]["materials"][0]["id"]


WRONG: list[tuple[dict[str, Any], str]] = [
    ({"title": "  "}, "title"),
    ({"title": None}, "title"),
    ({"title": "x" * 121}, "title"),
    ({"question": "a\x00b"}, "question"),
    ({"notes": "a\x00b"}, "notes"),
    ({"planning": {"a": ["b\x00"]}}, "planning"),
    ({"depth": "fourth"}, "depth"),
    ({"gravity_m_per_s2": 0}, "gravity_m_per_s2"),
    ({"planned_on": "12.3.2026"}, "planned_on"),
    ({"countdown_to": "2026-03-12T10:30:00"}, "countdown_to"),
    ({"wait_s": 3_601}, "wait_s"),
    ({"teacher_id": new_id()}, "teacher_id"),
    ({"lesson_key": "ABCDEF"}, "lesson_key"),
    ({"designs": []}, "designs"),
    ({"designs": [{"letter": "A"}, {"letter": "A"}]}, "designs"),
    ({"designs": [{"letter": "aa"}]}, "designs.0.letter"),
    ({"designs": [{"material_id": new_id()}]}, "designs"),
    ({"designs": [{}] * 13}, "designs"),
    ({"rungs": [{"mark": 1}, {"mark": 1}]}, "rungs"),
    ({"rungs": [{"mark": 2}]}, "rungs"),
    ({"rungs": [{"printed_mass_g": 0}]}, "rungs.0.printed_mass_g"),
    ({"rungs": [{}] * 61}, "rungs"),
    ({"bench_count": 41}, "bench_count"),
    ({"bench_count": None}, "benches"),
    ({"benches": [{"word": "Oak"}]}, "benches"),
    ({"bench_count": None, "benches": [{"word": "Oak"}, {"word": "oak"}]}, "benches"),
    ({"bench_count": None, "benches": [{"word": "two words"}]}, "benches"),
    ({"bench_count": None, "benches": [{"word": "a\x00"}]}, "benches"),
    ({"bench_count": None, "benches": [{"design": "Z"}]}, "benches"),
    ({"variables": [{"role": "best", "name": "x"}]}, "variables.0.role"),
]


def test_a_wrong_plan_is_a_sentence_beside_its_field(outside: Outside, teacher: str) -> None:
    for wrong, field in WRONG:
        heard = outside.post("/lessons", {**PLAN, **wrong}, token=teacher)
        assert (heard.problem, field in heard.faults) == ("invalid-entry", True), f"{wrong}: {heard.body}"
    assert outside.get("/lessons", token=teacher).body == {"lessons": []}


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


def test_no_plan_lays_hold_of_another_lessons_rows(outside: Outside, a_class: Class, teacher: str) -> None:
    theirs = outside.post("/lessons", WHOLE, token=teacher).body["lesson_id"]
    before = outside.get(f"/lessons/{theirs}", token=teacher).body
    taken = {"id": before["materials"][0]["id"], "name": "taken"}
    assert _mend(outside, a_class, {"materials": [taken]}).status == 200
    assert (
        _mend(
            outside, a_class, {"designs": [{**before["designs"][0], "letter": x, "material_id": None} for x in "AB"]}
        ).status
        == 200
    )
    assert outside.get(f"/lessons/{theirs}", token=teacher).body == before


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
