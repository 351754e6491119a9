"""A bench's readings, events, endings, measures and fresh cords: kept as typed, answered with what they mean."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from app.domain import limits
from app.domain.errors import InvalidEntry, NotFound
from app.domain.vocabulary import ENDINGS, EVENTS, PHASES
from app.services import lessons, running
from app.services.readings import Answer
from app.store.database import Database
from tests import make
from tests.make import JoinedBench

ANY_TEXT = st.text(max_size=30) | st.from_regex(r"[-+]?[0-9]{0,6}[.,]?[0-9]{0,6}", fullmatch=True)
MANY = settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture], derandomize=True
)
"""One bench serves all examples: each is a reading more of one cord."""


def _read_or_refused(database: Database, bench: JoinedBench, typed: str) -> Answer | InvalidEntry:
    """The answer, or the one refusal that may come; anything else that is raised fails the test."""
    try:
        return make.make_reading(database, bench, step=1, phase="later", turn=9, pointer=typed)
    except InvalidEntry as refusal:
        return refusal


@pytest.fixture
def bench(database: Database) -> JoinedBench:
    """A bench that a tablet took."""
    return make.make_bench(database)


class TestPointer:
    @MANY
    @given(typed=ANY_TEXT)
    @example(typed="")
    @example(typed="1e999")
    @example(typed="nan")
    @example(typed="Infinity")
    @example(typed="21\x00")
    @example(typed="\U0001f4cf")
    @example(typed="٢١٨")
    @example(typed="2" * 10_000)
    def test_whatever_is_typed_is_kept_or_refused_by_name(
        self, database: Database, bench: JoinedBench, typed: str
    ) -> None:
        answer = _read_or_refused(database, bench, typed)
        if isinstance(answer, InvalidEntry):
            assert [fault.field for fault in answer.faults] == ["pointer_typed"]
            assert answer.sentence.endswith(".")
            return
        kept = next(one for one in answer.state.specimen.readings if one.entry_id == answer.entry.entry_id)
        assert kept.pointer_typed == typed.strip()
        assert abs(kept.pointer_mm) <= limits.POINTER_MM[1]

    @pytest.mark.parametrize(
        ("typed", "unit", "mm"),
        [
            ("218", "mm", 218.0),
            (" 218 ", "mm", 218.0),
            ("218,5", "mm", 218.5),
            ("21.85", "cm", 218.5),
            ("-3", "mm", -3.0),
            ("\u22123", "mm", -3.0),
            ("+.5", "cm", 5.0),
            ("10000", "mm", 10_000.0),
            ("29.3", "cm", 293.0),
        ],
    )
    def test_a_number_is_read_with_comma_or_point(self, database: Database, typed: str, unit: str, mm: float) -> None:
        answer = make.make_reading(database, make.make_bench(database), pointer=typed, pointer_unit=unit)
        assert answer.point is not None
        assert answer.point.reading.pointer_mm == mm

    def test_without_a_unit_it_is_the_benchs_own(self, database: Database, bench: JoinedBench) -> None:
        lesson = lessons.lesson_record(database, bench.lesson_id)
        running.change_bench(database, lesson, lesson.benches[0], {"scale": {"unit": "cm"}}, at=make.MORNING)
        answer = make.make_reading(database, bench, pointer="21,8")
        assert answer.point is not None
        assert (answer.point.reading.pointer_unit, answer.point.reading.pointer_mm) == ("cm", 218.0)

    @pytest.mark.parametrize("phase", PHASES)
    def test_every_phase_is_taken(self, database: Database, bench: JoinedBench, phase: str) -> None:
        step = 0 if phase == "zero" else 2
        answer = make.make_reading(database, bench, step=step, phase=phase)
        assert answer.point is not None
        assert answer.point.reading.phase == phase


class TestAnswer:
    def test_it_says_force_extension_and_what_comes_next(self, database: Database) -> None:
        """Step 1 hangs 102 g at standard gravity: 0.102 kg x 9.80665 m/s2."""
        bench = make.make_bench(database)
        make.make_reading(database, bench, pointer="218")
        answer = make.make_reading(database, bench, step=1, pointer="222")
        assert answer.point is not None
        assert answer.point.force_n == pytest.approx(0.102 * 9.80665)
        assert answer.point.extension_mm == 4.0
        assert (answer.state.next.do, answer.state.next.step, answer.state.next.mark) == ("hang", 2, 2)
        assert answer.state.next.total_mass_g == 204.0

    def test_it_is_the_bench_as_it_stood_then(self, database: Database) -> None:
        """A second sending hears what the first heard, whatever came since."""
        bench = make.make_bench(database)
        entry = make.sent()
        first = make.make_reading(database, bench, entry=entry)
        make.make_readings(database, bench, (222, 224), first_step=1)
        again = make.make_reading(database, bench, entry=entry)
        assert again.state.next == first.state.next
        assert again.state.step == 0

    def test_the_same_number_from_another_tablet_is_matched(self, database: Database, bench: JoinedBench) -> None:
        first = make.make_reading(database, bench, pointer="218")
        second = make.make_reading(database, bench, pointer="218.0")
        assert (second.word, second.same_step) == ("matched", (first.entry.entry_id,))

    def test_another_number_differs_and_neither_counts(self, database: Database, bench: JoinedBench) -> None:
        first = make.make_reading(database, bench, pointer="218")
        second = make.make_reading(database, bench, pointer="228")
        assert (second.word, second.same_step) == ("differs", (first.entry.entry_id,))
        assert [point.counts for point in second.state.cord.points] == [False, False]

    def test_until_the_zero_comes_extension_is_none_with_a_reason(self, database: Database, bench: JoinedBench) -> None:
        early = make.make_reading(database, bench, step=1, pointer="222")
        assert early.point is not None
        assert early.point.extension_mm is None
        assert early.point.extension_why
        zero = make.make_reading(database, bench, pointer="218")
        assert [point.extension_mm for point in zero.state.cord.points] == [0.0, 4.0]

    def test_a_cord_that_is_not_here_yet_is_not_found(self, database: Database, bench: JoinedBench) -> None:
        with pytest.raises(NotFound):
            make.make_reading(database, bench, specimen_id=make.new_id())

    def test_another_benchs_cord_is_not_found(self, database: Database) -> None:
        lesson = make.make_lesson(database)
        theirs = make.join(database, lesson, bench="Hazel")
        bench = make.join(database, lesson, bench="Alder")
        with pytest.raises(NotFound):
            make.make_reading(database, bench, specimen_id=theirs.specimen_id)


class TestEvents:
    @pytest.mark.parametrize("kind", [kind for kind in EVENTS if kind != "other_mass"])
    def test_every_event_is_taken(self, database: Database, bench: JoinedBench, kind: str) -> None:
        make.make_readings(database, bench)
        answer = make.make_event(database, bench, kind=kind, step=2, words="as seen")
        assert [event.kind for event in answer.state.specimen.events] == [kind]

    def test_another_mass_changes_this_step_and_those_after_it(self, database: Database) -> None:
        bench = make.make_bench(database, rungs_g=(100.0, 200.0, 400.0))
        make.make_readings(database, bench, (218, 222, 224, 227))
        answer = make.make_event(database, bench, kind="other_mass", step=2, mark=3)
        assert [point.mass_g for point in answer.state.cord.points] == [0.0, 100.0, 500.0, 900.0]


class TestEndings:
    @pytest.mark.parametrize("kind", ENDINGS)
    def test_every_ending_is_taken(self, database: Database, bench: JoinedBench, kind: str) -> None:
        make.make_readings(database, bench)
        answer = make.make_ending(database, bench, kind=kind, fail_step=5, place="at_knot", look="clean", remark="Snap")
        assert answer.state.cord.ending is not None
        assert answer.state.cord.ending.kind == kind
        assert (answer.state.stage, answer.state.next.do) == ("ended", "nothing")

    def test_a_break_is_an_interval_between_held_and_broke(self, database: Database) -> None:
        """Held 306 g at step 3, broke while going to 408 g: between 0.306 and 0.408 kg x 9.80665 m/s2."""
        bench = make.make_bench(database, rungs_g=(102.0,) * 5)
        make.make_readings(database, bench, (218, 222, 224, 227))
        bracket = make.make_ending(database, bench, fail_step=4).state.cord.break_bracket
        assert [bracket.low_n, bracket.high_n] == pytest.approx([0.306 * 9.80665, 0.408 * 9.80665])

    def test_one_that_did_not_break_is_more_than(self, database: Database) -> None:
        bench = make.make_bench(database, rungs_g=(102.0,) * 4)
        make.make_readings(database, bench)
        bracket = make.make_ending(database, bench, kind="did_not_break").state.cord.break_bracket
        assert bracket.low_n == pytest.approx(0.408 * 9.80665)
        assert bracket.high_n is None

    def test_two_different_ends_differ_until_someone_rules(self, database: Database, bench: JoinedBench) -> None:
        make.make_readings(database, bench)
        first = make.make_ending(database, bench, fail_step=5)
        second = make.make_ending(database, bench, kind="out_of_time")
        assert second.state.cord.ending_state == "differs"
        make.make_ruling(database, bench.target, about=first.entry.entry_id, kind="counts", reason=None)
        cord = make.make_measure(database, bench).state.cord
        assert (cord.ending_state, cord.outcome) == ("stands", "broke")


class TestMeasures:
    def test_a_length_is_kept_as_typed_and_in_millimetres(self, database: Database) -> None:
        answer = make.make_measure(database, make.make_bench(database), typed="29,8", unit="cm")
        measure = answer.state.specimen.measures[0]
        assert (measure.typed, measure.unit, measure.value) == ("29,8", "cm", 298.0)
        assert answer.state.cord.free_length_mm == 298.0

    @pytest.mark.parametrize("quantity", ["strands", "stack_layers"])
    def test_what_is_counted_is_whole(self, database: Database, quantity: str) -> None:
        bench = make.make_bench(database)
        for typed in ("2,5", "2.000001"):
            with pytest.raises(InvalidEntry):
                make.make_measure(database, bench, quantity=quantity, typed=typed, unit="")
        assert make.make_measure(database, bench, quantity=quantity, typed="3.0", unit="").entry.new

    def test_the_room_is_the_benchs_and_no_cords(self, database: Database) -> None:
        answer = make.make_measure(
            database, make.make_bench(database), quantity="room_c", typed="21", unit="C", specimen_id=None
        )
        assert [measure.quantity for measure in answer.state.bench.measures] == ["room_c"]


class TestFreshCord:
    def test_the_newest_is_under_test(self, database: Database, bench: JoinedBench) -> None:
        make.make_readings(database, bench)
        made = make.make_fresh_cord(database, bench)
        assert [cord.specimen_no for cord in made.state.cords] == [1, 2]
        assert made.state.specimen.entry_id == made.entry.entry_id
        reading = make.make_reading(database, bench, pointer="210")
        assert [len(cord.points) for cord in reading.state.cords] == [5, 1]

    def test_sent_twice_it_is_one_cord(self, database: Database, bench: JoinedBench) -> None:
        entry = make.sent()
        make.make_fresh_cord(database, bench, entry=entry)
        again = make.make_fresh_cord(database, bench, entry=entry)
        assert (again.entry.new, len(again.state.cords)) == (False, 2)

    def test_a_bench_has_twenty_at_most(self, database: Database, bench: JoinedBench) -> None:
        for _ in range(limits.SPECIMENS_MOST - 1):
            make.make_fresh_cord(database, bench)
        with pytest.raises(InvalidEntry):
            make.make_fresh_cord(database, bench)


@pytest.mark.parametrize(
    ("verb", "said", "field"),
    [
        (make.make_reading, {"pointer": "10000.1"}, "pointer_typed"),
        (make.make_reading, {"pointer_unit": "inch"}, "pointer_unit"),
        (make.make_reading, {"step": 61}, "step"),
        (make.make_reading, {"step": -1}, "step"),
        (make.make_reading, {"step": 1, "phase": "zero"}, "step"),
        (make.make_reading, {"step": 0, "phase": "load"}, "step"),
        (make.make_reading, {"phase": "hanging"}, "phase"),
        (make.make_reading, {"turn": 0}, "turn"),
        (make.make_reading, {"turn": 10}, "turn"),
        (make.make_reading, {"waited_s": -1.0}, "waited_s"),
        (make.make_reading, {"waited_s": float("nan")}, "waited_s"),
        (make.make_reading, {"waited_s": 3_601.0}, "waited_s"),
        (make.make_event, {"kind": "fell_over"}, "kind"),
        (make.make_event, {"kind": "other_mass"}, "mark"),
        (make.make_event, {"kind": "other_mass", "mark": 61}, "mark"),
        (make.make_event, {"step": 61}, "step"),
        (make.make_event, {"words": "w" * 81}, "words"),
        (make.make_event, {"words": "a\x00b"}, "words"),
        (make.make_ending, {"kind": "exploded"}, "kind"),
        (make.make_ending, {"fail_step": 61}, "fail_step"),
        (make.make_ending, {"place": "somewhere"}, "place"),
        (make.make_ending, {"look": "sad"}, "look"),
        (make.make_ending, {"remark": "r" * 121}, "remark"),
        (make.make_ending, {"remark": "\x00"}, "remark"),
        (make.make_ending, {"hung_s": -1.0}, "hung_s"),
        (make.make_ending, {"from_top_knot_mm": float("inf")}, "from_top_knot_mm"),
        (make.make_measure, {"quantity": "mood"}, "quantity"),
        (make.make_measure, {"typed": "long"}, "typed"),
        (make.make_measure, {"typed": "0"}, "typed"),
        (make.make_measure, {"unit": "furlong"}, "unit"),
        (make.make_measure, {"quantity": "strands", "unit": "mm"}, "unit"),
        (make.make_measure, {"place": 0}, "place"),
    ],
)
def test_what_cannot_be_is_refused_beside_its_field(
    database: Database, bench: JoinedBench, verb: Callable[..., Answer], said: dict[str, Any], field: str
) -> None:
    """The limits are those of contract.md 10."""
    with pytest.raises(InvalidEntry) as refused:
        verb(database, bench, **said)
    assert [fault.field for fault in refused.value.faults] == [field]
