"""The list of open lessons: a new one, a copy, deleted and brought back."""

from collections.abc import Callable

import pytest

from app.services.lessons import lesson_record
from app.store.database import Database
from tests.conftest import Clock
from tests.make import join, make_lesson, make_reading, make_teacher, record_of
from tests.reader import Reader


@pytest.fixture
def database_kind() -> str:
    """The pages are the same on each kind of database; the verbs below them are tested on both."""
    return "sqlite"


def id_in(address: str) -> str:
    return address.split("/")[2]


def test_without_lessons_the_page_says_so_and_what_to_do(database: Database, reader: Reader) -> None:
    reader.sign_in(make_teacher(database))
    page = reader.get("lessons.open_lessons")
    assert "No lessons yet. Make one" in page.text
    assert page.links()["Make one"] == reader.address("lessons.new")


def test_the_first_lesson_is_usable_with_a_title_alone(database: Database, reader: Reader) -> None:
    reader.sign_in(make_teacher(database))
    page = reader.form(reader.get("lessons.new"), "Make the lesson").fill(Title="Fleece cords").send()
    assert page.h1 == "Lesson sheet"
    lesson = lesson_record(database, id_in(page.address))
    assert (lesson.title, len(lesson.benches), len(lesson.rungs)) == ("Fleece cords", 10, 18)
    assert [rung.printed_mass_g for rung in lesson.rungs] == [100.0] * 4 + [200.0] * 14
    assert (lesson.wait_s, lesson.gravity_m_per_s2, lesson.scale_division_mm) == (20, 9.81, 1.0)
    assert {bench.scale_unit for bench in lesson.benches} == {"mm"}
    assert [design.strands for design in lesson.designs] == [3]


def test_the_next_lesson_begins_as_the_last_one(database: Database, reader: Reader) -> None:
    made = make_lesson(database, wait_s=35, year_band="ages 13 to 14")
    reader.sign_in(made.teacher)
    page = reader.get("lessons.new")
    form = reader.form(page, "Make the lesson")
    assert (form["year_band"], form["bench_count"]) == ("ages 13 to 14", "2")
    new = lesson_record(database, id_in(form.fill(Title="Another").send().address))
    assert (new.wait_s, new.copied_from) == (35, made.lesson_id)
    assert [design.letter for design in new.designs] == ["A", "B"]
    assert not any(cord.readings for bench in new.benches for cord in bench.specimens)


def test_pressing_twice_makes_one_lesson(database: Database, reader: Reader) -> None:
    reader.sign_in(make_teacher(database))
    form = reader.form(reader.get("lessons.new"), "Make the lesson").fill(Title="Once")
    assert form.send().address == form.send().address
    assert reader.get("lessons.open_lessons").text.count("Once") == reader.get("lessons.open_lessons").text.count(
        "Once"
    )
    assert sum("Once" in words for words in reader.get("lessons.open_lessons").links()) == 3  # title, Prepare, Test


BAD = ["", "abc", "-3", "0", "41", "2,5", "1e999", "🪢", "9" * 10_000, "3\x00"]


@pytest.mark.parametrize("typed", BAD)
def test_a_bad_number_of_benches_keeps_everything_typed(database: Database, reader: Reader, typed: str) -> None:
    reader.sign_in(make_teacher(database))
    form = reader.form(reader.get("lessons.new"), "Make the lesson")
    page = form.fill(title="Kept", question="Kept too?", bench_count=typed).send(status=422)
    again = reader.form(page, "Make the lesson")
    assert again.wrong("bench_count")
    assert (again["title"], again["question"]) == ("Kept", "Kept too?")
    assert "No lessons yet" in reader.get("lessons.open_lessons").text


@pytest.mark.parametrize(
    ("field", "typed"),
    [
        ("title", ""),
        ("title", "t" * 121),
        ("title", "a\x00b"),
        ("planned_on", "yesterday"),
        ("planned_on", "0001-01-01"),
        ("year_band", "y" * 21),
        ("question", "q" * 10_000),
    ],
)
def test_bad_words_get_a_sentence(database: Database, reader: Reader, field: str, typed: str) -> None:
    reader.sign_in(make_teacher(database))
    form = reader.form(reader.get("lessons.new"), "Make the lesson").fill({"title": "Kept", field: typed})
    page = form.send(status=422)
    assert reader.form(page, "Make the lesson").wrong(field)


def test_a_copy_has_no_readings_and_new_slips(database: Database, reader: Reader) -> None:
    made = make_lesson(database)
    make_reading(database, join(database, made))
    reader.sign_in(made.teacher)
    form = reader.form(reader.get("lessons.open_lessons"), f"/lessons/{made.lesson_id}/copy")
    page = form.send()
    copy = lesson_record(database, id_in(page.address))
    assert copy.copied_from == made.lesson_id
    assert not any(cord.readings for bench in copy.benches for cord in bench.specimens)
    assert copy.lesson_key != made.lesson_key
    assert form.send().address == page.address, "the same press again makes no second copy"


def test_deleted_and_brought_back(database: Database, reader: Reader, clock: Clock) -> None:
    made = make_lesson(database, title="Gone soon")
    reader.sign_in(made.teacher)
    page = reader.form(reader.get("lessons.open_lessons"), f"/lessons/{made.lesson_id}/delete").send()
    assert "can be brought back for 30 days" in page.text
    reader.get("sheet.sheet", lesson_id=made.lesson_id, status=404)
    back = reader.form(page, f"/lessons/{made.lesson_id}/bring-back").send()
    assert back.links()["Gone soon"] == reader.address("sheet.sheet", lesson_id=made.lesson_id)
    assert record_of(database, made).deleted_at is None


def test_after_thirty_days_it_is_offered_no_more(database: Database, reader: Reader, clock: Clock) -> None:
    made = make_lesson(database, title="Long gone")
    reader.sign_in(made.teacher)
    reader.form(reader.get("lessons.open_lessons"), f"/lessons/{made.lesson_id}/delete").send()
    clock.forward(31 * 86_400)
    assert "Long gone" not in reader.get("lessons.open_lessons").text


def test_another_teacher_s_lesson_is_not_found(database: Database, new_reader: Callable[[], Reader]) -> None:
    made = make_lesson(database)
    other = new_reader()
    other.sign_in(make_teacher(database, name="fern"))
    for place in ("sheet.sheet", "sheet.benches", "sheet.ladder", "sheet.weigh"):
        other.get(place, lesson_id=made.lesson_id, status=404)
        other.post(place, {}, lesson_id=made.lesson_id, status=404)
    for place in ("lessons.copy", "lessons.delete", "lessons.bring_back"):
        other.post(place, {}, lesson_id=made.lesson_id, status=404)
    other.get("prints.paper", lesson_id=made.lesson_id, name="bench-slips", status=404)
