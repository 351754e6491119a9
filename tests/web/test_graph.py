"""Discuss, Keep and the class CSV."""

from collections.abc import Callable
from datetime import date

import pytest

from app.services import files, picture, running
from app.store.database import Database
from tests import make
from tests.make import MORNING, JoinedBench, MadeLesson
from tests.reader import Reader


@pytest.fixture
def a_lesson(database: Database, reader: Reader) -> MadeLesson:
    """A lesson of a certain day, whose teacher reads."""
    made = make.make_lesson(database, planned_on=date(2026, 3, 12))
    reader.sign_in(made.teacher)
    return made


@pytest.fixture
def alder(database: Database, a_lesson: MadeLesson) -> JoinedBench:
    """Alder with a zero and four loads, broken at the fifth."""
    bench = make.join(database, a_lesson)
    make.make_readings(database, bench)
    make.make_ending(database, bench, kind="broke_adding", fail_step=5, place="at_knot")
    return bench


def test_the_table_says_what_the_picture_says(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    page = reader.get("graph.graph", lesson_id=a_lesson.lesson_id)
    bracket = picture.see(database, a_lesson.lesson_id).picture.specimens[0].break_bracket
    assert page.rows("class-graph-table")[1] == [
        "Alder-1",
        "A: 2 strands",
        f"{bracket.low_n:.2f} N",
        f"{bracket.high_n:.2f} N",
        "broke while adding",
        "just at a knot",
        "5",
        "",
    ]
    assert page.one("class-graph").get("data-figure").endswith("class-graph?x=extension&y=load&view=benches")
    assert "In the sums: 1 cord. Left out: 0." in page.text


def test_more_than_and_left_out_are_said(reader: Reader, database: Database, a_lesson: MadeLesson) -> None:
    bench = make.join(database, a_lesson)
    make.make_readings(database, bench)
    make.make_ending(database, bench, kind="did_not_break")
    make.make_ruling(database, bench, kind="left_out", about=bench.specimen_id, reason="nick in one strip")
    page = reader.get("graph.graph", lesson_id=a_lesson.lesson_id)
    row = page.rows("class-graph-table")[1]
    assert row[2].startswith("more than ")
    assert (row[3], row[7]) == ("", "nick in one strip")
    assert "In the sums: 0 cords. Left out: 1." in page.text


def test_a_view_is_a_link_that_is_kept(reader: Reader, a_lesson: MadeLesson, alder: JoinedBench) -> None:
    page = reader.get("graph.graph", lesson_id=a_lesson.lesson_id)
    page = reader.get(page.links()["Alder"])
    page = reader.get(page.links()["strain"])
    page = reader.get(page.links()["force for each strip"])
    figure = page.one("class-graph").get("data-figure")
    assert figure.endswith("x=strain&y=load_per_strand&view=one_bench&bench=alder")


def test_a_part_is_made_as_the_whole(reader: Reader, a_lesson: MadeLesson, alder: JoinedBench) -> None:
    whole = reader.get("graph.graph", lesson_id=a_lesson.lesson_id).html
    for part in ("twin", "views"):
        answer = reader.fetch("graph.graph", lesson_id=a_lesson.lesson_id, part=part)
        assert answer.text.strip() in whole
    keys = reader.fetch("graph.graph", lesson_id=a_lesson.lesson_id, part="front-keys")
    assert 'data-part="front-keys"' in keys.text
    assert reader.fetch("graph.graph", lesson_id=a_lesson.lesson_id, part="pace").status_code == 404


def test_a_view_that_is_none_gives_way(reader: Reader, a_lesson: MadeLesson) -> None:
    page = reader.get("graph.graph", lesson_id=a_lesson.lesson_id, x="💥", y="", bench="nobody")
    assert page.one("class-graph").get("data-figure").endswith("x=extension&y=load&view=benches")


def test_a_bench_sees_the_graph_only_while_it_is_open(
    new_reader: Callable[[], Reader], database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    tablet = new_reader()
    tablet.hold(alder.token)
    assert "has not opened" in tablet.get("graph.graph", status=403, lesson_id=a_lesson.lesson_id).text
    running.set_stage(database, a_lesson.lesson_id, {"graph_open": True}, at=MORNING)
    page = tablet.get("graph.graph", lesson_id=a_lesson.lesson_id)
    assert page.has("class-graph-table")
    assert "Save the readings, CSV" not in page.links()
    other = make.make_lesson(database, teacher=make.make_teacher(database, name="reed"))
    running.set_stage(database, other.lesson_id, {"graph_open": True}, at=MORNING)
    tablet.get("graph.graph", status=404, lesson_id=other.lesson_id)
    assert tablet.fetch("graph.class_csv", lesson_id=a_lesson.lesson_id).status_code == 403


def test_the_csv_is_the_files_own_and_named_for_the_lesson(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    answer = reader.fetch("graph.class_csv", lesson_id=a_lesson.lesson_id)
    seen = picture.see(database, a_lesson.lesson_id)
    assert answer.text == files.class_csv(seen.picture)
    assert answer.mimetype == "text/csv"
    assert answer.headers["Content-Disposition"] == 'attachment; filename="three-strands-or-two-2026-03-12.csv"'


def test_a_title_without_latin_letters_still_makes_a_file_name(reader: Reader, database: Database) -> None:
    made = make.make_lesson(database, title="繩子 🪢")
    reader.sign_in(made.teacher)
    answer = reader.fetch("graph.class_csv", lesson_id=made.lesson_id)
    assert answer.headers["Content-Disposition"] == 'attachment; filename="lesson.csv"'


def test_notes_are_kept_and_a_bad_one_is_shown_again(reader: Reader, database: Database, a_lesson: MadeLesson) -> None:
    page = reader.get("graph.keep", lesson_id=a_lesson.lesson_id)
    page = reader.form(page, "Save the notes").fill(notes="Cut the strips the day before.").send()
    assert reader.form(page, "Save the notes")["notes"] == "Cut the strips the day before."
    long = "x" * 4001
    page = reader.form(page, "Save the notes").fill(notes=long).send(status=422)
    form = reader.form(page, "Save the notes")
    assert "At most 4000 characters." in form.wrong("notes")
    assert form["notes"] == long
    reader.post("graph.save_notes", {"notes": "a\x00b"}, status=422, lesson_id=a_lesson.lesson_id)
    assert make.record_of(database, a_lesson).notes == "Cut the strips the day before."


def test_keep_puts_the_lesson_on_the_shelf_and_takes_it_off(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    page = reader.get("graph.keep", lesson_id=a_lesson.lesson_id)
    page = reader.form(page, "Put on the shelf").fill({"Keep it to myself": True}).send()
    assert page.h1 == "Lesson shelf"
    assert make.record_of(database, a_lesson).own
    page = reader.get("graph.keep", lesson_id=a_lesson.lesson_id)
    assert not [form for form in page.all("form") if "keep" in form.get("action")]
    page = reader.form(page, "Take off the shelf").send()
    assert make.record_of(database, a_lesson).shelved_at is None
    assert reader.form(page, "Put on the shelf")


def test_a_lesson_is_deleted_with_a_way_back(reader: Reader, database: Database, a_lesson: MadeLesson) -> None:
    page = reader.get("graph.keep", lesson_id=a_lesson.lesson_id)
    page = reader.form(page, "Delete this lesson").send()
    reader.get("graph.keep", status=404, lesson_id=a_lesson.lesson_id)
    back = next(form for form in page.all("form") if form.get("action", "").endswith("/bring-back"))
    reader.post(back.get("action"), {})
    reader.get("graph.keep", lesson_id=a_lesson.lesson_id)


def test_a_number_that_does_not_count_says_why(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    first = make.record_of(database, a_lesson).benches[0].specimens[0].readings[-1]
    make.make_reading(database, alder, step=3, pointer="227")
    make.make_reading(database, alder, step=4, pointer="231")
    make.make_ruling(database, alder.target, kind="counts", about=first.entry_id, reason=None)
    page = reader.get("graph.graph", lesson_id=a_lesson.lesson_id)
    table = next(one for one in page.all("table") if one.get("class") == "readings-table")
    told = ["".join(row[-1].itertext()).strip() for row in table.iter("tr")][1:]
    assert sorted(filter(None, told)) == ["Ruled out.", "The same from another tablet."]


def test_the_table_says_what_its_forces_rest_on(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    page = reader.get("graph.graph", lesson_id=a_lesson.lesson_id)
    assert "Loads by label, hanger not counted" in page.words_of("class-graph-table")
    for mark in range(6):
        make.make_weighing(database, a_lesson.target, mark=mark, mass_g=100.0)
    page = reader.get("graph.graph", lesson_id=a_lesson.lesson_id)
    table = page.words_of("class-graph-table")
    assert "Loads by label" not in table
    assert "Invented" not in page.text
