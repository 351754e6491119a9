"""The plan of a lesson as /api/v1 takes it: any column of the stored plan, under its stored name."""

from datetime import date
from typing import Annotated

from pydantic import AfterValidator, Field

from app.domain import limits, vocabulary
from app.web.api.kinds import Anything, Body, Id, Line, Moment, Name, OneOf, Short, Text, Whole, between, no_nul

Letter = Annotated[str, Field(min_length=1, max_length=1, pattern="^[A-Z]$")]
Size = Annotated[float, between((0.0, 1_000_000.0))]
Count = Annotated[Whole, between((1, 1_000))]
Place = Annotated[Whole, between((0, 1_000))]
Percent = Annotated[float, between((0.0, 100.0))]
Seconds = Annotated[Whole, between(limits.WAIT_S)]
Unit = Annotated[Text, Field(max_length=12)]
Notes = Annotated[str, AfterValidator(no_nul), Field(max_length=4_000)]
Word = Annotated[str, Field(max_length=20)]


class MaterialBody(Body):
    """What cords are made of; `id` is what designs of the same plan call it by."""

    id: Id | None = None
    name: Name = ""
    form: Annotated[str, OneOf(vocabulary.MATERIAL_FORMS)] | None = None
    flat_width_mm: Size | None = None
    height_mm: Size | None = None
    gusset_mm: Size | None = None
    seams: Annotated[str, OneOf(vocabulary.SEAMS)] | None = None
    woven: bool | None = None
    direction_found: Name | None = None
    mass_per_area_g_m2: Size | None = None
    thickness_um: Size | None = None
    density_kg_m3: Size | None = None
    strength_low_mpa: Size | None = None
    strength_high_mpa: Size | None = None
    strength_source: Line | None = None


class VariableBody(Body):
    """What is changed, measured, kept the same or not controlled."""

    id: Id | None = None
    role: Annotated[str, OneOf(vocabulary.VARIABLE_ROLES)]
    name: Name
    unit: Unit | None = None
    value_words: Name | None = None
    instrument: Name | None = None
    division: Size | None = None
    place: Place | None = None


class DesignBody(Body):
    """One version of the cord; without a letter it takes the next of A, B, C ..."""

    id: Id | None = None
    letter: Letter | None = None
    name: Name = ""
    material_id: Id | None = None
    is_yardstick: bool = False
    level: Annotated[float, between((-1e9, 1e9))] | None = None
    level_words: Short | None = None
    strands: Count | None = None
    layers: Count | None = None
    lay_up: Annotated[str, OneOf(vocabulary.LAY_UPS)] | None = None
    direction: Annotated[str, OneOf(vocabulary.DIRECTIONS)] | None = None
    strip_width_mm: Size | None = None
    free_length_mm: Annotated[float, between(limits.GAUGE_LENGTH_MM)] | None = None
    take_up_factor: Size | None = None
    linear_density_g_per_m: Size | None = None
    end_fixing: Annotated[str, OneOf(vocabulary.END_FIXINGS)] | None = None
    pitch_per_100_mm: Size | None = None


class RungBody(Body):
    """One rung of the ladder; without a mark it takes its place in the list, from 1."""

    mark: Annotated[Whole, between((1, limits.RUNGS_MOST))] | None = None
    name: Short = "mass"
    printed_mass_g: Annotated[float, between(limits.ONE_MASS_G)] | None = None
    printed_kind: Annotated[str, OneOf(vocabulary.PRINTED_KINDS)] = "none"


class BenchPlanBody(Body):
    """A group's place; without a word it takes the next bench word, without a design one is shared out to it."""

    word: Word | None = None
    design: Letter | None = None
    kind: Annotated[str, OneOf(vocabulary.BENCH_KINDS)] | None = None
    scale_unit: Annotated[str, OneOf(vocabulary.SCALE_UNITS)] | None = None
    scale_division_mm: Annotated[float, between(limits.DIVISION_MM)] | None = None
    scale_way: Annotated[str, OneOf(vocabulary.SCALE_WAYS)] | None = None
    place: Place | None = None


class PlanColumns(Body):
    """The columns of a lesson that a teacher plans; what is not said has its ordinary value, or stays."""

    title: Line = ""
    question: Annotated[Text, Field(max_length=300)] = ""
    year_band: Annotated[Text, Field(max_length=20)] | None = None
    planned_on: date | None = None
    depth: Annotated[str, OneOf(vocabulary.DEPTHS)] = "first"
    gravity_m_per_s2: Annotated[float, between(limits.GRAVITY)] = 9.80665
    gravity_from: Short | None = None
    wait_s: Seconds = 20
    later_wait_s: Seconds = 40
    scale_division_mm: Annotated[float, between(limits.DIVISION_MM)] = 1.0
    judgement_mm: Percent = 0.5
    printed_mass_tolerance_percent: Percent = 10.0
    offset_strain_percent: Percent = 1.0
    return_after_steps: Name = ""
    own_graph: bool = True
    free_text: bool = False
    countdown_to: Moment | None = None
    keep_until: date | None = None
    slot_min: Annotated[Whole, between((1, 600))] | None = None
    planning: Anything = Field(default_factory=dict)
    notes: Notes = ""
    allocation_seed: Annotated[Whole, between((0, 2_000_000_000))] | None = None


Benches = Annotated[list[BenchPlanBody], Field(min_length=1, max_length=limits.BENCHES_MOST)]
Designs = Annotated[list[DesignBody], Field(min_length=1, max_length=limits.DESIGNS_MOST)]
Rungs = Annotated[list[RungBody], Field(min_length=1, max_length=limits.RUNGS_MOST)]
Variables = Annotated[list[VariableBody], Field(max_length=60)]
Materials = Annotated[list[MaterialBody], Field(max_length=30)]


class PlanBody(PlanColumns):
    """A whole plan; benches by list, or only how many."""

    title: Line
    designs: Designs
    rungs: Rungs
    benches: Benches | None = None
    bench_count: Annotated[Whole, between((1, limits.BENCHES_MOST))] | None = None
    variables: Variables = Field(default_factory=list)
    materials: Materials = Field(default_factory=list)


class PlanChangesBody(PlanColumns):
    """What is to be changed of a plan; a list that is said stands for the whole list."""

    designs: Designs | None = None
    rungs: Rungs | None = None
    benches: Benches | None = None
    variables: Variables | None = None
    materials: Materials | None = None
