"""One bench as its teacher reads and mends it, in a browser without scripts."""

import pytest

from app.services import rulings, running
from app.store.database import Database
from tests import make
from tests.make import MORNING, JoinedBench, MadeLesson
from tests.page import Page
from tests.reader import Reader


def test_a_reading_is_changed_with_a_reason_and_the_first_stays(
    reader: Reader, a_lesson: MadeLesson, alder: JoinedBench, database: Database
) -> None:
    bench = {"lesson_id": a_lesson.lesson_id, "bench": "alder"}
    page = reader.get("running.one_bench", **bench)
    page = reader.get(page_link(page, "Change step 4, 229 mm"))
    page = reader.form(page, "Save the change").fill(pointer_typed="23,1", pointer_unit="cm", reason="unit").send()
    struck = list(page.all("del"))
    assert ["".join(one.itertext()).replace("\xa0", " ") for one in struck] == ["229 mm"]
    assert struck[0].get("title") == "from the bench"
    assert "Changed by the teacher: wrong unit" in page.text
    last = max(make.record_of(database, a_lesson).benches[0].specimens[0].readings, key=lambda one: one.n)
    assert (last.pointer_mm, last.by) == (231.0, "teacher")


def page_link(page: Page, name: str) -> str:
    """The address of the link that is called so."""
    return next(link.get("href") for link in page.all("a") if " ".join(link.get("aria-label", "").split()) == name)


@pytest.mark.parametrize("typed", ["", "abc", "1e999", "1,2,3", "🙂", "9" * 10_000, "99999", "23\x00"])
def test_a_bad_number_keeps_what_was_typed(
    reader: Reader, a_lesson: MadeLesson, alder: JoinedBench, database: Database, typed: str
) -> None:
    before = make.record_of(database, a_lesson).head
    bench = {"lesson_id": a_lesson.lesson_id, "bench": "alder"}
    page = reader.get("running.one_bench", **bench)
    form = reader.form(page, "Save the reading")
    page = reader.post("running.entry", {**form.values, "pointer_typed": typed}, status=422, **bench, noun="readings")
    assert reader.form(page, "Save the reading").wrong("pointer_typed")
    assert make.record_of(database, a_lesson).head == before


def test_a_reading_is_left_out_with_a_reason_and_put_back(
    reader: Reader, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    bench = {"lesson_id": a_lesson.lesson_id, "bench": "alder"}
    page = reader.get("running.one_bench", **bench)
    address = page_link(page, "Change step 3, 227 mm")
    page = reader.form(reader.get(address), "Leave it out").send(status=422)
    assert "Say why it is left out." in page.text
    page = reader.form(page, "Leave it out").fill(reason="The table was knocked").send()
    assert "Left out: The table was knocked." in page.text
    page = reader.form(reader.get(address), "Put it back").send()
    assert "Left out:" not in page.text


def test_a_cord_is_left_out_and_put_back(reader: Reader, a_lesson: MadeLesson, alder: JoinedBench) -> None:
    bench = {"lesson_id": a_lesson.lesson_id, "bench": "alder"}
    page = reader.get(reader.get("running.one_bench", **bench).links()["Leave this cord out"])
    page = reader.form(page, "Leave it out").fill(reason="nick in one strip").send()
    assert "Cord 1, left out: nick in one strip" in page.text
    page = reader.form(reader.get(page.links()["Put this cord back"]), "Put it back").send()
    assert "left out" not in page.words_of("cord-1")


def test_the_teacher_adds_what_a_bench_could(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    bench = {"lesson_id": a_lesson.lesson_id, "bench": "alder"}

    def add(button: str, **said: str) -> None:
        page = reader.get("running.one_bench", **bench)
        reader.form(page, button).fill(said).send()

    add("Save the reading", pointer_typed="234")
    add("Save what happened", kind="knot_slipped", step="5", after_reading="true")
    add("Save the measure", quantity="free_length_mm", typed="30,2", unit="cm")
    add("Save how it ended", kind="out_of_time")
    add("Begin a fresh cord", reason="one more to see")
    cords = make.record_of(database, a_lesson).benches[0].specimens
    first = cords[0]
    assert (first.readings[-1].step, first.readings[-1].by) == (5, "teacher")
    assert [one.kind for one in first.events] == ["knot_slipped"]
    assert [one.value for one in first.measures] == [302.0]
    assert [one.kind for one in first.endings] == ["out_of_time"]
    assert len(cords) == 2


def test_an_ending_and_an_event_are_changed(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    make.make_ending(database, alder, kind="broke_adding", fail_step=5)
    make.make_event(database, alder, kind="still_moving", step=2)
    bench = {"lesson_id": a_lesson.lesson_id, "bench": "alder"}
    page = reader.get(page_link(reader.get("running.one_bench", **bench), "Change broke while adding at step 5"))
    reader.form(page, "Save the change").fill(kind="broke_waiting", place="at_knot", reason="typed_wrong").send()
    page = reader.get("running.one_bench", **bench)
    page = reader.get(page_link(page, "Change still moving, at step 2"))
    page = reader.form(page, "Save the change").fill(step="3", reason="typed_wrong").send()
    assert "broke during the wait at step 5, just at a knot" in page.text
    assert "still moving, at step 3" in page.text
    assert len(list(page.all("del"))) == 2


def test_a_bench_is_opened_again_and_moved_to_another_design(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    running.set_stage(database, a_lesson.lesson_id, {"masses_down": True}, at=MORNING)
    bench = {"lesson_id": a_lesson.lesson_id, "bench": "alder"}
    page = reader.get("running.one_bench", **bench)
    page = reader.form(page, "Open this bench again").send("Open this bench again")
    assert make.record_of(database, a_lesson).benches[0].open_again
    page = reader.form(page, "Move to this design").fill(design="B").send()
    record = make.record_of(database, a_lesson)
    assert record.design(record.benches[0].design_id).letter == "B"
    page = reader.post("running.change_bench", {"design": "Z"}, status=422, **bench)
    assert "Choose one of" in page.text
    assert a_lesson.slips["Alder"] in page.text.replace(" ", "")


def test_a_press_twice_is_one_entry(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    bench = {"lesson_id": a_lesson.lesson_id, "bench": "alder"}
    form = reader.form(reader.get("running.one_bench", **bench), "Save the reading")
    form.fill(pointer_typed="234").send()
    form.send()
    assert len(make.record_of(database, a_lesson).benches[0].specimens[0].readings) == 6


def test_a_lesson_that_is_over_says_so_and_keeps_what_was_typed(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    form = reader.form(reader.get("running.one_bench", lesson_id=a_lesson.lesson_id, bench="alder"), "Save the reading")
    running.set_stage(database, a_lesson.lesson_id, {"stage": "over"}, at=MORNING)
    page = form.fill(pointer_typed="234").send(status=409)
    assert "This lesson is over" in page.text
    assert reader.form(page, "Save the reading")["pointer_typed"] == "234"


def test_what_the_teacher_enters_is_theirs_though_the_browser_holds_the_bench_too(
    reader: Reader, a_lesson: MadeLesson, alder: JoinedBench, database: Database
) -> None:
    reader.hold(alder.token)
    bench = {"lesson_id": a_lesson.lesson_id, "bench": "alder"}
    running.set_stage(database, a_lesson.lesson_id, {"masses_down": True}, at=MORNING)
    form = reader.form(reader.get("running.one_bench", **bench), "Save the reading")
    said = {**form.values, "step": "5", "phase": "load", "pointer_typed": "231"}
    reader.post("running.entry", said, **bench, noun="readings")
    last = max(make.record_of(database, a_lesson).benches[0].specimens[0].readings, key=lambda one: one.n)
    assert (last.pointer_typed, last.by) == ("231", "teacher")


def test_the_teacher_sees_what_is_ticked_and_what_is_open(
    reader: Reader, database: Database, a_lesson: MadeLesson
) -> None:
    bench = {"lesson_id": a_lesson.lesson_id, "bench": "hazel"}
    assert not reader.get("running.one_bench", **bench).has("ticks"), "nobody is there to tick"
    hazel = make.join(database, a_lesson, bench="Hazel")
    for what in ("goggles", "tray", "tape", "knots", "rungs_counted"):
        rulings.tick(database, hazel.target, what=what, on=True, by="bench", at=MORNING)
    told = reader.get("running.one_bench", **bench).words_of("ticks")
    assert "Goggles on ticked" in told
    assert "Stand clamped open" in told
    assert "5 pouches counted ticked" in told
    assert "back in the tray" not in told
    rows = reader.get("running.lead", lesson_id=a_lesson.lesson_id).rows("pace-strip")
    assert next(row for row in rows if "Hazel" in row[0])[1:3] == ["here", "1 tick open"]
    make.make_ending(database, hazel, kind="out_of_time", fail_step=None)
    assert "5 pouches back in the tray open" in reader.get("running.one_bench", **bench).words_of("ticks")


def test_loads_by_label_are_said(reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench) -> None:
    bench = {"lesson_id": a_lesson.lesson_id, "bench": "alder"}
    assert "Loads by label, hanger not counted." in reader.get("running.one_bench", **bench).text
    for mark in range(5):
        make.make_weighing(database, alder.target, mark=mark, mass_g=100.0)
    assert "Loads by label" not in reader.get("running.one_bench", **bench).text
