"""The figures of one bench's cords on its teacher's page, each with how it was worked out."""

from typing import Any

import pytest

from app.services.bench_state import state_of
from app.services.workings import cord_workings
from app.store.database import Database
from tests import make
from tests.make import JoinedBench, MadeLesson
from tests.page import words
from tests.reader import Reader


@pytest.fixture
def database(sqlite_database: Database) -> Database:
    """One kind is enough: what a page says of sums does not hang on where their rows lie."""
    return sqlite_database


@pytest.fixture
def a_lesson(database: Database, reader: Reader) -> MadeLesson:
    """A lesson of the second depth, whose teacher reads."""
    made = make.make_lesson(database, depth="second")
    reader.sign_in(made.teacher)
    return made


def test_figures_stand_under_the_readings_ended_or_not(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    page = reader.get("running.one_bench", lesson_id=a_lesson.lesson_id, bench="alder")
    sums = state_of(database, alder.lesson_id, alder.bench_id).cord.sums
    for one in cord_workings(sums, "second"):
        assert one.name in [words(name) for name in page.all("span")]
        assert " ".join(one.formula.split()) in page.words_of(f"cord-1-how-{one.code}")


def test_the_teacher_says_where_a_curve_is_straight(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    def chosen() -> int | None:
        return state_of(database, alder.lesson_id, alder.bench_id).cord.tested.straight_last_step

    make.make_fresh_cord(database, alder)
    make.make_readings(database, alder)
    bench: dict[str, Any] = {"lesson_id": a_lesson.lesson_id, "bench": "alder"}
    form = reader.form(reader.get("running.one_bench", **bench), "cord-2-straight-form")
    page = form.fill(first_step="3", last_step="1").send(status=422)
    refused = reader.form(page, "cord-2-straight-form")
    assert refused.wrong("last_step") == "The last step comes after the first one."
    assert reader.form(page, "cord-1-straight-form")["first_step"] == ""
    page = refused.fill(first_step="1", last_step="4").send()
    assert page.h1.startswith("Alder")
    assert chosen() == 4
    assert "steps 1 to 4" in page.text
    reader.form(page, "cord-2-straight-back").send()
    assert chosen() is None
