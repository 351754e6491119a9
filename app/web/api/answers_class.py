"""What /api/v1 answers about a whole class: changes, picture and graph."""

from datetime import datetime
from typing import Any

from app.web.api.answers import Note
from app.web.api.answers_sums import (
    CordSumsSaid,
    DesignSumsSaid,
    DifferenceSaid,
    RepeatabilitySaid,
    ShareKeptSaid,
    TrendSaid,
)
from app.web.api.kinds import Answer


class ChangeSaid(Answer):
    """One change of the lesson's feed; `bench` is null for what concerns the whole lesson."""

    n: int
    at: datetime
    kind: str
    bench: str | None
    entry_id: str


class ChangesAnswer(Answer):
    """What is new after n, and when to ask again; `full` says that the question could not be held."""

    head: int
    changes: list[ChangeSaid]
    stage: str
    paused: bool
    masses_down_at: datetime | None
    ask_again_s: int
    full: bool


class Settings(Answer):
    """What the sums stand on."""

    title: str
    gravity_m_per_s2: float
    gravity_from: str | None
    wait_s: int
    scale_division_mm: float
    judgement_mm: float
    weighed: bool
    hanger_counted: bool


class PointSaid(Answer):
    """One standing reading with what follows from it."""

    entry_id: str
    step: int
    phase: str
    turn: int
    pointer_mm: float
    pointer_typed: str
    first_typed: str
    reason: str | None
    taken_at: datetime
    s_since_zero: float | None
    waited_s: float | None
    mass_g: float | None
    mass_u_g: float | None
    force_n: float | None
    force_u_n: float | None
    load_why: str | None
    extension_mm: float | None
    extension_u_mm: float | None
    extension_why: str | None
    strain: float | None
    section: int
    marks_hung: list[int]
    events: list[str]
    events_after: list[str]
    state: str
    left_out: str | None
    counts: bool


class CurveEventSaid(Answer):
    """An event that is drawn on the curve."""

    kind: str
    step: int
    after_reading: bool
    force_n: float | None
    extension_mm: float | None
    at: datetime


class EndingSaid(Answer):
    entry_id: str
    kind: str
    fail_step: int | None
    hung_s: float | None
    place: str | None
    look: str | None
    from_top_knot_mm: float | None
    remark: str | None


class SpecimenSaid(CordSumsSaid):
    specimen: str
    specimen_id: str
    specimen_no: int
    design: str
    group: str
    bench: str
    bench_kind: str
    left_out: str | None
    gauge_length_mm: float | None
    strands: int | None
    strip_width_mm: float | None
    linear_density_g_per_m: float | None
    points: list[PointSaid]
    events: list[CurveEventSaid]
    ending: EndingSaid | None
    ending_state: str
    outcome: str | None
    fail_mass_g: float | None
    look_again: list[Note]


class DesignSaid(DesignSumsSaid):
    """One design with its name; `with_knots` counts a slipped knot as it fell."""

    name: str
    is_yardstick: bool


class PaceSaid(Answer):
    """Where one bench is; `look_again` counts its open doubts."""

    bench: str
    word: str
    design: str
    bench_stage: str
    step: int
    last_reading_at: datetime | None
    last_heard_at: datetime | None
    unsent: int | None
    look_again: int


class ClassPictureAnswer(Answer):
    """Everything worked out of the lesson as it stands at `head`."""

    lesson_id: str
    head: int
    settings: Settings
    specimens: list[SpecimenSaid]
    designs: list[DesignSaid]
    differences: list[DifferenceSaid]
    repeatability: RepeatabilitySaid
    shares_kept: list[ShareKeptSaid]
    common_force_n: float | None
    trend: TrendSaid


class TeacherPictureAnswer(ClassPictureAnswer):
    """The class picture with where each bench is: for the teacher."""

    pace: list[PaceSaid]


class Figure(Answer):
    """A plotly figure."""

    data: list[dict[str, Any]]
    layout: dict[str, Any]


class GraphWords(Answer):
    """The line over the graph in two parts, the first of them bold."""

    lead: str
    rest: str


class ClassGraphAnswer(Answer):
    head: int
    figure: Figure
    words: GraphWords
