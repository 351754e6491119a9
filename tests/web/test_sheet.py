"""The lesson sheet: what is written into it is the plan, what is bad is told and nothing is lost."""

import pytest

from app.services.running import set_stage
from app.store.database import Database
from tests.make import MORNING, MadeLesson, join, make_lesson, make_plan, make_reading, record_of
from tests.page import Page
from tests.reader import Form, Reader

SHEET = "lesson-sheet"


@pytest.fixture
def database_kind() -> str:
    """The pages are the same on each kind of database; the verbs below them are tested on both."""
    return "sqlite"


@pytest.fixture
def made(database: Database, reader: Reader) -> MadeLesson:
    """A lesson of the teacher who reads: two designs, two benches, five rungs."""
    lesson = make_lesson(database)
    reader.sign_in(lesson.teacher)
    return lesson


def opened(reader: Reader, made: MadeLesson, page: Page | None = None) -> Form:
    return reader.form(page or reader.get("sheet.sheet", lesson_id=made.lesson_id), SHEET)


def test_saving_an_untouched_sheet_changes_nothing(database: Database, reader: Reader, made: MadeLesson) -> None:
    before = record_of(database, made)
    page = opened(reader, made).send("save")
    after = record_of(database, made)
    assert "Saved" in page.text
    assert (after.designs, after.rungs, after.wait_s) == (before.designs, before.rungs, before.wait_s)
    assert [bench.design_id for bench in after.benches] == [bench.design_id for bench in before.benches]


def test_what_is_written_is_the_plan(database: Database, reader: Reader, made: MadeLesson) -> None:
    form = opened(reader, made).fill(
        {
            "title": "Fleece cords",
            "planned_on": "2026-03-12",
            "year_band": "ages 12 to 13",
            "question": "Strips or cut?",
            "changed": "strips",
            "Strips of design B": "4",
            "Lay-up of design B": "flat plait",
            "Cut of design B": "along",
            "Level of design B": "4,5",
            "strip_width_mm": "25",
            "free_length_mm": "280,5",
            "wait_s": "30",
            "hanger_name": "bucket",
            "gravity_m_per_s2": "9,8",
            "Sheet": "garden fleece",
            "Something else that stays the same": "who pulls",
            "What it is": "the same pair",
            "scale_unit": "cm",
            "scale_division_mm": "5",
            "scale_way": "up",
            "depth": "second",
        }
    )
    form.send("save")
    lesson = record_of(database, made)
    design = lesson.designs[1]
    assert (lesson.title, str(lesson.planned_on), lesson.depth) == ("Fleece cords", "2026-03-12", "second")
    assert (lesson.wait_s, lesson.gravity_m_per_s2, lesson.scale_division_mm) == (30, 9.8, 5.0)
    assert (design.strands, design.lay_up, design.direction, design.level) == (4, "plait_flat", "along", 4.5)
    assert design.name == "4 flat plait, along, 4.5"
    assert {one.free_length_mm for one in lesson.designs} == {280.5}
    assert lesson.planning["hanger_name"] == "bucket"
    assert {(bench.scale_unit, bench.scale_way) for bench in lesson.benches} == {("cm", "up")}
    kept = {one.name: one.value_words for one in lesson.variables if one.role == "kept"}
    assert (kept["sheet"], kept["who pulls"], kept["strip width"]) == ("garden fleece", "the same pair", "25")
    assert opened(reader, made)["hanger_name"] == "bucket"


NUMBERS = ("wait_s", "gravity_m_per_s2", "scale_division_mm", "bench_count", "strip_width_mm", "free_length_mm")
BAD = ("abc", "-1", "1e999", "--3", "1,2,3", "🪢", "9" * 10_000, "2\x00")


@pytest.mark.parametrize("typed", BAD)
def test_bad_numbers_never_lose_the_rest(reader: Reader, made: MadeLesson, typed: str) -> None:
    bad = dict.fromkeys(NUMBERS, typed)
    page = opened(reader, made).fill({"title": "Typed", "question": "Kept?", **bad}).send("save", status=422)
    form = opened(reader, made, page)
    for field in NUMBERS:
        assert form.wrong(field)
        assert form[field] == typed.replace("\x00", "")
    assert (form["title"], form["question"]) == ("Typed", "Kept?")
    assert opened(reader, made)["title"] == "Three strands or two", "nothing was saved"


@pytest.mark.parametrize("field", NUMBERS)
def test_one_bad_number_saves_nothing(reader: Reader, made: MadeLesson, field: str) -> None:
    page = opened(reader, made).fill({"title": "Typed", field: "abc"}).send("save", status=422)
    assert "Numbers only" in opened(reader, made, page).wrong(field)
    assert opened(reader, made)["title"] == "Three strands or two"


@pytest.mark.parametrize("field", ["title", "hanger_name", "changed", "question", "year_band", "planned_on"])
def test_words_that_can_t_be_kept_get_a_sentence(reader: Reader, made: MadeLesson, field: str) -> None:
    page = opened(reader, made).fill({field: "\x00" + "w" * 301}).send("save", status=422)
    assert opened(reader, made, page).wrong(field)


def test_an_emptied_title_and_wait_are_asked_for(reader: Reader, made: MadeLesson) -> None:
    page = opened(reader, made).fill(title=" ", wait_s="").send("save", status=422)
    form = opened(reader, made, page)
    assert "Give the lesson a title" in form.wrong("title")
    assert "Type a number" in form.wrong("wait_s")


def test_a_form_of_nonsense_is_a_page(reader: Reader, made: MadeLesson) -> None:
    sent = {"depth": "fourth", "scale_unit": "inch", "designs-99-strands": "x", "kept-0-name": "\x00", "title": "T"}
    page = reader.post("sheet.sheet", sent, lesson_id=made.lesson_id, status=422)
    assert "nothing is lost" in page.text


def test_a_design_is_added_shared_out_and_taken_away(database: Database, reader: Reader) -> None:
    made = make_lesson(database, plan=make_plan(designs="A", benches=["Alder", "Hazel", "Birch", "Cedar"]))
    reader.sign_in(made.teacher)
    page = opened(reader, made).send("Add a design")
    assert [design.letter for design in record_of(database, made).designs] == ["A", "B"]
    assert "B is made as A still." in page.text
    assert "Two benches a design: enough to ask, not to settle." in page.text
    page = opened(reader, made).send("drop B")
    lesson = record_of(database, made)
    assert [design.letter for design in lesson.designs] == ["A"]
    assert {bench.design_id for bench in lesson.benches} == {lesson.designs[0].id}


def test_pressed_twice_a_design_comes_once(database: Database, reader: Reader, made: MadeLesson) -> None:
    form = opened(reader, made)
    form.send("Add a design")
    form.send("Add a design")
    assert [design.letter for design in record_of(database, made).designs] == ["A", "B", "C"]


@pytest.mark.parametrize(
    ("then", "place"),
    [
        ("benches", "sheet/benches"),
        ("ladder", "sheet/ladder"),
        ("slips", "print/bench-slips"),
        ("weigh", "sheet/weigh"),
        ("test", "lead"),
    ],
)
def test_a_button_that_leads_on_saves_first(
    database: Database, reader: Reader, made: MadeLesson, then: str, place: str
) -> None:
    page = opened(reader, made).fill(title="Saved on the way").send(then)
    assert page.address == f"/lessons/{made.lesson_id}/{place}"
    assert record_of(database, made).title == "Saved on the way"
    form = opened(reader, made, page=opened(reader, made).fill(title="Not saved", wait_s="soon").send(then, status=422))
    assert form.wrong("wait_s")
    assert (form["title"], form["wait_s"]) == ("Not saved", "soon")
    assert record_of(database, made).title == "Saved on the way"


def test_a_button_leads_nowhere_else(reader: Reader, made: MadeLesson) -> None:
    sent = {**opened(reader, made).values, "then": "https://elsewhere.example/"}
    page = reader.post("sheet.sheet", sent, lesson_id=made.lesson_id)
    assert page.address == reader.address("sheet.sheet", lesson_id=made.lesson_id)


def test_ready_begins_the_test_and_turns_no_stage_back(database: Database, reader: Reader, made: MadeLesson) -> None:
    assert record_of(database, made).stage == "preparing"
    opened(reader, made).send("weigh")
    assert record_of(database, made).stage == "preparing"
    opened(reader, made).send("Ready: go to Test")
    assert record_of(database, made).stage == "testing"
    set_stage(database, made.lesson_id, {"stage": "talking"}, at=MORNING)
    opened(reader, made).send("Ready: go to Test")
    assert record_of(database, made).stage == "talking"


LEVELS = {
    "12,5": (12.5, None),
    "wet": (None, "wet"),
    "nan": (None, "nan"),
    "1e999": (None, "1e999"),
    "inf": (None, "inf"),
    "": (None, None),
}


@pytest.mark.parametrize("typed", LEVELS)
def test_a_level_is_a_number_or_words(database: Database, reader: Reader, made: MadeLesson, typed: str) -> None:
    page = opened(reader, made).fill({"Level of design B": typed}).send("save")
    design = record_of(database, made).designs[1]
    assert (design.level, design.level_words) == LEVELS[typed]
    assert opened(reader, made, page)["designs-1-level"] == typed.replace(",", ".")


def test_a_design_that_a_bench_has_tested_stays(database: Database, reader: Reader, made: MadeLesson) -> None:
    make_reading(database, join(database, made, bench="Hazel"))
    page = opened(reader, made).send("drop B", status=422)
    assert "A bench makes design B already" in page.text
    assert len(record_of(database, made).designs) == 2


def test_sharing_out_afresh_states_a_new_seed(database: Database, reader: Reader, made: MadeLesson) -> None:
    page = opened(reader, made).send("share")
    seed = record_of(database, made).allocation_seed
    assert seed != 1
    assert f"shared out by the seed {seed}, the number that the draw began from" in page.text


def test_more_and_fewer_benches(database: Database, reader: Reader, made: MadeLesson) -> None:
    opened(reader, made).fill(bench_count="5").send("save")
    lesson = record_of(database, made)
    assert [bench.word for bench in lesson.benches] == ["Alder", "Hazel", "Birch", "Cedar", "Maple"]
    opened(reader, made).fill(bench_count="3").send("save")
    assert [bench.word for bench in record_of(database, made).benches] == ["Alder", "Hazel", "Birch"]


def test_benches_with_readings_are_not_cut(database: Database, reader: Reader, made: MadeLesson) -> None:
    for word in ("Alder", "Hazel"):
        make_reading(database, join(database, made, bench=word))
    page = opened(reader, made).fill(bench_count="1", title="Kept").send("save", status=422)
    form = opened(reader, made, page)
    assert "2 benches" in form.wrong("bench_count")
    assert form["title"] == "Kept"


def test_a_ladder_is_said_in_a_sentence_again(database: Database, reader: Reader) -> None:
    plan = make_plan()
    rungs = [type(rung)(mark=rung.mark, name="pouch", printed_mass_g=100.0) for rung in plan.rungs]
    made = make_lesson(database, plan=type(plan)(**{**vars(plan), "rungs": rungs}))
    reader.sign_in(made.teacher)
    form = opened(reader, made)
    assert (form["first_count"], form["then_count"], form["rung_word"]) == ("5", "0", "pouch")
    form.fill(first_count="2", first_mass_g="50", then_count="3", then_mass_g="150,5", rung_word="tin").send("save")
    assert [(rung.name, rung.printed_mass_g) for rung in record_of(database, made).rungs] == [
        *[("tin", 50.0)] * 2,
        *[("tin", 150.5)] * 3,
    ]
    page = opened(reader, made).fill(then_count="70").send("save", status=422)
    assert opened(reader, made, page).wrong("then_count")
    page = opened(reader, made).fill(then_mass_g="").send("save", status=422)
    assert "needs this" in opened(reader, made, page).wrong("then_mass_g")
    page = opened(reader, made).fill(first_count="40", then_count="30").send("save", status=422)
    assert "at most 60" in opened(reader, made, page).wrong("first_count")


def test_a_rung_that_hung_is_not_cut(database: Database, reader: Reader) -> None:
    made = make_lesson(database)
    bench = join(database, made)
    for step in range(5):
        make_reading(database, bench, step=step)
    reader.sign_in(made.teacher)
    ladder = reader.form(reader.get("sheet.ladder", lesson_id=made.lesson_id), "Save the ladder")
    ladder.send("fewer")
    again = reader.form(reader.get("sheet.ladder", lesson_id=made.lesson_id), "Save the ladder")
    assert "is in use" in again.send("fewer", status=422).text
    assert len(record_of(database, made).rungs) == 4


def test_a_lesson_on_the_shelf_is_read_not_changed(database: Database, reader: Reader, made: MadeLesson) -> None:
    form = opened(reader, made).fill(title="Too late")
    reader.post("shelf.put", {"lesson_id": made.lesson_id, "on_shelf": "true"}, lesson_id=made.lesson_id)
    page = form.send("save", status=422)
    assert "on the shelf" in page.text
    assert record_of(database, made).title == "Three strands or two"


def test_a_stale_sheet_shows_what_was_typed(reader: Reader, made: MadeLesson) -> None:
    sent = {"csrf_token": "stale", "title": "Typed before lunch"}
    page = reader.post("sheet.sheet", sent, lesson_id=made.lesson_id, status=403)
    assert "Typed before lunch" in page.text
