"""What the lesson sheet says beside its blanks: what differs, what follows, what is left to do."""

import pytest

from app.services.running import set_stage
from app.store.database import Database
from tests.make import MORNING, MadeLesson, make_lesson
from tests.reader import Reader


@pytest.fixture
def database_kind() -> str:
    """The pages are the same on each kind of database."""
    return "sqlite"


@pytest.fixture
def made(database: Database, reader: Reader) -> MadeLesson:
    """A lesson of the teacher who reads: two designs, two benches, five rungs."""
    lesson = make_lesson(database)
    reader.sign_in(lesson.teacher)
    return lesson


def test_the_cell_that_differs_is_underlined(reader: Reader, made: MadeLesson) -> None:
    page = reader.get("sheet.sheet", lesson_id=made.lesson_id)
    underlined = [
        [field.get("aria-label") for field in cell.iter() if field.get("aria-label")]
        for cell in page.all("span")
        if "moved" in (cell.get("class") or "")
    ]
    assert underlined == [["Strips of design B", "Lay-up of design B"]]


def test_two_changed_things_are_named(reader: Reader, made: MadeLesson) -> None:
    page = (
        reader.form(reader.get("sheet.sheet", lesson_id=made.lesson_id), "lesson-sheet")
        .fill({"Cut of design B": "across"})
        .send("save")
    )
    assert "B: two things differ: strips and cut." in page.text


def test_what_follows_is_computed(reader: Reader, made: MadeLesson) -> None:
    """5 steps of 20 + 25 s are 3 min 45 s; 816 g x 9.80665 = 8.0 N; two benches, 1.6 kg."""
    text = reader.get("sheet.sheet", lesson_id=made.lesson_id).text
    assert "5 steps at 45 s take 3 min 45 s" in text
    assert "5 rungs reach up to 8 N. 0.8 kg a bench, 1.6 kg in all, the hanger not counted." in text
    assert "Not weighed yet: hanger, 1 to 5." in text


def test_a_lesson_that_is_over_has_nothing_left_to_do(database: Database, reader: Reader, made: MadeLesson) -> None:
    set_stage(database, made.lesson_id, {"stage": "over"}, at=MORNING)
    text = reader.get("sheet.sheet", lesson_id=made.lesson_id).text
    assert "Not every rung was weighed." in text
    assert "Not weighed: hanger, 1 to 5. Their force goes by the label." in text
    assert "to do" not in text
