"""One bench over /api/v1: what it is told of itself, and what changes it."""

from app.store.database import Database
from tests.conftest import Clock
from tests.make import join
from tests.web.api.outside import Class, Outside, entry, reading


def test_a_bench_is_told_whole(outside: Outside, a_class: Class) -> None:
    outside.post(
        f"{a_class.bench}/measures", entry(quantity="free_length_mm", typed="30,5", unit="cm"), token=a_class.tablet
    )
    outside.post(f"{a_class.bench}/readings", reading(0, "218"), token=a_class.tablet)
    outside.post(f"{a_class.bench}/readings", reading(1, "222"), token=a_class.tablet)
    told = outside.get(a_class.bench, token=a_class.tablet).body
    assert told["lesson"]["wait_s"] == 20
    assert told["bench"] == {
        "bench": "alder",
        "word": "Alder",
        "kind": "class",
        "design": "A",
        "scale": {"unit": "mm", "division_mm": 1.0, "way": "down"},
        "bench_stage": "step",
        "open_again": False,
    }
    assert [rung["mass_g"] for rung in told["ladder"]] == [102.0, 102.0, 204.0, 204.0, 204.0]
    assert told["hanger"] == {"name": "hanger", "mass_g": None}
    assert [measure["value"] for measure in told["specimens"][0]["measures"]] == [305.0]
    assert [(one["step"], one["extension_mm"], one["state"]) for one in told["readings"]] == [
        (0, 0.0, "stands"),
        (1, 4.0, "stands"),
    ]
    assert told["readings"][1]["force_N"] == 0.102 * 9.80665
    assert (told["next"]["do"], told["next"]["step"], told["next"]["total_mass_g"]) == ("hang", 2, 204.0)
    assert (told["prediction"], told["look_again"], told["writes"]) == (None, [], True)
    assert told == outside.get("/bench", token=a_class.tablet).body
    assert told == outside.get(a_class.bench, token=a_class.teacher).body | {"writes": True}


def test_a_reading_that_was_mended_stays_and_is_told_as_replaced(outside: Outside, a_class: Class) -> None:
    first, mended = reading(0, "2180"), reading(0, "218", reason="typed_wrong")
    mended["replaces"] = first["entry_id"]
    outside.post(f"{a_class.bench}/readings", first, token=a_class.tablet)
    outside.post(f"{a_class.bench}/readings", mended, token=a_class.tablet)
    told = outside.get(a_class.bench, token=a_class.tablet).body["readings"]
    assert [(one["pointer_typed"], one["state"], one["replaces"]) for one in told] == [
        ("2180", "replaced", None),
        ("218", "stands", first["entry_id"]),
    ]
    assert (told[0]["pointer_mm"], told[0]["force_N"], told[0]["extension_mm"]) == (2180.0, None, None)


def test_a_reading_tells_when_it_was_taken_and_why_it_is_left_out(
    outside: Outside, a_class: Class, clock: Clock
) -> None:
    sent = reading(0, "218", age_s=90.0)
    outside.post(f"{a_class.bench}/readings", sent, token=a_class.tablet)
    out = entry(kind="left_out", about=sent["entry_id"], reason="the stand moved")
    outside.post(f"{a_class.bench}/rulings", out, token=a_class.tablet)
    told = outside.get(a_class.bench, token=a_class.tablet).body["readings"][0]
    assert (told["taken_at"], told["by"]) == ("2026-03-12T11:58:30Z", "bench")
    assert told["left_out"] == "the stand moved"


def test_a_reading_by_the_teacher_says_so(outside: Outside, a_class: Class) -> None:
    assert outside.post(f"{a_class.bench}/readings", reading(0, "218"), token=a_class.teacher).status == 201
    assert outside.get(a_class.bench, token=a_class.tablet).body["readings"][0]["by"] == "teacher"


def test_carry_on_moves_the_pad_to_this_tablet(outside: Outside, a_class: Class, database: Database) -> None:
    second = join(database, a_class.lesson).token
    assert [outside.get("/bench", token=one).body["writes"] for one in (a_class.tablet, second)] == [False, True]
    heard = outside.post(f"{a_class.bench}/carry-on", token=a_class.tablet)
    assert (heard.status, heard.body) == (200, {"writes": True})
    assert [outside.get("/bench", token=one).body["writes"] for one in (a_class.tablet, second)] == [True, False]
    assert outside.post(f"{a_class.bench}/readings", reading(0, "218"), token=second).status == 201


def test_the_teacher_changes_a_bench(outside: Outside, a_class: Class) -> None:
    asked = {
        "design": "B",
        "kind": "pilot",
        "open_again": True,
        "scale": {"unit": "cm", "division_mm": 5.0, "way": "up"},
    }
    heard = outside.ask("PATCH", a_class.bench, asked, token=a_class.teacher)
    assert heard.status == 200
    assert {key: heard.body["bench"][key] for key in asked} == asked
    kept = outside.ask("PATCH", a_class.bench, {"scale": {"way": "down"}}, token=a_class.teacher).body["bench"]
    assert kept["scale"] == {"unit": "cm", "division_mm": 5.0, "way": "down"}
    assert (
        outside.post(f"{a_class.bench}/readings", reading(0, "21,8"), token=a_class.tablet).body["pointer_mm"] == 218.0
    )


def test_a_design_that_is_not_there_is_refused(outside: Outside, a_class: Class) -> None:
    assert "design" in outside.ask("PATCH", a_class.bench, {"design": "Z"}, token=a_class.teacher).faults


def test_a_tick_is_as_it_was_last_told(outside: Outside, a_class: Class) -> None:
    for on in (True, True, False):
        tick = {"what": "goggles", "on": on}
        heard = outside.post(f"{a_class.bench}/ticks", tick, token=a_class.tablet)
        assert (heard.status, heard.body["on"]) == (200, on)
    assert outside.get("/bench", token=a_class.tablet).body["ticks"] == {"goggles": False}


def test_a_bench_that_is_not_there_is_not_found(outside: Outside, a_class: Class) -> None:
    assert outside.get(f"{a_class.at}/benches/oak", token=a_class.teacher).problem == "not-found"
