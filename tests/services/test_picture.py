"""The class picture is worked out once for each change, and is the same for all who look."""

from concurrent.futures import ThreadPoolExecutor

import pytest

from app.domain.errors import NotFound
from app.services import picture, running
from app.store.database import Database
from tests import make
from tests.make import MORNING


def test_it_is_worked_out_once_for_one_head(database: Database) -> None:
    bench = make.make_bench(database)
    make.make_readings(database, bench)
    first = picture.see(database, bench.lesson_id)
    assert picture.see(database, bench.lesson_id) is first
    make.make_reading(database, bench, step=5, pointer="234")
    second = picture.see(database, bench.lesson_id)
    assert second is not first
    assert (len(first.picture.specimens[0].points), len(second.picture.specimens[0].points)) == (5, 6)


def test_picture_and_record_are_of_the_same_moment(database: Database) -> None:
    bench = make.make_bench(database)
    for answer in make.make_readings(database, bench):
        seen = picture.see(database, bench.lesson_id)
        assert seen.lesson.head == seen.picture.head >= answer.entry.n


def test_while_readings_come_in_every_look_is_whole(database: Database) -> None:
    """A picture that says head n has every reading up to n, and none after it."""
    bench = make.make_bench(database)
    first = picture.see(database, bench.lesson_id).lesson.head

    def look(_: int) -> bool:
        seen = picture.see(database, bench.lesson_id)
        readings = [reading for cord in seen.lesson.benches[0].specimens for reading in cord.readings]
        return len(readings) == seen.lesson.head - first

    with ThreadPoolExecutor(4) as threads:
        writing = threads.submit(make.make_readings, database, bench, range(200, 230))
        looks = list(threads.map(look, range(60)))
        writing.result()
    assert all(looks)
    assert picture.see(database, bench.lesson_id).lesson.head == first + 30


@pytest.mark.parametrize("gone", ["deleted", "never there"])
def test_what_is_not_there_is_not_found(database: Database, gone: str) -> None:
    lesson = make.make_lesson(database)
    picture.see(database, lesson.lesson_id)
    running.delete_lesson(database, lesson.lesson_id, at=MORNING)
    with pytest.raises(NotFound):
        picture.see(database, lesson.lesson_id if gone == "deleted" else make.new_id())


def test_the_pictures_of_many_lessons_are_kept_apart(database: Database) -> None:
    teacher = make.make_teacher(database)
    benches = [make.join(database, make.make_lesson(database, teacher=teacher)) for _ in range(3)]
    for place, bench in enumerate(benches):
        make.make_reading(database, bench, pointer=200 + place)
    seen = [picture.see(database, bench.lesson_id) for bench in benches for _ in range(2)]
    pointers = [one.picture.specimens[0].points[0].reading.pointer_mm for one in seen]
    assert pointers == [200.0, 200.0, 201.0, 201.0, 202.0, 202.0]
