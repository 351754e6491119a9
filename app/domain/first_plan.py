"""The plan that a teacher's first lesson begins with: an invented one; every later lesson begins with the last."""

import uuid
from collections.abc import Callable

from app.domain.plan import BenchPlan, LessonPlan
from app.domain.records import DesignRecord, VariableRecord
from app.domain.star import design_name
from app.domain.two_stage import TwoStage, ladder_of

BENCHES = 10
_KEPT = (("sheet", "garden fleece, 17 g/m²", None), ("strip width", "25", "mm"), ("free length", "300", "mm"),
         ("knot", "overhand", None), ("room", "", None))  # fmt: skip


def first_plan(new_id: Callable[[], str] = lambda: str(uuid.uuid4())) -> LessonPlan:
    """One design of three plaited strips for ten benches, 18 pouches, a scale in millimetres; no title yet."""
    design = DesignRecord(
        id=new_id(),
        letter="A",
        name="",
        is_yardstick=True,
        strands=3,
        layers=1,
        lay_up="plait_flat",
        direction="along",
        strip_width_mm=25.0,
        free_length_mm=300.0,
        end_fixing="knot",
    )
    stages = TwoStage(rung_word="pouch", first_count=4, first_mass_g=100.0, then_count=14, then_mass_g=200.0)
    changed = VariableRecord(id=new_id(), role="changed", name="strips and cut", place=0)
    measured = [
        VariableRecord(id=new_id(), role="measured", name=name, unit=unit, place=place)
        for place, (name, unit) in enumerate((("extension", "mm"), ("breaking force", "N")), start=1)
    ]
    kept = [
        VariableRecord(id=new_id(), role="kept", name=name, value_words=words or None, unit=unit, place=place)
        for place, (name, words, unit) in enumerate(_KEPT, start=3)
    ]
    return LessonPlan(
        lesson={
            "question": "What changes a fleece cord more: how many strips, or which way we cut them?",
            "gravity_m_per_s2": 9.81,
            "wait_s": 20,
            "scale_division_mm": 1.0,
            "planning": {"hanger_name": "bucket"},
        },
        designs=[DesignRecord(**{**vars(design), "name": design_name(design)})],
        rungs=ladder_of(stages),
        benches=[BenchPlan() for _ in range(BENCHES)],
        variables=[changed, *measured, *kept],
    )
