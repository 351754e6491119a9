"""How it was worked out what stayed of a stretch, what came back, and what went on under the same load."""

from app.domain.quantities import trimmed, with_unit
from app.mechanics.cord_sums import CordSums, Creep
from app.mechanics.reading_sums import curve_points
from app.mechanics.returns import Return
from app.services.figure_words import amount, as_percent, between, in_sum, measured, newtons, rounded
from app.services.remedies import remedy
from app.services.working import Working, listed, notes_of
from app.services.workings_stretch import DIFFERENCE, difference_said, zero_better

NOT_READ_TWICE = "No step was read twice, so nothing is known of creep."
KEEPS_RECOVERING = "A cord goes on coming back for minutes, so the wait at the hanger is part of this figure."
WITHIN = "Came back means to within {}: less could not have been seen."
LIMIT_OWN = (
    "Our own definition: it lies between the heaviest load that the cord came back from and the lightest that it did "
    "not come back from."
)


def permanent_set(sums: CordSums, depth: str) -> Working:
    """What was left of the stretch after the heaviest load that the cord was taken back from."""
    found = sums.permanent_set_mm
    plain = "pointer back at the hanger and pointer at the zero: how far apart"
    return Working(
        code="permanent_set_mm",
        name="Stretch that stayed" if depth == "first" else "Permanent set",
        said=measured(found, depth),
        formula=plain if depth == "first" else "e_r: extension with the hanger alone, after the load",
        numbers="" if found.value is None else _set_numbers(sums),
        source=DIFFERENCE,
        own="",
        better=remedy(found.why, zero_better(sums)),
        notes=notes_of(KEEPS_RECOVERING if found.value is not None else None),
    )


def _set_numbers(sums: CordSums) -> str:
    last = max(sums.returns, key=lambda each: each.force_n)
    back = {point.row.step: point for point in reversed(curve_points(sums.cord, ("return",)))}
    reached_mm = _reached_mm(sums, last.step)
    before = f"it was {in_sum(reached_mm, 'mm')} longer under {newtons(last.force_n)} (step {last.step})"
    after = f"back at the hanger {difference_said(sums, back[last.step])}"
    return f"{before}; {after}, so {in_sum(reached_mm - (last.set_mm.value or 0.0), 'mm')} came back"


def _reached_mm(sums: CordSums, step: int) -> float:
    return {point.row.step: point.extension_mm or 0.0 for point in sums.loaded}[step]


def recovery(sums: CordSums, depth: str) -> Working:
    """Which part of each stretch came back."""
    each = [f"from {newtons(one.force_n)}: {measured(as_percent(one.recovery), depth)}" for one in sums.returns]
    known = [one for one in sums.returns if one.recovery.value is not None]
    why = sums.returns[-1].recovery.why if sums.returns else sums.permanent_set_mm.why
    return Working(
        code="recovery",
        name="Recovery",
        said=listed(each) or measured(sums.permanent_set_mm, depth),
        formula="(e_max − e_r) / e_max",
        numbers=listed([_recovery_numbers(sums, one) for one in known]),
        source="GUM H.2",
        own="",
        better=remedy(why, "One more return, from a step between those tried or a later one."),
        notes=notes_of(KEEPS_RECOVERING if known else None),
    )


def _recovery_numbers(sums: CordSums, one: Return) -> str:
    reached, left = _reached_mm(sums, one.step), one.set_mm.value or 0.0
    sign = "+" if left < 0 else "−"
    came_back = f"({in_sum(reached, 'mm')} {sign} {in_sum(abs(left), 'mm')})"
    return f"step {one.step}: {came_back} / {in_sum(reached, 'mm')} = {in_sum(100 * (one.recovery.value or 0.0), '%')}"


def elastic_limit(sums: CordSums, _: str) -> Working:
    """Between which loads the cord stopped coming back."""
    found, limit = sums.elastic_limit, sums.elastic_limit.limit
    one_end = limit.low is not None or limit.high is not None
    seen = None if found.seen_from_mm is None else WITHIN.format(amount(rounded(found.seen_from_mm, 1), "mm"))
    return Working(
        code="elastic_limit_N",
        name="Elastic limit",
        said=between(limit),
        formula="from the heaviest load it came back from to the lightest it did not come back from",
        numbers=listed([*_loads("it came back from", found.came_back_n), *_loads("not from", found.stayed_n)]),
        source="",
        own=LIMIT_OWN,
        better=remedy(limit.why, "One more return, from a step between the two."),
        notes=notes_of(limit.why if one_end else None, seen),
    )


def _loads(words: str, loads_n: tuple[float, ...]) -> list[str]:
    return [f"{words} {', '.join(newtons(load) for load in loads_n)}"] if loads_n else []


def creep(sums: CordSums, depth: str) -> Working:
    """How far the pointer went on under the same load."""
    each = [f"under {newtons(one.force_n)}: {measured(one.creep_mm, depth)}" for one in sums.creeps]
    return Working(
        code="creep",
        name="Creep",
        said=listed(each) or NOT_READ_TWICE,
        formula="e(later) − e(first), under the same load",
        numbers=listed([_creep_numbers(sums, one) for one in sums.creeps]),
        source=DIFFERENCE,
        own="",
        better="A longer wait before the second reading." if each else "Read one step again after a longer wait.",
        notes=(),
    )


def _creep_numbers(sums: CordSums, one: Creep) -> str:
    first = {point.row.step: point for point in sums.loaded if point.row.phase == "load"}[one.step]
    later = next(
        point
        for point in curve_points(sums.cord, ("later",))
        if point.row.step == one.step and point.stretched_mm - first.stretched_mm == one.creep_mm.value
    )
    read = [with_unit(trimmed(point.row.pointer_mm), "mm") for point in (later, first)]
    order = read if sums.cord.scale == "down" else read[::-1]
    return f"step {one.step}: {' − '.join(order)} = {in_sum(one.creep_mm.value or 0.0, 'mm')}"
