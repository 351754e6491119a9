"""A plan is mended; what is in use can be changed, not taken away."""

import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from typing import Any

import pytest

from app.domain.errors import InUse, InvalidEntry, LessonOver, Stale
from app.domain.plan import BenchPlan
from app.domain.records import DesignRecord, LessonRecord, MaterialRecord, RungRecord, VariableRecord
from app.services import lessons, planning, running
from app.services.planning import PlanChanges
from app.services.recording import Target
from app.store import feed
from app.store.database import Database
from app.store.entries import Reading
from tests import make
from tests.make import MORNING, JoinedBench, MadeLesson


def also_b(**said: Any) -> list[DesignRecord]:
    """A design A as said, and the B that the bench Hazel has."""
    return [DesignRecord(**{"id": "a", "letter": "A", "name": "n"} | said), DesignRecord(id="b", letter="B", name="B")]


@pytest.fixture
def lesson(database: Database) -> MadeLesson:
    """A lesson with designs A and B, five rungs, the benches Alder and Hazel."""
    return make.make_lesson(database)


def mend(database: Database, lesson: MadeLesson, **lists: Any) -> LessonRecord:
    """The lesson after its columns or lists were changed."""
    columns = lists.pop("columns", {})
    planning.mend_plan(database, lesson.lesson_id, PlanChanges(lesson=columns, **lists), at=MORNING)
    return make.record_of(database, lesson)


def plans(*words: str) -> list[BenchPlan]:
    """Benches of design A."""
    return [BenchPlan(word=word, design="A") for word in words]


class TestColumns:
    def test_what_is_said_is_changed_and_the_rest_stays(self, database: Database, lesson: MadeLesson) -> None:
        before = make.record_of(database, lesson)
        after = mend(database, lesson, columns={"title": "Twisted", "wait_s": 30})
        assert (after.title, after.wait_s, after.question) == ("Twisted", 30, before.question)
        assert after.head == before.head + 1

    def test_the_feed_remembers_the_old_value(self, database: Database, lesson: MadeLesson) -> None:
        mend(database, lesson, columns={"gravity_m_per_s2": 9.81})
        with database.reading() as session:
            change = feed.after(session, lesson.lesson_id, 0, most=9)[-1]
        assert (change.kind, change.before, change.after) == (
            "lesson",
            {"gravity_m_per_s2": 9.80665, "gravity_from": "standard gravity"},
            {"gravity_m_per_s2": 9.81, "gravity_from": "9.81, as schools use it"},
        )

    @pytest.mark.parametrize(
        "columns",
        [
            {"title": ""},
            {"title": "t" * 121},
            {"title": "a\x00b"},
            {"question": "q" * 301},
            {"notes": "n" * 4001},
            {"notes": "\x00"},
            {"gravity_m_per_s2": float("nan")},
            {"wait_s": 3601},
            {"depth": "fourth"},
        ],
    )
    def test_what_cannot_be_is_refused_beside_its_field(
        self, database: Database, lesson: MadeLesson, columns: dict[str, Any]
    ) -> None:
        with pytest.raises(InvalidEntry) as refused:
            mend(database, lesson, columns=columns)
        assert [fault.field for fault in refused.value.faults] == list(columns)

    def test_who_looked_at_an_older_state_is_told(self, database: Database, lesson: MadeLesson) -> None:
        head = make.record_of(database, lesson).head
        changes = PlanChanges(lesson={"title": "Mine"})
        planning.mend_plan(database, lesson.lesson_id, changes, at=MORNING, if_head=head)
        with pytest.raises(Stale):
            planning.mend_plan(database, lesson.lesson_id, changes, at=MORNING, if_head=head)

    def test_a_lesson_on_the_shelf_is_not_mended(self, database: Database, lesson: MadeLesson) -> None:
        running.put_on_shelf(database, lesson.lesson_id, on_shelf=True, own=None, at=MORNING)
        with pytest.raises(LessonOver):
            mend(database, lesson, columns={"title": "Late"})

    def test_when_it_is_over_only_notes_are_written(self, database: Database, lesson: MadeLesson) -> None:
        running.set_stage(database, lesson.lesson_id, {"stage": "over"}, at=MORNING)
        for columns in ({"title": "Late"}, {"title": "Late", "notes": "Two bags were too stiff."}):
            with pytest.raises(LessonOver):
                mend(database, lesson, columns=columns)
        assert mend(database, lesson, columns={"notes": "Two bags were too stiff."}).notes == "Two bags were too stiff."

    def test_a_reading_that_comes_meanwhile_keeps_its_rung(self, database: Database, lesson: MadeLesson) -> None:
        bench = make.join(database, lesson)
        rungs = make.record_of(database, lesson).rungs[:1]
        with ThreadPoolExecutor(1) as thread:
            with database.transaction() as session:
                number = feed.take_number(session, lesson.lesson_id)
                asked = thread.submit(mend, database, lesson, rungs=rungs)
                time.sleep(0.3)  # long enough for a look before the lock, which would miss the reading
                session.add(_a_reading(bench, number.head))
            with pytest.raises(InUse):
                asked.result()


def _a_reading(bench: JoinedBench, n: int) -> Reading:
    said: dict[str, Any] = {"step": 5, "phase": "load", "turn": 1, "pointer_typed": "230", "pointer_unit": "mm"}
    entry: dict[str, Any] = {"entry_id": make.new_id(), "by": "bench", "age_s": 0.0, "received_at": MORNING, "n": n}
    return Reading(specimen_id=bench.specimen_id, pointer_mm=230.0, **said, **entry)


class TestLists:
    def test_a_ladder_is_replaced(self, database: Database, lesson: MadeLesson) -> None:
        rungs = [RungRecord(mark=mark, name=f"bag {mark}", printed_mass_g=500.0) for mark in (1, 2)]
        assert list(mend(database, lesson, rungs=rungs).rungs) == rungs

    def test_a_rung_that_hung_stays(self, database: Database, lesson: MadeLesson) -> None:
        make.make_readings(database, make.join(database, lesson), (218, 222, 224))
        first = make.record_of(database, lesson).rungs[0]
        with pytest.raises(InUse):
            mend(database, lesson, rungs=[first])
        heavier = [replace(rung, printed_mass_g=110.0) for rung in make.record_of(database, lesson).rungs[:2]]
        assert list(mend(database, lesson, rungs=heavier).rungs) == heavier

    def test_a_design_of_a_bench_stays_and_keeps_its_id(self, database: Database, lesson: MadeLesson) -> None:
        before = make.record_of(database, lesson).designs
        with pytest.raises(InUse):
            mend(database, lesson, designs=[before[0]])
        renamed = [DesignRecord(id=make.new_id(), letter=one.letter, name="Plait") for one in before]
        after = mend(database, lesson, designs=renamed).designs
        assert [(one.id, one.name) for one in after] == [(one.id, "Plait") for one in before]

    def test_a_bench_may_be_given_a_design_that_comes_with_it(self, database: Database, lesson: MadeLesson) -> None:
        before = make.record_of(database, lesson).designs
        designs = [*before, DesignRecord(id=make.new_id(), letter="C", name="four strands")]
        benches = [BenchPlan(word="Alder", design="C"), BenchPlan(word="Hazel", design="B")]
        after = mend(database, lesson, designs=designs, benches=benches)
        assert [after.design(bench.design_id).letter for bench in after.benches] == ["C", "B"]

    def test_a_design_may_go_when_its_benches_are_seated_anew(self, database: Database, lesson: MadeLesson) -> None:
        first = make.record_of(database, lesson).designs[0]
        after = mend(database, lesson, designs=[first], benches=plans("Alder", "Hazel"))
        assert [design.letter for design in after.designs] == ["A"]
        assert {cord.design_id for bench in after.benches for cord in bench.specimens} == {first.id}

    def test_the_design_of_a_cord_that_hung_stays(self, database: Database, lesson: MadeLesson) -> None:
        make.make_reading(database, make.join(database, lesson, bench="Hazel"))
        first = make.record_of(database, lesson).designs[0]
        with pytest.raises(InUse):
            mend(database, lesson, designs=[first], benches=plans("Alder", "Hazel"))

    def test_benches_come_and_go_and_keep_their_slips(self, database: Database, lesson: MadeLesson) -> None:
        after = mend(database, lesson, benches=plans("Hazel", "Oak"))
        assert [bench.word for bench in after.benches] == ["Hazel", "Oak"]
        codes = lessons.slip_codes(database, lesson.lesson_id)
        assert codes[after.benches[0].id] == lesson.slips["Hazel"]

    def test_a_joined_bench_without_entries_may_go(self, database: Database, lesson: MadeLesson) -> None:
        make.join(database, lesson, bench="Alder")
        assert [bench.word for bench in mend(database, lesson, benches=plans("Hazel")).benches] == ["Hazel"]

    @pytest.mark.parametrize("entry", ["reading", "measure", "event", "ending", "cord", "weighing", "ruling"])
    def test_a_bench_with_entries_stays(self, database: Database, lesson: MadeLesson, entry: str) -> None:
        bench = make.join(database, lesson, bench="Alder")
        entries: dict[str, Callable[[], object]] = {
            "reading": lambda: make.make_reading(database, bench),
            "measure": lambda: make.make_measure(database, bench),
            "event": lambda: make.make_event(database, bench),
            "ending": lambda: make.make_ending(database, bench),
            "cord": lambda: make.make_fresh_cord(database, bench),
            "weighing": lambda: make.make_weighing(database, bench.target, mark=1),
            "ruling": lambda: make.make_ruling(database, bench.target, about=bench.specimen_id),
        }
        entries[entry]()
        with pytest.raises(InUse):
            mend(database, lesson, benches=plans("Hazel"))

    def test_the_bench_on_the_front_screen_may_go(self, database: Database, lesson: MadeLesson) -> None:
        running.set_stage(database, lesson.lesson_id, {"front_view": "one_bench", "front_bench": "alder"}, at=MORNING)
        after = mend(database, lesson, benches=plans("Hazel"))
        assert after.front_bench_id in (None, *[bench.id for bench in after.benches])

    def test_a_material_goes_with_the_last_design_of_it(self, database: Database, lesson: MadeLesson) -> None:
        sack = MaterialRecord(id=make.new_id(), name="sack")
        designs = make.record_of(database, lesson).designs
        of_sack = [replace(one, material_id=sack.id) for one in designs]
        assert mend(database, lesson, materials=[sack], designs=of_sack).materials == (sack,)
        assert mend(database, lesson, materials=[], designs=designs).materials == ()

    def test_a_material_that_a_design_is_of_stays(self, database: Database, lesson: MadeLesson) -> None:
        sack = MaterialRecord(id=make.new_id(), name="sack")
        designs = [replace(one, material_id=sack.id) for one in make.record_of(database, lesson).designs]
        mend(database, lesson, materials=[sack], designs=designs)
        with pytest.raises((InUse, InvalidEntry)):
            mend(database, lesson, materials=[])

    def test_a_material_that_designs_are_of_is_mended_alone_and_so_are_they(
        self, database: Database, lesson: MadeLesson
    ) -> None:
        sack = MaterialRecord(id=make.new_id(), name="sack")
        designs = [replace(one, material_id=sack.id) for one in make.record_of(database, lesson).designs]
        mend(database, lesson, materials=[sack], designs=designs)
        thicker = replace(sack, thickness_um=20.0)
        assert mend(database, lesson, materials=[thicker]).materials == (thicker,)
        wider = [replace(one, strip_width_mm=25.0) for one in designs]
        assert mend(database, lesson, designs=wider).designs == tuple(wider)

    def test_variables_are_replaced(self, database: Database, lesson: MadeLesson) -> None:
        strands = VariableRecord(id=make.new_id(), role="changed", name="strands", place=0)
        assert mend(database, lesson, variables=[strands]).variables == (strands,)
        assert mend(database, lesson, variables=[]).variables == ()

    @pytest.mark.parametrize(
        ("lists", "field"),
        [
            ({"designs": also_b(name="n" * 61)}, "designs"),
            ({"designs": also_b(name="a\x00b")}, "designs"),
            ({"designs": [*also_b(), DesignRecord(id="d", letter="AB", name="two letters")]}, "designs"),
            ({"designs": also_b(name="of nothing", material_id="none")}, "designs"),
            ({"designs": also_b(name="many", strands=10**12)}, "designs"),
            ({"designs": also_b(name="long", free_length_mm=float("inf"))}, "designs"),
            ({"rungs": [RungRecord(mark=1, name="n" * 41, printed_mass_g=100.0)]}, "rungs"),
            ({"rungs": [RungRecord(mark=1, name="\x00", printed_mass_g=100.0)]}, "rungs"),
            ({"rungs": [RungRecord(mark=1, name="heavy", printed_mass_g=60_000.0)]}, "rungs"),
            ({"rungs": [RungRecord(mark=2, name="no first", printed_mass_g=100.0)]}, "rungs"),
            ({"benches": [BenchPlan(word="two words", design="A")]}, "benches"),
            ({"benches": [BenchPlan(word="Oak", design="Z")]}, "benches"),
            ({"benches": [BenchPlan(word="Oak", design="A", scale_division_mm=0.0)]}, "benches"),
            ({"benches": [BenchPlan(word="Oak", design="A", kind="other")]}, "benches"),
            ({"benches": plans("Oak", "oak")}, "benches"),
            ({"variables": [VariableRecord(id="v", role="changed", name="n" * 61, place=0)]}, "variables"),
            ({"variables": [VariableRecord(id="v", role="played", name="n", place=0)]}, "variables"),
            ({"materials": [MaterialRecord(id="m", name="n" * 61)]}, "materials"),
        ],
    )
    def test_what_cannot_be_is_refused_beside_its_list(
        self, database: Database, lesson: MadeLesson, lists: dict[str, Any], field: str
    ) -> None:
        with pytest.raises(InvalidEntry) as refused:
            mend(database, lesson, **lists)
        assert {fault.field for fault in refused.value.faults} == {field}


class TestSharingOut:
    def test_by_a_stated_seed_it_can_be_made_again(self, database: Database, lesson: MadeLesson) -> None:
        mend(database, lesson, benches=[BenchPlan(word=f"Bench{n}", design="A") for n in "abcdefgh"])

        def shared(seed: int) -> list[str]:
            planning.share_benches_out(database, lesson.lesson_id, seed=seed, at=MORNING)
            record = make.record_of(database, lesson)
            assert record.allocation_seed == seed
            return [record.design(bench.design_id).letter for bench in record.benches]

        first = shared(3)
        assert shared(4) != first or shared(5) != first
        assert shared(3) == first
        assert sorted(first) == list("AAAABBBB")

    def test_a_bench_with_entries_keeps_its_design(self, database: Database, lesson: MadeLesson) -> None:
        make.make_reading(database, make.join(database, lesson, bench="Alder"))
        for seed in range(4):
            planning.share_benches_out(database, lesson.lesson_id, seed=seed, at=MORNING)
            record = make.record_of(database, lesson)
            assert record.design(record.benches[0].design_id).letter == "A"

    def test_its_first_cord_goes_along(self, database: Database, lesson: MadeLesson) -> None:
        for seed in range(4):
            planning.share_benches_out(database, lesson.lesson_id, seed=seed, at=MORNING)
            for bench in make.record_of(database, lesson).benches:
                assert bench.specimens[0].design_id == bench.design_id


def test_a_weighing_of_every_tray_keeps_no_bench(database: Database, lesson: MadeLesson) -> None:
    make.make_weighing(database, Target(lesson_id=lesson.lesson_id), mark=1)
    assert len(mend(database, lesson, benches=plans("Hazel")).benches) == 1
