"""What /api/v1 answers about a bench and its entries, one model an answer."""

from datetime import datetime
from typing import Any

from pydantic import model_serializer

from app.web.api.kinds import Answer


class Head(Answer):
    """The lesson's newest change."""

    head: int


class Interval(Answer):
    """A force between `low` and `high`; an open end is null, and `why` says why an end can't be had."""

    low: float | None
    high: float | None
    why: str | None = None

    @model_serializer(mode="wrap")
    def _without_empty_why(self, as_usual: Any) -> dict[str, Any]:
        told: dict[str, Any] = as_usual(self)
        if self.why is None:
            told.pop("why", None)
        return told


class NextAnswer(Answer):
    """What the bench does next; the rest says what hangs then."""

    do: str
    step: int | None
    phase: str | None
    mark: int | None
    mass_g: float | None
    total_mass_g: float | None
    force_n: float | None


class Note(Answer):
    """A friendly doubt about a number: `note` is its row in the product's own list of doubts."""

    note: int
    severity: str
    words: str
    likely_mm: float | None
    about: str


class EntryAnswer(Answer):
    """What is heard of every entry."""

    entry_id: str
    n: int
    state: str
    same_step: list[str]
    look_again: list[Note]
    next: NextAnswer | None


class SpecimenAnswer(EntryAnswer):
    specimen_id: str
    specimen_no: int


class Figures(Answer):
    """What follows from a reading; a figure that can't be had is null, `extension_why` says why."""

    pointer_mm: float
    total_mass_g: float | None
    force_n: float | None
    force_u_n: float | None
    extension_mm: float | None
    extension_u_mm: float | None
    extension_why: str | None
    strain: float | None


class ReadingAnswer(EntryAnswer, Figures):
    pass


class EndingAnswer(EntryAnswer):
    break_force_n: Interval


class Told(Answer):
    """What every listed entry carries: what was sent of it, when it was typed, by whom, and whether it stands."""

    entry_id: str
    replaces: str | None
    reason: str | None
    tablet_time: datetime | None
    age_s: float
    taken_at: datetime
    by: str
    state: str
    left_out: str | None


class ReadingTold(Told, Figures):
    specimen_id: str
    step: int
    phase: str
    turn: int
    pointer_typed: str
    pointer_unit: str
    waited_s: float | None


class EventTold(Told):
    specimen_id: str | None
    step: int | None
    after_reading: bool
    kind: str
    mark: int | None
    words: str | None


class EndingTold(Told):
    specimen_id: str
    kind: str
    fail_step: int | None
    hung_s: float | None
    place: str | None
    look: str | None
    from_top_knot_mm: float | None
    remark: str | None
    break_force_n: Interval


class MeasureTold(Told):
    specimen_id: str | None
    quantity: str
    place: int
    typed: str
    unit: str
    value: float


class PredictionTold(Told):
    break_force_n: float | None
    best_design: str | None
    shape: str | None


class SentenceTold(Told):
    topic: str
    words: str


class BenchLesson(Answer):
    title: str
    question: str
    stage: str
    over: bool
    depth: str
    wait_s: int
    later_wait_s: int
    gravity_m_per_s2: float
    paused: bool
    masses_down_at: datetime | None
    graph_open: bool
    own_graph: bool
    free_text: bool


class Scale(Answer):
    unit: str
    division_mm: float
    way: str


class BenchSaid(Answer):
    bench: str
    word: str
    kind: str
    design: str
    scale: Scale
    bench_stage: str
    open_again: bool


class Specimen(Answer):
    specimen_id: str
    specimen_no: int
    design: str
    measures: list[MeasureTold]
    left_out: str | None


class LadderRung(Answer):
    mark: int
    name: str
    mass_g: float | None


class HangerSaid(Answer):
    name: str
    mass_g: float | None


class BenchAnswer(Answer):
    """One bench as it stands at `head`; the last of its specimens is under test."""

    lesson_id: str
    lesson: BenchLesson
    bench: BenchSaid
    ladder: list[LadderRung]
    hanger: HangerSaid
    specimens: list[Specimen]
    next: NextAnswer
    readings: list[ReadingTold]
    events: list[EventTold]
    endings: list[EndingTold]
    measures: list[MeasureTold]
    prediction: PredictionTold | None
    sentences: list[SentenceTold]
    ticks: dict[str, bool]
    look_again: list[Note]
    writes: bool
    head: int


class SignInAnswer(Answer):
    teacher_token: str
    until: datetime


class FreeBench(Answer):
    bench: str
    word: str
    design: str


class FreeBenches(Answer):
    free_benches: list[FreeBench]


class JoinAnswer(Answer):
    """A bench taken; the token is told only here."""

    bench_token: str
    lesson_id: str
    bench: str
    word: str
    design: str
    specimen_id: str
    writes: bool
    next: NextAnswer


class WritesAnswer(Answer):
    writes: bool


class TickAnswer(Answer):
    what: str
    on: bool
    head: int
