"""The class over /api/v1: what changed, the class picture, the class graph, the class CSV."""

import threading
import time

import plotly.graph_objects as go
import pytest

from app.mechanics.material import NO_LENGTHS
from app.services import running
from app.store.database import Database
from tests.conftest import NOON
from tests.make import POINTERS, join, make_ending, make_measure, make_readings
from tests.web.api.outside import Class, Outside, reading


@pytest.fixture
def read(database: Database, a_class: Class) -> Class:
    """The class, after Alder read a zero and four loads and its cord broke at the fifth."""
    make_readings(database, a_class.alder, at=NOON)
    make_ending(database, a_class.alder, fail_step=5, at=NOON)
    return a_class


def test_changes_are_told_in_order_and_once(outside: Outside, read: Class) -> None:
    told = outside.get(f"{read.at}/changes?after=0", token=read.teacher).body
    numbers = [change["n"] for change in told["changes"]]
    assert numbers == list(range(1, told["head"] + 1))
    kinds = [change["kind"] for change in told["changes"]]
    assert kinds == ["lesson", "tablet", *["reading"] * len(POINTERS), "ending"]
    assert {change["bench"] for change in told["changes"]} == {None, "alder"}
    later = outside.get(f"{read.at}/changes?after={told['head'] - 1}", token=read.teacher).body
    assert [change["kind"] for change in later["changes"]] == ["ending"]


def test_a_bench_hears_its_own_changes_and_the_lessons_at_once(
    outside: Outside, read: Class, database: Database
) -> None:
    hazel = join(database, read.lesson, bench="Hazel")
    running.set_stage(database, read.lesson.lesson_id, {"stage": "testing", "paused": True}, at=NOON)
    told = outside.get(f"{read.at}/changes?after=0&wait_s=20", token=hazel.token).body
    assert [(change["kind"], change["bench"]) for change in told["changes"]] == [
        ("lesson", None),
        ("tablet", "hazel"),
        ("lesson", None),
    ]
    assert (told["stage"], told["paused"], told["masses_down_at"]) == ("testing", True, None)
    asked_at = time.monotonic()
    idle = outside.get(f"{read.at}/changes?after={told['head']}&wait_s=20", token=hazel.token).body
    assert time.monotonic() - asked_at < 1.0
    assert (idle["changes"], idle["head"], idle["ask_again_s"]) == ([], told["head"], 3)


def test_what_waits_on_a_tablet_is_seen_by_the_teacher(outside: Outside, a_class: Class) -> None:
    outside.get(f"{a_class.at}/class-picture", token=a_class.teacher)  # kept from here on: nothing changes but the pace
    outside.get(f"{a_class.at}/changes?after=0&unsent=3", token=a_class.tablet)
    pace = outside.get(f"{a_class.at}/class-picture", token=a_class.teacher).body["pace"]
    assert [(row["bench"], row["unsent"], row["last_heard_at"]) for row in pace] == [
        ("alder", 3, "2026-03-12T12:00:00Z"),
        ("hazel", None, None),
    ]


@pytest.mark.parametrize("asker", ["teacher", "front"])
def test_a_question_is_held_until_something_is_new(
    outside: Outside, a_class: Class, database: Database, asker: str
) -> None:
    """The installation of tests holds a question for a second at most, give or take a tenth."""
    head = outside.get(f"{a_class.at}/changes", token=a_class.teacher).body["head"]
    token = getattr(a_class, asker)

    def write() -> None:
        time.sleep(0.2)
        outside.post(f"{a_class.bench}/readings", reading(0, "218"), token=a_class.tablet)

    writer = threading.Thread(target=write)
    asked_at = time.monotonic()
    writer.start()
    told = outside.get(f"{a_class.at}/changes?after={head}&wait_s=20", token=token).body
    heard_after_s = time.monotonic() - asked_at
    writer.join()
    assert [change["kind"] for change in told["changes"]] == ["reading"]
    assert 0.2 <= heard_after_s < 0.9
    asked_at = time.monotonic()
    idle = outside.get(f"{a_class.at}/changes?after={told['head']}&wait_s=20", token=token).body
    assert 0.9 <= time.monotonic() - asked_at < 2.5
    assert (idle["changes"], idle["full"], idle["ask_again_s"]) == ([], False, 0)


def test_a_question_is_not_held_when_there_is_news_or_no_wait(outside: Outside, read: Class) -> None:
    asked_at = time.monotonic()
    told = outside.get(f"{read.at}/changes?after=0&wait_s=20", token=read.teacher).body
    short = outside.get(f"{read.at}/changes?after={told['head']}", token=read.teacher).body
    assert time.monotonic() - asked_at < 0.9
    assert (told["ask_again_s"], short["ask_again_s"]) == (0, 1)


def test_a_question_that_finds_no_place_is_answered_at_once(
    outside: Outside, a_class: Class, monkeypatch: pytest.MonkeyPatch
) -> None:
    watch = outside.app.extensions["ropewalk"].watch
    monkeypatch.setattr(watch, "_places", 0)
    head = outside.get(f"{a_class.at}/changes", token=a_class.teacher).body["head"]
    told = outside.get(f"{a_class.at}/changes?after={head}&wait_s=20", token=a_class.teacher).body
    assert (told["full"], told["ask_again_s"], told["head"]) == (True, 1, head)


def test_the_class_picture_says_what_was_worked_out(outside: Outside, read: Class) -> None:
    told = outside.get(f"{read.at}/class-picture", token=read.teacher).body
    worked_out = {"specimens", "designs", "differences", "repeatability", "shares_kept", "trend"}
    assert set(told) == {"lesson_id", "head", "settings", "pace", "common_force_N"} | worked_out
    cord = told["specimens"][0]
    assert (cord["specimen"], cord["design"], cord["group"], cord["outcome"]) == ("Alder-1", "A", "Alder", "broke")
    assert [point["extension_mm"] for point in cord["points"]] == [value - POINTERS[0] for value in POINTERS]
    assert [point["mass_g"] for point in cord["points"]] == [0.0, 102.0, 204.0, 408.0, 612.0]
    force = 9.80665 / 1000
    assert cord["break_force_N"] == {"low": pytest.approx(612 * force), "high": pytest.approx(816 * force)}
    design = told["designs"][0]
    assert (design["design"], design["specimens"], design["groups"], design["unbroken"]) == ("A", 1, 1, 0)
    assert design["brackets_N"] == [cord["break_force_N"]]
    assert told["designs"][1]["median_break_N"].keys() == {"low", "high", "why"}
    assert [(row["bench"], row["bench_stage"], row["step"], row["look_again"]) for row in told["pace"]] == [
        ("alder", "ended", 4, 0),
        ("hazel", "free", 0, 0),
    ]


def test_what_the_plait_took_is_told_once_both_lengths_are(outside: Outside, read: Class, database: Database) -> None:
    def take_up() -> dict[str, object]:
        (cord, *_) = outside.get(f"{read.at}/class-picture", token=read.teacher).body["specimens"]
        return dict(cord["take_up"])

    make_measure(database, read.alder, quantity="strip_length_mm", typed="300", at=NOON)
    assert take_up() == {"value": None, "why": NO_LENGTHS}
    make_measure(database, read.alder, quantity="cord_length_mm", typed="260", at=NOON)
    assert take_up()["value"] == pytest.approx(40 / 300)
    assert take_up()["unit"] == "1"


def test_the_class_picture_is_made_again_only_when_something_changed(outside: Outside, read: Class) -> None:
    for path in ("class-picture", "class-graph"):
        first = outside.get(f"{read.at}/{path}", token=read.front)
        tag = first.raw.headers["ETag"]
        assert tag == f'"{first.body["head"]}"'
        again = outside.get(f"{read.at}/{path}", token=read.front, headers={"If-None-Match": tag})
        assert (again.status, again.raw.get_data()) == (304, b"")
    outside.post(f"{read.at}/stage", {"paused": True}, token=read.teacher)
    assert outside.get(f"{read.at}/class-picture", token=read.front, headers={"If-None-Match": tag}).status == 200


def test_a_bench_sees_the_class_while_the_graph_is_open(outside: Outside, read: Class) -> None:
    for path in ("class-picture", "class-graph"):
        assert outside.get(f"{read.at}/{path}", token=read.tablet).problem == "not-opened"
    outside.post(f"{read.at}/stage", {"graph_open": True}, token=read.teacher)
    picture = outside.get(f"{read.at}/class-picture", token=read.tablet)
    assert picture.status == 200
    assert "pace" not in picture.body
    assert outside.get(f"{read.at}/class-graph", token=read.tablet).status == 200


@pytest.mark.parametrize(
    "query",
    [
        "",
        "?view=one_bench&bench=alder",
        "?x=strain&y=load_per_strand&theme=light&drawing=squarish",
        "?y=load_per_linear_density&theme=dark&x_to=500&y_to=80",
    ],
)
def test_the_class_graph_is_a_figure_that_plotly_takes(outside: Outside, read: Class, query: str) -> None:
    told = outside.get(f"{read.at}/class-graph{query}", token=read.front).body
    assert set(told) == {"head", "figure", "words"}
    assert set(told["words"]) == {"lead", "rest"}
    go.Figure(told["figure"])


def test_the_class_csv_is_the_lessons_own(outside: Outside, read: Class) -> None:
    heard = outside.get(f"{read.at}/class.csv", token=read.teacher)
    assert heard.raw.headers["Content-Type"] == "text/csv; charset=utf-8"
    assert "attachment" in heard.raw.headers["Content-Disposition"]
    rows = heard.raw.get_data(as_text=True).split("\r\n")
    assert len([row for row in rows if row.startswith("Alder-1,")]) == len(POINTERS)
