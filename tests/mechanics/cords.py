"""Records made by hand for pure tests: sensible defaults, everything else by keyword."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import count
from typing import Any

from app.domain.records import (
    BenchRecord,
    DesignRecord,
    Ending,
    Event,
    LessonRecord,
    Measure,
    Reading,
    Ruling,
    RungRecord,
    SpecimenRecord,
    Weighing,
)
from app.mechanics.classwork import SpecimenPicture, specimen_picture

ZERO_AT = datetime(2026, 3, 12, 9, 38, 20, tzinfo=UTC)
_numbers = count(1)


def entry(**more: Any) -> dict[str, Any]:
    """The columns that every entry has; numbers grow in the order in which entries are made."""
    n = more.pop("n", None) or next(_numbers)
    return {"entry_id": f"entry-{n}", "n": n, "by": "bench", "received_at": ZERO_AT, **more}


def a_reading(step: int, pointer_mm: float, **more: Any) -> Reading:
    facts = {
        "specimen_id": "cord",
        "step": step,
        "phase": "load" if step else "zero",
        "turn": 1,
        "pointer_typed": f"{pointer_mm:g}",
        "pointer_unit": "mm",
        "pointer_mm": float(pointer_mm),
        "waited_s": 20.0 if step else None,
        "received_at": ZERO_AT + timedelta(seconds=45 * step),
    }
    return Reading(**entry(**(facts | more)))


def readings_of(row: str, **more: Any) -> tuple[Reading, ...]:
    """A row of pointer readings, zero first."""
    return tuple(a_reading(step, float(text), **more) for step, text in enumerate(row.split()))


def an_event(kind: str, step: int | None, **more: Any) -> Event:
    facts = {"bench_id": "bench", "specimen_id": "cord", "step": step, "after_reading": False, "kind": kind}
    return Event(**entry(**(facts | more)))


def an_ending(kind: str, fail_step: int | None = None, **more: Any) -> Ending:
    return Ending(**entry(**({"specimen_id": "cord", "kind": kind, "fail_step": fail_step} | more)))


def a_ruling(kind: str, about_id: str, **more: Any) -> Ruling:
    return Ruling(**entry(**({"about_table": "reading", "about_id": about_id, "kind": kind} | more)))


def a_weighing(mark: int, mass_g: float, **more: Any) -> Weighing:
    facts = {"bench_id": None, "mark": mark, "mass_g": float(mass_g), "balance_division_g": 1.0}
    return Weighing(**entry(**(facts | more)))


def a_measure(quantity: str, value: float, **more: Any) -> Measure:
    facts = {
        "bench_id": "bench",
        "specimen_id": "cord",
        "quantity": quantity,
        "place": 1,
        "typed": f"{value:g}",
        "unit": "mm",
        "value": value,
    }
    return Measure(**entry(**(facts | more)))


def a_specimen(**more: Any) -> SpecimenRecord:
    facts = {"entry_id": "cord", "bench_id": "bench", "specimen_no": 1, "design_id": "design-A"}
    return SpecimenRecord(**entry(**(facts | more)))


def a_bench(*specimens: SpecimenRecord, **more: Any) -> BenchRecord:
    facts: dict[str, Any] = {"id": "bench", "word": "Alder", "kind": "class", "design_id": "design-A", "place": 1}
    return BenchRecord(**(facts | {"specimens": specimens} | more))


def a_design(letter: str = "A", **more: Any) -> DesignRecord:
    facts: dict[str, Any] = {"id": f"design-{letter}", "letter": letter, "name": f"design {letter}"}
    return DesignRecord(**(facts | more))


def a_ladder(*printed_mass_g: float | None) -> tuple[RungRecord, ...]:
    return tuple(RungRecord(mark=mark, name=f"{mark}", printed_mass_g=g) for mark, g in enumerate(printed_mass_g, 1))


def weighed(*mass_g: float, **more: Any) -> tuple[Weighing, ...]:
    """Balance masses: the hanger first, then the rungs."""
    return tuple(a_weighing(mark, g, **more) for mark, g in enumerate(mass_g))


def a_lesson(*benches: BenchRecord, **more: Any) -> LessonRecord:
    """A lesson under way with ten rungs of 100 g on a hanger of 100 g, weighed, g = 10 m/s2: a newton a rung."""
    unset: dict[str, Any] = dict.fromkeys(LessonRecord.__dataclass_fields__)
    facts: dict[str, Any] = {
        "id": "lesson",
        "title": "Invented",
        "head": 1,
        "stage": "testing",
        "gravity_m_per_s2": 10.0,
        "scale_division_mm": 1.0,
        "judgement_mm": 0.5,
        "printed_mass_tolerance_percent": 10.0,
        "offset_strain_percent": 1.0,
        "designs": (a_design(),),
        "rungs": a_ladder(*[100.0] * 10),
        "weighings": weighed(*[100.0] * 11),
        "variables": (),
        "materials": (),
        "events": (),
        "rulings": (),
        "benches": benches,
    }
    return LessonRecord(**(unset | facts | more))


def one_cord(*readings: Reading, rulings: tuple[Ruling, ...] = (), **more: Any) -> LessonRecord:
    """A lesson of one bench with one cord of those readings."""
    return a_lesson(a_bench(a_specimen(readings=readings, **more)), rulings=rulings)


def picture_of(lesson: LessonRecord) -> SpecimenPicture:
    """The picture of the first cord of the first bench."""
    bench = lesson.benches[0]
    return specimen_picture(lesson, bench, bench.specimens[0])


def changed(reading: Reading, **more: Any) -> Reading:
    """The entry that replaces a reading, ten minutes later."""
    facts = {"replaces": reading.entry_id, "reason": "typed_wrong"}
    return replace(reading, **entry(**(facts | {"received_at": reading.received_at + timedelta(minutes=10)} | more)))
