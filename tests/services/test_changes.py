"""Anything after n? A bench hears its own and the lesson's, in order and without a gap."""

from datetime import timedelta

import pytest

from app.domain.errors import NotFound
from app.services import changes, lessons, running
from app.services.rulings import tick
from app.store.database import Database
from tests import make
from tests.make import MORNING


def test_only_what_came_after_n(database: Database) -> None:
    bench = make.make_bench(database)
    answers = make.make_readings(database, bench)
    news = changes.news_after(database, bench.lesson_id, answers[1].entry.n)
    assert [change.n for change in news.changes] == [answer.entry.n for answer in answers[2:]]
    assert [change.about_id for change in news.changes] == [answer.entry.entry_id for answer in answers[2:]]
    assert news.head == answers[-1].entry.n


@pytest.mark.parametrize("ahead", [0, 1, 10**9])
def test_at_the_head_there_is_nothing(database: Database, ahead: int) -> None:
    bench = make.make_bench(database)
    head = changes.heads(database, [bench.lesson_id])[bench.lesson_id]
    news = changes.news_after(database, bench.lesson_id, head + ahead)
    assert (list(news.changes), news.head) == ([], head)


def test_a_bench_hears_its_own_and_the_lessons(database: Database) -> None:
    lesson = make.make_lesson(database)
    ours, theirs = (make.join(database, lesson, bench=word) for word in ("Alder", "Hazel"))
    head = changes.heads(database, [lesson.lesson_id])[lesson.lesson_id]
    mine = make.make_reading(database, ours)
    make.make_reading(database, theirs)
    running.set_stage(database, lesson.lesson_id, {"paused": True}, at=MORNING)
    news = changes.news_after(database, lesson.lesson_id, head, bench_id=ours.bench_id)
    assert [change.kind for change in news.changes] == ["reading", "lesson"]
    assert news.changes[0].n == mine.entry.n
    assert (news.head, news.paused) == (head + 3, True)


def test_a_long_absence_is_told_in_parts(database: Database, monkeypatch: pytest.MonkeyPatch) -> None:
    """The head told is then that of the last change told, so that the next question asks for the rest."""
    monkeypatch.setattr(changes, "AT_ONCE_MOST", 20)  # as served it is hundreds, which only takes longer
    bench = make.make_bench(database)
    for _ in range(20):
        tick(database, bench.target, what="goggles", on=True, by="bench", at=MORNING)
    first = changes.news_after(database, bench.lesson_id, 0)
    rest = changes.news_after(database, bench.lesson_id, first.head)
    numbers = [change.n for change in (*first.changes, *rest.changes)]
    assert len(first.changes) == 20
    assert numbers == list(range(1, rest.head + 1))


def test_heads_of_several_lessons_at_once(database: Database) -> None:
    teacher = make.make_teacher(database)
    ids = [make.make_lesson(database, teacher=teacher).lesson_id for _ in range(2)]
    assert changes.heads(database, [*ids, make.new_id()]) == dict.fromkeys(ids, 1)
    assert changes.heads(database, []) == {}


def test_a_lesson_that_is_not_there(database: Database) -> None:
    lesson = make.make_lesson(database)
    running.delete_lesson(database, lesson.lesson_id, at=MORNING)
    for lesson_id in (lesson.lesson_id, make.new_id()):
        with pytest.raises(NotFound):
            changes.news_after(database, lesson_id, 0)


def test_hearing_from_a_tablet_is_told_with_the_bench_and_is_no_change(database: Database) -> None:
    bench = make.make_bench(database)
    head = changes.heads(database, [bench.lesson_id])[bench.lesson_id]
    later = MORNING + timedelta(minutes=1)
    changes.hear_from(database, bench.tablet_id, unsent=3, at=later)
    heard = lessons.lesson_record(database, bench.lesson_id).benches[0]
    assert (heard.unsent, heard.last_heard_at, heard.here) == (3, later, True)
    changes.hear_from(database, bench.tablet_id, unsent=None, at=later + timedelta(seconds=20))
    assert lessons.lesson_record(database, bench.lesson_id).benches[0].unsent == 3, "what is not said stays"
    assert changes.heads(database, [bench.lesson_id])[bench.lesson_id] == head


def test_hearing_the_same_again_soon_writes_nothing(database: Database) -> None:
    bench = make.make_bench(database)
    changes.hear_from(database, bench.tablet_id, unsent=0, at=MORNING + timedelta(seconds=10))
    assert lessons.lesson_record(database, bench.lesson_id).benches[0].last_heard_at == MORNING
    changes.hear_from(database, make.new_id(), unsent=1, at=MORNING)
