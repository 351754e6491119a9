"""Invented classes and files of a given size, to measure what the sums cost."""

import csv
import io
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from app.domain.records import LessonRecord, SpecimenRecord
from tests.cord_recipe import GRAVITY, HANGER_G, STEP_G, Case, make_cords
from tests.mechanics import cords as made

READINGS = 20
CORDS = 3
DESIGNS = 4
PHASES = ("zero", "load")
COLUMNS = ("specimen", "design", "group", "step", "phase", "mass_g", "pointer_mm", "outcome", "fail_mass_g")
KINDS = (
    Case(readings=READINGS),
    Case(readings=READINGS, toe="toe", bend="kink", ratio=2.0),
    Case(readings=READINGS, toe="small toe", bend="gradual", ratio=3.0),
)


def a_class(benches: int) -> LessonRecord:
    """A lesson: three cords a bench, each with 20 readings and broken by the last mass; masses differ by bench."""
    rng = np.random.default_rng(benches)
    designs = tuple(made.a_design(chr(ord("A") + place)) for place in range(DESIGNS))
    pointers = [make_cords(kind, benches, seed=place).pointer_mm.tolist() for place, kind in enumerate(KINDS)]
    return made.a_lesson(
        *(
            made.a_bench(
                *(_cord(bench, no, pointers[no - 1][bench]) for no in range(1, CORDS + 1)),
                id=f"bench-{bench}",
                word=f"Bench{bench}",
                place=bench + 1,
                design_id=designs[bench % DESIGNS].id,
            )
            for bench in range(benches)
        ),
        designs=designs,
        rungs=made.a_ladder(*[STEP_G] * READINGS),
        weighings=tuple(
            made.a_weighing(mark, mass_g, bench_id=f"bench-{bench}")
            for bench in range(benches)
            for mark, mass_g in enumerate([HANGER_G, *(STEP_G * rng.uniform(0.9, 1.1, READINGS))])
        ),
        gravity_m_per_s2=GRAVITY,
    )


def _cord(bench: int, no: int, pointers: Sequence[float]) -> SpecimenRecord:
    entry_id = f"bench-{bench}-{no}"
    return made.a_specimen(
        entry_id=entry_id,
        bench_id=f"bench-{bench}",
        specimen_no=no,
        design_id=f"design-{chr(ord('A') + bench % DESIGNS)}",
        readings=tuple(made.a_reading(step, at, specimen_id=entry_id) for step, at in enumerate(pointers)),
        endings=(made.an_ending("broke_adding", READINGS, specimen_id=entry_id),),
    )


def with_another_reading(lesson: LessonRecord) -> LessonRecord:
    """The lesson after its first bench put its last reading right by 1 mm."""
    bench = lesson.benches[0]
    cord = bench.specimens[0]
    last = cord.readings[-1]
    again = made.changed(last, pointer_mm=last.pointer_mm + 1)
    cord = replace(cord, readings=(*cord.readings, again))
    bench = replace(bench, specimens=(cord, *bench.specimens[1:]))
    return replace(lesson, benches=(bench, *lesson.benches[1:]))


def a_file(rows: int) -> bytes:
    """A readings file of so many rows: 20 a cord, five cords a group, two designs for each kind of cord."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(COLUMNS)
    count = rows // READINGS
    for place, kind in enumerate(KINDS):
        share = count // len(KINDS) + (place < count % len(KINDS))
        for no, pointers in enumerate(make_cords(kind, share, seed=place).pointer_mm.tolist()):
            writer.writerows(_rows("ABCDEF"[place + len(KINDS) * (no % 2)], no, pointers))
    return text.getvalue().encode()


def _rows(design: str, no: int, pointers: Sequence[float]) -> list[tuple[object, ...]]:
    mass_g = [HANGER_G + STEP_G * step + no % 40 for step in range(READINGS + 1)]
    return [
        (f"{design}{no}", design, f"G{no // 5}", step, PHASES[step > 0], mass_g[step], pointer, "broke", mass_g[-1])
        for step, pointer in enumerate(pointers)
    ]
