"""The lesson shelf, read as a browser without scripts reads it."""

from collections.abc import Callable
from datetime import date

import pytest

from app.services import running
from app.store.database import Database
from tests import make
from tests.make import MORNING, MadeLesson
from tests.reader import Reader

SVG = "{http://www.w3.org/2000/svg}svg"


def _past(database: Database, first: MadeLesson | None, *, title: str, day: date, own: bool = False) -> MadeLesson:
    """A past lesson of one broken cord."""
    made = make.make_lesson(
        database, teacher=first.teacher if first else None, title=title, question="", planned_on=day
    )
    bench = make.join(database, made)
    make.make_readings(database, bench)
    make.make_ending(database, bench, kind="broke_adding", fail_step=5)
    running.put_on_shelf(database, made.lesson_id, on_shelf=True, own=own, at=MORNING)
    return made


@pytest.fixture
def fleece(database: Database, reader: Reader) -> MadeLesson:
    """This year's lesson on the shelf, whose teacher reads."""
    made = _past(database, None, title="Fleece cords", day=date(2026, 3, 12))
    reader.sign_in(made.teacher)
    return made


def test_an_empty_shelf_says_how_it_is_filled(reader: Reader, database: Database) -> None:
    reader.sign_in(make.make_teacher(database))
    page = reader.get("shelf.shelf")
    assert "No lessons on the shelf yet." in page.text
    assert "New lesson" in page.links()


def test_past_lessons_stand_with_their_facts(reader: Reader, database: Database, fleece: MadeLesson) -> None:
    _past(database, fleece, title="Bag strips", day=date(2025, 3, 13))
    page = reader.get("shelf.shelf")
    assert page.text.index("Fleece cords") < page.text.index("Bag strips")
    assert "2026 Thursday 12 March" in page.text
    assert "Two benches, two designs, one cord in the sums." in page.text
    assert "Loads by label, hanger not counted." in page.text
    signs = [one.get("aria-label") for one in page.all(SVG) if "yard" in one.get("class", "")]
    assert len(signs) == 2
    assert all(sign.startswith("Yardstick cord. Alder: held ") for sign in signs)


@pytest.mark.parametrize(
    ("words", "found"),
    [("fleece", 1), ("MARCH", 2), ("12 march 2026", 1), ("strips bag", 1), ("nothing so", 0), ("'; --", 0), ("🙂", 0)],
)
def test_lessons_are_found_by_words(
    reader: Reader, database: Database, fleece: MadeLesson, words: str, found: int
) -> None:
    _past(database, fleece, title="Bag strips", day=date(2025, 3, 13))
    page = reader.get("shelf.shelf", q=words)
    assert len(list(page.all("h2"))) == found
    assert page.one("find").get("value") == words
    assert found or "No lesson on the shelf says" in page.text


def test_a_lesson_is_taken_off_and_copied(reader: Reader, database: Database, fleece: MadeLesson) -> None:
    page = reader.get("shelf.shelf")
    reader.form(page, "Copy").send()
    assert make.record_of(database, fleece).shelved_at is not None
    page = reader.get("shelf.shelf")
    reader.form(page, "Take off the shelf").send()
    assert make.record_of(database, fleece).shelved_at is None


def test_a_past_lesson_opens_read_only(reader: Reader, fleece: MadeLesson) -> None:
    page = reader.get("shelf.shelf")
    page = reader.get(page.links()["Fleece cords"])
    assert page.has("class-graph-table")
    assert "This lesson is on the shelf." in page.text
    assert not list(page.all("form"))
    assert reader.fetch("graph.class_csv", lesson_id=fleece.lesson_id).status_code == 200
    reader.post("running.stage", {"stage": "testing"}, status=409, lesson_id=fleece.lesson_id)


def test_another_teacher_reads_and_copies_unless_it_is_kept(
    new_reader: Callable[[], Reader], database: Database, fleece: MadeLesson
) -> None:
    kept = _past(database, fleece, title="Mine alone", day=date(2024, 3, 14), own=True)
    other = new_reader()
    other.sign_in(make.make_teacher(database, name="reed"))
    page = other.get("shelf.shelf")
    assert "Fleece cords" in page.text
    assert "Mine alone" not in page.text
    assert "Take off the shelf" not in page.text
    page = other.get("graph.graph", lesson_id=fleece.lesson_id)
    assert page.has("class-graph-table")
    assert not list(page.all("form"))
    other.get("graph.graph", status=404, lesson_id=kept.lesson_id)
    other.get("graph.keep", status=404, lesson_id=fleece.lesson_id)
    other.post("shelf.put", {"on_shelf": "false"}, status=404, lesson_id=fleece.lesson_id)
    other.form(other.get("shelf.shelf"), "Copy").send()
