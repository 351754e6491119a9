"""Entries: stored once, numbered without a gap, let in or refused by the lesson's state."""

import threading
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta

import pytest
from sqlalchemy import func, select

from app.domain.errors import EntryReused, InUse, InvalidEntry, LessonOver, MassesDown, NotFound, NotThisBench
from app.domain.limits import ENTRIES_MOST
from app.services import changes, lessons, running
from app.services.recording import Sender
from app.store import feed
from app.store.database import Database
from app.store.entries import EntryColumns, Reading, insert_entry
from tests import make
from tests.make import MORNING, JoinedBench

TEACHER = Sender(by="teacher")
PAPER = Sender(by="paper")


def rows(database: Database, model: type[EntryColumns] = Reading) -> int:
    """How many entries of that kind are stored."""
    with database.reading() as session:
        return session.scalar(select(func.count()).select_from(model)) or 0


def head(database: Database, bench: JoinedBench) -> int:
    """The lesson's newest number."""
    return changes.heads(database, [bench.lesson_id])[bench.lesson_id]


def numbers(database: Database, bench: JoinedBench) -> list[int]:
    """Every number of the lesson's feed."""
    with database.reading() as session:
        return [change.n for change in feed.after(session, bench.lesson_id, 0, most=10_000)]


class TestOnce:
    def test_entries_are_numbered_in_the_order_of_their_coming(self, database: Database) -> None:
        bench = make.make_bench(database)
        before = head(database, bench)
        answers = make.make_readings(database, bench)
        assert [answer.entry.n for answer in answers] == [before + place for place in range(1, len(answers) + 1)]
        assert all(answer.entry.new for answer in answers)

    def test_the_same_entry_twice_is_stored_once_and_answered_alike(self, database: Database) -> None:
        bench = make.make_bench(database)
        entry = make.sent()
        first = make.make_reading(database, bench, pointer="218", entry=entry)
        later = make.sent(entry_id=entry.entry_id, age_s=30)
        again = make.make_reading(database, bench, pointer="218", entry=later, at=MORNING + timedelta(seconds=30))
        assert (again.entry.n, again.entry.new) == (first.entry.n, False)
        assert (again.word, again.point) == (first.word, first.point)
        assert rows(database) == 1
        assert head(database, bench) == first.entry.n, "no number is used up"

    @pytest.mark.parametrize("other", [{"pointer": "219"}, {"step": 2}, {"turn": 2}, {"phase": "later"}])
    def test_the_same_id_with_another_body_is_refused(self, database: Database, other: dict[str, object]) -> None:
        bench = make.make_bench(database)
        entry = make.sent()
        make.make_reading(database, bench, step=1, pointer="218", entry=entry)
        with pytest.raises(EntryReused):
            make.make_reading(database, bench, **{"step": 1, "pointer": "218", "entry": entry} | other)  # type: ignore[arg-type]
        assert rows(database) == 1

    def test_the_same_id_from_another_bench_is_refused(self, database: Database) -> None:
        lesson = make.make_lesson(database)
        entry = make.sent()
        make.make_reading(database, make.join(database, lesson, bench="Alder"), entry=entry)
        with pytest.raises(EntryReused):
            make.make_reading(database, make.join(database, lesson, bench="Hazel"), entry=entry)

    def test_the_same_entry_sent_by_two_at_once_is_stored_once(self, database: Database) -> None:
        bench = make.make_bench(database)
        entry = make.sent()
        begin = threading.Barrier(8)

        def send(_: int) -> tuple[int, bool]:
            begin.wait()
            answer = make.make_reading(database, bench, entry=entry)
            return answer.entry.n, answer.entry.new

        with ThreadPoolExecutor(8) as senders:
            answers = list(senders.map(send, range(8)))
        assert len({n for n, _ in answers}) == 1
        assert [new for _, new in answers].count(True) == 1
        assert rows(database) == 1

    def test_two_threads_on_one_bench_leave_no_gap(self, database: Database) -> None:
        bench = make.make_bench(database)
        before = head(database, bench)

        def send(turn: int) -> list[int]:
            return [
                make.make_reading(database, bench, step=step, pointer=200 + step, turn=turn).entry.n
                for step in range(1, 26)
            ]

        with ThreadPoolExecutor(2) as senders:
            given = [n for numbers_ in senders.map(send, (1, 2)) for n in numbers_]
        assert sorted(given) == list(range(before + 1, before + 51))
        assert numbers(database, bench) == list(range(1, before + 51))

    def test_a_refused_entry_uses_no_number_and_leaves_nothing(self, database: Database) -> None:
        bench = make.make_bench(database)
        before = head(database, bench)
        with pytest.raises(InvalidEntry):
            make.make_reading(database, bench, entry=make.sent(replaces=make.new_id(), reason=""))
        assert (head(database, bench), rows(database)) == (before, 0)


class TestOpen:
    @pytest.mark.parametrize("close", ["over", "shelf"])
    def test_a_lesson_that_is_over_takes_nothing(self, database: Database, close: str) -> None:
        bench = make.make_bench(database)
        kept = make.sent()
        first = make.make_reading(database, bench, entry=kept)
        if close == "over":
            running.set_stage(database, bench.lesson_id, {"stage": "over"}, at=MORNING)
        else:
            running.put_on_shelf(database, bench.lesson_id, on_shelf=True, own=None, at=MORNING)
        refused: list[Callable[[], object]] = [
            lambda: make.make_reading(database, bench, step=1),
            lambda: make.make_ending(database, bench),
            lambda: make.make_measure(database, bench),
            lambda: make.make_event(database, bench),
            lambda: make.make_fresh_cord(database, bench),
            lambda: make.make_ruling(database, bench.target, about=first.entry.entry_id),
            lambda: make.make_weighing(database, bench.target),
        ]
        for verb in refused:
            with pytest.raises(LessonOver):
                verb()
        assert make.make_reading(database, bench, entry=kept).entry.n == first.entry.n, "sent again it is answered"

    def test_taken_off_the_shelf_it_lets_them_in(self, database: Database) -> None:
        bench = make.make_bench(database)
        running.set_stage(database, bench.lesson_id, {"stage": "over"}, at=MORNING)
        running.put_on_shelf(database, bench.lesson_id, on_shelf=True, own=None, at=MORNING)
        running.put_on_shelf(database, bench.lesson_id, on_shelf=False, own=None, at=MORNING)
        assert make.make_reading(database, bench).entry.new

    def test_a_deleted_lesson_is_not_there(self, database: Database) -> None:
        bench = make.make_bench(database)
        running.delete_lesson(database, bench.lesson_id, at=MORNING)
        with pytest.raises(NotFound):
            make.make_reading(database, bench)
        assert rows(database) == 0

    def test_a_paused_lesson_takes_everything(self, database: Database) -> None:
        bench = make.make_bench(database)
        running.set_stage(database, bench.lesson_id, {"paused": True}, at=MORNING)
        assert make.make_reading(database, bench).entry.new


class TestMassesDown:
    """By contract.md 8: what was taken before is let in, a reading taken later is not, unless the bench is opened."""

    @pytest.fixture
    def bench(self, database: Database) -> JoinedBench:
        """A bench whose masses went down ten minutes after MORNING."""
        bench = make.make_bench(database)
        make.make_reading(database, bench)
        running.set_stage(database, bench.lesson_id, {"masses_down": True}, at=MORNING + timedelta(minutes=10))
        return bench

    @pytest.mark.parametrize(("age_s", "let_in"), [(301.0, True), (300.0, True), (299.0, False), (0.0, False)])
    def test_what_counts_is_when_it_was_typed(
        self, database: Database, bench: JoinedBench, age_s: float, *, let_in: bool
    ) -> None:
        at = MORNING + timedelta(minutes=15)
        entry = make.sent(age_s=age_s)
        if let_in:
            assert make.make_reading(database, bench, step=1, entry=entry, at=at).entry.new
        else:
            with pytest.raises(MassesDown):
                make.make_reading(database, bench, step=1, entry=entry, at=at)

    def test_a_bench_opened_again_may_read_on(self, database: Database, bench: JoinedBench) -> None:
        lesson = lessons.lesson_record(database, bench.lesson_id)
        running.change_bench(database, lesson, lesson.benches[0], {"open_again": True}, at=MORNING)
        assert make.make_reading(database, bench, step=1, at=MORNING + timedelta(minutes=15)).entry.new

    @pytest.mark.parametrize("sender", [TEACHER, PAPER], ids=["teacher", "paper"])
    def test_the_teacher_may_add_one_still_on_paper(
        self, database: Database, bench: JoinedBench, sender: Sender
    ) -> None:
        late = MORNING + timedelta(minutes=15)
        assert make.make_reading(database, bench, step=1, sender=sender, at=late).entry.new

    def test_a_bench_mends_no_reading_any_more(self, database: Database, bench: JoinedBench) -> None:
        first = lessons.lesson_record(database, bench.lesson_id).benches[0].specimens[0].readings[0]
        mending = make.sent(replaces=first.entry_id)
        with pytest.raises(MassesDown):
            make.make_reading(database, bench, pointer="219", entry=mending, at=MORNING + timedelta(minutes=15))

    def test_endings_measures_and_rulings_are_still_let_in(self, database: Database, bench: JoinedBench) -> None:
        late = MORNING + timedelta(minutes=15)
        ended = make.make_ending(database, bench, kind="out_of_time", at=late)
        measured = make.make_measure(database, bench, at=late)
        ruled = make.make_ruling(database, bench.target, about=ended.entry.entry_id, by="bench", at=late)
        assert ended.entry.new
        assert measured.entry.new
        assert ruled.new


class TestReplacing:
    def test_a_bench_replaces_its_own(self, database: Database) -> None:
        bench = make.make_bench(database)
        first = make.make_reading(database, bench, pointer="21.8")
        mended = make.make_reading(database, bench, pointer="218", entry=make.sent(replaces=first.entry.entry_id))
        assert mended.point is not None
        assert (mended.point.first_typed, mended.point.reading.pointer_mm) == ("21.8", 218.0)
        assert [point.reading.pointer_typed for point in mended.state.cord.points] == ["218"]
        assert rows(database) == 2, "the first stays"

    def test_it_says_why(self, database: Database) -> None:
        bench = make.make_bench(database)
        first = make.make_reading(database, bench)
        with pytest.raises(InvalidEntry) as refused:
            make.make_reading(database, bench, entry=make.sent(replaces=first.entry.entry_id, reason=" "))
        assert [fault.field for fault in refused.value.faults] == ["reason"]

    @pytest.mark.parametrize("reason", ["because", "unit: cm", "typed_wrong, unit"])
    def test_a_reason_that_is_none_of_the_list_is_refused(self, database: Database, reason: str) -> None:
        bench = make.make_bench(database)
        first = make.make_reading(database, bench)
        with pytest.raises(InvalidEntry):
            make.make_reading(database, bench, entry=make.sent(replaces=first.entry.entry_id, reason=reason))

    def test_a_bench_does_not_replace_what_the_teacher_wrote(self, database: Database) -> None:
        bench = make.make_bench(database)
        first = make.make_reading(database, bench, sender=TEACHER)
        with pytest.raises(NotThisBench):
            make.make_reading(database, bench, pointer="219", entry=make.sent(replaces=first.entry.entry_id))

    def test_the_teacher_replaces_what_a_bench_wrote(self, database: Database) -> None:
        bench = make.make_bench(database)
        first = make.make_reading(database, bench)
        entry = make.sent(replaces=first.entry.entry_id, reason="other: 2 numbers")
        mended = make.make_reading(database, bench, pointer="219", entry=entry, sender=TEACHER)
        assert mended.point is not None
        assert (mended.point.reading.by, mended.point.reason) == ("teacher", "other: 2 numbers")

    def test_an_entry_of_another_cord_is_not_replaced(self, database: Database) -> None:
        lesson = make.make_lesson(database)
        theirs = make.make_reading(database, make.join(database, lesson, bench="Hazel"))
        bench = make.join(database, lesson, bench="Alder")
        with pytest.raises(InvalidEntry) as refused:
            make.make_reading(database, bench, entry=make.sent(replaces=theirs.entry.entry_id))
        assert [fault.field for fault in refused.value.faults] == ["replaces"]

    def test_the_mending_may_come_before_what_it_mends(self, database: Database) -> None:
        """Order of arrival means nothing: tablets send as they can (contract.md 8)."""
        bench = make.make_bench(database)
        first = make.sent()
        make.make_reading(database, bench, pointer="218", entry=make.sent(replaces=first.entry_id))
        last = make.make_reading(database, bench, pointer="21.8", entry=first)
        assert [point.reading.pointer_typed for point in last.state.cord.points] == ["218"]


def test_a_cord_takes_four_hundred_entries_of_a_kind(database: Database) -> None:
    bench = make.make_bench(database)
    one = {
        "specimen_id": bench.specimen_id, "step": 1, "phase": "later", "turn": 1, "pointer_typed": "1",
        "pointer_unit": "mm", "pointer_mm": 1.0, "by": "bench", "age_s": 0.0, "received_at": MORNING, "n": 1,
    }  # fmt: skip
    with database.transaction() as session:
        for _ in range(ENTRIES_MOST - 1):
            insert_entry(session, Reading, {**one, "entry_id": make.new_id()})
    assert make.make_reading(database, bench).entry.new
    with pytest.raises(InUse):
        make.make_reading(database, bench, step=1)
    assert make.make_event(database, bench).entry.new, "of another kind there is room"
