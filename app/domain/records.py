"""What passes between the layers: one lesson as it was planned and seen, frozen, free of rows."""

from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from typing import Any


@dataclass(frozen=True, kw_only=True)
class Entry:
    """What every append-only record carries: who sent it, when, and what it replaces."""

    entry_id: str
    n: int
    by: str
    received_at: datetime
    age_s: float = 0.0
    tablet_time: datetime | None = None
    tablet_id: str | None = None
    replaces: str | None = None
    reason: str | None = None

    @property
    def taken_at(self) -> datetime:
        """When it was typed, by the server's clock."""
        return self.received_at - timedelta(seconds=self.age_s)


@dataclass(frozen=True, kw_only=True)
class Reading(Entry):
    specimen_id: str
    step: int
    phase: str
    turn: int
    pointer_typed: str
    pointer_unit: str
    pointer_mm: float
    waited_s: float | None = None


@dataclass(frozen=True, kw_only=True)
class Event(Entry):
    bench_id: str | None
    specimen_id: str | None
    step: int | None
    after_reading: bool
    kind: str
    mark: int | None = None
    words: str | None = None


@dataclass(frozen=True, kw_only=True)
class Ending(Entry):
    specimen_id: str
    kind: str
    fail_step: int | None = None
    hung_s: float | None = None
    place: str | None = None
    look: str | None = None
    from_top_knot_mm: float | None = None
    remark: str | None = None


@dataclass(frozen=True, kw_only=True)
class Measure(Entry):
    bench_id: str
    specimen_id: str | None
    quantity: str
    place: int
    typed: str
    unit: str
    value: float
    division: float | None = None


@dataclass(frozen=True, kw_only=True)
class Weighing(Entry):
    bench_id: str | None
    mark: int
    mass_g: float
    balance_division_g: float


@dataclass(frozen=True, kw_only=True)
class Prediction(Entry):
    bench_id: str
    break_force_n: float | None
    best_design_id: str | None
    shape: str | None


@dataclass(frozen=True, kw_only=True)
class Ruling(Entry):
    about_table: str
    about_id: str
    kind: str
    detail: Any = None


@dataclass(frozen=True, kw_only=True)
class Sentence(Entry):
    bench_id: str
    topic: str
    words: str


@dataclass(frozen=True, kw_only=True)
class SpecimenRecord(Entry):
    """One cord, its own entries in order of arrival; its entry id is the specimen's id."""

    bench_id: str
    specimen_no: int
    design_id: str
    same_maker: bool | None = None
    measures: tuple[Measure, ...] = ()
    readings: tuple[Reading, ...] = ()
    events: tuple[Event, ...] = ()
    endings: tuple[Ending, ...] = ()


@dataclass(frozen=True, kw_only=True)
class DesignRecord:
    id: str
    letter: str
    name: str
    is_yardstick: bool = False
    material_id: str | None = None
    level: float | None = None
    level_words: str | None = None
    strands: int | None = None
    layers: int | None = None
    lay_up: str | None = None
    direction: str | None = None
    strip_width_mm: float | None = None
    free_length_mm: float | None = None
    take_up_factor: float | None = None
    linear_density_g_per_m: float | None = None
    end_fixing: str | None = None
    pitch_per_100_mm: float | None = None


@dataclass(frozen=True, kw_only=True)
class RungRecord:
    mark: int
    name: str
    printed_mass_g: float | None
    printed_kind: str = "none"


@dataclass(frozen=True, kw_only=True)
class VariableRecord:
    id: str
    role: str
    name: str
    place: int
    unit: str | None = None
    value_words: str | None = None
    instrument: str | None = None
    division: float | None = None


@dataclass(frozen=True, kw_only=True)
class MaterialRecord:
    id: str
    name: str
    form: str | None = None
    flat_width_mm: float | None = None
    height_mm: float | None = None
    gusset_mm: float | None = None
    seams: str | None = None
    woven: bool | None = None
    direction_found: str | None = None
    mass_per_area_g_m2: float | None = None
    thickness_um: float | None = None
    density_kg_m3: float | None = None
    strength_low_mpa: float | None = None
    strength_high_mpa: float | None = None
    strength_source: str | None = None


@dataclass(frozen=True, kw_only=True)
class BenchRecord:
    id: str
    word: str
    kind: str
    design_id: str
    place: int
    scale_unit: str = "mm"
    scale_division_mm: float | None = None
    scale_way: str = "down"
    open_again: bool = False
    here: bool = False
    last_heard_at: datetime | None = None
    unsent: int | None = None
    specimens: tuple[SpecimenRecord, ...] = ()
    measures: tuple[Measure, ...] = ()
    predictions: tuple[Prediction, ...] = ()
    sentences: tuple[Sentence, ...] = ()
    ticks: dict[str, bool] = field(default_factory=dict)

    @property
    def address(self) -> str:
        """The bench word as it stands in an address."""
        return self.word.lower()


@dataclass(frozen=True, kw_only=True)
class LessonRecord:
    """One lesson whole: the plan, then everything that its benches sent."""

    id: str
    title: str
    question: str
    year_band: str | None
    planned_on: date | None
    depth: str
    stage: str
    gravity_m_per_s2: float
    gravity_from: str | None
    wait_s: int
    later_wait_s: int
    scale_division_mm: float
    judgement_mm: float
    printed_mass_tolerance_percent: float
    offset_strain_percent: float
    return_after_steps: str
    countdown_to: datetime | None
    keep_until: date | None
    head: int
    teacher_id: str
    lesson_key: str
    front_code: str
    front_view: str
    front_bench_id: str | None
    graph_open: bool
    own_graph: bool
    free_text: bool
    own: bool
    allocation_seed: int | None
    copied_from: str | None
    planning: dict[str, Any]
    notes: str
    slot_min: int | None
    paused_at: datetime | None
    masses_down_at: datetime | None
    over_at: datetime | None
    shelved_at: datetime | None
    deleted_at: datetime | None
    designs: tuple[DesignRecord, ...] = ()
    rungs: tuple[RungRecord, ...] = ()
    variables: tuple[VariableRecord, ...] = ()
    materials: tuple[MaterialRecord, ...] = ()
    weighings: tuple[Weighing, ...] = ()
    benches: tuple[BenchRecord, ...] = ()
    events: tuple[Event, ...] = ()
    rulings: tuple[Ruling, ...] = ()

    @property
    def over(self) -> bool:
        """Whether the lesson takes no more entries."""
        return self.stage == "over" or self.shelved_at is not None

    def design(self, design_id: str) -> DesignRecord:
        """The design with that id."""
        return next(design for design in self.designs if design.id == design_id)

    def bench(self, word: str) -> BenchRecord | None:
        """The bench of that word, any case; None when the lesson has none."""
        return next((bench for bench in self.benches if bench.address == word.lower()), None)
