"""What a bench is at and what it does next, from the first measure to the end."""

from app.services import running
from app.services.bench_state import BenchState, state_of
from app.store.database import Database
from tests import make
from tests.make import MORNING, JoinedBench


def told(state: BenchState) -> tuple[str, str, int | None, int | None, float | None]:
    """Where it is and what it is told: do, step, mark and total mass [g]."""
    coming = state.next
    return state.stage, coming.do, coming.step, coming.mark, coming.total_mass_g


def now(database: Database, bench: JoinedBench) -> BenchState:
    """The bench as it stands."""
    return state_of(database, bench.lesson_id, bench.bench_id)


def test_step_by_step_through_a_whole_test(database: Database) -> None:
    bench = make.make_bench(database, rungs_g=(100.0, 200.0))
    make.make_weighing(database, bench.target, mark=0, mass_g=50.0)
    assert told(now(database, bench)) == ("joined", "measure", 0, 0, 50.0)
    assert told(make.make_measure(database, bench).state) == ("making", "zero", 0, 0, 50.0)
    assert told(make.make_reading(database, bench).state) == ("zeroed", "hang", 1, 1, 150.0)
    assert told(make.make_reading(database, bench, step=1, pointer="222").state) == ("step", "hang", 2, 2, 350.0)
    last = make.make_reading(database, bench, step=2, pointer="229")
    assert told(last.state)[:2] == ("step", "end"), "the ladder is at its end"
    assert told(make.make_ending(database, bench, kind="did_not_break").state)[:2] == ("ended", "nothing")


def test_nobody_came_yet(database: Database) -> None:
    lesson = make.make_lesson(database)
    record = make.record_of(database, lesson)
    assert state_of(database, lesson.lesson_id, record.benches[0].id).stage == "free"


def test_a_step_that_was_told_of_is_to_be_read(database: Database) -> None:
    bench = make.make_bench(database, rungs_g=(100.0, 200.0, 400.0))
    make.make_reading(database, bench)
    state = make.make_event(database, bench, kind="other_mass", step=1, mark=3).state
    assert told(state) == ("zeroed", "read", 1, 3, 400.0)


def test_a_fresh_cord_begins_again(database: Database) -> None:
    bench = make.make_bench(database)
    make.make_readings(database, bench)
    make.make_ending(database, bench)
    assert told(make.make_fresh_cord(database, bench).state)[:3] == ("making", "measure", 0)


def test_with_masses_down_only_the_end_is_asked_for(database: Database) -> None:
    bench = make.make_bench(database)
    make.make_readings(database, bench, (218, 222))
    running.set_stage(database, bench.lesson_id, {"masses_down": True}, at=MORNING)
    assert (now(database, bench).next.do, now(database, bench).closed) == ("end", True)
    lesson = now(database, bench).lesson
    running.change_bench(database, lesson, lesson.benches[0], {"open_again": True}, at=MORNING)
    assert (now(database, bench).next.do, now(database, bench).closed) == ("hang", False)


def test_over_there_is_nothing_to_do(database: Database) -> None:
    bench = make.make_bench(database)
    running.set_stage(database, bench.lesson_id, {"stage": "over"}, at=MORNING)
    assert now(database, bench).next.do == "nothing"


def test_a_rung_without_a_mass_has_no_force_and_is_still_to_be_hung(database: Database) -> None:
    bench = make.make_bench(database, rungs_g=(100.0, None))
    state = make.make_readings(database, bench, (218, 222))[-1].state
    assert (state.next.do, state.next.mark) == ("hang", 2)
    assert (state.next.mass_g, state.next.total_mass_g, state.next.force_n) == (None, None, None)
