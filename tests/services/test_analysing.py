"""A lesson's class CSV, fed to `analyse`, gives what the lesson's own pages show, to the last digit."""

import json
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.domain.errors import UnreadableFile
from app.domain.records import Ending, Event, LessonRecord, Reading
from app.domain.vocabulary import DEPTHS
from app.mechanics.classwork import class_picture
from app.services import seeding, teachers
from app.services.analysing import Analysis, analyse, as_json
from app.services.files import class_csv
from app.services.picture import see
from app.services.report import report
from app.services.report_layout import WIDTH
from app.store.database import Database
from app.transfer.reading_options import ReadingOptions
from tests.mechanics.cords import (
    a_bench,
    a_lesson,
    a_measure,
    a_reading,
    a_ruling,
    a_specimen,
    an_ending,
    an_event,
    changed,
)

AT = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)
LAST_YEAR = json.loads((seeding.FOLDER / "last_year.json").read_text(encoding="utf-8"))["lesson_id"]
ONE = "specimen,mass_g,pointer_mm,outcome,fail_mass_g\n" + "".join(
    f"one,{100 * step},{200 + 10 * step},broke,1200\n" for step in range(1, 11)
)


def of_file(text: str, **options: Any) -> Analysis:
    return analyse(text.encode(), ReadingOptions(**options), depth="second")


def test_each_demo_lesson_comes_back_to_the_last_digit(database: Database) -> None:
    teachers.add_teacher(database, teachers.FIRST_NAME, password=None, at=AT)
    made = seeding.load_demo(database, at=AT)
    assert made is not None
    for lesson_id in (seeding.FINISHED, LAST_YEAR, made.lesson_id):
        picture = see(database, lesson_id).picture
        assert of_file(class_csv(picture)).sums == picture.sums
        assert len(picture.sums.cords) > 3


def test_two_ways_of_writing_a_file_give_the_same() -> None:
    semicolons = ONE.replace(",", ";").replace("1200", "1200,0")
    assert of_file(semicolons).sums == of_file(ONE).sums


def test_the_json_has_what_the_contract_names() -> None:
    told = json.loads(json.dumps(as_json(of_file(ONE, gravity_m_per_s2=10.0)), allow_nan=False))
    assert told["settings"]["gravity_m_per_s2"] == 10.0
    (cord,) = told["specimens"]
    assert cord["stiffness_N_per_mm"]["unit"] == "N/mm"
    assert cord["stiffness_N_per_mm"]["value"] == pytest.approx(0.1)
    assert {"low", "high"} <= cord["limit_of_proportionality_N"].keys()
    assert cord["break_force_N"] == {"low": 10.0, "high": 12.0}
    assert cord["permanent_set_mm"].keys() == {"value", "why"}
    assert {point["step"]: point["extension_mm"] for point in cord["points"]}[9] == 90.0
    assert {"toe_mm", "work_J", "youngs_modulus_MPa", "tenacity_cN_per_tex", "breaking_length_km"} <= cord.keys()
    assert {"designs", "differences", "repeatability"} <= told.keys()


def test_an_unbroken_cord_has_its_low_end_and_a_why() -> None:
    held = ONE.replace("broke,1200", "held,").replace("specimen", "linear_density_g_per_m,specimen", 1)
    text = held.replace("\none", "\n1.5,one")
    (cord,) = as_json(of_file(text))["specimens"]
    assert cord["tenacity_cN_per_tex"]["value"] is None
    assert cord["tenacity_cN_per_tex"]["why"]
    assert cord["tenacity_cN_per_tex"]["low"] == pytest.approx(1000 * 9.80665 / 1000 / 1.5 / 10)


def test_depth_changes_words_and_no_number() -> None:
    text = "design,group," + ONE.splitlines()[0] + "\n"
    for design, base in (("A", 1000), ("B", 1300)):
        for group in "xy":
            rows = ONE.replace("one", f"{design}{group}").replace("1200", str(base + 200 + 10 * ord(group) % 37))
            text += "".join(f"{design},{group}{design},{row}\n" for row in rows.splitlines()[1:])
    told = {depth: as_json(analyse(text.encode(), ReadingOptions(), depth=depth)) for depth in ("first", "third")}
    for each in told.values():
        each["settings"].pop("depth")
    words = {depth: [each.pop("words") for each in told[depth]["differences"]] for depth in told}
    assert told["first"] == told["third"]
    assert words["first"] != words["third"]


def test_more_designs_than_anyone_compares_are_not_compared() -> None:
    head, *rows = ONE.splitlines()
    text = f"design,{head}\n" + "".join(
        f"d{place},{row.replace('one', f's{place}')}\n" for place in range(61) for row in rows
    )
    told = as_json(of_file(text))
    assert (len(told["designs"]), told["differences"]) == (61, [])
    assert any("60 designs" in doubt for doubt in told["doubts"])


def test_a_bad_file_is_refused_whole() -> None:
    with pytest.raises(UnreadableFile) as refused:
        of_file(ONE.replace("one,300,", "one,x,").replace(",300,", ",y,"))
    assert [(problem.line, problem.column) for problem in refused.value.problems] == [(4, "mass_g"), (11, "pointer_mm")]


readings = st.lists(
    st.tuples(
        st.integers(0, 12),
        st.sampled_from(["load", "load", "load", "later", "return", "hung_again", "unload", "pointer_put_back"]),
        st.integers(-400, 900).map(lambda tenths: tenths / 10),
        st.booleans(),
    ),
    max_size=14,
    unique_by=lambda each: each[:2],
)
happened = st.lists(
    st.tuples(
        st.sampled_from(["knot_slipped", "pointer_moved", "support_moved", "other_mass", "strand_went", "pause"]),
        st.integers(0, 12),
        st.booleans(),
    ),
    max_size=4,
)
endings = st.sampled_from(["broke_adding", "broke_waiting", "knot_undone", "did_not_break", "touched_tray", None])


def told(place: int, rows: list[Any], events: list[Any], kind: str | None) -> tuple[list[Any], dict[str, Any]]:
    """The readings of one cord, some of them mended, left out or answered by a second tablet; what else was told."""
    cord = f"cord-{place}"
    zero = a_reading(0, 200, specimen_id=cord)
    seen: list[Reading] = [zero]
    out: list[Reading] = []
    for step, phase, moved, odd in rows:
        if phase == "load" and step == 0:
            continue
        one = a_reading(step, 200 + 10 * step + moved, phase=phase, specimen_id=cord)
        seen.append(one)
        if odd and step % 3 == 0:
            out.append(one)
        elif odd and step % 3 == 1:
            seen.append(changed(one, pointer_mm=one.pointer_mm + 1))
        elif odd:
            seen.append(a_reading(step, 210 + 10 * step, phase=phase, specimen_id=cord))
    told_events: list[Event] = [
        an_event(code, step, after_reading=after, specimen_id=cord, mark=3 if code == "other_mass" else None)
        for code, step, after in events
    ]
    ends: tuple[Ending, ...] = () if kind is None else (an_ending(kind, 9, specimen_id=cord, place="at_knot"),)
    return out, {
        "entry_id": cord,
        "readings": tuple(seen),
        "events": tuple(told_events),
        "endings": ends,
        "measures": (a_measure("free_length_mm", 297.3, specimen_id=cord),),
    }


@st.composite
def some_lesson(draw: st.DrawFn) -> LessonRecord:
    """A lesson of up to three benches with whatever may befall them."""
    benches, rulings = [], []
    for place in range(draw(st.integers(1, 3))):
        out, facts = told(place, draw(readings), draw(happened), draw(endings))
        rulings += [a_ruling("left_out", one.entry_id, reason="misread, =1+1") for one in out]
        facts["bench_id"] = f"bench-{place}"
        benches.append(
            a_bench(
                a_specimen(**facts),
                id=f"bench-{place}",
                word=("Alder", "Hazel", "Birch")[place],
                place=place,
                scale_way=draw(st.sampled_from(["down", "up"])),
            )
        )
    return a_lesson(*benches, rulings=tuple(rulings), gravity_m_per_s2=draw(st.sampled_from([9.81, 9.80665])))


@given(some_lesson())
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_any_lesson_comes_back_to_the_last_digit(lesson: LessonRecord) -> None:
    picture = class_picture(lesson)
    found = of_file(class_csv(picture))
    assert found.sums == picture.sums
    json.dumps(as_json(found), allow_nan=False)
    for depth in DEPTHS:
        assert max(map(len, report(replace(found, depth=depth), "class.csv").splitlines())) <= WIDTH
