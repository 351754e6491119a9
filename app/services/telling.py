"""What was worked out, put into the fields of /api/v1 and of `analyse --json`: one telling for both."""

from typing import Any

from app.domain.tested import Row
from app.domain.told import Note
from app.mechanics.breaking import Bracket
from app.mechanics.chosen import ChosenPart
from app.mechanics.cord_sums import CordSums
from app.mechanics.reading_sums import ReadingSums
from app.mechanics.result import Interval, Result
from app.mechanics.returns import Return

Said = dict[str, Any]


def quantity(result: Result) -> Said:
    """A measured figure; without a value why, and the end that is known all the same."""
    note = {"note": result.note} if result.note else {}
    ends = {} if result.low is None and result.high is None else {"low": result.low, "high": result.high}
    if result.value is None:
        return {"value": None, "why": result.why, **({**ends, "unit": result.unit} if ends else {})}
    return {
        "value": result.value,
        "standard_uncertainty": result.standard_uncertainty,
        **ends,
        "unit": result.unit,
        **note,
    }


def interval(found: Interval) -> Said:
    """Two ends, an open one null; why an end can't be had."""
    return _ends(found.low, found.high, found.why)


def bracket(found: Bracket) -> Said:
    """A breaking force; no high end is "more than"."""
    return _ends(found.low_n, found.high_n, found.why)


def _ends(low: float | None, high: float | None, why: str | None) -> Said:
    return {"low": low, "high": high, **({"why": why} if why else {})}


def reading(row: Row, worked: ReadingSums) -> Said:
    """One reading with what follows from it."""
    return {
        "step": row.step,
        "phase": row.phase,
        "turn": row.turn,
        "mass_g": row.mass_g,
        "mass_u_g": row.mass_u_g,
        "pointer_mm": row.pointer_mm,
        "waited_s": row.waited_s,
        "force_N": worked.force_n,
        "force_u_N": worked.force_u_n,
        "extension_mm": worked.extension_mm,
        "extension_u_mm": worked.extension_u_mm,
        "extension_why": worked.extension_why,
        "strain": worked.strain,
        "section": worked.section,
        "events": list(row.events),
        "events_after": list(row.events_after),
        "left_out": row.left_out,
    }


def figures(sums: CordSums) -> Said:
    """Everything worked out of one cord beside its readings."""
    straight = sums.straight
    return {
        "reading_u_mm": {"value": straight.scatter.u_mm, "dof": straight.scatter.dof},
        "shape": straight.shape,
        "stiffness_N_per_mm": quantity(straight.stiffness_n_per_mm),
        "straight_part_N": {"low": straight.from_n, "high": straight.to_n},
        "limit_of_proportionality_N": interval(straight.limit_n),
        "bend": straight.bend,
        "notes": [*straight.notes, *([straight.scatter_warning] if straight.scatter_warning else [])],
        "chosen": _chosen(sums.chosen) if sums.chosen else None,
        "secant_N_per_mm": quantity(sums.secant_n_per_mm),
        "toe_mm": quantity(sums.slack_mm),
        "zero_force_pointer_mm": quantity(straight.zero_force_mm),
        "offset_yield_N": quantity(sums.offset_yield.force_n),
        "youngs_modulus_MPa": quantity(sums.youngs_modulus_mpa),
        "permanent_set_mm": quantity(sums.permanent_set_mm),
        "returns": [_return(each) for each in sums.returns],
        "elastic_limit_N": {
            **interval(sums.elastic_limit.limit),
            "came_back_N": list(sums.elastic_limit.came_back_n),
            "stayed_N": list(sums.elastic_limit.stayed_n),
            "seen_from_mm": sums.elastic_limit.seen_from_mm,
        },
        "creep": [
            {"step": each.step, "force_N": each.force_n, "creep_mm": quantity(each.creep_mm)} for each in sums.creeps
        ],
        "work_J": quantity(sums.work_j),
        "failing_step_work_J": quantity(sums.failing_work_j),
        "loop_J": quantity(sums.loop_j),
        "break_force_N": bracket(sums.break_bracket),
        "break_force_with_knots_N": bracket(sums.with_knots),
        "break_force_per_strand_N": quantity(sums.load_per_strand_n),
        "break_force_per_linear_density": quantity(sums.load_per_linear_density),
        "tenacity_cN_per_tex": quantity(sums.tenacity_cn_per_tex),
        "breaking_length_km": quantity(sums.breaking_length_km),
        "stress_at_break_MPa": quantity(sums.stress_mpa),
        "take_up": quantity(sums.take_up),
    }


def note(found: Note) -> Said:
    """A friendly doubt, with the value that is likely where there is one."""
    return {
        "note": found.note,
        "severity": found.severity,
        "words": found.words,
        "likely_mm": found.likely_mm,
        "about": found.about,
    }


def _return(each: Return) -> Said:
    return {
        "step": each.step,
        "force_N": each.force_n,
        "set_mm": quantity(each.set_mm),
        "recovery": quantity(each.recovery),
    }


def _chosen(part: ChosenPart) -> Said:
    """The straight part as someone chose it: for these readings."""
    return {
        "steps": list(part.steps),
        "stiffness_N_per_mm": quantity(part.stiffness_n_per_mm),
        "range_N": {"low": part.from_n, "high": part.to_n},
        "residuals_mm": list(part.residuals_mm),
        "leaves_step": part.leaves_step,
        "leaves_N": part.leaves_n,
        "half_difference_N_per_mm": part.acceptable.half_difference_n_per_mm,
        "acceptable_why": part.acceptable.why,
    }
