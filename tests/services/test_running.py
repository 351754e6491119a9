"""The lesson while it runs: stages, waits, masses down, what the front screen shows, the shelf, one bench."""

from datetime import timedelta
from typing import Any

import pytest

from app.domain.errors import InvalidEntry, LessonOver, NotFound
from app.domain.records import LessonRecord
from app.domain.vocabulary import FRONT_VIEWS, STAGES
from app.services import lessons, running
from app.store.database import Database
from tests import make
from tests.make import MORNING, MadeLesson

LATER = MORNING + timedelta(minutes=1)


@pytest.fixture
def lesson(database: Database) -> MadeLesson:
    """A lesson with the benches Alder and Hazel."""
    return make.make_lesson(database)


def ask(database: Database, lesson: MadeLesson, *, at: Any = MORNING, **asked: Any) -> LessonRecord:
    """The lesson after that was asked of it."""
    running.set_stage(database, lesson.lesson_id, asked, at=at)
    return make.record_of(database, lesson)


class TestStage:
    @pytest.mark.parametrize("stage", STAGES)
    def test_every_stage_can_be_reached_from_every_other(
        self, database: Database, lesson: MadeLesson, stage: str
    ) -> None:
        for before in ("over", "preparing"):
            ask(database, lesson, stage=before)
            after = ask(database, lesson, stage=stage)
            assert (after.stage, after.over) == (stage, stage == "over")
            assert (after.over_at is not None) == (stage == "over")

    def test_masses_fall_once_and_may_be_lifted(self, database: Database, lesson: MadeLesson) -> None:
        ask(database, lesson, masses_down=True)
        assert ask(database, lesson, masses_down=True, at=LATER).masses_down_at == MORNING, "the first moment holds"
        assert ask(database, lesson, masses_down=False, at=LATER).masses_down_at is None

    def test_all_are_asked_to_wait_and_go_on(self, database: Database, lesson: MadeLesson) -> None:
        assert ask(database, lesson, paused=True).paused_at == MORNING
        assert ask(database, lesson, paused=False).paused_at is None

    @pytest.mark.parametrize("view", FRONT_VIEWS)
    def test_the_front_screen_shows_what_is_chosen(self, database: Database, lesson: MadeLesson, view: str) -> None:
        assert ask(database, lesson, front_view=view).front_view == view

    def test_one_bench_is_brought_forward(self, database: Database, lesson: MadeLesson) -> None:
        after = ask(database, lesson, front_bench="hazel")
        assert after.front_bench_id == after.benches[1].id
        assert ask(database, lesson, front_bench=None).front_bench_id is None

    def test_several_things_are_one_change(self, database: Database, lesson: MadeLesson) -> None:
        before = make.record_of(database, lesson).head
        after = ask(database, lesson, stage="testing", graph_open=True, front_view="class_graph")
        assert (after.stage, after.graph_open, after.front_view) == ("testing", True, "class_graph")
        assert after.head == before + 1

    @pytest.mark.parametrize(
        ("asked", "field"),
        [
            ({"stage": "lunch"}, "stage"),
            ({"front_view": "film"}, "front_view"),
            ({"front_bench": "oak"}, "front_bench"),
        ],
    )
    def test_what_cannot_be_is_refused_and_nothing_changes(
        self, database: Database, lesson: MadeLesson, asked: dict[str, Any], field: str
    ) -> None:
        before = make.record_of(database, lesson)
        with pytest.raises(InvalidEntry) as refused:
            ask(database, lesson, **asked, graph_open=True)
        assert [fault.field for fault in refused.value.faults] == [field]
        assert make.record_of(database, lesson) == before


class TestShelf:
    def test_on_the_shelf_it_is_over_and_does_not_run(self, database: Database, lesson: MadeLesson) -> None:
        running.put_on_shelf(database, lesson.lesson_id, on_shelf=True, own=True, at=MORNING)
        record = make.record_of(database, lesson)
        assert (record.over, record.own, record.shelved_at) == (True, True, MORNING)
        with pytest.raises(LessonOver):
            ask(database, lesson, stage="testing")

    def test_taken_off_it_can_go_on(self, database: Database, lesson: MadeLesson) -> None:
        ask(database, lesson, stage="over")
        running.put_on_shelf(database, lesson.lesson_id, on_shelf=True, own=None, at=MORNING)
        running.put_on_shelf(database, lesson.lesson_id, on_shelf=False, own=None, at=LATER)
        record = make.record_of(database, lesson)
        assert (record.over, record.shelved_at, record.over_at) == (False, None, None)

    def test_deleted_it_is_gone_and_can_be_brought_back(self, database: Database, lesson: MadeLesson) -> None:
        before = make.record_of(database, lesson)
        running.delete_lesson(database, lesson.lesson_id, at=MORNING)
        with pytest.raises(NotFound):
            make.record_of(database, lesson)
        running.bring_back(database, lesson.lesson_id, at=LATER)
        assert make.record_of(database, lesson).benches == before.benches

    def test_what_is_not_there_is_not_found(self, database: Database) -> None:
        for verb in (
            lambda: running.set_stage(database, make.new_id(), {"stage": "testing"}, at=MORNING),
            lambda: running.put_on_shelf(database, make.new_id(), on_shelf=True, own=None, at=MORNING),
            lambda: running.delete_lesson(database, make.new_id(), at=MORNING),
            lambda: running.bring_back(database, make.new_id(), at=MORNING),
        ):
            with pytest.raises(NotFound):
                verb()


class TestOneBench:
    def change(self, database: Database, lesson: MadeLesson, **asked: Any) -> LessonRecord:
        """The lesson after that was asked of Alder."""
        record = make.record_of(database, lesson)
        running.change_bench(database, record, record.benches[0], asked, at=MORNING)
        return make.record_of(database, lesson)

    def test_another_design_takes_its_cords_along(self, database: Database, lesson: MadeLesson) -> None:
        make.make_readings(database, make.join(database, lesson))
        after = self.change(database, lesson, design="B")
        bench = after.benches[0]
        assert {after.design(one).letter for one in (bench.design_id, bench.specimens[0].design_id)} == {"B"}

    def test_its_scale_kind_and_opening(self, database: Database, lesson: MadeLesson) -> None:
        scale = {"unit": "cm", "division_mm": 5.0, "way": "up"}
        bench = self.change(database, lesson, scale=scale, kind="catch_up", open_again=True).benches[0]
        assert (bench.scale_unit, bench.scale_division_mm, bench.scale_way) == ("cm", 5.0, "up")
        assert (bench.kind, bench.open_again) == ("catch_up", True)

    def test_a_scale_that_grows_upward_turns_extensions(self, database: Database, lesson: MadeLesson) -> None:
        bench = make.join(database, lesson)
        make.make_readings(database, bench, (218, 210))
        self.change(database, lesson, scale={"way": "up"})
        cord = make.make_measure(database, bench).state.cord
        assert [point.extension_mm for point in cord.points] == [0.0, 8.0]

    @pytest.mark.parametrize(
        "asked",
        [
            {"design": "Z"},
            {"kind": "other"},
            {"scale": {"unit": "inch"}},
            {"scale": {"way": "left"}},
            {"scale": {"division_mm": 0.0}},
            {"scale": {"division_mm": float("nan")}},
        ],
    )
    def test_what_cannot_be_is_refused_and_nothing_changes(
        self, database: Database, lesson: MadeLesson, asked: dict[str, Any]
    ) -> None:
        before = make.record_of(database, lesson)
        with pytest.raises(InvalidEntry):
            self.change(database, lesson, **asked)
        assert lessons.lesson_record(database, lesson.lesson_id) == before
