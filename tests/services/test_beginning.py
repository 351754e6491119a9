"""A new lesson begins with the last one; a deleted one can be brought back."""

from datetime import date, timedelta

from app.services.beginning import beginning, deleted_lessons, make_new_lesson
from app.services.lessons import lesson_record
from app.services.running import delete_lesson
from app.store.database import Database
from tests.make import MORNING, make_lesson, make_teacher, new_id


def test_the_last_lesson_is_the_one_planned_last(database: Database) -> None:
    teacher = make_teacher(database)
    for day in (10, 12, 11):
        make_lesson(database, teacher=teacher, planned_on=date(2026, 3, day), wait_s=day)
    assert beginning(database, teacher.teacher_id).plan.lesson["wait_s"] == 12


def test_an_invented_lesson_is_not_taken_for_the_teacher_s_last(database: Database) -> None:
    teacher = make_teacher(database)
    make_lesson(database, teacher=teacher, planning={"invented": True})
    begun = beginning(database, teacher.teacher_id)
    assert begun.last is None
    assert len(begun.plan.benches) == 10


def test_more_benches_than_last_time_get_words_of_their_own(database: Database) -> None:
    made = make_lesson(database)
    new = make_new_lesson(
        database,
        made.teacher.teacher_id,
        title="Next",
        question="",
        planned_on=None,
        year_band=None,
        bench_count=5,
        lesson_id=new_id(),
        at=MORNING,
    )
    lesson = lesson_record(database, new.lesson_id)
    assert [bench.word for bench in lesson.benches] == ["Alder", "Hazel", "Birch", "Cedar", "Maple"]
    assert len({bench.design_id for bench in lesson.benches}) == 2


def test_deleted_lessons_are_listed_for_thirty_days(database: Database) -> None:
    made = make_lesson(database)
    delete_lesson(database, made.lesson_id, at=MORNING)
    teacher_id = made.teacher.teacher_id
    assert [one.lesson_id for one in deleted_lessons(database, teacher_id, at=MORNING)] == [made.lesson_id]
    assert not deleted_lessons(database, teacher_id, at=MORNING + timedelta(days=31))
