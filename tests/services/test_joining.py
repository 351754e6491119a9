"""A tablet takes a bench by its slip or the lesson key, carries on there, leaves it."""

from datetime import timedelta

import pytest

from app.domain.errors import BenchTaken, InUse, LessonOver, NotFound, UnknownCode
from app.domain.limits import TABLET_DAYS, TABLETS_MOST
from app.domain.naming import spaced
from app.services import joining, running
from app.services.joining import TabletHere
from app.store.database import Database
from tests import make
from tests.make import MORNING, MadeLesson


@pytest.fixture
def lesson(database: Database) -> MadeLesson:
    """A lesson with the benches Alder and Hazel."""
    return make.make_lesson(database)


def holder(database: Database, token: str, *, days: float = 0) -> TabletHere | None:
    """What a token holds, so many days after MORNING."""
    return joining.whose_tablet(database, token, at=MORNING + timedelta(days=days))


class TestWhatOpens:
    def test_a_slip_code_opens_its_bench(self, database: Database, lesson: MadeLesson) -> None:
        offer = joining.what_opens(database, lesson.slips["Hazel"])
        assert offer.bench is not None
        assert (offer.lesson.id, offer.bench.word) == (lesson.lesson_id, "Hazel")

    def test_a_lesson_key_opens_the_free_benches(self, database: Database, lesson: MadeLesson) -> None:
        make.join(database, lesson, bench="Alder")
        offer = joining.what_opens(database, lesson.lesson_key)
        assert offer.bench is None
        assert [bench.word for bench in offer.free] == ["Hazel"]

    def test_any_case_and_spaces_will_do(self, database: Database, lesson: MadeLesson) -> None:
        code = f"  {spaced(lesson.slips['Alder']).lower()} "
        assert joining.take_bench(database, code, bench=None, at=MORNING).writes

    @pytest.mark.parametrize("code", ["", "ABC", "ABCDE0", "ABCDEFG", "ABC\x00EF", "\U0001f4cf" * 6, "A" * 10_000])
    @pytest.mark.usefixtures("lesson")
    def test_what_is_no_code_opens_nothing(self, database: Database, code: str) -> None:
        with pytest.raises(UnknownCode):
            joining.what_opens(database, code)

    @pytest.mark.parametrize("which", ["slip", "key"])
    def test_nothing_opens_when_the_lesson_is_over(self, database: Database, lesson: MadeLesson, which: str) -> None:
        running.set_stage(database, lesson.lesson_id, {"stage": "over"}, at=MORNING)
        with pytest.raises(LessonOver):
            joining.what_opens(database, lesson.slips["Alder"] if which == "slip" else lesson.lesson_key)

    def test_a_deleted_lesson_has_no_codes(self, database: Database, lesson: MadeLesson) -> None:
        running.delete_lesson(database, lesson.lesson_id, at=MORNING)
        with pytest.raises(UnknownCode):
            joining.what_opens(database, lesson.lesson_key)


class TestTaking:
    def test_with_the_key_and_a_free_bench(self, database: Database, lesson: MadeLesson) -> None:
        joined = joining.take_bench(database, lesson.lesson_key, bench="HAZEL", at=MORNING)
        here = holder(database, joined.token)
        assert here is not None
        assert (here.bench, here.lesson_id, here.writes) == ("hazel", lesson.lesson_id, True)

    def test_a_taken_bench_needs_its_slip(self, database: Database, lesson: MadeLesson) -> None:
        joining.take_bench(database, lesson.lesson_key, bench="alder", at=MORNING)
        with pytest.raises(BenchTaken):
            joining.take_bench(database, lesson.lesson_key, bench="alder", at=MORNING)

    @pytest.mark.parametrize("bench", [None, "", "oak", "\x00"])
    def test_a_bench_that_is_not_there(self, database: Database, lesson: MadeLesson, bench: str | None) -> None:
        with pytest.raises(NotFound):
            joining.take_bench(database, lesson.lesson_key, bench=bench, at=MORNING)

    def test_the_slip_on_another_tablet_carries_on_there(self, database: Database, lesson: MadeLesson) -> None:
        first = make.join(database, lesson)
        second = make.join(database, lesson)
        ones = [holder(database, bench.token) for bench in (first, second)]
        assert [one and one.writes for one in ones] == [False, True]

    def test_carry_on_moves_the_pad_back(self, database: Database, lesson: MadeLesson) -> None:
        first, second = make.join(database, lesson), make.join(database, lesson)
        here = holder(database, first.token)
        assert here is not None
        joining.carry_on(database, here, at=MORNING)
        ones = [holder(database, bench.token) for bench in (first, second)]
        assert [one and one.writes for one in ones] == [True, False]

    def test_a_tablet_that_leaves_hands_the_pad_on(self, database: Database, lesson: MadeLesson) -> None:
        first, second = make.join(database, lesson), make.join(database, lesson)
        here = holder(database, second.token)
        assert here is not None
        joining.leave(database, here, at=MORNING)
        assert holder(database, second.token) is None
        left = holder(database, first.token)
        assert left is not None
        assert left.writes

    def test_a_bench_left_by_all_is_free_again(self, database: Database, lesson: MadeLesson) -> None:
        here = holder(database, make.join(database, lesson).token)
        assert here is not None
        joining.leave(database, here, at=MORNING)
        assert [bench.word for bench in joining.what_opens(database, lesson.lesson_key).free] == ["Alder", "Hazel"]

    def test_a_bench_has_four_tablets_at_most(self, database: Database, lesson: MadeLesson) -> None:
        for _ in range(TABLETS_MOST):
            make.join(database, lesson)
        with pytest.raises(InUse):
            make.join(database, lesson)

    def test_one_silent_for_a_day_gives_its_place(self, database: Database, lesson: MadeLesson) -> None:
        came = [MORNING + timedelta(seconds=place) for place in range(TABLETS_MOST)]
        tablets = [make.join(database, lesson, at=at) for at in came]
        make.join(database, lesson, at=MORNING + timedelta(days=1, seconds=10))
        still = [holder(database, tablet.token) is not None for tablet in tablets]
        assert still == [False, True, True, True]


class TestTokens:
    @pytest.mark.usefixtures("lesson")
    def test_a_wrong_one_holds_nothing(self, database: Database) -> None:
        assert holder(database, "wrong") is None

    def test_one_lives_thirty_days(self, database: Database, lesson: MadeLesson) -> None:
        token = make.join(database, lesson).token
        assert holder(database, token, days=TABLET_DAYS) is not None
        assert holder(database, token, days=TABLET_DAYS + 0.01) is None

    def test_only_its_hash_is_kept(self, database: Database, lesson: MadeLesson) -> None:
        joined = make.join(database, lesson)
        with database.engine.connect() as connection:
            kept = connection.exec_driver_sql("SELECT * FROM tablet").all()
        assert joined.token not in repr(kept)
