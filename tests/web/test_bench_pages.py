"""The bench page without a script: every state, every form, and what is typed wrong."""

from collections.abc import Callable
from typing import Any

import pytest

from app.services.bench_state import BenchState, state_of
from app.services.recording import Sender
from app.services.running import put_on_shelf, set_stage
from app.store.database import Database
from tests.conftest import Clock
from tests.make import (
    JoinedBench,
    MadeLesson,
    join,
    make_ending,
    make_lesson,
    make_reading,
    make_readings,
    make_weighing,
    new_id,
)
from tests.page import Page
from tests.reader import Form, Reader

NOT_NUMBERS = ["", "two", "1e999", "1,2,3", "--3", "NaN", "\U0001f9f5", "12\x00", "9" * 10_000, "0x10"]
OUTSIDE = ["10001", "-10000,5", "99999999999999999999"]


@pytest.fixture
def lesson(database: Database) -> MadeLesson:
    """A lesson of five rungs, its hanger weighed."""
    made = make_lesson(database, planning={"hanger_name": "bucket"}, gravity_m_per_s2=9.81)
    make_weighing(database, made.target, mark=0, mass_g=86)
    return made


@pytest.fixture
def bench(database: Database, lesson: MadeLesson) -> JoinedBench:
    """The bench Alder, taken."""
    return join(database, lesson)


@pytest.fixture
def tablet(reader: Reader, bench: JoinedBench) -> Reader:
    """A browser that holds Alder."""
    reader.hold(bench.token)
    return reader


@pytest.fixture
def stands(database: Database, bench: JoinedBench) -> Callable[[], BenchState]:
    """The bench as it stands."""
    return lambda: state_of(database, bench.lesson_id, bench.bench_id)


def _pad(tablet: Reader, page: Page | None = None) -> Form:
    return tablet.form(page or tablet.get("bench.page"), "pad")


def _shown(page: Page, element_id: str) -> bool:
    """Whether neither the element nor one around it is hidden."""
    around = [one for one in page.all() if page.one(element_id) in list(one.iter())]
    return all(one.get("hidden") is None for one in around)


def _typed(state: BenchState) -> list[tuple[int, str, str]]:
    return [(p.reading.step, p.reading.phase, p.reading.pointer_typed) for p in state.cord.points]


def test_before_the_first_rung_the_page_asks_for_the_zero(tablet: Reader) -> None:
    page = tablet.get("bench.page")
    assert page.words_of("next-step") == "Hang the bucket: 86 g."
    assert page.words_of("makes") == "That makes 0.84 N, the settling load."
    assert page.words_of("open-ticks") == "6 ticks are open. Your teacher sees them."
    assert "your teacher's risk sheet comes first" in page.text


def test_a_whole_test_is_typed_without_a_script(tablet: Reader, stands: Callable[[], BenchState]) -> None:
    page = _pad(tablet).fill({"Pointer at zero": "218"}).send("Save the zero")
    for step, pointer in enumerate(("222", "224,5", "227"), start=1):
        assert page.words_of("next-step").startswith(f"Hang pouch {step} next")
        page = _pad(tablet, page).fill({"Pointer now at": pointer}).send("Save")
    assert _typed(stands()) == [(0, "zero", "218"), (1, "load", "222"), (2, "load", "224,5"), (3, "load", "227")]
    assert _shown(page, "bench-graph")
    assert [row[0] for row in page.rows("readings")] == ["Step", "3", "2", "1", "zero"]
    page = tablet.get(page.links()["It ended"])
    form = tablet.form(page, "ending-form").fill(kind="broke_adding", place="at_knot", look="ragged")
    page = tablet.post("bench.enter", form.values, noun="endings")
    assert stands().cord.ending is not None
    assert page.words_of("result").startswith("It held 4.85 N. It broke on 6.85 N.")


def test_the_total_and_the_force_are_told(tablet: Reader, database: Database, bench: JoinedBench) -> None:
    make_readings(database, bench, (218, 222))
    page = tablet.get("bench.page")
    assert page.words_of("makes") == "That makes 290 g, 2.84 N."
    assert page.words_of("last") == "Last time: 222 mm, at step 1."


def test_it_is_hanging_is_said_without_a_script(tablet: Reader, database: Database, bench: JoinedBench) -> None:
    make_readings(database, bench, (218,))
    page = tablet.get("bench.page", hung=1)
    assert page.words_of("next-step") == "Pouch 1 is hanging: 102 g."
    assert page.words_of("wait-words") == "Wait 20 s, then read."


@pytest.mark.parametrize("typed", NOT_NUMBERS + OUTSIDE)
def test_what_is_no_number_has_a_sentence_and_stays(
    tablet: Reader, stands: Callable[[], BenchState], typed: str
) -> None:
    page = _pad(tablet).fill(pointer_typed=typed).send("Save the zero", status=422)
    form = tablet.form(page, "pad")
    assert form.wrong("pointer_typed")
    assert form["pointer_typed"] == typed[:600].replace("\x00", "")
    assert not stands().cord.points


def test_measures_are_optional_and_kept_as_typed(tablet: Reader, stands: Callable[[], BenchState]) -> None:
    values = {"Between the knots": "296", "typed.strip_width_mm": "25,5", "pointer_typed": "183"}
    _pad(tablet).fill(values).send("Save the zero")
    told = {one.quantity: (one.typed, one.value) for one in stands().specimen.measures}
    assert told == {"free_length_mm": ("296", 296.0), "strip_width_mm": ("25,5", 25.5)}


def test_a_wrong_measure_keeps_everything_and_stores_nothing(tablet: Reader, stands: Callable[[], BenchState]) -> None:
    values = {"typed.free_length_mm": "thirty", "typed.strip_width_mm": "25", "pointer_typed": "183"}
    page = _pad(tablet).fill(values).send("Save the zero", status=422)
    form = tablet.form(page, "pad")
    assert form.wrong("typed.free_length_mm") == "Numbers only, please. A comma or a point may stand in it."
    assert (form["typed.free_length_mm"], form["pointer_typed"]) == ("thirty", "183")
    assert not stands().cord.points
    assert not stands().specimen.measures


def test_ticks_stop_nothing_and_are_kept(tablet: Reader, stands: Callable[[], BenchState]) -> None:
    form = _pad(tablet)
    form.values["what"] = ["goggles", "tape"]
    form.values["ticks"] = "goggles stand tape"
    form.fill(pointer_typed="183").send("Save the zero")
    assert stands().bench.ticks == {"goggles": True, "tape": True}


def test_the_measures_alone_can_be_saved(tablet: Reader, stands: Callable[[], BenchState]) -> None:
    form = _pad(tablet).fill({"typed.free_length_mm": "296", "pointer_typed": "18"})
    page = tablet.post("bench.enter", form.values, noun="measures")
    assert stands().next.do == "zero"
    assert tablet.form(page, "pad")["typed.free_length_mm"] == "296"
    assert tablet.form(page, "pad")["pointer_typed"] == "18"


def test_a_double_press_saves_one_reading(tablet: Reader, stands: Callable[[], BenchState]) -> None:
    form = _pad(tablet).fill(pointer_typed="218")
    form.send("Save the zero")
    form.send("Save the zero")
    assert _typed(stands()) == [(0, "zero", "218")]


def test_a_page_used_before_says_so_and_keeps_what_was_typed(tablet: Reader, stands: Callable[[], BenchState]) -> None:
    form = _pad(tablet).fill(pointer_typed="218")
    form.send("Save the zero")
    page = form.fill(pointer_typed="219").send("Save the zero", status=409)
    assert "That page was used before" in page.words_of("notice")
    assert "219" in page.words_of("notice")
    assert _typed(stands()) == [(0, "zero", "218")]


def test_events_ride_with_the_reading(
    tablet: Reader, database: Database, bench: JoinedBench, stands: Callable[[], BenchState]
) -> None:
    make_readings(database, bench, (218, 222))
    form = _pad(tablet)
    form.values["kind"] = ["knot_slipped", "still_moving"]
    form.fill(pointer_typed="240").send("Save")
    assert [point.events for point in stands().cord.points] == [(), (), ("knot_slipped", "still_moving")]


def test_another_rung_changes_what_is_told_to_hang(
    tablet: Reader, database: Database, bench: JoinedBench, stands: Callable[[], BenchState]
) -> None:
    make_readings(database, bench, (218, 222, 224))
    form = _pad(tablet).fill(mark="5")
    form.values["kind"] = ["other_mass"]
    page = tablet.post("bench.enter", {**form.values, "pointer_typed": "22"}, noun="events")
    assert page.words_of("next-step") == "Pouch 5 is hanging: 204 g."
    assert _pad(tablet, page)["pointer_typed"] == "22"
    assert "Step 3: Pouch 5 hung instead" in page.words_of("told")
    page = tablet.form(page, "Take back").send()
    assert page.words_of("next-step") == "Hang pouch 3 next: 204 g."
    assert stands().next.mark == 3


@pytest.mark.parametrize("kinds", [[], ["other_mass"]])
def test_an_event_that_says_too_little_is_asked_for(
    tablet: Reader, database: Database, bench: JoinedBench, kinds: list[str]
) -> None:
    make_readings(database, bench, (218, 222))
    form = _pad(tablet)
    page = tablet.post("bench.enter", {**form.values, "kind": kinds, "pointer_typed": "230"}, noun="events", status=422)
    assert page.words_of("mark-why" if kinds else "kind-why")
    assert _pad(tablet, page)["pointer_typed"] == "230"


def test_a_correction_needs_a_reason_and_keeps_the_first_value(
    tablet: Reader, database: Database, bench: JoinedBench, stands: Callable[[], BenchState]
) -> None:
    make_readings(database, bench, (218, "22.2"))
    page = tablet.get(tablet.get("bench.page").links()["Change"])
    form = tablet.form(page, "change-form").fill(pointer_typed="222")
    refused = form.send("Save the change", status=422)
    assert refused.words_of("change-reason-why") == "Say why it is changed."
    assert tablet.form(refused, "change-form")["pointer_typed"] == "222"
    page = tablet.form(refused, "change-form").fill(reason="unit").send("Save the change")
    assert page.rows("readings")[1][2] == "22.2 222"
    assert stands().cord.points[-1].reason == "unit"


def test_a_reason_in_words_is_kept(
    tablet: Reader, database: Database, bench: JoinedBench, stands: Callable[[], BenchState]
) -> None:
    make_readings(database, bench, (218, 222))
    page = tablet.get(tablet.get("bench.page").links()["Change"])
    form = tablet.form(page, "change-form")
    form.fill(pointer_typed="223", reason="other", reason_words="the lamp moved").send("Save the change")
    assert stands().cord.points[-1].reason == "other: the lamp moved"


def test_an_own_reading_is_left_out_and_put_back(
    tablet: Reader, database: Database, bench: JoinedBench, stands: Callable[[], BenchState]
) -> None:
    make_readings(database, bench, (218, 222))
    change = tablet.get("bench.page").links()["Change"]
    assert tablet.form(tablet.get(change), "out-form").send(status=422).words_of("out-why")
    page = tablet.form(tablet.get(change), "out-form").fill(reason="the tray was touched").send()
    assert "left out: the tray was touched" in page.words_of("readings")
    assert not stands().cord.points[-1].counts
    tablet.form(tablet.get(change), "out-form").fill(reason="no, it was not").send()
    assert stands().cord.points[-1].counts


def test_a_further_reading_of_the_same_step(
    tablet: Reader, database: Database, bench: JoinedBench, stands: Callable[[], BenchState]
) -> None:
    make_readings(database, bench, (218, 222))
    page = tablet.get(tablet.get("bench.page").links()["Another reading at the same step"])
    tablet.form(page, "again-form").fill(phase="return", pointer_typed="219").send("Save it")
    assert (1, "return", "219") in _typed(stands())


def test_no_rung_left_asks_how_it_ended(tablet: Reader, database: Database, bench: JoinedBench) -> None:
    make_readings(database, bench, (218, 222, 224, 227, 229, 231))
    page = tablet.get("bench.page")
    assert page.words_of("next-step") == "All 5 pouches hang. How did it end?"
    assert not _shown(page, "pointer")


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
    form = _pad(tablet).fill(pointer_typed="224")
    set_stage(database, lesson.lesson_id, {"masses_down": True}, at=clock())
    clock.forward(1)
    page = form.send("Save", status=409)
    assert page.words_of("next-step") == "Masses down"
    assert "Masses are down" in page.words_of("notice")
    assert "You typed 224 for step 2." in page.words_of("notice")
    assert not _shown(page, "pointer")
    assert _shown(page, "down-form")
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
    form = _pad(tablet).fill(pointer_typed="224")
    put_on_shelf(database, lesson.lesson_id, on_shelf=True, own=None, at=clock())
    page = tablet.get("bench.page")
    assert page.words_of("next-step") == "This lesson is on the shelf."
    assert not _shown(page, "pointer")
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
    assert _shown(page, "paused")
    _pad(tablet, page).fill(pointer_typed="222").send("Save")


def test_a_reading_of_the_teacher_offers_no_change(tablet: Reader, database: Database, bench: JoinedBench) -> None:
    make_reading(database, bench, sender=Sender(by="teacher"))
    assert "Change" not in tablet.get("bench.page").links()
    make_reading(database, bench, step=1, pointer=222)
    assert "Change" in tablet.get("bench.page").links()


@pytest.mark.parametrize("noun", ["readings", "events", "endings", "measures", "specimens", "rulings", "ticks"])
@pytest.mark.parametrize("value", ["", "\x00", "\U0001f9f5", "x" * 1_000, "1e999", "-1", "../..", new_id()])
def test_no_form_breaks_the_server(tablet: Reader, noun: str, value: str) -> None:
    names = (
        "entry_id", "specimen_id", "step", "phase", "turn", "pointer_typed", "pointer_unit", "waited_s", "kind", "mark",
        "words", "fail_step", "place", "look", "quantity", "typed", "unit", "replaces", "reason", "about", "detail",
        "what", "on", "ticks", "same_maker", "hung", "panel", "typed.free_length_mm", "from_top_knot_mm", "remark",
    )  # fmt: skip
    token = tablet.token()
    answer = tablet.answer("POST", f"/bench/{noun}", data={"csrf_token": token, **dict.fromkeys(names, value)})
    assert answer.status_code in (303, 403, 404, 409, 422)


@pytest.mark.parametrize(
    "query",
    [
        {"show": "change", "about": "nothing"},
        {"show": "again"},
        {"show": "x"},
        {"hung": "99"},
        {"typed": "\x07\U0001f9f5"},
    ],
)
def test_an_odd_address_shows_the_page(tablet: Reader, query: dict[str, str]) -> None:
    assert tablet.get("bench.page", **query).h1 == "Alder"


def test_a_form_that_is_none_is_not_found(tablet: Reader) -> None:
    assert tablet.answer("POST", "/bench/nothing", data={"csrf_token": tablet.token()}).status_code == 404


def test_leaving_gives_the_bench_back(tablet: Reader, database: Database, bench: JoinedBench) -> None:
    make_readings(database, bench, (218,))
    make_ending(database, bench, kind="stopped_for_safety")
    assert tablet.form(tablet.get("bench.page"), "Leave this bench").send().h1 == "Take a bench"
    assert tablet.redirected("bench.page") == "/join"
