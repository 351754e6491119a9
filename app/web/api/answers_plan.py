"""What /api/v1 answers about a lesson's plan."""

from datetime import date, datetime
from typing import Any

from app.web.api.kinds import Answer


class BenchMade(Answer):
    bench: str
    word: str
    design: str
    slip_code: str


class LessonMade(Answer):
    """A new lesson, with what opens it."""

    lesson_id: str
    lesson_key: str
    front_code: str
    benches: list[BenchMade]


class LessonListed(Answer):
    lesson_id: str
    title: str
    question: str
    planned_on: date | None
    stage: str
    shelved_at: datetime | None
    mine: bool
    head: int


class LessonsAnswer(Answer):
    lessons: list[LessonListed]


class MaterialSaid(Answer):
    id: str
    name: str
    form: str | None
    flat_width_mm: float | None
    height_mm: float | None
    gusset_mm: float | None
    seams: str | None
    woven: bool | None
    direction_found: str | None
    mass_per_area_g_m2: float | None
    thickness_um: float | None
    density_kg_m3: float | None
    strength_low_mpa: float | None
    strength_high_mpa: float | None
    strength_source: str | None


class VariableSaid(Answer):
    id: str
    role: str
    name: str
    unit: str | None
    value_words: str | None
    instrument: str | None
    division: float | None
    place: int


class DesignPlanSaid(Answer):
    id: str
    letter: str
    name: str
    material_id: str | None
    is_yardstick: bool
    level: float | None
    level_words: str | None
    strands: int | None
    layers: int | None
    lay_up: str | None
    direction: str | None
    strip_width_mm: float | None
    free_length_mm: float | None
    take_up_factor: float | None
    linear_density_g_per_m: float | None
    end_fixing: str | None
    pitch_per_100_mm: float | None


class RungSaid(Answer):
    mark: int
    name: str
    printed_mass_g: float | None
    printed_kind: str


class BenchPlanSaid(Answer):
    """A bench of the plan; its slip code only for the lesson's own teacher."""

    bench: str
    word: str
    kind: str
    design: str
    scale_unit: str
    scale_division_mm: float | None
    scale_way: str
    open_again: bool
    place: int
    slip_code: str | None


class PlanAnswer(Answer):
    """The plan whole; what opens the lesson is null for another teacher, who reads it on the shelf."""

    lesson_id: str
    head: int
    mine: bool
    title: str
    question: str
    year_band: str | None
    planned_on: date | None
    depth: str
    stage: str
    lesson_key: str | None
    front_code: str | None
    gravity_m_per_s2: float
    gravity_from: str | None
    wait_s: int
    later_wait_s: int
    scale_division_mm: float
    judgement_mm: float
    printed_mass_tolerance_percent: float
    offset_strain_percent: float
    return_after_steps: str
    own_graph: bool
    free_text: bool
    graph_open: bool
    front_view: str
    front_bench: str | None
    countdown_to: datetime | None
    paused: bool
    masses_down_at: datetime | None
    over_at: datetime | None
    shelved_at: datetime | None
    own: bool
    keep_until: date | None
    slot_min: int | None
    allocation_seed: int | None
    planning: dict[str, Any]
    notes: str
    copied_from: str | None
    designs: list[DesignPlanSaid]
    rungs: list[RungSaid]
    benches: list[BenchPlanSaid]
    variables: list[VariableSaid]
    materials: list[MaterialSaid]
