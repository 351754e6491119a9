"""One cord told line by line."""

from app.services.bench_state import state_of
from app.services.cord_story import Story, find_line, stories
from app.services.recording import Sender
from app.store.database import Database
from tests import make
from tests.make import JoinedBench


def _told(database: Database, a_bench: JoinedBench) -> list[Story]:
    return stories(state_of(database, a_bench.lesson_id, a_bench.bench_id))


def test_a_changed_reading_says_first_what_was_typed_first(database: Database) -> None:
    alder = make.make_bench(database)
    first = make.make_reading(database, alder, pointer="21.8").entry.entry_id
    second = make.make_reading(
        database, alder, pointer="22,8", entry=make.sent(replaces=first, reason="read_wrong")
    ).entry.entry_id
    third = make.make_reading(
        database,
        alder,
        pointer="228",
        entry=make.sent(replaces=second, reason="other: the scale was in cm"),
        sender=Sender(by="teacher"),
    ).entry.entry_id
    line = find_line(_told(database, alder), third)
    assert line is not None
    assert [(before.says.replace("\xa0", " "), before.by) for before in line.before] == [
        ("21.8 mm", "the bench"),
        ("22,8 mm", "the bench"),
    ]
    assert (line.says, line.by, line.why) == ("228\xa0mm", "the teacher", "the scale was in cm")
    assert find_line(_told(database, alder), first) is None


def test_what_lost_and_what_is_left_out_say_so(database: Database) -> None:
    alder = make.make_bench(database)
    make.make_readings(database, alder)
    wins = make.make_reading(database, alder, step=4, pointer="231").entry.entry_id
    make.make_ruling(database, alder.target, kind="counts", about=wins, reason=None)
    make.make_ruling(database, alder.target, about=wins, reason="nick in one strip")
    make.make_ruling(database, alder.target, kind="put_back", about=wins, reason=None)
    (story,) = _told(database, alder)
    fours = {line.says.replace("\xa0", " "): line for line in story.readings if line.entry.step == 4}  # type: ignore[attr-defined]
    assert fours["229 mm"].state_words == "the other number counts"
    assert fours["231 mm"].state_words == ""
    assert fours["231 mm"].left_out is None


def test_endings_say_which_of_them_counts(database: Database) -> None:
    alder = make.make_bench(database)
    make.make_readings(database, alder)
    make.make_ending(database, alder, kind="broke_adding", fail_step=5)
    assert [line.state for line in _told(database, alder)[0].endings] == ["stands"]
    undone = make.make_ending(database, alder, kind="knot_undone", fail_step=5).entry.entry_id
    assert [line.state for line in _told(database, alder)[0].endings] == ["differs", "differs"]
    make.make_ruling(database, alder.target, kind="counts", about=undone, reason=None)
    assert [line.state for line in _told(database, alder)[0].endings] == ["ruled_out", "stands"]


def test_the_newest_cord_comes_first(database: Database) -> None:
    alder = make.make_bench(database)
    make.make_readings(database, alder)
    make.make_fresh_cord(database, alder)
    assert [story.cord.specimen_no for story in _told(database, alder)] == [2, 1]
