"""What was worked out of the bench's own cord, on its page without a script: only once it ended, each with its how."""

from collections.abc import Callable
from typing import Any

import pytest

from app.domain.sources import SOURCES
from app.services.bench_state import BenchState
from app.services.planning import PlanChanges, mend_plan
from app.services.running import set_stage
from app.services.workings import cord_workings
from app.store.database import Database
from app.web.template_tools import anchor
from tests import make
from tests.make import MORNING, JoinedBench
from tests.page import Page, words
from tests.reader import Reader
from tests.web.bench.reading import is_shown

POINTERS = (218, 222, 224, 227, 231)


@pytest.fixture
def database(sqlite_database: Database) -> Database:
    """One kind is enough: what a page says of sums does not hang on where their rows lie."""
    return sqlite_database


@pytest.fixture
def depth() -> str:
    """That of the lesson; a test says another by its parameters."""
    return "second"


@pytest.fixture
def lesson(database: Database, depth: str) -> make.MadeLesson:
    """A lesson of that depth, its hanger weighed."""
    made = make.make_lesson(database, gravity_m_per_s2=9.81, depth=depth)
    make.make_weighing(database, made.target, mark=0, mass_g=86)
    return made


@pytest.fixture
def ended(database: Database, bench: JoinedBench) -> None:
    """Alder's cord broke at the fifth step."""
    make.make_readings(database, bench, POINTERS)
    make.make_ending(database, bench, kind="broke_adding", fail_step=5, place="at_knot")


def _figures(page: Page) -> list[str]:
    return [words(one) for one in page.all("span") if one.get("class") == "figure-name"]


def test_before_the_end_a_bench_is_led_by_nothing(tablet: Reader, database: Database, bench: JoinedBench) -> None:
    make.make_readings(database, bench, POINTERS)
    page = tablet.get("bench.page")
    assert not is_shown(page, "worked")
    assert not _figures(page)


@pytest.mark.parametrize("depth", ["first", "second", "third"])
@pytest.mark.usefixtures("ended")
def test_each_figure_of_the_depth_says_how_it_was_worked_out(
    tablet: Reader, stands: Callable[[], BenchState], depth: str
) -> None:
    page = tablet.get("bench.page")
    if depth == "second":
        page = tablet.form(page, "straight-form").fill(first_step="1", last_step="4").send()
    assert is_shown(page, "worked")
    assert page.links()["What the words mean"] == "/words"
    told = cord_workings(stands().cord.sums, depth)
    assert sorted(_figures(page)) == sorted(one.name for one in told)
    for one in told:
        how = page.words_of(f"how-{one.code}")
        assert " ".join(one.formula.split()) in how
        assert " ".join(one.numbers.split()) in how
        assert one.said.replace("\u00a0", " ") in page.text.replace("\u00a0", " ")


@pytest.mark.parametrize("depth", ["third"])
@pytest.mark.usefixtures("ended")
def test_each_source_is_on_its_page(tablet: Reader, stands: Callable[[], BenchState], depth: str) -> None:
    page, sources = tablet.get("bench.page"), tablet.get("public.sources")
    named = {one.source for one in cord_workings(stands().cord.sums, depth) if one.source}
    assert named <= {source.key for source in SOURCES}
    for key in named:
        assert page.links()[key] == f"/sources#{anchor(key)}"
        assert sources.has(anchor(key))


@pytest.mark.parametrize("depth", ["first"])
@pytest.mark.usefixtures("ended")
def test_the_first_depth_asks_for_no_straight_part(tablet: Reader, depth: str) -> None:
    assert not tablet.get("bench.page").has("straight-form"), depth


@pytest.mark.parametrize("depth", ["second", "third"])
@pytest.mark.usefixtures("ended")
def test_what_the_sums_propose_stands_beside_a_choice_and_at_the_second_depth_not_before_it(
    tablet: Reader, depth: str
) -> None:
    proposed = {"Stiffness of the straight part", "Limit of proportionality"}
    page = tablet.get("bench.page")
    assert proposed & set(_figures(page)) == (proposed if depth == "third" else set())
    assert page.has("straight-first") is (depth == "second")
    page = tablet.form(page, "straight-form").fill(first_step="1", last_step="4").send()
    assert proposed <= set(_figures(page))
    assert not page.has("straight-first")


def test_a_part_that_bends_is_told_and_a_straight_one_is_not(
    tablet: Reader, database: Database, lesson: make.MadeLesson
) -> None:
    changes = PlanChanges(lesson={}, rungs=make.make_plan(rungs_g=[102.0] * 12).rungs)
    mend_plan(database, lesson.lesson_id, changes, at=MORNING)
    bench = make.join(database, lesson, bench="Hazel")
    tablet.hold(bench.token)
    make.make_readings(database, bench, [200 + 4 * step + 8 * max(0, step - 6) for step in range(13)])
    make.make_ending(database, bench, kind="did_not_break")
    form = tablet.form(tablet.get("bench.page"), "straight-form")
    page = form.fill(first_step="0", last_step="12").send()
    assert page.words_of("straight-bends") == "Your part bends: these readings don't lie on one line."
    page = tablet.form(page, "straight-form").fill(first_step="0", last_step="6").send()
    assert "steps 0 to 6" in page.text
    assert not page.has("straight-bends")


@pytest.mark.usefixtures("ended")
def test_the_straight_part_is_chosen_and_the_choice_taken_back(
    tablet: Reader, stands: Callable[[], BenchState]
) -> None:
    form = tablet.form(tablet.get("bench.page"), "straight-form")
    page = form.fill({"From": "step 1: 1.84 N", "To": "4"}).send()
    assert (stands().cord.tested.straight_first_step, stands().cord.tested.straight_last_step) == (1, 4)
    assert "Stiffness of the part you chose, steps 1 to 4" in _figures(page)
    again = tablet.form(page, "straight-form")
    assert (again["first_step"], again["last_step"]) == ("1", "4")
    page = tablet.form(page, "straight-back").send()
    assert stands().cord.tested.straight_first_step is None
    assert not page.has("straight-back")


@pytest.mark.parametrize(
    ("said", "field", "sentence"),
    [
        ({"first_step": "", "last_step": "3"}, "first_step", "Choose a step."),
        ({"first_step": "1", "last_step": ""}, "last_step", "Choose a step."),
        ({"first_step": "3", "last_step": "3"}, "last_step", "The last step comes after the first one."),
        ({"first_step": "4", "last_step": "1"}, "last_step", "The last step comes after the first one."),
        ({"first_step": "1", "last_step": "61"}, "last_step", "0 to 60"),
        ({"first_step": "🪢", "last_step": "4"}, "first_step", "Numbers only"),
    ],
)
@pytest.mark.usefixtures("ended")
def test_a_bad_choice_keeps_what_was_chosen(
    tablet: Reader, stands: Callable[[], BenchState], said: dict[str, str], field: str, sentence: str
) -> None:
    form = tablet.form(tablet.get("bench.page"), "straight-form")
    data: dict[str, Any] = {**form.values, **said}
    page = tablet.post("bench.enter", data, noun="rulings", status=422)
    again = tablet.form(page, "straight-form")
    assert sentence in again.wrong(field)
    offered = {"", "0", "1", "2", "3", "4"}
    assert {name: again[name] for name in said} == {
        name: typed if typed in offered else "" for name, typed in said.items()
    }
    assert stands().cord.tested.straight_first_step is None


@pytest.mark.usefixtures("ended")
def test_the_part_is_made_as_the_whole(tablet: Reader) -> None:
    whole = tablet.get("bench.page").html
    part = tablet.fetch("bench.page", part="worked").text
    entry = 'name="entry_id" value="'
    first, rest = part.split(entry)[0], part.split(entry)[1][36:]
    assert first.strip() in whole
    assert rest.strip() in whole
    assert tablet.fetch("bench.page", part="nothing").status_code == 404


@pytest.mark.usefixtures("ended")
def test_when_the_lesson_is_over_the_figures_stay_and_nothing_is_asked(
    tablet: Reader, database: Database, bench: JoinedBench
) -> None:
    set_stage(database, bench.lesson_id, {"stage": "over"}, at=MORNING)
    page = tablet.get("bench.page")
    assert is_shown(page, "worked")
    assert not page.has("straight-form")


@pytest.mark.usefixtures("ended")
def test_two_ends_give_no_figures_until_one_counts(tablet: Reader, database: Database, bench: JoinedBench) -> None:
    make.make_ending(database, bench, kind="did_not_break")
    assert not is_shown(tablet.get("bench.page"), "worked")
