"""The bench page without a script: how a test ends, and what the teacher does meanwhile."""

from collections.abc import Callable
from typing import Any

import pytest

from app.services.bench_state import BenchState
from app.services.running import put_on_shelf, set_stage
from app.store.database import Database
from tests.conftest import Clock
from tests.make import (
    JoinedBench,
    MadeLesson,
    make_ending,
    make_readings,
)
from tests.reader import Reader
from tests.web.bench.reading import is_shown, pad


def test_no_rung_left_asks_how_it_ended(tablet: Reader, database: Database, bench: JoinedBench) -> None:
    make_readings(database, bench, (218, 222, 224, 227, 229, 231))
    page = tablet.get("bench.page")
    assert page.words_of("next-step") == "All 5 pouches hang. How did it end?"
    assert not is_shown(page, "pointer")


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("did_not_break", "It held 2.84 N and didn't break: more than 2.84 N."),
        ("out_of_time", "It held 2.84 N and didn't break before the clock stopped it: more than 2.84 N."),
        ("knot_undone", "It held 2.84 N until the knot came undone: more than 2.84 N."),
        ("broke_waiting", "It held 2.84 N. It broke on 4.85 N."),
    ],
)
def test_each_end_has_its_sentence(
    tablet: Reader, database: Database, bench: JoinedBench, kind: str, words: str
) -> None:
    make_readings(database, bench, (218, 222, 224))
    form = tablet.form(tablet.get("bench.page", show="ending"), "ending-form")
    page = tablet.post("bench.enter", {**form.values, "kind": kind}, noun="endings")
    assert page.words_of("result").startswith(words)
    assert page.words_of("it-ended") == "It ended another way"


def test_an_ending_without_a_kind_is_asked_for(tablet: Reader, database: Database, bench: JoinedBench) -> None:
    make_readings(database, bench, (218, 222))
    form = tablet.form(tablet.get("bench.page", show="ending"), "ending-form").fill(remark="by the hook")
    page = tablet.post("bench.enter", form.values, noun="endings", status=422)
    assert page.words_of("ending-why") == "Say how it ended."
    assert tablet.form(page, "ending-form")["remark"] == "by the hook"


def test_an_ending_is_changed_with_a_reason_or_taken_back(
    tablet: Reader, database: Database, bench: JoinedBench, stands: Callable[[], BenchState]
) -> None:
    make_readings(database, bench, (218, 222))
    make_ending(database, bench, kind="broke_adding")
    form = tablet.form(tablet.get("bench.page", show="ending"), "ending-form")
    assert form["kind"] == "broke_adding"
    data: dict[str, Any] = {**form.values, "kind": "knot_undone"}
    assert tablet.post("bench.enter", data, noun="endings", status=422).words_of("ending-reason-why")
    tablet.post("bench.enter", {**data, "reason": "typed_wrong"}, noun="endings")
    assert stands().cord.outcome == "slipped"
    tablet.form(tablet.get("bench.page", show="ending"), "undo-ending").send()
    assert stands().cord.ending is None


def test_a_fresh_cord_follows(
    tablet: Reader, database: Database, bench: JoinedBench, stands: Callable[[], BenchState]
) -> None:
    make_readings(database, bench, (218, 222))
    make_ending(database, bench)
    form = tablet.form(tablet.get("bench.page"), "fresh-form").fill(reason="The first had a fault", same_maker="true")
    page = form.send()
    form.send()
    assert page.words_of("next-step") == "Hang the bucket: 86 g."
    assert (stands().specimen.specimen_no, stands().specimen.same_maker) == (2, True)


def test_masses_down_closes_the_pad_and_keeps_what_was_typed(
    tablet: Reader, database: Database, bench: JoinedBench, lesson: MadeLesson, clock: Clock
) -> None:
    make_readings(database, bench, (218, 222))
    form = pad(tablet).fill(pointer_typed="224")
    set_stage(database, lesson.lesson_id, {"masses_down": True}, at=clock())
    clock.forward(1)
    page = form.send("Save", status=409)
    assert page.words_of("next-step") == "Masses down"
    assert "Masses are down" in page.words_of("notice")
    assert "You typed 224 for step 2." in page.words_of("notice")
    assert not is_shown(page, "pointer")
    assert is_shown(page, "down-form")
    assert page.words_of("so-far") == "It held 1.84 N and didn't break: more than 1.84 N."


def test_at_masses_down_the_end_is_saved(
    tablet: Reader, database: Database, bench: JoinedBench, lesson: MadeLesson, clock: Clock
) -> None:
    make_readings(database, bench, (218, 222))
    set_stage(database, lesson.lesson_id, {"masses_down": True}, at=clock())
    form = tablet.form(tablet.get("bench.page"), "down-form")
    page = tablet.post("bench.enter", form.values, noun="endings")
    assert page.words_of("result").startswith("It held 1.84 N and didn't break before the clock stopped it")


def test_a_lesson_on_the_shelf_is_read_only(
    tablet: Reader, database: Database, bench: JoinedBench, lesson: MadeLesson, clock: Clock
) -> None:
    make_readings(database, bench, (218, 222))
    form = pad(tablet).fill(pointer_typed="224")
    put_on_shelf(database, lesson.lesson_id, on_shelf=True, own=None, at=clock())
    page = tablet.get("bench.page")
    assert page.words_of("next-step") == "This lesson is on the shelf."
    assert not is_shown(page, "pointer")
    refused = form.send("Save", status=409)
    assert "This lesson is over" in refused.words_of("notice")
    assert "224" in refused.words_of("notice")


def test_a_wait_for_all_is_said_and_stops_nothing(
    tablet: Reader, database: Database, bench: JoinedBench, lesson: MadeLesson, clock: Clock
) -> None:
    make_readings(database, bench, (218,))
    set_stage(database, lesson.lesson_id, {"paused": True}, at=clock())
    page = tablet.get("bench.page")
    assert page.words_of("paused") == "Your teacher asks you to wait. You can still type."
    assert is_shown(page, "paused")
    pad(tablet, page).fill(pointer_typed="222").send("Save")


def test_leaving_gives_the_bench_back(tablet: Reader, database: Database, bench: JoinedBench) -> None:
    make_readings(database, bench, (218,))
    make_ending(database, bench, kind="stopped_for_safety")
    assert tablet.form(tablet.get("bench.page"), "Leave this bench").send().h1 == "Take a bench"
    assert tablet.redirected("bench.page") == "/join"
