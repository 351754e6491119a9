"""Figures by design: what cords and designs held, what may be said of two designs, and how each was worked out."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from app.domain.plan import LessonPlan
from app.services import picture, running
from app.services.figure_words import force_bracket
from app.services.picture import Seen
from app.services.verdict_words import verdict_words
from app.store.database import Database
from tests import make
from tests.make import MORNING, JoinedBench, MadeLesson
from tests.page import Page, words
from tests.reader import Reader

BENCHES = ("Alder", "Hazel", "Birch", "Cedar", "Maple", "Rowan")
FIRM, SOFT = (218, 222, 224, 227, 229), (218, 230, 243, 257, 270)


@pytest.fixture
def database(sqlite_database: Database) -> Database:
    """One kind is enough: what a page says of a picture does not hang on where its rows lie."""
    return sqlite_database


def _lesson(database: Database, reader: Reader, *, plan: LessonPlan | None = None, **said: Any) -> MadeLesson:
    made = make.make_lesson(database, plan=plan or make.make_plan(benches=BENCHES, **said))
    reader.sign_in(made.teacher)
    return made


def _broke(database: Database, bench: JoinedBench, read: int, **end: Any) -> None:
    """The bench's cord was read so many steps, and broke on the next."""
    make.make_readings(database, bench, (FIRM if bench.word in ("Alder", "Birch", "Maple") else SOFT)[: read + 1])
    said: dict[str, Any] = {"kind": "broke_adding", "fail_step": read + 1, "place": "at_knot"} | end
    make.make_ending(database, bench, **said)


@pytest.fixture
def benches(database: Database, lesson: MadeLesson) -> dict[str, JoinedBench]:
    """Six benches, three a design: A held more than B each time."""
    made = {word: make.join(database, lesson, bench=word) for word in BENCHES}
    for word, read in zip(BENCHES, (4, 2, 4, 2, 3, 1), strict=True):
        _broke(database, made[word], read)
    return made


@pytest.fixture
def depth() -> str:
    """That of the lesson; a test says another by its parameters."""
    return "second"


@pytest.fixture
def lesson(database: Database, reader: Reader, depth: str) -> MadeLesson:
    """A lesson of that depth, its teacher reads."""
    return _lesson(database, reader, depth=depth)


def _designs(reader: Reader, lesson: MadeLesson, **said: Any) -> Page:
    return reader.get("graph.designs", lesson_id=lesson.lesson_id, **said)


def _seen(database: Database, lesson: MadeLesson) -> Seen:
    return picture.see(database, lesson.lesson_id)


def _said(page: Page) -> list[str]:
    """What stands in the links that can be asked, without what is only heard."""
    links = [one for one in page.all("a") if one.get("data-ask")]
    return [" ".join((one.text or "").split()) for one in links]


@pytest.mark.parametrize("depth", ["first", "second", "third"])
@pytest.mark.usefixtures("benches")
def test_the_tables_say_what_the_picture_says(reader: Reader, database: Database, lesson: MadeLesson) -> None:
    page, sums = _designs(reader, lesson), _seen(database, lesson).picture.sums
    by_design = {row[0]: row for row in page.rows("designs-table")[1:]}
    for design in sums.designs:
        row = next(row for name, row in by_design.items() if name.startswith(design.letter))
        assert row[1] == "3 by 3 groups"
        for one in design.cords:
            assert f"{one.cord.group}: {' '.join(force_bracket(one.break_bracket).split())}" in row[2]
        assert row[3].startswith(" ".join(force_bracket(design.breaking.median).split()))
    cords = page.rows("cords-figures")[1:]
    assert [row[0] for row in cords] == ["Alder-1", "Birch-1", "Maple-1", "Hazel-1", "Cedar-1", "Rowan-1"]
    assert cords[0][2] == "broke while adding, just at a knot"


@pytest.mark.usefixtures("benches")
def test_each_pair_of_designs_has_its_sentence_with_names_and_letters(
    reader: Reader, database: Database, lesson: MadeLesson
) -> None:
    page, seen = _designs(reader, lesson), _seen(database, lesson)
    names = {"A": "A (2 strands)", "B": "B (3 strands)"}
    told = [
        " ".join(verdict_words(found, seen.lesson.depth, names=names).split())
        for comparison in seen.picture.sums.comparisons
        for found in comparison.differences
    ]
    assert "A (2 strands) held more than B (3 strands)" in told[0]
    assert set(told) <= set(_said(page))
    assert next(words(one) for one in page.all("b") if one.get("class") == "verdict") == "different"
    assert ("All designs together" in page.text) == (seen.lesson.depth == "third")


@pytest.mark.parametrize("depth", ["first", "third"])
@pytest.mark.usefixtures("benches")
def test_every_figure_can_be_asked_how_it_was_worked_out(reader: Reader, lesson: MadeLesson) -> None:
    page = _designs(reader, lesson)
    links = {one.get("data-ask"): one for one in page.all("a") if one.get("data-ask")}
    assert len(links) > 30
    assert page.one("worked-out").get("hidden") is not None
    for key, link in links.items():
        address, _, row = link.get("href").partition("#")
        answer = reader.answer("GET", f"{address}&part=worked-out", status=200).text
        assert "<dt>Formula</dt>" in answer, key
        assert not row or page.has(row)
    whole = reader.get(next(iter(links.values())).get("href"))
    assert whole.one("worked-out").get("hidden") is None
    assert "Formula" in whole.words_of("worked-out")


@pytest.mark.parametrize(
    "ask", ["cord/Nobody-1/chosen", "pair/x", "design/Z/spread_N", "cord/Alder-1/💥", "💥", "/", "cord"]
)
@pytest.mark.usefixtures("benches")
def test_what_is_not_there_is_not_answered(reader: Reader, lesson: MadeLesson, ask: str) -> None:
    page = _designs(reader, lesson, ask=ask, of="🪢")
    assert page.one("worked-out").get("hidden") is not None


def test_a_knot_that_came_undone_is_told_apart(reader: Reader, database: Database, lesson: MadeLesson) -> None:
    bench = make.join(database, lesson, bench="Alder")
    _broke(database, bench, 2, kind="knot_undone", place=None)
    cord = _designs(reader, lesson)
    knots = reader.get(cord.links()["the cord with its knots"])
    assert cord.rows("cords-figures")[1][3].startswith("more than")
    assert knots.rows("cords-figures")[1][3].startswith("between")
    assert "more than" in cord.rows("designs-table")[1][2]
    assert "between" in knots.rows("designs-table")[1][3]
    assert "1 of 1 not broken" in cord.rows("designs-table")[1][1]
    assert knots.rows("designs-table")[1][1] == "1 by 1 group"
    assert "knot came undone" not in cord.rows("designs-table")[1]
    assert "1 knot came undone" in knots.rows("designs-table")[1]
    link = next(one for one in knots.all("a") if one.get("data-ask") == "design/A/with_knots.median_break_N")
    assert "with its knots" in reader.get(link.get("href")).words_of("worked-out")


def test_with_knots_a_cord_that_held_is_counted_as_such(reader: Reader, database: Database, lesson: MadeLesson) -> None:
    _broke(database, make.join(database, lesson, bench="Alder"), 2, kind="knot_undone", place=None)
    _broke(database, make.join(database, lesson, bench="Birch"), 4, kind="did_not_break", fail_step=None, place=None)
    cord, knots = (_designs(reader, lesson, of=of) for of in ("cord", "knots"))
    assert "2 of 2 not broken" in cord.rows("designs-table")[1][1]
    assert "1 of 2 neither broke nor came undone" in knots.rows("designs-table")[1][1]


def test_of_knots_nothing_is_said_before_a_cord_ended(reader: Reader, database: Database, lesson: MadeLesson) -> None:
    bench = make.join(database, lesson, bench="Alder")
    make.make_readings(database, bench, FIRM)
    assert "No cord has ended yet." in _designs(reader, lesson).text
    assert "No knot came undone" not in _designs(reader, lesson).text
    make.make_ending(database, bench, kind="did_not_break")
    assert "No knot came undone, so both have the same figures." in _designs(reader, lesson).text


@pytest.mark.parametrize(("direction", "differ"), [(None, False), ("across", True)])
def test_two_designs_that_differ_in_two_things_are_told(
    reader: Reader, database: Database, *, direction: str | None, differ: bool
) -> None:
    plan = make.make_plan(benches=BENCHES, depth="second")
    plan = replace(plan, designs=[plan.designs[0], replace(plan.designs[1], direction=direction)])
    lesson = _lesson(database, reader, plan=plan)
    for word, read in zip(BENCHES, (4, 2, 4, 2, 3, 1), strict=True):
        _broke(database, make.join(database, lesson, bench=word), read)
    page = _designs(reader, lesson)
    told = "Two things differ: strips and cut. It can't be said which of them did it."
    assert (told in page.rows("designs-table")[2][-1]) is differ
    pairs = [words(one) for one in page.all("li") if "held more than" in words(one)]
    assert pairs
    assert all((told in one) is differ for one in pairs)


def test_what_is_in_no_sum_comes_last_and_says_why(
    reader: Reader, database: Database, lesson: MadeLesson, benches: dict[str, JoinedBench]
) -> None:
    make.make_ruling(
        database, lesson.target, kind="left_out", about=benches["Alder"].specimen_id, reason="nick in one strip"
    )
    page = _designs(reader, lesson)
    last = page.rows("cords-figures")[-1]
    assert last[0] == "Alder-1"
    assert "Left out: nick in one strip" in last[2]
    assert "In the sums: 5 cords. Left out: 1." in page.text
    assert "Alder" not in page.rows("designs-table")[1][2]


@pytest.mark.usefixtures("benches")
def test_no_single_strip_no_cost_of_plaiting(reader: Reader, lesson: MadeLesson) -> None:
    assert "No design of one strip was tested" in _designs(reader, lesson).text


def test_nothing_read_is_said_in_a_sentence(reader: Reader, lesson: MadeLesson) -> None:
    page = _designs(reader, lesson)
    assert "No readings yet." in page.text
    assert not page.has("designs-table")


@pytest.mark.usefixtures("benches")
def test_a_part_is_made_as_the_whole(reader: Reader, lesson: MadeLesson) -> None:
    asked: dict[str, Any] = {"lesson_id": lesson.lesson_id, "ask": "cord/Alder-1/stiffness_N_per_mm"}
    whole = reader.get("graph.designs", **asked).html
    for part in ("figures", "worked-out"):
        assert reader.fetch("graph.designs", part=part, **asked).text.strip() in whole
    assert reader.fetch("graph.designs", part="pace", **asked).status_code == 404


def test_it_is_the_teachers_and_who_may_read_the_shelf(
    new_reader: Callable[[], Reader],
    database: Database,
    lesson: MadeLesson,
    benches: dict[str, JoinedBench],
) -> None:
    tablet, other = new_reader(), new_reader()
    tablet.hold(benches["Alder"].token)
    other.sign_in(make.make_teacher(database, name="reed"))
    running.set_stage(database, lesson.lesson_id, {"graph_open": True}, at=MORNING)
    tablet.get("graph.designs", status=403, lesson_id=lesson.lesson_id)
    other.get("graph.designs", status=404, lesson_id=lesson.lesson_id)
    running.put_on_shelf(database, lesson.lesson_id, on_shelf=True, own=False, at=MORNING)
    page = _designs(other, lesson)
    assert "Prepare" not in page.links()
    assert "Alder-1" not in page.links()


def test_discuss_leads_there_and_back(reader: Reader, lesson: MadeLesson) -> None:
    page = reader.get("graph.graph", lesson_id=lesson.lesson_id)
    page = reader.get(page.links()["Figures by design"])
    assert page.h1 == "Figures by design"
    assert reader.get(page.links()["What the words mean"]).h1 == "Words"
    assert reader.get(page.links()["Class graph"]).has("class-graph")


def _several(database: Database, lesson: MadeLesson, words_: tuple[str, ...]) -> None:
    """Each of those benches tested two cords of one design."""
    for place, word in enumerate(words_):
        bench = make.join(database, lesson, bench=word)
        for read in (2, 3 + place % 2):
            make.make_readings(database, bench, FIRM[: read + 1])
            make.make_ending(database, bench, kind="broke_adding", fail_step=read + 1)
            make.make_fresh_cord(database, bench)


@pytest.mark.parametrize(("groups", "held"), [(3, False), (5, True)])
def test_a_group_is_held_against_others_only_from_five_on(
    reader: Reader, database: Database, *, groups: int, held: bool
) -> None:
    lesson = _lesson(database, reader, designs="A", depth="third")
    _several(database, lesson, BENCHES[:groups])
    page = _designs(reader, lesson)
    section = next(one for one in page.all("section") if one.get("aria-labelledby") == "agreed-A")
    assert "Repeatability" in words(section)
    assert [word in words(section) for word in BENCHES[:groups]] == [held] * groups
    assert ("h and k of each group" in words(section)) is held


def _plan(depth: str, strands: tuple[int, ...], **said: Any) -> LessonPlan:
    """A plan whose designs have so many strips each, and as level that number."""
    plan = make.make_plan(benches=BENCHES, designs="ABC"[: len(strands)], depth=depth, **said)
    designs = [
        replace(design, strands=count, level=float(count)) for design, count in zip(plan.designs, strands, strict=True)
    ]
    return replace(plan, designs=designs)


def test_what_plaiting_costs_stands_beside_the_single_strip(reader: Reader, database: Database) -> None:
    lesson = _lesson(database, reader, plan=_plan("second", (1, 3)))
    for word, read in zip(BENCHES, (1, 3, 1, 3, 2, 4), strict=True):
        _broke(database, make.join(database, lesson, bench=word), read, place="free_length")
    page = _designs(reader, lesson)
    assert "What B (3 strands) keeps of 3 single strips (design A)" in page.text
    assert "No design of one strip was tested" not in page.text


def test_a_numeric_variable_has_its_line(reader: Reader, database: Database) -> None:
    lesson = _lesson(database, reader, plan=_plan("third", (1, 2, 3)))
    for word, read in zip(BENCHES, (1, 2, 3, 1, 3, 3), strict=True):
        _broke(database, make.join(database, lesson, bench=word), read)
    page = _designs(reader, lesson)
    slope = _seen(database, lesson).picture.sums.trend.slope
    assert slope.value is not None
    section = next(one for one in page.all("section") if one.get("aria-labelledby") == "trend-head")
    assert "One more of the changed variable adds" in words(section)
    assert "F = " in words(section)
