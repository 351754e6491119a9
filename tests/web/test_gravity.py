"""g on the pages: said as a number, by a convention or by a latitude, and printed where forces are."""

import pytest

from app.store.database import Database
from tests.make import MadeLesson, join, make_lesson, make_readings, record_of
from tests.reader import Form, Reader

SHEET = "lesson-sheet"
LATITUDE = "or by latitude, °"


@pytest.fixture
def database_kind() -> str:
    """The pages are the same on each kind of database."""
    return "sqlite"


@pytest.fixture
def made(database: Database, reader: Reader) -> MadeLesson:
    """A lesson of the teacher who reads, with readings, at standard gravity."""
    lesson = make_lesson(database)
    make_readings(database, join(database, lesson))
    reader.sign_in(lesson.teacher)
    return lesson


def opened(reader: Reader, made: MadeLesson) -> Form:
    return reader.form(reader.get("sheet.sheet", lesson_id=made.lesson_id), SHEET)


def in_use(database: Database, made: MadeLesson) -> tuple[float, str | None]:
    lesson = record_of(database, made)
    return lesson.gravity_m_per_s2, lesson.gravity_from


def test_a_latitude_sets_g_and_stands_in_its_blank(database: Database, reader: Reader, made: MadeLesson) -> None:
    """Normal gravity of WGS 84 at 51.5°: `tests/reference/wgs84_normal_gravity.csv`."""
    opened(reader, made).fill({LATITUDE: "51,5"}).send("save")
    assert in_use(database, made) == (9.81203, "latitude 51.5°")
    form = opened(reader, made)
    assert (form["latitude_deg"], form["gravity_m_per_s2"]) == ("51.5", "9.81203")
    form.send("save")
    assert in_use(database, made) == (9.81203, "latitude 51.5°")


def test_a_latitude_sets_a_g_that_is_left_blank(database: Database, reader: Reader, made: MadeLesson) -> None:
    opened(reader, made).fill({"gravity_m_per_s2": "", "latitude_deg": "51,5"}).send("save")
    assert in_use(database, made) == (9.81203, "latitude 51.5°")


def test_neither_is_told_beside_g(database: Database, reader: Reader, made: MadeLesson) -> None:
    page = opened(reader, made).fill({"title": "Typed", "gravity_m_per_s2": ""}).send("save", status=422)
    form = reader.form(page, SHEET)
    assert "Type g here, or a latitude." in form.wrong("gravity_m_per_s2")
    assert form["title"] == "Typed"
    assert in_use(database, made)[0] == 9.80665


def test_a_number_typed_later_counts_again(database: Database, reader: Reader, made: MadeLesson) -> None:
    opened(reader, made).fill({LATITUDE: "−33,9"}).send("save")
    assert in_use(database, made)[1] == "latitude −33.9°"
    opened(reader, made).fill({"gravity_m_per_s2": "9,81"}).send("save")
    assert in_use(database, made) == (9.81, "9.81, as schools use it")
    assert opened(reader, made)["latitude_deg"] == ""


@pytest.mark.parametrize(
    ("typed", "words"),
    [("91", "outside what can be"), ("51°", "Numbers only"), ("nan", "Numbers only"), ("-1e9", "Numbers only")],
)
def test_a_bad_latitude_is_told_beside_its_blank(
    database: Database, reader: Reader, made: MadeLesson, typed: str, words: str
) -> None:
    page = opened(reader, made).fill({"title": "Typed", "latitude_deg": typed}).send("save", status=422)
    form = reader.form(page, SHEET)
    assert words in form.wrong("latitude_deg")
    assert (form["latitude_deg"], form["title"]) == (typed, "Typed")
    assert in_use(database, made)[0] == 9.80665


def test_two_ways_at_once_are_asked_about(reader: Reader, made: MadeLesson) -> None:
    page = opened(reader, made).fill({"gravity_m_per_s2": "9,8", "latitude_deg": "51"}).send("save", status=422)
    form = reader.form(page, SHEET)
    assert "one way only" in form.wrong("latitude_deg")
    assert (form["gravity_m_per_s2"], form["latitude_deg"]) == ("9,8", "51")


def test_the_conventions_are_offered_by_name(reader: Reader, made: MadeLesson) -> None:
    page = reader.get("sheet.sheet", lesson_id=made.lesson_id)
    assert '<option value="9.80665">standard gravity</option>' in page.html
    assert '<option value="9.81">9.81, as schools use it</option>' in page.html


@pytest.mark.parametrize(
    ("endpoint", "more"),
    [
        ("sheet.sheet", {}),
        ("sheet.ladder", {}),
        ("sheet.weigh", {}),
        ("running.one_bench", {"bench": "alder"}),
        ("graph.graph", {}),
    ],
)
def test_what_was_used_is_printed_where_forces_are(
    reader: Reader, made: MadeLesson, endpoint: str, more: dict[str, str]
) -> None:
    opened(reader, made).fill({LATITUDE: "51,5"}).send("save")
    text = reader.get(endpoint, lesson_id=made.lesson_id, **more).text.replace("\u00a0", " ")
    assert "g = 9.81203 N/kg, latitude 51.5°" in text
