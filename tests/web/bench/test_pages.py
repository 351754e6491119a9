"""The bench page without a script: from the set-up to the last reading, and every correction."""

from collections.abc import Callable

from app.services.bench_state import BenchState
from app.services.recording import Sender
from app.store.database import Database
from tests.make import (
    JoinedBench,
    make_reading,
    make_readings,
)
from tests.reader import Reader
from tests.web.bench.reading import is_shown, pad, typed_of


def test_before_the_first_rung_the_page_asks_for_the_zero(tablet: Reader) -> None:
    page = tablet.get("bench.page")
    assert page.words_of("next-step") == "Hang the bucket: 86 g."
    assert page.words_of("makes") == "That makes 0.84 N, the settling load."
    assert page.words_of("open-ticks") == "6 ticks are open. Your teacher sees them."
    assert "your teacher's risk sheet comes first" in page.text


def test_a_whole_test_is_typed_without_a_script(tablet: Reader, stands: Callable[[], BenchState]) -> None:
    page = pad(tablet).fill({"Pointer at zero": "218"}).send("Save the zero")
    for step, pointer in enumerate(("222", "224,5", "227"), start=1):
        assert page.words_of("next-step").startswith(f"Hang pouch {step} next")
        page = pad(tablet, page).fill({"Pointer now at": pointer}).send("Save")
    assert typed_of(stands()) == [(0, "zero", "218"), (1, "load", "222"), (2, "load", "224,5"), (3, "load", "227")]
    assert is_shown(page, "bench-graph")
    assert [row[0] for row in page.rows("readings")] == ["Step", "3", "2", "1", "zero"]
    page = tablet.get(page.links()["It ended"])
    form = tablet.form(page, "ending-form").fill(kind="broke_adding", place="at_knot", look="ragged")
    page = tablet.post("bench.enter", form.values, noun="endings")
    assert stands().cord.ending is not None
    assert page.words_of("result").startswith("It held 4.85 N. It broke on 6.85 N.")


def test_which_g_makes_forces_of_masses_is_told(tablet: Reader, database: Database, bench: JoinedBench) -> None:
    make_readings(database, bench)
    said = tablet.get("bench.page").words_of("readings").replace("\u00a0", " ")
    assert "Force is mass times g; g = 9.81 N/kg, as schools use it." in said


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


def test_measures_are_optional_and_kept_as_typed(tablet: Reader, stands: Callable[[], BenchState]) -> None:
    values = {"Between the knots": "296", "typed.strip_width_mm": "25,5", "pointer_typed": "183"}
    pad(tablet).fill(values).send("Save the zero")
    told = {one.quantity: (one.typed, one.value) for one in stands().specimen.measures}
    assert told == {"free_length_mm": ("296", 296.0), "strip_width_mm": ("25,5", 25.5)}


def test_ticks_stop_nothing_and_are_kept(tablet: Reader, stands: Callable[[], BenchState]) -> None:
    form = pad(tablet)
    form.values["what"] = ["goggles", "tape"]
    form.values["ticks"] = "goggles stand tape"
    form.fill(pointer_typed="183").send("Save the zero")
    assert stands().bench.ticks == {"goggles": True, "tape": True}


def test_the_measures_alone_can_be_saved(tablet: Reader, stands: Callable[[], BenchState]) -> None:
    form = pad(tablet).fill({"typed.free_length_mm": "296", "pointer_typed": "18"})
    page = tablet.post("bench.enter", form.values, noun="measures")
    assert stands().next.do == "zero"
    assert tablet.form(page, "pad")["typed.free_length_mm"] == "296"
    assert tablet.form(page, "pad")["pointer_typed"] == "18"


def test_a_double_press_saves_one_reading(tablet: Reader, stands: Callable[[], BenchState]) -> None:
    form = pad(tablet).fill(pointer_typed="218")
    form.send("Save the zero")
    form.send("Save the zero")
    assert typed_of(stands()) == [(0, "zero", "218")]


def test_events_ride_with_the_reading(
    tablet: Reader, database: Database, bench: JoinedBench, stands: Callable[[], BenchState]
) -> None:
    make_readings(database, bench, (218, 222))
    form = pad(tablet)
    form.values["kind"] = ["knot_slipped", "still_moving"]
    form.fill(pointer_typed="240").send("Save")
    assert [point.events for point in stands().cord.points] == [(), (), ("knot_slipped", "still_moving")]


def test_another_rung_changes_what_is_told_to_hang(
    tablet: Reader, database: Database, bench: JoinedBench, stands: Callable[[], BenchState]
) -> None:
    make_readings(database, bench, (218, 222, 224))
    form = pad(tablet).fill(mark="5")
    form.values["kind"] = ["other_mass"]
    page = tablet.post("bench.enter", {**form.values, "pointer_typed": "22"}, noun="events")
    assert page.words_of("next-step") == "Pouch 5 is hanging: 204 g."
    assert pad(tablet, page)["pointer_typed"] == "22"
    assert "Step 3: Pouch 5 hung instead" in page.words_of("told")
    page = tablet.form(page, "Take back").send()
    assert page.words_of("next-step") == "Hang pouch 3 next: 204 g."
    assert stands().next.mark == 3


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
    assert (1, "return", "219") in typed_of(stands())


def test_a_reading_of_the_teacher_offers_no_change(tablet: Reader, database: Database, bench: JoinedBench) -> None:
    make_reading(database, bench, sender=Sender(by="teacher"))
    assert "Change" not in tablet.get("bench.page").links()
    make_reading(database, bench, step=1, pointer=222)
    assert "Change" in tablet.get("bench.page").links()
