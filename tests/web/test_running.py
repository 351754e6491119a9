"""The lead bench and one bench, read as a browser without scripts reads them."""

from collections.abc import Callable

import pytest

from app.services import lessons, running, seeding, teachers
from app.store.database import Database
from tests import make
from tests.conftest import Clock
from tests.make import MORNING, JoinedBench, MadeLesson
from tests.page import words
from tests.reader import Reader


def _press(reader: Reader, a_lesson: MadeLesson, button: str) -> None:
    page = reader.get("running.lead", lesson_id=a_lesson.lesson_id)
    reader.form(page, button).send(button)


def _differ(database: Database, alder: JoinedBench) -> None:
    """A second tablet sends another number for step 4."""
    make.make_reading(database, alder, step=4, pointer="231")


def test_the_lead_bench_says_where_each_bench_is(reader: Reader, a_lesson: MadeLesson, alder: JoinedBench) -> None:
    page = reader.get("running.lead", lesson_id=a_lesson.lesson_id)
    head, first, second = page.rows("pace-strip")
    assert head == ["Bench", "Step", "Last told", "Heard", "Still to send"]
    assert first[:3] == ["A Alder", "step 4", "229 mm"]
    assert second == ["B Hazel", "not here", "", "", ""]
    assert page.words_of("lesson-key").replace(" ", "") == a_lesson.lesson_key
    assert "1 of 2" in page.words_of("command")


def test_a_part_is_the_same_template_as_the_whole(reader: Reader, a_lesson: MadeLesson, alder: JoinedBench) -> None:
    whole = reader.get("running.lead", lesson_id=a_lesson.lesson_id).html
    for part in ("pace", "whole", "settle"):
        answer = reader.fetch("running.lead", lesson_id=a_lesson.lesson_id, part=part)
        head = answer.text.strip().splitlines()[0]
        assert answer.status_code == 200
        assert f'data-part="{part}"' in head
        assert head in whole
    assert reader.fetch("running.lead", lesson_id=a_lesson.lesson_id, part="other").status_code == 404


def test_how_it_ended_and_silence_are_told(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench, clock: Clock
) -> None:
    make.make_ending(database, alder, kind="broke_adding", fail_step=5)
    row = reader.get("running.lead", lesson_id=a_lesson.lesson_id).rows("pace-strip")[1]
    assert row[1:3] == ["ended", "broke while adding at step 5"]
    assert row[4] == "?", "a bench that was last heard hours ago can't say what is still to send"


def test_masses_down_and_its_undo(reader: Reader, database: Database, a_lesson: MadeLesson) -> None:
    _press(reader, a_lesson, "Masses down")
    assert make.record_of(database, a_lesson).masses_down_at is not None
    _press(reader, a_lesson, "Take readings again")
    assert make.record_of(database, a_lesson).masses_down_at is None


def test_all_wait_and_go_on(reader: Reader, database: Database, a_lesson: MadeLesson) -> None:
    _press(reader, a_lesson, "Ask all to wait")
    assert make.record_of(database, a_lesson).paused_at is not None
    _press(reader, a_lesson, "Go on, all")
    assert make.record_of(database, a_lesson).paused_at is None


def test_the_graph_is_opened_and_closed_to_benches(reader: Reader, database: Database, a_lesson: MadeLesson) -> None:
    _press(reader, a_lesson, "Let benches see the graph")
    assert make.record_of(database, a_lesson).graph_open
    _press(reader, a_lesson, "Close the graph to benches")
    assert not make.record_of(database, a_lesson).graph_open


def test_the_stage_follows_the_choice(reader: Reader, database: Database, a_lesson: MadeLesson) -> None:
    page = reader.get("running.lead", lesson_id=a_lesson.lesson_id)
    reader.form(page, "Go there").fill(stage="testing").send()
    assert make.record_of(database, a_lesson).stage == "testing"


def test_two_numbers_are_settled_and_settled_otherwise(
    reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    _differ(database, alder)
    page = reader.get("running.lead", lesson_id=a_lesson.lesson_id)
    assert page.rows("pace-strip")[1][2] == "two numbers"
    page = reader.form(page, "229 mm counts").send("229 mm counts")
    assert page.words_of("settle-head") == "Nothing to settle"
    assert page.rows("pace-strip")[1][1] == "step 4"

    bench = {"lesson_id": a_lesson.lesson_id, "bench": "alder"}
    loser = next(
        one.entry_id
        for one in make.record_of(database, a_lesson).benches[0].specimens[0].readings
        if one.pointer_typed == "231"
    )
    page = reader.get("running.one_bench", **bench, about=loser)
    assert "The other number counts" in page.text
    page = reader.form(page, "231 mm counts").send()
    assert "The other number counts" in page.text
    page = reader.get("running.lead", lesson_id=a_lesson.lesson_id)
    assert page.words_of("settle-head") == "Nothing to settle"


def test_two_endings_are_settled(reader: Reader, database: Database, a_lesson: MadeLesson, alder: JoinedBench) -> None:
    make.make_ending(database, alder, kind="broke_adding", fail_step=5)
    make.make_ending(database, alder, kind="knot_undone", fail_step=5)
    page = reader.get("running.lead", lesson_id=a_lesson.lesson_id)
    assert page.words_of("settle-head") == "To settle: 1"
    page = reader.form(page, "knot came undone at step 5 counts").send("knot came undone at step 5 counts")
    assert page.rows("pace-strip")[1][2] == "knot came undone at step 5"


def test_invented_benches_take_readings_when_asked(reader: Reader, database: Database) -> None:
    teachers.add_teacher(database, teachers.FIRST_NAME, password=make.PASSWORD, at=MORNING)
    reader.sign_in(teachers.sign_in(database, teachers.FIRST_NAME, make.PASSWORD, from_hash="here", at=MORNING))
    made = seeding.load_demo(database, at=MORNING)
    assert made is not None

    def readings() -> int:
        lesson = lessons.lesson_record(database, made.lesson_id)
        return sum(len(cord.readings) for bench in lesson.benches for cord in bench.specimens)

    before = readings()
    page = reader.get("running.lead", lesson_id=made.lesson_id)
    reader.form(page, "Let invented benches take readings").send()
    assert readings() == before + 1


def test_a_lesson_of_ones_own_has_no_invented_benches(reader: Reader, a_lesson: MadeLesson) -> None:
    assert not reader.get("running.lead", lesson_id=a_lesson.lesson_id).has("invented")


def test_others_are_kept_out(
    new_reader: Callable[[], Reader], database: Database, a_lesson: MadeLesson, alder: JoinedBench
) -> None:
    stranger = new_reader()
    assert stranger.redirected("running.lead", lesson_id=a_lesson.lesson_id).startswith("/sign-in")
    tablet = new_reader()
    tablet.hold(alder.token)
    assert tablet.fetch("running.lead", lesson_id=a_lesson.lesson_id).status_code == 403
    other = new_reader()
    other.sign_in(make.make_teacher(database, name="reed"))
    for endpoint, more in (("running.lead", {}), ("running.one_bench", {"bench": "alder"}), ("front.screen", {})):
        other.get(endpoint, status=404, lesson_id=a_lesson.lesson_id, **more)
    other.post("running.stage", {"masses_down": "true"}, status=404, lesson_id=a_lesson.lesson_id)
    assert make.record_of(database, a_lesson).masses_down_at is None


@pytest.mark.parametrize(
    ("noun", "data"),
    [
        ("nothing", {}),
        ("rulings", {"kind": "counts", "about": "00000000-0000-4000-8000-000000000000"}),
    ],
)
def test_what_is_not_there_is_not_found(
    reader: Reader, a_lesson: MadeLesson, alder: JoinedBench, noun: str, data: dict[str, str]
) -> None:
    reader.post("running.entry", data, status=404, lesson_id=a_lesson.lesson_id, bench="alder", noun=noun)
    reader.get("running.one_bench", status=404, lesson_id=a_lesson.lesson_id, bench="nobody")


def test_masses_hang_once_a_bench_has_read_a_step(reader: Reader, database: Database, a_lesson: MadeLesson) -> None:
    def masses() -> str:
        page = reader.get("running.lead", lesson_id=a_lesson.lesson_id)
        heads = [words(one) for one in page.all("dt")]
        return [words(one) for one in page.all("dd")][heads.index("Masses")]

    assert masses() == "not yet"
    running.set_stage(database, a_lesson.lesson_id, {"paused": True}, at=MORNING)
    alder = make.join(database, a_lesson)
    make.make_reading(database, alder, step=0)
    assert masses() == "not yet"
    make.make_reading(database, alder, step=1, pointer="222")
    assert masses() == "waiting"
    running.set_stage(database, a_lesson.lesson_id, {"paused": False}, at=MORNING)
    assert masses() == "hanging"
