"""A lesson is made from a plan, with slips and first cords, and copied without what was seen."""

from dataclasses import replace
from typing import Any

import pytest

from app.domain.errors import InvalidEntry, NotFound
from app.domain.plan import BenchPlan, LessonPlan
from app.services import joining, lessons, running
from app.store.database import Database
from tests import make
from tests.make import MORNING


def opened(plan: LessonPlan) -> LessonPlan:
    """The plan with no bench given a design: they are shared out."""
    return replace(plan, benches=[BenchPlan(word=bench.word) for bench in plan.benches])


def letters(database: Database, lesson: make.MadeLesson) -> list[str]:
    """The design of each bench, in the order of the slips."""
    record = make.record_of(database, lesson)
    return [record.design(bench.design_id).letter for bench in record.benches]


class TestMaking:
    def test_every_bench_has_a_slip_and_its_first_cord(self, database: Database) -> None:
        lesson = make.make_lesson(database, benches=("Alder", "Hazel", "Birch"))
        record = make.record_of(database, lesson)
        assert [bench.word for bench in record.benches] == ["Alder", "Hazel", "Birch"]
        assert [[one.specimen_no for one in bench.specimens] for bench in record.benches] == [[1]] * 3
        assert len(set(lesson.slips.values()) | {lesson.lesson_key}) == 4
        assert (record.stage, record.head, record.masses_down_at) == ("preparing", 1, None)

    def test_what_is_not_said_has_its_default(self, database: Database) -> None:
        record = make.record_of(database, make.make_lesson(database))
        assert (record.gravity_m_per_s2, record.wait_s, record.depth) == (9.80665, 20, "first")

    def test_the_same_seed_makes_the_same_plan(self, database: Database) -> None:
        teacher = make.make_teacher(database)
        plan = opened(make.make_plan(designs="ABCD", benches=[f"Bench{n}" for n in "abcdefghij"]))

        def shared(seed: int) -> list[str]:
            return letters(database, make.make_lesson(database, teacher=teacher, plan=fresh(plan), seed=seed))

        assert shared(7) == shared(7)
        assert len({tuple(shared(seed)) for seed in range(6)}) > 1, "another seed, another plan"

    def test_designs_are_shared_out_evenly_and_the_odd_bench_is_the_yardsticks(self, database: Database) -> None:
        plan = opened(make.make_plan(designs="ABC", benches=[f"Bench{n}" for n in "abcdefg"]))
        shared = letters(database, make.make_lesson(database, plan=plan))
        assert sorted(shared) == list("AAABBCC")

    def test_every_fault_of_the_plan_is_named_at_once(self, database: Database) -> None:
        teacher = make.make_teacher(database)
        plan = make.make_plan(title=" ", gravity_m_per_s2=99.0, rungs_g=(0.0,), benches=())
        with pytest.raises(InvalidEntry) as refused:
            lessons.make_lesson(database, teacher.teacher_id, plan, at=MORNING)
        assert [fault.field for fault in refused.value.faults] == ["title", "gravity_m_per_s2", "benches", "rungs"]
        with database.engine.connect() as connection:
            assert connection.exec_driver_sql("SELECT count(*) FROM lesson").scalar() == 0

    def test_a_ladder_weighs_200_kg_at_most(self, database: Database) -> None:
        teacher = make.make_teacher(database)
        heavy = make.make_plan(rungs_g=(50_000.0,) * 4 + (0.1,))
        with pytest.raises(InvalidEntry) as refused:
            lessons.make_lesson(database, teacher.teacher_id, heavy, at=MORNING)
        assert [fault.field for fault in refused.value.faults] == ["rungs"]
        make.make_lesson(database, teacher=teacher, plan=make.make_plan(rungs_g=(50_000.0,) * 4))


def fresh(plan: LessonPlan) -> LessonPlan:
    """The same plan with ids of its own."""
    return replace(plan, designs=[replace(design, id=make.new_id()) for design in plan.designs])


class TestCopying:
    def test_a_copy_has_the_plan_new_slips_and_nothing_seen(self, database: Database) -> None:
        lesson = make.make_lesson(database, designs="ABC", benches=("Alder", "Hazel", "Birch"), wait_s=30)
        bench = make.join(database, lesson)
        make.make_measure(database, bench)
        make.make_readings(database, bench)
        make.make_ending(database, bench)
        make.make_weighing(database, lesson.target)
        before = make.record_of(database, lesson)
        made = lessons.copy_lesson(database, lesson.teacher.teacher_id, lesson.lesson_id, at=MORNING)
        after = lessons.lesson_record(database, made.lesson_id)
        assert plan_said(after) == plan_said(before)
        assert [bench.word for bench in after.benches] == [bench.word for bench in before.benches]
        assert [seen_of(bench) for bench in after.benches] == [[]] * 3
        assert (after.weighings, after.rulings, after.events) == ((), (), ())
        assert (after.copied_from, after.stage, after.head) == (before.id, "preparing", 1)
        codes = {*lessons.slip_codes(database, after.id).values(), made.lesson_key, made.front_code}
        assert codes.isdisjoint({*lesson.slips.values(), lesson.lesson_key, lesson.front_code})
        assert not {design.id for design in after.designs} & {design.id for design in before.designs}

    def test_nobodys_tablet_is_in_the_copy(self, database: Database) -> None:
        lesson = make.make_lesson(database)
        make.join(database, lesson)
        made = lessons.copy_lesson(database, lesson.teacher.teacher_id, lesson.lesson_id, at=MORNING)
        assert [bench.word for bench in joining.what_opens(database, made.lesson_key).free] == ["Alder", "Hazel"]

    def test_a_lesson_on_the_shelf_is_copied_and_open(self, database: Database) -> None:
        lesson = make.make_lesson(database)
        running.put_on_shelf(database, lesson.lesson_id, on_shelf=True, own=None, at=MORNING)
        made = lessons.copy_lesson(database, lesson.teacher.teacher_id, lesson.lesson_id, at=MORNING)
        assert not lessons.lesson_record(database, made.lesson_id).over


def plan_said(record: Any) -> Any:
    """What a lesson plans, without ids."""
    designs = [replace(design, id="") for design in record.designs]
    said = record.title, record.question, record.wait_s, record.depth, record.gravity_m_per_s2, record.allocation_seed
    kinds = [(bench.kind, bench.scale_unit, bench.scale_way) for bench in record.benches]
    seats = [record.design(bench.design_id).letter for bench in record.benches]
    return said, designs, record.rungs, kinds, seats


def seen_of(bench: Any) -> list[Any]:
    """Everything that was sent for a bench."""
    return [
        entry for cord in bench.specimens for entry in (*cord.measures, *cord.readings, *cord.events, *cord.endings)
    ]


class TestFinding:
    def test_a_door_by_id_and_by_front_code(self, database: Database) -> None:
        lesson = make.make_lesson(database)
        door = lessons.door(database, lesson_id=lesson.lesson_id)
        assert lessons.door(database, front_code=lesson.front_code) == door
        assert (door.teacher_id, door.deleted, door.over, door.on_shelf) == (
            lesson.teacher.teacher_id, False, False, False,
        )  # fmt: skip

    @pytest.mark.parametrize("code", ["", "nothing", "x" * 500])
    def test_what_is_not_there_is_not_found(self, database: Database, code: str) -> None:
        for verb in (
            lambda: lessons.door(database, lesson_id=code),
            lambda: lessons.door(database, front_code=code),
            lambda: lessons.lesson_record(database, code),
        ):
            with pytest.raises(NotFound):
                verb()

    def test_a_bench_by_its_word(self, database: Database) -> None:
        lesson = make.make_lesson(database)
        record = make.record_of(database, lesson)
        assert lessons.bench_id_of(database, lesson.lesson_id, "hAZEL") == record.benches[1].id
        with pytest.raises(NotFound):
            lessons.bench_id_of(database, lesson.lesson_id, "oak")
