"""A plan over /api/v1: a lesson made from it, told as it was sent, refused field by field."""

from typing import Any

import pytest

from app.store.database import Database
from tests.make import make_teacher, new_id
from tests.web.api.outside import Outside

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
