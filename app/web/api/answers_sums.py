"""What /api/v1 answers of everything worked out: figures with their uncertainty, cords, designs, pairs of them."""

from typing import Any

from pydantic import model_serializer

from app.web.api.answers import Interval
from app.web.api.kinds import Answer


class AsTold(Answer):
    """Written with the fields that were told, and no other."""

    @model_serializer(mode="wrap")
    def _only_told(self, as_usual: Any) -> dict[str, Any]:
        written: dict[str, Any] = as_usual(self)
        names = {type(self).model_fields[name].alias or name for name in self.model_fields_set}
        return {name: value for name, value in written.items() if name in names}


class Quantity(AsTold):
    """A measured figure: `low` and `high` are its 95 % interval, null where open; without a value, why."""

    value: float | None
    standard_uncertainty: float | None = None
    low: float | None = None
    high: float | None = None
    unit: str | None = None
    note: str | None = None
    why: str | None = None


class Scatter(Answer):
    """Standard uncertainty of one pointer reading; `dof` null: from the scale only."""

    value: float
    dof: int | None


class Range(Answer):
    low: float | None
    high: float | None


class ElasticLimit(AsTold):
    """Between which loads the cord stopped coming back; a set smaller than `seen_from_mm` could not be seen."""

    low: float | None
    high: float | None
    why: str | None = None
    came_back_n: list[float]
    stayed_n: list[float]
    seen_from_mm: float | None


class ReturnSaid(Answer):
    step: int
    force_n: float
    set_mm: Quantity
    recovery: Quantity


class CreepSaid(Answer):
    step: int
    force_n: float
    creep_mm: Quantity


class ChosenSaid(Answer):
    """The straight part as someone chose it: for these readings, no coverage is claimed."""

    steps: list[int]
    stiffness_n_per_mm: Quantity
    range_n: Range
    residuals_mm: list[float]
    leaves_step: int | None
    leaves_n: float | None
    half_difference_n_per_mm: float | None
    acceptable_why: str | None


class CordSumsSaid(Answer):
    """What was worked out of one cord."""

    reading_u_mm: Scatter
    shape: str | None
    stiffness_n_per_mm: Quantity
    straight_part_n: Range
    limit_of_proportionality_n: Interval
    bend: str | None
    notes: list[str]
    chosen: ChosenSaid | None
    secant_n_per_mm: Quantity
    toe_mm: Quantity
    zero_force_pointer_mm: Quantity
    offset_yield_n: Quantity
    youngs_modulus_mpa: Quantity
    permanent_set_mm: Quantity
    returns: list[ReturnSaid]
    elastic_limit_n: ElasticLimit
    creep: list[CreepSaid]
    work_j: Quantity
    failing_step_work_j: Quantity
    loop_j: Quantity
    break_force_n: Interval
    break_force_with_knots_n: Interval
    break_force_per_strand_n: Quantity
    break_force_per_linear_density: Quantity
    tenacity_cn_per_tex: Quantity
    breaking_length_km: Quantity
    stress_at_break_mpa: Quantity
    take_up: Quantity


class SpreadSaid(AsTold):
    """From the lowest low to the highest high; `holds`: how often at least that holds the design's true median."""

    low: float | None
    high: float | None
    why: str | None = None
    holds: float | None


class ShareSaid(Answer):
    """The share of cords that break over `low_n` and at or under `high_n`."""

    low_n: float
    high_n: float | None
    share: float


class BreakingSaid(Answer):
    brackets_n: list[Interval]
    median_break_n: Interval
    spread_n: SpreadSaid
    typical_break_force_n: Quantity
    weibull_break_force_n: Quantity
    shares: list[ShareSaid]


class DesignSumsSaid(BreakingSaid):
    design: str
    specimens: int
    groups: int
    unbroken: int
    with_knots: BreakingSaid


class DifferenceSaid(Answer):
    """Two designs in one quantity, the greater first."""

    one: str
    other: str
    quantity: str
    ratio: Quantity
    smallest_ratio: float | None
    smallest_why: str | None
    verdict: str
    words: str


class GroupAgreementSaid(Answer):
    group: str
    h: float | None
    k: float | None


class RepeatabilitySaid(Answer):
    """How well cords of one design agree, within a group and whichever group made them."""

    design: str | None
    quantity: str
    repeatability: Quantity
    reproducibility: Quantity
    groups: list[GroupAgreementSaid]


class ShareKeptSaid(Answer):
    """How much of `beside`'s strength a design keeps; `strands` null: of the same cord without knots."""

    design: str
    beside: str
    strands: int | None
    cord: Quantity
    with_knots: Quantity


class LackOfFitSaid(Answer):
    """Whether the means at the levels leave the line by more than repeats scatter."""

    f: float
    p: float
    dof: int
    dof_repeats: int


class TrendSaid(Answer):
    """A quantity along the level of the changed variable: what one more adds, and the line's value at none."""

    quantity: str
    slope: Quantity
    at_none: Quantity
    lack_of_fit: LackOfFitSaid | None
