"""Entries over /api/v1: once, in any order, never changed afterwards (contract.md 8)."""

from typing import Any

import pytest

from app.services import recording, running
from app.store.database import Database
from tests.conftest import NOON, Clock
from tests.make import join, make_lesson, make_weighing, new_id
from tests.web.api.outside import Class, Heard, Outside, entry, reading

BODIES: dict[str, dict[str, Any]] = {
    "specimens": entry(reason="a nick in one strip", same_maker=True),
    "measures": entry(quantity="strands", typed="3"),
    "readings": reading(0, "218"),
    "events": entry(kind="knot_slipped", step=1),
    "endings": entry(kind="broke_adding", fail_step=2),
    "predictions": entry(break_force_N=5.0, best_design="B", shape="straight"),
    "rulings": {},
    "sentences": entry(topic="conclusion", words="Three held more."),
}
HEARD = {"entry_id", "n", "state", "same_step", "look_again", "next"}
MORE = {
    "specimens": {"specimen_id", "specimen_no"},
    "readings": {
        *("pointer_mm", "total_mass_g", "force_N", "force_u_N", "extension_mm"),
        *("extension_u_mm", "extension_why", "strain"),
    },
    "endings": {"break_force_N"},
}


@pytest.fixture
def a_class(database: Database, outside: Outside) -> Class:
    """As everywhere, but the lesson takes free text."""
    lesson = make_lesson(database, free_text=True)
    return Class(lesson=lesson, alder=join(database, lesson), teacher=outside.token_of(lesson.teacher))


def _send(outside: Outside, a_class: Class, noun: str, body: Any, *, token: str | None = None) -> Heard:
    return outside.post(f"{a_class.bench}/{noun}", body, token=token or a_class.tablet)


def _body(noun: str, a_class: Class) -> dict[str, Any]:
    about = a_class.alder.specimen_id
    return BODIES[noun] or entry(kind="left_out", about=about, reason="a trial")


@pytest.mark.parametrize("noun", BODIES)
def test_an_entry_sent_twice_is_stored_once(outside: Outside, a_class: Class, noun: str, clock: Clock) -> None:
    body = _body(noun, a_class)
    first = _send(outside, a_class, noun, body)
    clock.forward(30)
    again = _send(outside, a_class, noun, {**body, "age_s": 30.0, "tablet_time": "2026-03-12T09:41:50Z"})
    assert (first.status, again.status) == (201, 200), first.body
    assert first.body == again.body
    assert set(first.body) == HEARD | MORE.get(noun, set())
    assert first.body["entry_id"] == body["entry_id"]
    told = outside.get(f"{a_class.at}/changes?after={first.body['n'] - 1}", token=a_class.teacher).body
    assert [change["entry_id"] for change in told["changes"]] == [body["entry_id"]]
    assert told["changes"][0]["bench"] == "alder"


DIFFERENT = {
    "specimens": {"same_maker": False},
    "measures": {"typed": "4"},
    "readings": {"pointer_typed": "219"},
    "events": {"step": 2},
    "endings": {"fail_step": 3},
    "predictions": {"break_force_N": 6.0},
    "rulings": {"reason": "another"},
    "sentences": {"words": "Two held more."},
}


@pytest.mark.parametrize("noun", BODIES)
def test_an_id_can_not_carry_another_entry(outside: Outside, a_class: Class, noun: str) -> None:
    body = _body(noun, a_class)
    _send(outside, a_class, noun, body)
    assert _send(outside, a_class, noun, {**body, **DIFFERENT[noun]}).problem == "entry-reused"


@pytest.mark.parametrize("closed", ["masses_down", "over"])
def test_the_first_answer_is_heard_again_when_all_is_closed(
    outside: Outside, a_class: Class, database: Database, clock: Clock, closed: str
) -> None:
    body = reading(0, "218")
    first = _send(outside, a_class, "readings", body)
    asked = {"masses_down": True} if closed == "masses_down" else {"stage": "over"}
    running.set_stage(database, a_class.lesson.lesson_id, asked, at=clock.forward(60))
    again = _send(outside, a_class, "readings", {**body, "age_s": 60.0})
    assert (again.status, again.body) == (200, first.body)


def test_a_reading_is_answered_with_what_it_means(outside: Outside, a_class: Class, database: Database) -> None:
    make_weighing(database, a_class.lesson.target, mark=0, mass_g=86.0)
    _send(outside, a_class, "readings", reading(0, "218"))
    heard = _send(outside, a_class, "readings", reading(1, "222,5", waited_s=20)).body
    assert (heard["pointer_mm"], heard["total_mass_g"], heard["extension_mm"]) == (222.5, 188.0, 4.5)
    assert heard["force_N"] == pytest.approx(0.188 * 9.80665, abs=1e-12)
    assert (heard["state"], heard["next"]["step"], heard["next"]["mark"]) == ("stands", 2, 2)


def test_a_zero_may_come_last(outside: Outside, a_class: Class) -> None:
    late = _send(outside, a_class, "readings", reading(1, "222")).body
    assert late["extension_mm"] is None
    assert late["extension_why"]
    _send(outside, a_class, "readings", reading(0, "218"))
    told = outside.get(a_class.bench, token=a_class.tablet).body["readings"]
    assert [one["extension_mm"] for one in told] == [0.0, 4.0]


def test_the_same_number_from_a_second_tablet_matches(outside: Outside, a_class: Class) -> None:
    first = _send(outside, a_class, "readings", reading(0, "218")).body
    heard = _send(outside, a_class, "readings", reading(0, "21.8", pointer_unit="cm")).body
    assert (heard["state"], heard["same_step"], heard["look_again"]) == ("matched", [first["entry_id"]], [])


def test_two_numbers_for_a_step_wait_for_a_ruling(outside: Outside, a_class: Class) -> None:
    _send(outside, a_class, "readings", reading(0, "218"))
    one = _send(outside, a_class, "readings", reading(1, "258")).body
    other = _send(outside, a_class, "readings", reading(1, "259")).body
    assert (other["state"], other["same_step"]) == ("differs", [one["entry_id"]])
    assert other["look_again"] == [
        {
            "note": 23,
            "severity": "stop",
            "words": "Two numbers for step 1: 258 and 259. Which one did you read?",
            "likely_mm": None,
            "about": one["entry_id"],
        }
    ]
    told = outside.get(a_class.bench, token=a_class.tablet).body
    assert told["look_again"] == other["look_again"]
    _send(outside, a_class, "rulings", entry(kind="counts", about=other["entry_id"]))
    told = outside.get(a_class.bench, token=a_class.tablet).body
    assert told["look_again"] == []
    assert [one["state"] for one in told["readings"]] == ["stands", "ruled_out", "stands"]


def test_two_endings_wait_for_a_ruling(outside: Outside, a_class: Class) -> None:
    _send(outside, a_class, "readings", reading(0, "218"))
    one = _send(outside, a_class, "endings", entry(kind="broke_adding", fail_step=1)).body
    other = _send(outside, a_class, "endings", entry(kind="did_not_break")).body
    assert (other["state"], other["same_step"]) == ("differs", [one["entry_id"]])
    assert "broke while adding at step 1 and did not break" in other["look_again"][0]["words"]
    assert set(other["break_force_N"]) == {"low", "high", "why"}
    _send(outside, a_class, "rulings", entry(kind="counts", about=one["entry_id"]))
    told = outside.get(a_class.bench, token=a_class.tablet).body
    assert [ending["state"] for ending in told["endings"]] == ["stands", "ruled_out"]
    assert told["endings"][0]["break_force_N"]["high"] is not None


def test_an_ending_is_answered_with_its_breaking_force(outside: Outside, a_class: Class) -> None:
    for step, typed in enumerate(("218", "222", "226")):
        _send(outside, a_class, "readings", reading(step, typed))
    broke = _send(outside, a_class, "endings", entry(kind="broke_waiting", fail_step=3, place="at_knot", look="ragged"))
    assert broke.body["break_force_N"] == {
        "low": pytest.approx(0.204 * 9.80665),
        "high": pytest.approx(0.408 * 9.80665),
    }
    assert broke.body["next"]["do"] == "nothing"


def test_a_fresh_cord_comes_before_what_refers_to_it(outside: Outside, a_class: Class) -> None:
    cord = entry(reason="a nick in one strip")
    early = reading(0, "218", specimen_id=cord["entry_id"])
    assert _send(outside, a_class, "readings", early).problem == "not-found"
    made = _send(outside, a_class, "specimens", cord).body
    assert (made["specimen_id"], made["specimen_no"]) == (cord["entry_id"], 2)
    assert _send(outside, a_class, "readings", early).status == 201
    told = outside.get(a_class.bench, token=a_class.tablet).body
    assert [one["specimen_no"] for one in told["specimens"]] == [1, 2]


def test_a_correction_may_come_before_what_it_mends(outside: Outside, a_class: Class) -> None:
    first = reading(0, "2180")
    mended = reading(0, "218", replaces=first["entry_id"], reason="other: a zero too many")
    assert _send(outside, a_class, "readings", mended).body["state"] == "stands"
    late = _send(outside, a_class, "readings", first)
    assert (late.status, late.body["state"], late.body["extension_mm"]) == (201, "replaced", None)


@pytest.mark.parametrize("reason", [None, "because", "other: " + "x" * 74, "unit: cm"])
def test_a_correction_needs_a_reason_of_the_list(outside: Outside, a_class: Class, reason: str | None) -> None:
    first = _send(outside, a_class, "readings", reading(0, "2180")).body["entry_id"]
    heard = _send(outside, a_class, "readings", reading(0, "218", replaces=first, reason=reason))
    assert (heard.problem, set(heard.faults)) == ("invalid-entry", {"reason"})


def test_a_bench_does_not_mend_what_its_teacher_wrote(outside: Outside, a_class: Class) -> None:
    first = _send(outside, a_class, "readings", reading(0, "218"), token=a_class.teacher).body["entry_id"]
    mended = reading(0, "219", replaces=first, reason="read_wrong")
    assert _send(outside, a_class, "readings", mended).problem == "not-this-bench"


def test_after_masses_down_only_what_was_read_before_comes_in(
    outside: Outside, a_class: Class, database: Database, clock: Clock
) -> None:
    running.set_stage(database, a_class.lesson.lesson_id, {"masses_down": True}, at=NOON)
    clock.forward(60)
    assert _send(outside, a_class, "readings", reading(0, "218", age_s=90.0)).status == 201
    assert _send(outside, a_class, "readings", reading(1, "222")).problem == "masses-down"
    assert _send(outside, a_class, "readings", reading(1, "222"), token=a_class.teacher).status == 201
    assert _send(outside, a_class, "endings", entry(kind="out_of_time")).status == 201
    outside.ask("PATCH", a_class.bench, {"open_again": True}, token=a_class.teacher)
    assert _send(outside, a_class, "readings", reading(2, "226")).status == 201


@pytest.mark.parametrize("noun", BODIES)
def test_a_lesson_that_is_over_takes_nothing(outside: Outside, a_class: Class, database: Database, noun: str) -> None:
    running.set_stage(database, a_class.lesson.lesson_id, {"stage": "over"}, at=NOON)
    assert _send(outside, a_class, noun, _body(noun, a_class)).problem == "lesson-over"


def test_a_guess_is_sealed_by_the_first_reading_of_step_1(outside: Outside, a_class: Class, clock: Clock) -> None:
    _send(outside, a_class, "readings", reading(1, "222"))
    clock.forward(10)
    guess = entry(break_force_N=5.5, best_design="B", shape="bends_over")
    assert _send(outside, a_class, "predictions", guess).problem == "sealed"
    assert _send(outside, a_class, "predictions", {**guess, "age_s": 20.0}).status == 201
    told = outside.get(a_class.bench, token=a_class.tablet).body["prediction"]
    assert (told["break_force_N"], told["best_design"], told["shape"]) == (5.5, "B", "bends_over")


def test_free_text_is_taken_only_where_the_lesson_says_so(outside: Outside, database: Database) -> None:
    lesson = make_lesson(database)
    shut = Class(lesson=lesson, alder=join(database, lesson), teacher=outside.token_of(lesson.teacher))
    assert _send(outside, shut, "sentences", BODIES["sentences"]).problem == "not-opened"


def test_only_a_teacher_rules_that_an_early_break_counts(outside: Outside, a_class: Class) -> None:
    ruling = entry(kind="sound_break", about=a_class.alder.specimen_id)
    assert _send(outside, a_class, "rulings", ruling).problem == "teacher-only"
    assert _send(outside, a_class, "rulings", ruling, token=a_class.teacher).status == 201


def test_a_ruling_is_about_something_of_this_bench(outside: Outside, a_class: Class) -> None:
    stray = entry(kind="left_out", about=new_id(), reason="a trial")
    assert _send(outside, a_class, "rulings", stray).problem == "not-found"


def test_a_tray_is_weighed_by_its_bench_and_every_tray_by_the_teacher(outside: Outside, a_class: Class) -> None:
    at = f"{a_class.at}/weighings"
    every = entry(mark=1, mass_g=100.0, balance_division_g=1.0)
    own = entry(bench="alder", mark=1, mass_g=99.0, balance_division_g=1.0)
    assert outside.post(at, every, token=a_class.teacher).status == 201
    assert outside.get(a_class.bench, token=a_class.tablet).body["ladder"][0]["mass_g"] == 100.0
    assert [outside.post(at, own, token=a_class.tablet).status for _ in range(2)] == [201, 200]
    assert outside.get(a_class.bench, token=a_class.tablet).body["ladder"][0]["mass_g"] == 99.0
    unknown = entry(mark=9, mass_g=99.0, balance_division_g=1.0)
    assert "mark" in outside.post(at, unknown, token=a_class.teacher).faults


def test_a_tablet_that_writes_too_often_has_to_wait(
    outside: Outside, a_class: Class, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    """120 a minute in earnest; four here, so that the test is quick."""
    assert recording.WRITES_PER_MINUTE == 120
    monkeypatch.setattr(recording, "WRITES_PER_MINUTE", 4)
    for _ in range(4):
        assert _send(outside, a_class, "events", entry(kind="still_moving")).status == 201
    hurried = _send(outside, a_class, "readings", reading(0, "218"))
    assert hurried.problem == "too-many"
    assert int(hurried.raw.headers["Retry-After"]) > 0
    assert _send(outside, a_class, "readings", reading(0, "218"), token=a_class.teacher).status == 201
    clock.forward(61)
    assert _send(outside, a_class, "readings", reading(1, "222")).status == 201
