"""What is asked of /api/v1, one model a request; the plan of a lesson has its own module.

A closed list is checked here, so that the document names its codes; sizes of what was typed are checked where the
rule lives, in the services.
"""

from typing import Annotated, Any

from pydantic import Field, model_validator

from app.domain import limits, vocabulary
from app.services.recording import Sent
from app.web.api.kinds import Body, Id, Moment, Name, OneOf, Query, Short, Text, Typed, Whole, Words, between, refused

Password = Annotated[str, Field(max_length=limits.PASSWORD_MOST)]
Step = Annotated[Whole, between(limits.STEP)]
Mark = Annotated[Whole, between((0, limits.RUNGS_MOST))]


class SignInBody(Body):
    """Name and passphrase of a teacher."""

    sign_in_name: Short
    password: Password


class JoinBody(Body):
    """A slip code, or a lesson key; with a lesson key the bench word."""

    code: Short
    bench: Short | None = None


class EntryBody(Body):
    """What every entry carries: its id, made where it is typed, and when that was by the tablet's own clock."""

    entry_id: Id
    tablet_time: Moment | None = None
    age_s: Annotated[float, between(limits.AGE_S)] = 0.0
    replaces: Id | None = None
    reason: Words | None = Field(
        default=None, description="Why it replaces another: typed_wrong, read_wrong, unit, or other: words."
    )

    @property
    def sent(self) -> Sent:
        """What the services take of it."""
        return Sent(
            entry_id=self.entry_id,
            tablet_time=self.tablet_time,
            age_s=self.age_s,
            replaces=self.replaces,
            reason=self.reason,
        )


class SpecimenBody(EntryBody):
    """A fresh cord; the entry id is its specimen's. It replaces nothing: the cord before it stays."""

    replaces: None = None
    reason: Words | None = Field(default=None, description="Why a fresh cord, in words.")
    same_maker: bool | None = None


class MeasureBody(EntryBody):
    """What was measured of a cord, or of the bench (`room_c`, no specimen)."""

    specimen_id: Id | None = None
    quantity: Annotated[str, OneOf(vocabulary.QUANTITIES)]
    place: Annotated[Whole, between(limits.TURN)] = 1
    typed: Typed
    unit: Annotated[str, OneOf(("", *sorted({unit for _, unit in vocabulary.QUANTITIES.values()} - {""}), "cm"))] = ""


class ReadingBody(EntryBody):
    """A pointer reading as it was typed; without a unit it is in the bench's own."""

    specimen_id: Id | None = None
    step: Step
    phase: Annotated[str, OneOf(vocabulary.PHASES)]
    turn: Annotated[Whole, between(limits.TURN)] = 1
    pointer_typed: Typed
    pointer_unit: Annotated[str, OneOf(vocabulary.SCALE_UNITS)] | None = None
    waited_s: Annotated[float, between(limits.WAIT_S)] | None = None


class EventBody(EntryBody):
    """Something that happened during a test."""

    specimen_id: Id | None = None
    step: Step | None = None
    after_reading: bool = False
    kind: Annotated[str, OneOf(vocabulary.EVENTS)]
    mark: Annotated[Whole, between((1, limits.RUNGS_MOST))] | None = None
    words: Words | None = None


class EndingBody(EntryBody):
    """How a cord's test ended."""

    specimen_id: Id | None = None
    kind: Annotated[str, OneOf(vocabulary.ENDINGS)]
    fail_step: Step | None = None
    hung_s: Annotated[float, between((0, 86_400))] | None = None
    place: Annotated[str, OneOf(vocabulary.PLACES)] | None = None
    look: Annotated[str, OneOf(vocabulary.LOOKS)] | None = None
    from_top_knot_mm: Annotated[float, between((0, limits.GAUGE_LENGTH_MM[1]))] | None = None
    remark: Annotated[Text, Field(max_length=120)] | None = None


class PredictionBody(EntryBody):
    """What the bench expects, sealed before step 1 is read."""

    break_force_n: float | None = None
    best_design: Annotated[str, Field(max_length=1)] | None = None
    shape: Annotated[str, OneOf(vocabulary.SHAPES)] | None = None


class StraightPart(Body):
    """The first and last step of a straight part."""

    first_step: Step
    last_step: Step


class RulingBody(EntryBody):
    """Someone's word on an entry or a cord."""

    kind: Annotated[str, OneOf(vocabulary.RULINGS)]
    about: Id
    detail: Annotated[str, OneOf(vocabulary.NOTE_ANSWERS)] | StraightPart | None = None
    reason: Words | None = Field(default=None, description="In words; needed to leave something out.")

    @property
    def detail_kept(self) -> Any:
        """The detail as it is stored."""
        return self.detail.model_dump() if isinstance(self.detail, StraightPart) else self.detail


class SentenceBody(EntryBody):
    """A sentence of the bench's own, where the lesson takes free text."""

    topic: Annotated[str, OneOf(vocabulary.TOPICS)]
    words: Text


class TickBody(Body):
    """A line of the set-up or tidy list."""

    what: Annotated[str, OneOf(vocabulary.TICKS)]
    on: bool


class WeighingBody(EntryBody):
    """What the balance said of a rung, or of the hanger (mark 0); without a bench it is true of every tray."""

    bench: Short | None = None
    mark: Mark
    mass_g: float
    balance_division_g: float


class ScaleBody(Body):
    """A bench's scale; what is not said stays."""

    unit: Annotated[str, OneOf(vocabulary.SCALE_UNITS)] = "mm"
    division_mm: Annotated[float, between(limits.DIVISION_MM)] | None = None
    way: Annotated[str, OneOf(vocabulary.SCALE_WAYS)] = "down"


class BenchBody(Body):
    """What a teacher changes of one bench; what is not said stays."""

    design: Annotated[str, Field(max_length=1)] | None = None
    scale: ScaleBody | None = None
    open_again: bool | None = None
    kind: Annotated[str, OneOf(vocabulary.BENCH_KINDS)] | None = None


class StageBody(Body):
    """How the lesson runs; what is not said stays."""

    stage: Annotated[str, OneOf(vocabulary.STAGES)] = "preparing"
    paused: bool = False
    masses_down: bool = False
    graph_open: bool = False
    front_view: Annotated[str, OneOf(vocabulary.FRONT_VIEWS)] = "key"
    front_bench: Short | None = None

    @model_validator(mode="after")
    def _says_something(self) -> "StageBody":
        if not self.model_fields_set:
            raise refused("Say at least one of: " + ", ".join(type(self).model_fields) + ".")
        return self


class ShelfBody(Body):
    """On the shelf or off it; `own` keeps it from other teachers."""

    on_shelf: bool = True
    own: bool | None = None


class ListQuery(Query):
    shelf: bool = False


class ChangesQuery(Query):
    after: Annotated[int, Field(ge=0, le=2_000_000_000)] = 0
    wait_s: Annotated[float, Field(ge=0, le=3_600)] = 0.0
    unsent: Annotated[int, Field(ge=0, le=100_000)] | None = None


class GraphQuery(Query):
    view: Name = "benches"
    bench: Short | None = None
    x: Name = "extension"
    y: Name = "load"
    upright: Name = "load"
    theme: Name = "projector"
    drawing: Name = "wide"
    x_to: Annotated[float, Field(gt=0, le=1_000_000)] | None = None
    y_to: Annotated[float, Field(gt=0, le=1_000_000)] | None = None
