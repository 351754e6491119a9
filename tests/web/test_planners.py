"""What the planners say on the teacher's pages: the ladder's reach, the benches' power, the sheet's strips."""

import pytest

from app.services.beginning import beginning
from app.services.lessons import copy_lesson, lesson_record
from app.services.seeding import fresh_copy
from app.store.database import Database
from tests.make import MORNING, MadeLesson, make_lesson, make_teacher, record_of
from tests.page import Page
from tests.reader import Form, Reader

BENCHES = ("Alder", "Hazel", "Birch", "Cedar", "Maple", "Rowan")


@pytest.fixture
def database_kind() -> str:
    """The pages are the same on each kind of database; the verbs below them are tested on both."""
    return "sqlite"


@pytest.fixture
def made(database: Database, reader: Reader) -> MadeLesson:
    """A lesson of the teacher who reads: two designs, six benches, eight rungs of a newton each."""
    lesson = make_lesson(database, benches=BENCHES, rungs_g=[100.0] * 8, gravity_m_per_s2=10.0)
    reader.sign_in(lesson.teacher)
    return lesson


def ladder(reader: Reader, made: MadeLesson, page: Page | None = None) -> Form:
    return reader.form(page or reader.get("sheet.ladder", lesson_id=made.lesson_id), "Save the ladder")


def cutting(reader: Reader, made: MadeLesson, page: Page | None = None) -> Form:
    return reader.form(page or reader.get("sheet.cutting", lesson_id=made.lesson_id), "Save the sheet")


def test_the_ladder_says_how_far_it_reaches(reader: Reader, made: MadeLesson) -> None:
    page = ladder(reader, made).fill(break_low_N="6,5", break_high_N="7").send("Save the ladder")
    said = page.text.replace("\u00a0", " ")
    assert "As typed here, the weakest cord may break at 6.5 N, the strongest may hold up to 7 N." in said
    assert "7 readings, the zero counted, come before 6.5 N, 7 before 7 N." in said
    assert "When all of it falls, up to 8 N, each 100 mm over the tray adds 0.8 J." in said
    assert "Under 8 readings before the weakest may break: no bend can be looked for." in said
    assert "On the bench that reaches least all of it pulls with 8 N, less than one and a half times 7 N:" in said
    assert "the strongest may outlive it." in said
    assert ladder(reader, made, page)["break_low_N"] == "6.5"


def test_a_ladder_that_reaches_and_one_that_finds_a_bend_now_and_then(reader: Reader, made: MadeLesson) -> None:
    said = ladder(reader, made).fill(break_low_N="5", break_high_N="5.3").send("Save the ladder").text
    assert "may outlive" not in said
    said = ladder(reader, made).fill(break_low_N="8.5", break_high_N="9").send("Save the ladder").text
    assert "10 to 12 readings before the weakest may break find it more often" in said
    assert "Under 8 readings" not in said


def test_a_range_that_is_emptied_is_forgotten(database: Database, reader: Reader, made: MadeLesson) -> None:
    ladder(reader, made).fill(break_low_N="6", break_high_N="7").send("Save the ladder")
    page = ladder(reader, made).fill(break_low_N="", break_high_N="").send("One rung more")
    assert "Nothing says yet what the cords may hold." in page.text
    assert "break_low_N" not in record_of(database, made).planning
    assert len(record_of(database, made).rungs) == 9


@pytest.mark.parametrize(
    ("typed", "where"),
    [
        (("6", ""), "break_high_N"),
        (("", "6"), "break_low_N"),
        (("7", "6"), "break_high_N"),
        (("0", "6"), "break_low_N"),
        (("abc", "6"), "break_low_N"),
        (("1e999", "🪢"), "break_high_N"),
        (("6", "9" * 10_000), "break_high_N"),
    ],
)
def test_a_range_that_can_t_be_loses_nothing(
    database: Database, reader: Reader, made: MadeLesson, typed: tuple[str, str], where: str
) -> None:
    form = ladder(reader, made).fill(break_low_N=typed[0], break_high_N=typed[1], **{"rungs-0-name": "tin"})
    again = ladder(reader, made, form.send("Save the ladder", status=422))
    assert again.wrong(where)
    assert (again["break_low_N"], again["rungs-0-name"]) == (typed[0], "tin")
    assert record_of(database, made).planning == {}


def test_the_benches_say_what_they_can_show(reader: Reader, made: MadeLesson) -> None:
    page = reader.get("sheet.benches", lesson_id=made.lesson_id)
    assert "Yours: 3 and 3 benches." in page.text
    assert "A design twice as strong as all others would be found 97 times in 100." in page.text
    assert "8 times in 10 or more from twice as strong on" in page.text
    rows = [["".join(cell.itertext()) for cell in row] for row in page.all("tr")]
    assert ["3 and 3 (yours)", "24", "65", "97"] in rows


@pytest.mark.parametrize(
    ("benches", "words"),
    [(4, "Two against two can hint, never tell"), (5, "from twice as strong on"), (2, "two benches each, at least")],
)
def test_smaller_classes(database: Database, reader: Reader, benches: int, words: str) -> None:
    lesson = make_lesson(database, benches=BENCHES[:benches])
    reader.sign_in(lesson.teacher)
    assert words in reader.get("sheet.benches", lesson_id=lesson.lesson_id).text


def test_a_class_that_was_not_tried_is_told_so(database: Database, reader: Reader) -> None:
    lesson = make_lesson(database, benches=(*BENCHES, "Willow"))
    reader.sign_in(lesson.teacher)
    assert "A class like that was not tried" in reader.get("sheet.benches", lesson_id=lesson.lesson_id).text


BAG = {"It is": "a flat tube, as a bag is", "Width, lying flat, mm": "380", "Height that can be used, mm": "420,0"}


def test_the_strips_of_a_bag(database: Database, reader: Reader, made: MadeLesson) -> None:
    sheet = reader.form(reader.get("sheet.sheet", lesson_id=made.lesson_id), "lesson-sheet")
    page = sheet.fill({"Strip width, mm": "20", "Lay-up of design A": "flat plait"}).send("Strips from the sheet")
    page = cutting(reader, made, page).fill(BAG).send()
    said = " ".join(page.text.replace("\u00a0", " ").replace("\u202f", " ").split())
    assert "565 mm for 300 mm of cord, 1.15 mm of strip for each mm (assumed)" in said
    assert "21 strips of 760 mm, for 10 cords, each up to 469 mm" in said
    assert "38 strips of 420 mm, for 19 cords, each up to 173 mm: shorter than the 300 mm planned" in said
    assert "469 mm: shorter" not in said
    assert "All designs can be 469 mm long between the knots of crosswise strips, 173 mm of lengthwise ones." in said
    assert record_of(database, made).materials[0].height_mm == 420.0
    assert cutting(reader, made, page)["height_mm"] == "420"


def test_a_strip_long_enough_for_two_cords_counts_for_two(reader: Reader, made: MadeLesson) -> None:
    """A strip of 1500 mm gives two of the 565 mm that a cord needs; in a sheet 15 mm high none of 20 mm fits."""
    sheet = reader.form(reader.get("sheet.sheet", lesson_id=made.lesson_id), "lesson-sheet")
    page = sheet.fill({"Strip width, mm": "20", "Lay-up of design A": "flat plait"}).send("Strips from the sheet")
    sheet_mm = {"It is": "a flat sheet", "Width, lying flat, mm": "1500", "Height that can be used, mm": "100"}
    page = cutting(reader, made, page).fill(sheet_mm).send()
    said = " ".join(page.text.replace("\u00a0", " ").replace("\u202f", " ").split())
    assert "5 strips of 1 500 mm, 2 lengths of each, for 5 cords; left whole, each up to 1 113 mm" in said
    assert "no strip fits" not in said
    page = cutting(reader, made, page).fill({"Height that can be used, mm": "15"}).send()
    assert "no strip fits" in page.text


@pytest.mark.parametrize("whose", ["the demo lesson", "its copy", "a new lesson like the copy"])
def test_the_strips_of_designs_that_name_their_sheet_are_saved(database: Database, reader: Reader, whose: str) -> None:
    teacher = make_teacher(database)
    reader.sign_in(teacher)
    lesson_id = fresh_copy(database, at=MORNING).lesson_id
    if whose != "the demo lesson":
        lesson_id = copy_lesson(database, teacher.teacher_id, lesson_id, at=MORNING).lesson_id
    if whose == "a new lesson like the copy":
        plan = beginning(database, teacher.teacher_id).plan
        lesson_id = make_lesson(database, teacher=teacher, plan=plan).lesson_id
    reader.form(reader.get("sheet.cutting", lesson_id=lesson_id), "Save the sheet").fill(BAG).send()
    lesson = lesson_record(database, lesson_id)
    assert lesson.materials[0].height_mm == 420.0
    assert {design.material_id for design in lesson.designs} == {lesson.materials[0].id}


def test_the_film_s_strength_leads_to_an_estimate(reader: Reader, made: MadeLesson) -> None:
    sheet = reader.form(reader.get("sheet.sheet", lesson_id=made.lesson_id), "lesson-sheet")
    sheet.fill({"Strip width, mm": "20"}).send("Save")
    strength = {"thickness_um": "15", "strength_low_MPa": "25", "strength_high_MPa": "60", "strength_source": "us"}
    cutting(reader, made).fill(strength).send()
    assert "could be half or double" in reader.get("sheet.ladder", lesson_id=made.lesson_id).text


@pytest.mark.parametrize(
    ("name", "typed"),
    [
        ("flat_width_mm", "-5"),
        ("height_mm", "abc"),
        ("thickness_um", "1e999"),
        ("density_kg_m3", "0"),
        ("strength_low_MPa", "70"),
        ("take_up_factor", "0.5"),
        ("knot_strip_mm", "🪢"),
        ("name", "w" * 61),
        ("strength_source", "a\x00b"),
    ],
)
def test_a_bad_blank_loses_nothing(database: Database, reader: Reader, made: MadeLesson, name: str, typed: str) -> None:
    form = cutting(reader, made).fill({"strength_high_MPa": "60", "gusset_mm": "50", name: typed})
    again = cutting(reader, made, form.send(status=422))
    assert again.wrong("strength_high_MPa" if name == "strength_low_MPa" else name)
    assert again["gusset_mm"] == "50"
    assert record_of(database, made).materials == ()


def test_the_density_is_kept_and_weighing_is_explained(database: Database, reader: Reader, made: MadeLesson) -> None:
    form = cutting(reader, made)
    assert "the mass and the area of a piece of the sheet" in reader.get("sheet.cutting", lesson_id=made.lesson_id).text
    form.fill({"Density of the material, kg/m³": "920,5"}).send()
    assert record_of(database, made).materials[0].density_kg_m3 == 920.5
    assert cutting(reader, made)["density_kg_m3"] == "920.5"


def test_the_films_stand_there_with_their_sources(reader: Reader, made: MadeLesson) -> None:
    text = reader.get("sheet.cutting", lesson_id=made.lesson_id).text
    assert "18.5 to 19.4" in text
    assert "planning value, from memory" in text
