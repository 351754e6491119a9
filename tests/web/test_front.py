"""The front screen: what it shows for each choice, and what it never gives away."""

import re
from collections.abc import Callable
from typing import Any

import pytest

from app.domain import vocabulary
from app.services import lessons, rulings, running, seeding, teachers
from app.store.database import Database
from tests import make
from tests.make import MORNING, JoinedBench, MadeLesson
from tests.reader import Reader

BENCHES = ("Alder", "Hazel", "Birch", "Cedar", "Maple")


@pytest.fixture
def a_lesson(database: Database) -> MadeLesson:
    """A lesson of five benches."""
    return make.make_lesson(database, benches=BENCHES)


@pytest.fixture
def alder(database: Database, a_lesson: MadeLesson) -> JoinedBench:
    """Alder with a zero and four loads, and how it ended."""
    bench = make.join(database, a_lesson)
    make.make_readings(database, bench)
    make.make_ending(database, bench, kind="broke_adding", fail_step=5)
    return bench


def _show(database: Database, a_lesson: MadeLesson, view: str, **more: str | None) -> None:
    running.set_stage(database, a_lesson.lesson_id, {"front_view": view, **more}, at=MORNING)


def test_who_is_here_stands_in_slip_order(reader: Reader, database: Database, a_lesson: MadeLesson) -> None:
    make.join(database, a_lesson, bench="Maple")
    make.join(database, a_lesson, bench="Birch")
    page = reader.get("front.by_code", front_code=a_lesson.front_code)
    places = list(page.all("li"))
    words = [" ".join("".join(item.itertext()).split()) for item in places]
    assert [line.split()[0] for line in words] == list(BENCHES)
    assert [line.split()[1] for line in words] == ["free", "free", "here", "free", "here"]
    assert page.words_of("lesson-key").replace(" ", "") == a_lesson.lesson_key


def test_the_address_is_the_one_that_tablets_reach(
    reader: Reader, a_lesson: MadeLesson, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("app.web.nearby.network_address", lambda: "192.0.2.7")
    assert "Take your bench at 192.0.2.7" in reader.get("front.by_code", front_code=a_lesson.front_code).text


@pytest.mark.parametrize("view", vocabulary.FRONT_VIEWS)
def test_every_view_is_a_page_and_gives_no_slip_away(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench, view: str
) -> None:
    hazel = make.join(database, a_lesson, bench="Hazel")
    guess: dict[str, Any] = {"break_force_n": 77.7, "best_design": "B", "shape": None}
    rulings.predict(database, hazel.target, **guess, sent=make.sent(), sender=hazel.sender, at=MORNING)
    _show(database, a_lesson, view)
    page = reader.get("front.by_code", front_code=a_lesson.front_code)
    codes = lessons.slip_codes(database, a_lesson.lesson_id).values()
    assert not [code for code in codes if code in page.html.replace(" ", "")]
    assert "77.7" not in page.html
    assert page.tree.get("data-theme") == "projector"
    assert not list(page.all("form")), "a screen opened by its code changes nothing"


def test_steps_show_no_value_and_no_time(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    _show(database, a_lesson, "steps")
    page = reader.get("front.by_code", front_code=a_lesson.front_code)
    assert "ended" in page.text
    assert not page.has("class-graph-table")
    assert not re.search(r"\d\s?(N|mm|g|s|min)\b", page.text)
    assert "229" not in page.html


def test_the_class_graph_has_its_table(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    _show(database, a_lesson, "class_graph")
    page = reader.get("front.by_code", front_code=a_lesson.front_code)
    graph = page.one("class-graph")
    assert graph.get("data-figure").endswith(f"class-graph?view=benches&front={a_lesson.front_code}")
    assert graph.get("hidden") is None
    head, row = page.rows("class-graph-table")
    assert head[:4] == ["Cord", "Design", "Held, N", "Broke on, N"]
    assert row[0] == "Alder-1"
    assert row[4] == "broke while adding"
    assert page.one("plotly.js-style-global").get("class") == "no-inline-styles"


def test_one_bench_is_the_one_chosen_or_the_first_with_a_cord(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    hazel = make.join(database, a_lesson, bench="Hazel")
    make.make_readings(database, hazel)
    _show(database, a_lesson, "one_bench", front_bench="hazel")
    page = reader.get("front.by_code", front_code=a_lesson.front_code)
    assert "view=one_bench&bench=hazel" in page.one("class-graph").get("data-figure")
    _show(database, a_lesson, "one_bench", front_bench=None)
    page = reader.get("front.by_code", front_code=a_lesson.front_code)
    assert "bench=alder" in page.one("class-graph").get("data-figure")


def test_a_graph_without_readings_says_so(reader: Reader, database: Database, a_lesson: MadeLesson) -> None:
    for view in ("class_graph", "one_bench"):
        _show(database, a_lesson, view)
        page = reader.get("front.by_code", front_code=a_lesson.front_code)
        assert page.h1 == "No readings yet."
        assert page.one("class-graph").get("hidden") is not None


def test_waiting_and_masses_down_stand_at_the_foot(reader: Reader, database: Database, a_lesson: MadeLesson) -> None:
    running.set_stage(database, a_lesson.lesson_id, {"paused": True}, at=MORNING)
    assert "Your teacher asks you to wait." in reader.get("front.by_code", front_code=a_lesson.front_code).text
    running.set_stage(database, a_lesson.lesson_id, {"paused": False, "masses_down": True}, at=MORNING)
    assert "Masses down" in reader.get("front.by_code", front_code=a_lesson.front_code).text


def test_the_teacher_chooses_for_every_screen(
    reader: Reader, new_reader: Callable[[], Reader], database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    reader.sign_in(a_lesson.teacher)
    page = reader.get("front.screen", lesson_id=a_lesson.lesson_id)
    keys = {button.get("data-key"): button.get("value") for button in page.all("button")}
    assert keys == dict(zip("123456", vocabulary.FRONT_VIEWS, strict=True))
    page = reader.form(page, "4 Class graph").send()
    assert page.has("class-graph-table")
    assert new_reader().get("front.by_code", front_code=a_lesson.front_code).has("class-graph-table")
    page = reader.form(page, "5 One bench").send()
    page = reader.form(page, "→ Next bench").send()
    assert make.record_of(database, a_lesson).front_bench_id == alder.bench_id


@pytest.mark.parametrize("whose", ["another teacher's", "a bench's"])
def test_a_browser_that_is_someones_too_shows_it_all_the_same(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench, whose: str
) -> None:
    if whose == "a bench's":
        reader.hold(alder.token)
    else:
        reader.sign_in(make.make_teacher(database, name="reed"))
    _show(database, a_lesson, "class_graph")
    page = reader.get("front.by_code", front_code=a_lesson.front_code)
    figure = str(page.one("class-graph").get("data-figure"))
    reader.answer("GET", figure, status=200)
    reader.answer("GET", figure.replace("class-graph", "changes"), status=200)
    reader.answer("GET", figure.partition("?")[0], status=403 if whose == "a bench's" else 404)


def test_a_part_is_made_as_the_whole(reader: Reader, database: Database, a_lesson: MadeLesson) -> None:
    whole = reader.get("front.by_code", front_code=a_lesson.front_code).html
    part = reader.fetch("front.by_code", front_code=a_lesson.front_code, part="front").text.strip()
    assert part in whole
    assert reader.fetch("front.by_code", front_code=a_lesson.front_code, part="pace").status_code == 404


def test_a_wrong_code_and_a_deleted_lesson_open_nothing(
    reader: Reader, database: Database, a_lesson: MadeLesson
) -> None:
    reader.get("front.by_code", status=404, front_code="x" * 22)
    running.delete_lesson(database, a_lesson.lesson_id, at=MORNING)
    reader.get("front.by_code", status=404, front_code=a_lesson.front_code)


@pytest.mark.parametrize("many", [1, 13, 40])
def test_any_number_of_benches_has_its_rows(reader: Reader, database: Database, many: int) -> None:
    made = make.make_lesson(database, benches=[f"Bench{chr(97 + n // 26)}{chr(97 + n % 26)}" for n in range(many)])
    page = reader.get("front.by_code", front_code=made.front_code)
    rows = next(one.get("class") for one in page.all("ol")).split("rows-")[1]
    columns = -(-many // int(rows))
    assert int(rows) <= 10
    assert columns <= 4


def test_an_invented_lesson_says_so_on_every_view(
    reader: Reader, new_reader: Callable[[], Reader], database: Database, a_lesson: MadeLesson
) -> None:
    teachers.add_teacher(database, teachers.FIRST_NAME, password=make.PASSWORD, at=MORNING)
    reader.sign_in(teachers.sign_in(database, teachers.FIRST_NAME, make.PASSWORD, from_hash="here", at=MORNING))
    demo = seeding.load_demo(database, at=MORNING)
    assert demo is not None
    for view in vocabulary.FRONT_VIEWS:
        running.set_stage(database, demo.lesson_id, {"front_view": view}, at=MORNING)
        page = new_reader().get("front.by_code", front_code=demo.front_code)
        assert page.words_of("invented-lesson") == "Invented lesson"
        assert page.links()["Back to the first page"] == "/"
    assert "Invented lesson." in reader.get("graph.graph", lesson_id=demo.lesson_id).text
    of_a_class = reader.get("front.by_code", front_code=a_lesson.front_code)
    assert not of_a_class.has("invented-lesson")
    assert "Back to the first page" not in of_a_class.links()
