"""How the straight part of a cord's curve was worked out: its stiffness, where it ends, what somebody chose."""

from app.domain.quantities import shown, with_unit
from app.mechanics.chosen import ChosenPart
from app.mechanics.cord_sums import CordSums
from app.mechanics.reading_sums import CurvePoint
from app.mechanics.result import Interval
from app.mechanics.shapes import READINGS_FOR_BEND
from app.mechanics.straight import StraightPart
from app.mechanics.unweighed import NOT_WEIGHED
from app.services.figure_words import (
    amount,
    between,
    decimals_of,
    figures,
    in_sum,
    measured,
    newtons,
    rounded,
    sentence,
)
from app.services.load_words import load_notes
from app.services.remedies import SMALLER_STEPS, after, remedy
from app.services.working import Working, listed, notes_of, reaches

LEAST_SQUARES, SIMULATION = "GUM H.3", "Own simulation"
WEIGH = "Weigh every mass: a wrong one bends the line as a cord does."
STEADIER = "Steadier readings: wait until the swing has died down, eye level with the pointer."
BROKE_STRAIGHT = "Smaller steps near the break: a bend may lie in the last one."
STILL_TO_COME = "The steps of the ladder that are still to come."
SHAPES = {
    "straight": "straight all along",
    "toe": "slack first, then straight",
    "bent": "straight, then bent",
    "toe_bent": "slack first, then straight, then bent",
    "stiffer": "straight, then stiffer",
}
MEETS = "the force where the straight line and the bent part that fit the readings best meet"
CHOSEN_NOT = "A person chose these steps, so the interval is for them alone."


def limit(sums: CordSums, depth: str) -> Working:
    """Up to where the curve is straight: about, at the first depth; the limit of proportionality, deeper."""
    part = sums.straight
    first = not reaches(depth, "second")
    return Working(
        code="limit_of_proportionality_N",
        name="Straight up to" if first else "Limit of proportionality",
        said=_about(sums) if first else between(part.limit_n),
        formula=_plain_limit(part) if first else MEETS,
        numbers=_middle(sums) if first else _limit_numbers(part),
        source=SIMULATION,
        own="",
        better=_limit_better(sums),
        notes=notes_of(
            *part.notes, part.scatter_warning, None if first else _one_end_why(part), *load_notes(sums.cord)
        ),
    )


def _one_end_why(part: StraightPart) -> str | None:
    limit_n = part.limit_n
    return limit_n.why if limit_n.low is not None or limit_n.high is not None else None


def _plain_limit(part: StraightPart) -> str:
    if part.limit_n.high is None:
        return "as far as the readings show no bend"
    return "the readings fit a bend anywhere between two forces nearly as well; their middle, to the nearest step"


def _about(sums: CordSums) -> str:
    """To the nearest step, without a fit being spoken of."""
    limit_n = sums.straight.limit_n
    if limit_n.low is None:
        return sentence(limit_n.why or "")
    nearest = nearest_reading(sums)
    step = f"about {newtons(nearest.force_n)} (step {nearest.row.step})"
    return f"{step}; {between(limit_n)}" if limit_n.high is not None else f"{step} at least: no bend seen"


def nearest_reading(sums: CordSums) -> CurvePoint:
    """The reading nearest to the middle of the limit; of an open one the last that it holds of."""
    limit_n = sums.straight.limit_n
    low = limit_n.low or 0.0
    if limit_n.high is None:
        below = [point for point in sums.curve if point.force_n <= low * (1 + 1e-9)]
        return max(below or sums.curve, key=lambda point: point.force_n if below else -point.force_n)
    middle = (low + limit_n.high) / 2
    return min(sums.curve, key=lambda point: abs(point.force_n - middle))


def _middle(sums: CordSums) -> str:
    limit_n = sums.straight.limit_n
    if limit_n.low is None or limit_n.high is None:
        return ""
    middle = (limit_n.low + limit_n.high) / 2
    nearest = nearest_reading(sums)
    said = f"middle ({newtons(limit_n.low)} + {newtons(limit_n.high)}) / 2 = {newtons(middle)}"
    return listed([said, f"nearest step {newtons(nearest.force_n)} (step {nearest.row.step})"])


def _limit_numbers(part: StraightPart) -> str:
    if part.readings < READINGS_FOR_BEND or part.shape is None:
        return ""
    told = f"{part.readings} readings: {SHAPES[part.shape]}"
    if part.bend_at_n is None:
        return told
    bend = f", and it bends {part.bend}" if part.bend else ""
    return f"{told}{bend}; they fit best at {in_sum(part.bend_at_n, 'N')}"


def _limit_better(sums: CordSums) -> str:
    part, outcome = sums.straight, sums.cord.outcome
    low, high = part.limit_n.low, part.limit_n.high
    if part.limit_n.why == NOT_WEIGHED:
        return WEIGH
    if low is None:
        return remedy(part.limit_n.why, SMALLER_STEPS)
    if high is None:
        return BROKE_STRAIGHT if outcome == "broke" else after([outcome]) or STILL_TO_COME
    return f"Smaller steps {between(part.limit_n)}."


def stiffness(sums: CordSums, depth: str) -> Working:
    """Newtons for each millimetre on the straight part."""
    part, found = sums.straight, sums.straight.stiffness_n_per_mm
    return Working(
        code="stiffness_N_per_mm",
        name="Stiffness of the straight part",
        said=measured(found, depth) if found.value is None else _with_range(measured(found, depth), part),
        formula="k = 1/c, c the slope of pointer on force (the force is set, the reading carries the error)",
        numbers=_stiffness_numbers(sums),
        source=LEAST_SQUARES,
        own="",
        better=_stiffness_better(part),
        notes=notes_of(*part.notes, part.scatter_warning, *load_notes(sums.cord)),
    )


def _with_range(said: str, part: StraightPart) -> str:
    if part.from_n is None or part.to_n is None:
        return said
    return f"{said}; by readings {between(Interval(low=part.from_n, high=part.to_n, unit='N'))}"


def _stiffness_numbers(sums: CordSums) -> str:
    part = sums.straight
    if part.line is None or part.stiffness_n_per_mm.value is None or part.from_n is None or part.to_n is None:
        return ""
    inside = sum(part.from_n - 1e-9 <= point.force_n <= part.to_n + 1e-9 for point in sums.curve)
    turned = f"1 / {in_sum(part.line.slope_mm_per_n, 'mm/N')} = {in_sum(part.stiffness_n_per_mm.value, 'N/mm')}"
    span = f"{figures(part.from_n, 3)} to {in_sum(part.to_n, 'N')}"
    of_all = f"{inside} readings" if inside == part.readings else f"{inside} of {part.readings} readings"
    return f"{turned} ({of_all}, {span})"


def _stiffness_better(part: StraightPart) -> str:
    if part.limit_n.why == NOT_WEIGHED:
        return WEIGH
    if part.scatter_warning:
        return STEADIER
    if part.stiffness_n_per_mm.value is None:
        return remedy(part.stiffness_n_per_mm.why, SMALLER_STEPS)
    if part.readings < READINGS_FOR_BEND:
        return SMALLER_STEPS
    good_to = amount(rounded(part.scatter.factor * part.scatter.u_mm, 1), "mm")
    return f"More readings on the straight part: smaller steps. One reading is good to {good_to}."


def chosen(sums: CordSums, depth: str) -> Working | None:
    """The straight part that somebody chose; None when nobody did."""
    part = sums.chosen
    if part is None:
        return None
    cord = sums.cord
    found = part.stiffness_n_per_mm
    return Working(
        code="chosen",
        name=f"Stiffness of the part you chose, steps {cord.straight_first_step} to {cord.straight_last_step}",
        said=measured(found, depth),
        formula="k = 1/c, c the slope of pointer on force through the readings of these steps",
        numbers=_chosen_numbers(part, depth),
        source=LEAST_SQUARES,
        own="",
        better=remedy(found.why, "Choose as many steps as still lie on one line."),
        notes=notes_of(CHOSEN_NOT if found.value is not None else None, _leaves(part), _half_why(part, depth)),
    )


def _chosen_numbers(part: ChosenPart, depth: str) -> str:
    if part.line is None or part.stiffness_n_per_mm.value is None:
        return ""
    turned = f"1 / {in_sum(part.line.slope, 'mm/N')} = {in_sum(part.stiffness_n_per_mm.value, 'N/mm')}"
    numbers = f"{turned} ({len(part.steps)} readings)"
    return listed([numbers, *_acceptable(part)]) if reaches(depth, "third") else numbers


def _acceptable(part: ChosenPart) -> list[str]:
    """The steepest and the shallowest line through the bars of all readings, as load is drawn over stretch."""
    lines = part.acceptable
    half = lines.half_difference_n_per_mm
    if half is None or lines.steepest is None or lines.shallowest is None:
        return []
    steep, shallow = (in_sum(1 / line.slope_mm_per_n, "N/mm") for line in (lines.steepest, lines.shallowest))
    apart = amount(rounded(half, decimals_of(half)), "N/mm")
    return [f"steepest {steep}, shallowest {shallow}, half the difference {apart}"]


def _half_why(part: ChosenPart, depth: str) -> str | None:
    return part.acceptable.why if reaches(depth, "third") and part.line is not None else None


def _leaves(part: ChosenPart) -> str | None:
    if part.leaves_n is None or part.leaves_step is None:
        return None
    return f"From step {shown(part.leaves_step)} on ({with_unit(figures(part.leaves_n, 3), 'N')}) it leaves the line"
