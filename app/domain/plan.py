"""The plan of a lesson: what the lesson sheet says before anything hangs."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from app.domain import limits, vocabulary
from app.domain.errors import FieldFault, InvalidEntry
from app.domain.naming import BENCH_WORDS, check_bench_word, share_out
from app.domain.plan_faults import CANT_BE_KEPT, thing_faults
from app.domain.quantities import STANDARD_GRAVITY_M_PER_S2
from app.domain.records import DesignRecord, MaterialRecord, RungRecord, VariableRecord

LESSON_DEFAULTS: Mapping[str, Any] = {
    "title": "",
    "question": "",
    "year_band": None,
    "planned_on": None,
    "depth": "first",
    "gravity_m_per_s2": STANDARD_GRAVITY_M_PER_S2,
    "gravity_from": None,
    "wait_s": 20,
    "later_wait_s": 40,
    "scale_division_mm": 1.0,
    "judgement_mm": 0.5,
    "printed_mass_tolerance_percent": 10.0,
    "offset_strain_percent": 1.0,
    "return_after_steps": "",
    "own_graph": True,
    "free_text": False,
    "countdown_to": None,
    "keep_until": None,
    "slot_min": None,
    "planning": {},
    "notes": "",
}
"""The columns of a lesson that a teacher plans, each with the value that it has when nothing is said."""

_TEXT_MOST = {"title": 120, "question": 300, "year_band": 20, "gravity_from": 40, "notes": 4000}
_RANGES: Mapping[str, tuple[float, float]] = {
    "gravity_m_per_s2": limits.GRAVITY,
    "wait_s": limits.WAIT_S,
    "later_wait_s": limits.WAIT_S,
    "scale_division_mm": limits.DIVISION_MM,
    "judgement_mm": limits.JUDGEMENT_MM,
    "printed_mass_tolerance_percent": (0.0, 100.0),
    "offset_strain_percent": (0.0, 100.0),
    "slot_min": (1, 600),
}


@dataclass(frozen=True, kw_only=True)
class BenchPlan:
    """A bench as planned; without a word or a design it gets the next word, and a shared-out design."""

    word: str | None = None
    design: str | None = None
    kind: str = "class"
    scale_unit: str = "mm"
    scale_division_mm: float | None = None
    scale_way: str = "down"


@dataclass(frozen=True, kw_only=True)
class LessonPlan:
    """A whole plan; `lesson` holds the columns of LESSON_DEFAULTS that were said."""

    lesson: Mapping[str, Any]
    designs: Sequence[DesignRecord]
    rungs: Sequence[RungRecord]
    benches: Sequence[BenchPlan]
    variables: Sequence[VariableRecord] = field(default=())
    materials: Sequence[MaterialRecord] = field(default=())


def check_plan(plan: LessonPlan) -> None:
    """Nothing, or every fault of the plan at once, each with its field."""
    faults = [*column_faults(plan.lesson), *_list_faults(plan)]
    if not str(plan.lesson.get("title", "")).strip():
        faults.insert(0, FieldFault("title", "Give the lesson a title, so that you find it again."))
    if faults:
        raise InvalidEntry(faults[0].words, faults=tuple(faults))


def column_faults(columns: Mapping[str, Any]) -> list[FieldFault]:
    """What is wrong with single columns of a lesson."""
    faults = []
    for name, value in columns.items():
        if name in _TEXT_MOST and value is not None and len(value) > _TEXT_MOST[name]:
            faults.append(FieldFault(name, f"At most {_TEXT_MOST[name]} characters."))
        if name in _RANGES and value is not None and not _RANGES[name][0] <= value <= _RANGES[name][1]:
            low, high = _RANGES[name]
            faults.append(FieldFault(name, f"That is outside what can be: {low:g} to {high:g}."))
        if isinstance(value, str) and "\x00" in value:
            faults.append(FieldFault(name, CANT_BE_KEPT))
    if columns.get("depth", "first") not in vocabulary.DEPTHS:
        faults.append(FieldFault("depth", "Choose first, second or third."))
    return faults


def _list_faults(plan: LessonPlan) -> list[FieldFault]:
    faults = []
    letters = [design.letter for design in plan.designs]
    for name, count, most in (
        ("designs", len(letters), limits.DESIGNS_MOST),
        ("rungs", len(plan.rungs), limits.RUNGS_MOST),
        ("benches", len(plan.benches), limits.BENCHES_MOST),
    ):
        if not 1 <= count <= most:
            faults.append(FieldFault(name, f"A lesson has 1 to {most} {name}."))
    if len(set(letters)) != len(letters):
        faults.append(FieldFault("designs", "Two designs have the same letter."))
    if not {design.material_id for design in plan.designs} <= {None, *(material.id for material in plan.materials)}:
        faults.append(FieldFault("designs", "A design is made of a material that the plan does not have."))
    if sorted(rung.mark for rung in plan.rungs) != list(range(1, len(plan.rungs) + 1)):
        faults.append(FieldFault("rungs", "The marks of a ladder run 1, 2, 3 ... without a gap, each once."))
    faults += [fault for bench in plan.benches for fault in _bench_faults(bench, letters)]
    words = [bench.word.lower() for bench in plan.benches if bench.word]
    if len(set(words)) != len(words):
        faults.append(FieldFault("benches", "Two benches have the same word."))
    for name in ("designs", "rungs", "variables", "materials", "benches"):
        faults += thing_faults(name, getattr(plan, name))
    faults += [FieldFault("rungs", f"Rung {rung.mark}: {_RUNG_WORDS}") for rung in plan.rungs if not _fits(rung)]
    if sum(rung.printed_mass_g or 0.0 for rung in plan.rungs) > limits.TOTAL_MASS_G:
        faults.append(FieldFault("rungs", f"All rungs together: at most {limits.TOTAL_MASS_G / 1000:g} kg."))
    return faults


_RUNG_WORDS = f"a mass lies between {limits.ONE_MASS_G[0]:g} g and {limits.ONE_MASS_G[1]:g} g."


def _fits(rung: RungRecord) -> bool:
    low, high = limits.ONE_MASS_G
    return rung.printed_mass_g is None or low <= rung.printed_mass_g <= high


def _bench_faults(bench: BenchPlan, letters: Sequence[str]) -> list[FieldFault]:
    faults = []
    if bench.design is not None and bench.design not in letters:
        faults.append(FieldFault("benches", f"There is no design {bench.design}."))
    if bench.word is not None:
        try:
            check_bench_word(bench.word)
        except InvalidEntry as refusal:
            faults.append(FieldFault("benches", refusal.sentence))
    return faults


def seated(plan: LessonPlan, seed: int) -> list[BenchPlan]:
    """The plan's benches, each with a word and a design; those without a design share the designs out by the seed."""
    yardstick = next((design.letter for design in plan.designs if design.is_yardstick), None)
    open_places = sum(bench.design is None for bench in plan.benches)
    shared = iter(share_out([design.letter for design in plan.designs], open_places, seed, yardstick))
    taken = {bench.word.lower() for bench in plan.benches if bench.word}
    words = iter([word for word in BENCH_WORDS if word.lower() not in taken])
    return [
        BenchPlan(
            word=bench.word or next(words),
            design=bench.design or next(shared),
            kind=bench.kind,
            scale_unit=bench.scale_unit,
            scale_division_mm=bench.scale_division_mm,
            scale_way=bench.scale_way,
        )
        for bench in plan.benches
    ]
