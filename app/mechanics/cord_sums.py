"""Everything worked out of one cord, from what a class CSV tells of it; each sum is made elsewhere in this package."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from app.domain.tested import TestedCord
from app.mechanics.breaking import Bracket, bracket_of, bracket_with_knots
from app.mechanics.chosen import ChosenPart, chosen_part
from app.mechanics.creep import creep
from app.mechanics.extension import reading_u_mm, scale_of
from app.mechanics.material import take_up
from app.mechanics.offset_yield import OFFSET_PERCENT, OffsetYield, offset_yield
from app.mechanics.reading_sums import (
    CurvePoint,
    ReadingSums,
    curve_points,
    force_of,
    longest_section,
    reading_sums,
)
from app.mechanics.recovery import ElasticLimit
from app.mechanics.result import ReadingScatter, Result, none
from app.mechanics.returns import Return, last_set, limit_by_returns, returns_of
from app.mechanics.shape_choice import BENT, TOE_BENT
from app.mechanics.slack import slack
from app.mechanics.stiffness import secant_stiffness, youngs_modulus
from app.mechanics.straight import StraightPart, straight_part
from app.mechanics.strength import (
    breaking_length,
    load_per_linear_density,
    load_per_strand,
    stress_at_break,
    tenacity,
)
from app.mechanics.work import failing_step_work, loop_work, work_to_break


@dataclass(frozen=True, kw_only=True)
class Creep:
    """How far the pointer went on between two readings of one step."""

    step: int
    force_n: float
    creep_mm: Result


@dataclass(frozen=True, kw_only=True)
class CordSums:
    """What is known of one cord; a figure that can't be had says why."""

    cord: TestedCord
    readings: tuple[ReadingSums, ...]
    loaded: tuple[CurvePoint, ...]
    curve: tuple[CurvePoint, ...]
    straight: StraightPart
    chosen: ChosenPart | None
    secant_n_per_mm: Result
    youngs_modulus_mpa: Result
    offset_yield: OffsetYield
    slack_mm: Result
    returns: tuple[Return, ...]
    permanent_set_mm: Result
    elastic_limit: ElasticLimit
    creeps: tuple[Creep, ...]
    work_j: Result
    failing_work_j: Result
    loop_j: Result
    break_bracket: Bracket
    with_knots: Bracket
    load_per_strand_n: Result
    load_per_linear_density: Result
    tenacity_cn_per_tex: Result
    breaking_length_km: Result
    stress_mpa: Result
    take_up: Result


@lru_cache(maxsize=2048)
def cord_sums(cord: TestedCord, offset_percent: float = OFFSET_PERCENT) -> CordSums:
    """Everything worked out of one cord; kept, so that a new reading works out its own cord again and no other.

    Parameters: cord, as it was told, masses [g], pointer and lengths [mm]; offset_percent, the strain of the offset
        yield [%].
    Returns: its sums, forces [N], lengths [mm].
    Raises: nothing.
    Source: no sum is made here; each function of this package names its own.
    """
    loaded = curve_points(cord)
    curve = longest_section(loaded)
    straight = _straight(cord, curve)
    scatter = straight.scatter
    returns = returns_of(loaded, curve_points(cord, ("return",)), scatter, zeros=_zeros_read(cord))
    bracket = bracket_of(cord)
    work, failing, loop = _works(cord, loaded, scatter)
    return CordSums(
        cord=cord,
        readings=reading_sums(cord, scatter),
        loaded=loaded,
        curve=curve,
        straight=straight,
        chosen=_chosen(cord, loaded, straight),
        secant_n_per_mm=secant_stiffness(curve, max((point.force_n for point in curve), default=0.0), scatter),
        youngs_modulus_mpa=youngs_modulus(straight.stiffness_n_per_mm, cord),
        offset_yield=offset_yield(curve, straight, free_length_mm=cord.gauge_length_mm, offset_percent=offset_percent),
        slack_mm=slack(straight.line_at_start_mm, _zeros(curve), scatter),
        returns=returns,
        permanent_set_mm=last_set(returns),
        elastic_limit=_elastic_limit(cord, loaded, returns, scatter),
        creeps=_creeps(loaded, curve_points(cord, ("later",)), scatter),
        work_j=work,
        failing_work_j=failing,
        loop_j=loop,
        break_bracket=bracket,
        with_knots=bracket_with_knots(cord),
        load_per_strand_n=load_per_strand(bracket, cord),
        load_per_linear_density=load_per_linear_density(bracket, cord),
        tenacity_cn_per_tex=tenacity(bracket, cord),
        breaking_length_km=breaking_length(bracket, cord),
        stress_mpa=stress_at_break(bracket, cord),
        take_up=take_up(cord.strip_length_mm, cord.cord_length_mm),
    )


def _straight(cord: TestedCord, curve: Sequence[CurvePoint]) -> StraightPart:
    return straight_part(
        [point.force_n for point in curve],
        [point.stretched_mm for point in curve],
        force_u_n=_stated(curve),
        u0_mm=reading_u_mm(scale_of(cord)),
        joins=[point.joins for point in curve] if any(point.joins for point in curve) else None,
    )


def _zeros(points: Sequence[CurvePoint]) -> tuple[float, ...]:
    return tuple(point.stretched_mm for point in points if point.row.phase == "zero")


def _elastic_limit(
    cord: TestedCord, loaded: Sequence[CurvePoint], returns: Sequence[Return], scatter: ReadingScatter
) -> ElasticLimit:
    joins = max((point.joins for point in loaded), default=0)
    return limit_by_returns(returns, scatter, zeros=_zeros_read(cord), joins=joins, division_mm=cord.scale_division_mm)


def _zeros_read(cord: TestedCord) -> int:
    """How many zeros extensions are counted from, whether the mass that hung is known or not."""
    return sum(row.phase == "zero" and cord.usable(row) for row in cord.rows)


def _stated(points: Sequence[CurvePoint]) -> list[float] | None:
    """The uncertainties of the forces when each has one; else none is used."""
    known = [point.force_u_n for point in points if point.force_u_n is not None]
    return known if len(known) == len(points) else None


def _chosen(cord: TestedCord, loaded: Sequence[CurvePoint], straight: StraightPart) -> ChosenPart | None:
    """The straight part as someone chose it; None when nobody did."""
    if cord.straight_first_step is None or cord.straight_last_step is None:
        return None
    return chosen_part(
        loaded,
        first_step=cord.straight_first_step,
        last_step=cord.straight_last_step,
        scatter=straight.scatter,
        scale_u_mm=reading_u_mm(scale_of(cord)),
        bent=straight.shape in (BENT, TOE_BENT) and straight.limit_n.high is not None,
        limit_n=straight.limit_n.high,
    )


def _works(cord: TestedCord, loaded: Sequence[CurvePoint], scatter: ReadingScatter) -> tuple[Result, Result, Result]:
    """Work to break, what the failing step may have added, and what a loop did not give back [J]."""
    no_zero = next((point.extension_why for point in loaded if point.extension_why), None)
    if no_zero:
        return none(no_zero, "J"), none(no_zero, "J"), none(no_zero, "J")
    first = [point for point in loaded if point.section == 1]
    gap = len(first) < len(loaded)
    forces_n, pointers_mm = [point.force_n for point in first], [point.stretched_mm for point in first]
    work = work_to_break(forces_n, pointers_mm, scatter, gap=gap, force_u_n=_stated(first), joined_at=_joined_at(first))
    failing = failing_step_work(forces_n, pointers_mm, gap=gap, fail_n=_failed_n(cord))
    loop = [*first, *curve_points(cord, ("unload",))]
    lost = loop_work(
        [point.force_n for point in loop],
        [point.stretched_mm for point in loop],
        scatter,
        gap=gap or any(point.section != 1 for point in loop),
        force_u_n=_stated(loop),
        joined_at=_joined_at(loop),
    )
    return work, failing, lost


def _failed_n(cord: TestedCord) -> float | None:
    """The load that the cord broke or slipped under [N]; None when it did neither."""
    return force_of(cord, cord.fail_mass_g) if cord.outcome in ("broke", "slipped") else None


def _joined_at(points: Sequence[CurvePoint]) -> tuple[int, ...]:
    """Places of the first reading after each pointer put back."""
    return tuple(place for place in range(1, len(points)) if points[place].joins > points[place - 1].joins)


def _creeps(loaded: Sequence[CurvePoint], later: Sequence[CurvePoint], scatter: ReadingScatter) -> tuple[Creep, ...]:
    at_step = {point.row.step: point for point in loaded if point.row.phase == "load"}
    pairs = [(at_step[point.row.step], point) for point in later if point.row.step in at_step]
    return tuple(
        Creep(
            step=first.row.step, force_n=first.force_n, creep_mm=creep(first.stretched_mm, last.stretched_mm, scatter)
        )
        for first, last in pairs
        if first.section == last.section and first.joins == last.joins
    )
