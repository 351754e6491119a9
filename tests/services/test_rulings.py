"""What is said of what was seen: left out with a reason, which number counts, guesses, sentences, weighings, ticks."""

from datetime import timedelta
from typing import Any

import pytest

from app.domain.errors import InvalidEntry, NotFound, NotOpened, NotThisBench, Sealed, TeacherOnly
from app.domain.vocabulary import TEACHER_RULINGS, TICKS
from app.services import changes, lessons, planning, readings, rulings, running
from app.services.bench_state import state_of
from app.services.planning import PlanChanges
from app.services.readings import MeasureSeen
from app.services.recording import Sender, Target
from app.store.database import Database
from tests import make
from tests.make import MORNING, JoinedBench

TEACHER = Sender(by="teacher")


@pytest.fixture
def bench(database: Database) -> JoinedBench:
    """A bench that a tablet took."""
    return make.make_bench(database)


def predict(database: Database, bench: JoinedBench, **said: Any) -> Any:
    """The bench's guess: 12 N, design B is best, and it bends over."""
    guess: dict[str, Any] = {
        "break_force_n": 12.0,
        "best_design": "B",
        "shape": "bends_over",
        "sent": make.sent(),
        "at": MORNING,
    }
    return rulings.predict(database, bench.target, sender=bench.sender, **guess | said)


class TestLeftOut:
    def test_it_is_kept_and_out_of_the_sums_until_put_back(self, database: Database, bench: JoinedBench) -> None:
        last = make.make_readings(database, bench)[-1]
        make.make_ruling(database, bench.target, about=last.entry.entry_id, reason="it slipped", by="bench")
        point = state_of(database, bench.lesson_id, bench.bench_id).cord.points[-1]
        assert (point.left_out, point.counts) == ("it slipped", False)
        make.make_ruling(database, bench.target, about=last.entry.entry_id, kind="put_back", reason=None)
        point = state_of(database, bench.lesson_id, bench.bench_id).cord.points[-1]
        assert (point.left_out, point.counts) == (None, True)

    @pytest.mark.parametrize("reason", [None, "", "  "])
    def test_it_says_why(self, database: Database, bench: JoinedBench, reason: str | None) -> None:
        with pytest.raises(InvalidEntry) as refused:
            make.make_ruling(database, bench.target, about=bench.specimen_id, reason=reason)
        assert [fault.field for fault in refused.value.faults] == ["reason"]

    def test_a_whole_cord_may_be_left_out(self, database: Database, bench: JoinedBench) -> None:
        make.make_readings(database, bench)
        make.make_ruling(database, bench.target, about=bench.specimen_id, reason="cut by scissors")
        cord = state_of(database, bench.lesson_id, bench.bench_id).cord
        assert cord.left_out == "cut by scissors"
        assert not any(point.counts for point in cord.points)


class TestRuling:
    def test_which_of_two_numbers_counts(self, database: Database, bench: JoinedBench) -> None:
        make.make_reading(database, bench, pointer="218")
        second = make.make_reading(database, bench, pointer="228")
        make.make_ruling(database, bench.target, about=second.entry.entry_id, kind="counts", reason=None)
        points = state_of(database, bench.lesson_id, bench.bench_id).cord.points
        assert [(point.reading.pointer_mm, point.state) for point in points] == [
            (218.0, "ruled_out"),
            (228.0, "stands"),
        ]

    @pytest.mark.parametrize("kind", TEACHER_RULINGS)
    def test_some_only_the_teacher_says(self, database: Database, bench: JoinedBench, kind: str) -> None:
        with pytest.raises(TeacherOnly):
            make.make_ruling(database, bench.target, about=bench.specimen_id, kind=kind, by="bench")
        assert make.make_ruling(database, bench.target, about=bench.specimen_id, kind=kind, by="teacher").new

    def test_it_is_about_something_of_this_bench(self, database: Database) -> None:
        lesson = make.make_lesson(database)
        theirs = make.make_reading(database, make.join(database, lesson, bench="Hazel"))
        bench = make.join(database, lesson, bench="Alder")
        for about in (theirs.entry.entry_id, make.new_id(), ""):
            with pytest.raises(NotFound):
                make.make_ruling(database, bench.target, about=about)

    def test_it_is_about_whatever_was_sent(self, database: Database, bench: JoinedBench) -> None:
        planning.mend_plan(database, bench.lesson_id, PlanChanges(lesson={"free_text": True}), at=MORNING)
        room = MeasureSeen(specimen_id=None, quantity="room_c", typed="20", unit="C")
        how: dict[str, Any] = {"sender": bench.sender, "at": MORNING}
        measure = readings.take_measure(database, bench.target, room, sent=make.sent(), **how).entry
        words = {"topic": "reuse", "words": "Tie it again."}
        told = {
            "sentence": rulings.say(database, bench.target, sent=make.sent(), **words, **how),
            "prediction": predict(database, bench),
            "weighing": make.make_weighing(database, bench.target, mark=1, mass_g=99.0),
            "measure": measure,
        }
        for entry in told.values():
            make.make_ruling(database, bench.target, about=entry.entry_id, reason="typed for another")
        ruled = lessons.lesson_record(database, bench.lesson_id).rulings
        assert [(one.about_table, one.about_id) for one in ruled] == [
            (table, entry.entry_id) for table, entry in told.items()
        ]
        assert state_of(database, bench.lesson_id, bench.bench_id).tray.rungs[1].mass_g == 102.0  # the printed one

    def test_a_weighing_of_every_tray_is_the_teachers(self, database: Database, bench: JoinedBench) -> None:
        whole = Target(lesson_id=bench.lesson_id)
        every = make.make_weighing(database, whole, mark=1, mass_g=99.0)
        with pytest.raises(NotFound):
            make.make_ruling(database, bench.target, about=every.entry_id)
        assert make.make_ruling(database, whole, about=every.entry_id, by="teacher").new

    def test_a_bench_undoes_no_others_by_replacing_it(self, database: Database) -> None:
        lesson = make.make_lesson(database)
        ours, theirs = (make.join(database, lesson, bench=word) for word in ("Alder", "Hazel"))
        held = make.make_ruling(database, theirs.target, about=theirs.specimen_id, by="bench")
        said = make.sent(replaces=held.entry_id, reason="ours")
        more: dict[str, Any] = {"kind": "left_out", "detail": None, "sent": said, "at": MORNING}
        with pytest.raises(NotThisBench):
            rulings.rule(database, ours.target, about=ours.specimen_id, sender=ours.sender, **more)
        assert state_of(database, theirs.lesson_id, theirs.bench_id).cord.left_out is not None

    @pytest.mark.parametrize(
        ("said", "field"),
        [
            ({"kind": "forgotten"}, "kind"),
            ({"kind": "note_answer", "detail": "perhaps"}, "detail"),
            ({"kind": "note_answer", "detail": {"a": 1}}, "detail"),
            ({"kind": "straight_part", "detail": "fixed_it"}, "detail"),
            ({"kind": "straight_part", "detail": {"first_step": 2}}, "detail"),
            ({"kind": "straight_part", "detail": {"first_step": 2, "last_step": 2}}, "last_step"),
            ({"reason": "r" * 81}, "reason"),
        ],
    )
    def test_what_cannot_be_is_refused_beside_its_field(
        self, database: Database, bench: JoinedBench, said: dict[str, Any], field: str
    ) -> None:
        with pytest.raises(InvalidEntry) as refused:
            make.make_ruling(database, bench.target, about=bench.specimen_id, **said)
        assert [fault.field for fault in refused.value.faults] == [field]

    def test_a_straight_part_is_chosen_and_the_choice_taken_back(self, database: Database, bench: JoinedBench) -> None:
        def chosen() -> tuple[int | None, int | None]:
            cord = state_of(database, bench.lesson_id, bench.bench_id).cord.tested
            return cord.straight_first_step, cord.straight_last_step

        about: dict[str, Any] = {"about": bench.specimen_id, "kind": "straight_part", "reason": None, "by": "bench"}
        make.make_ruling(database, bench.target, detail={"first_step": 1, "last_step": 4}, **about)
        assert chosen() == (1, 4)
        make.make_ruling(database, bench.target, detail=None, **about)
        assert chosen() == (None, None)


class TestGuess:
    def test_it_is_sealed_by_the_first_reading_of_step_1(self, database: Database, bench: JoinedBench) -> None:
        make.make_reading(database, bench, at=MORNING)
        assert predict(database, bench, at=MORNING + timedelta(minutes=1)).new
        make.make_reading(database, bench, step=1, at=MORNING + timedelta(minutes=2))
        with pytest.raises(Sealed):
            predict(database, bench, at=MORNING + timedelta(minutes=3))

    def test_sent_again_after_that_it_is_the_same_guess(self, database: Database, bench: JoinedBench) -> None:
        guess = make.sent()
        first = predict(database, bench, sent=guess, at=MORNING + timedelta(minutes=1))
        make.make_reading(database, bench, step=1, at=MORNING + timedelta(minutes=2))
        again = predict(database, bench, sent=guess, at=MORNING + timedelta(minutes=3))
        assert (again.new, again.n) == (False, first.n)

    def test_one_typed_before_and_sent_late_is_let_in(self, database: Database, bench: JoinedBench) -> None:
        make.make_reading(database, bench, step=1, at=MORNING + timedelta(minutes=2))
        late = make.sent(age_s=121)
        assert predict(database, bench, sent=late, at=MORNING + timedelta(minutes=4)).new

    @pytest.mark.parametrize(
        ("said", "field"),
        [
            ({"break_force_n": -1.0}, "break_force_N"),
            ({"break_force_n": float("nan")}, "break_force_N"),
            ({"best_design": "Z"}, "best_design"),
            ({"shape": "wobbly"}, "shape"),
        ],
    )
    def test_what_cannot_be_is_refused_beside_its_field(
        self, database: Database, bench: JoinedBench, said: dict[str, Any], field: str
    ) -> None:
        with pytest.raises(InvalidEntry) as refused:
            predict(database, bench, **said)
        assert [fault.field for fault in refused.value.faults] == [field]


class TestSentence:
    def say(self, database: Database, bench: JoinedBench, words: str = "Three carry more.") -> Any:
        """A conclusion of the bench."""
        said, whose = make.sent(), bench.sender
        return rulings.say(database, bench.target, topic="conclusion", words=words, sent=said, sender=whose, at=MORNING)

    def test_only_where_the_lesson_takes_free_text(self, database: Database, bench: JoinedBench) -> None:
        with pytest.raises(NotOpened):
            self.say(database, bench)
        planning.mend_plan(database, bench.lesson_id, PlanChanges(lesson={"free_text": True}), at=MORNING)
        assert self.say(database, bench).new

    @pytest.mark.parametrize("words", ["", "   ", "w" * 501, "a\x00b"])
    def test_it_has_one_to_five_hundred_characters(self, database: Database, bench: JoinedBench, words: str) -> None:
        planning.mend_plan(database, bench.lesson_id, PlanChanges(lesson={"free_text": True}), at=MORNING)
        with pytest.raises(InvalidEntry):
            self.say(database, bench, words)


class TestWeighing:
    def test_every_force_follows_a_balance_mass(self, database: Database, bench: JoinedBench) -> None:
        """Hanger 55 g and rung 1 of 99 g in place of its printed 102 g: 0.154 kg at standard gravity."""
        make.make_readings(database, bench, (218, 222))
        make.make_weighing(database, bench.target, mark=0, mass_g=55.0)
        make.make_weighing(database, bench.target, mark=1, mass_g=99.0)
        points = state_of(database, bench.lesson_id, bench.bench_id).cord.points
        assert [point.mass_g for point in points] == [55.0, 154.0]
        assert points[1].force_n == pytest.approx(0.154 * 9.80665)

    def test_a_bench_weighs_its_own_tray_only(self, database: Database) -> None:
        lesson = make.make_lesson(database)
        ones = [make.join(database, lesson, bench=word) for word in ("Alder", "Hazel")]
        for bench in ones:
            make.make_readings(database, bench, (218, 222))
        make.make_weighing(database, ones[0].target, mark=1, mass_g=90.0)
        masses = [state_of(database, one.lesson_id, one.bench_id).cord.points[1].mass_g for one in ones]
        assert masses == [90.0, 102.0]

    @pytest.mark.parametrize("mark", [-1, 6, 99])
    def test_a_mark_of_no_rung_is_refused(self, database: Database, bench: JoinedBench, mark: int) -> None:
        with pytest.raises(InvalidEntry):
            make.make_weighing(database, bench.target, mark=mark)

    @pytest.mark.parametrize("mass_g", [0.0, 0.09, 50_001.0, float("nan")])
    def test_a_mass_that_cannot_be_is_refused(self, database: Database, bench: JoinedBench, mass_g: float) -> None:
        with pytest.raises(InvalidEntry):
            make.make_weighing(database, bench.target, mark=1, mass_g=mass_g)


class TestTick:
    def test_a_deleted_lesson_takes_none(self, database: Database, bench: JoinedBench) -> None:
        running.delete_lesson(database, bench.lesson_id, at=MORNING)
        with pytest.raises(NotFound):
            rulings.tick(database, bench.target, what="goggles", on=True, by="bench", at=MORNING)

    def test_it_is_ticked_and_taken_off_and_told(self, database: Database, bench: JoinedBench) -> None:
        before = changes.heads(database, [bench.lesson_id])[bench.lesson_id]
        for on in (True, False):
            rulings.tick(database, bench.target, what="goggles", on=on, by="bench", at=MORNING)
            assert lessons.lesson_record(database, bench.lesson_id).benches[0].ticks == {"goggles": on}
        news = changes.news_after(database, bench.lesson_id, before)
        assert [(change.kind, change.after) for change in news.changes] == [
            ("tick", {"goggles": True}), ("tick", {"goggles": False}),
        ]  # fmt: skip

    def test_a_line_of_no_list_is_refused(self, database: Database, bench: JoinedBench) -> None:
        with pytest.raises(InvalidEntry):
            rulings.tick(database, bench.target, what="lunch", on=True, by="bench", at=MORNING)

    def test_every_line_fits_its_column(self, database: Database, bench: JoinedBench) -> None:
        for what in TICKS:
            rulings.tick(database, bench.target, what=what, on=True, by="bench", at=MORNING)
        assert set(lessons.lesson_record(database, bench.lesson_id).benches[0].ticks) == set(TICKS)
