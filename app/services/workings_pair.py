"""How a sentence about two designs was worked out: to the verdict by words, or by numbers for a calculator."""

import math
from collections.abc import Mapping, Sequence

from app.mechanics.comparison import Difference
from app.mechanics.one_way import tukey_factor
from app.mechanics.shared_scatter import PROBABILITY
from app.services.figure_words import IN_SUM, amount, figures
from app.services.remedies import TO_BREAK_ALL
from app.services.verdict_words import READ_OFF, TENACITY, WHAT, ratio_text, verdict_words, what_of
from app.services.working import OF_CALCULATOR, Working, listed, notes_of, reaches

TUKEY, FISHER = "NIST 7.4.7.1", "Fisher 1935"
UNITS = {
    "break_force_N": "N",
    "break_force_per_strand_N": "N",
    TENACITY: "cN/tex",
    "stiffness_N_per_mm": "N/mm",
    "extension_at_common_force_mm": "mm",
}
QUANTITIES = {code: (WHAT[code], unit) for code, unit in UNITS.items()}
PER_GRAM, IN_CN_PER_TEX = "N/(g/m)", 10
"""Up to the second depth tenacity is told by the gram in a metre: 1 cN/tex is 10 N for each."""
ALIKE = {
    "break_force_N": ("held", "hold", "as much"),
    "break_force_per_strand_N": ("held", "hold", "as much for each strip"),
    TENACITY: ("held", "hold", "as much for its mass"),
    "stiffness_N_per_mm": ("was", "be", "as stiff"),
    "extension_at_common_force_mm": ("stretched", "stretch", "as much"),
}
"""What a design did so many times as much as another; what it would have had to do."""
OWN = {
    "one_group": "Our own rule: the group is the unit, and one group alone can't show what a design does.",
    "weaker_unbroken": "Our own rule: a cord that did not break counts with what it held, so it may be the stronger.",
}
LUCK = "of all ways to deal the groups into two such sets, two part them completely"
PLAIN = {
    "different": "every group of one beside every group of the other; cords of one design show what luck does",
    "cannot_tell": "every group of one beside every group of the other; cords of one design show what luck does",
    "hint": LUCK,
    "one_group": "two groups or more for each design",
    "weaker_unbroken": "a cord that did not break counts with what it held",
}
ONE_EACH = "one number for each group"
MIDDLE_EACH = f"{ONE_EACH}, the middle between what its cord held and what it broke on"
OR_HELD = ", of a cord that did not break what it held"
BY_SCATTER = (
    "a design's middle: the nth root of the product of its n numbers; ratio: middle of one / middle of the other; "
    "f = exp(q × {} / √2) is the smallest ratio; interval from ratio / f to ratio × f; s: how far groups of one design "
    "differ, as a part of 1, from all designs; q: the studentized range, so wide that all pairs of designs together "
    f"are right {100 * PROBABILITY:.0f} times in 100"
)
U = "u: standard uncertainty of the masses of a metre, as a part of 1"
T = "t = ln ratio / ({})"
NEEDED = "With these cords, one design would have had to {} {} times {} for us to say so."
TO_READ = 4
"""Figures of a number that nothing is worked out from."""


def difference_working(found: Difference, depth: str, *, names: Mapping[str, str]) -> Working:
    """How the sentence about two designs in one quantity was worked out."""
    one, other = (names.get(letter, letter) for letter in (found.one, found.other))
    own = OWN.get(found.verdict, "")
    return Working(
        code=found.quantity,
        name=f"{one} and {other}: {what_of(found.quantity, depth)}",
        said=verdict_words(found, depth, names=names),
        formula=_pair_formula(found, depth),
        numbers=_pair_numbers(found, depth, called=(one, other)),
        source="" if own else FISHER if found.verdict == "hint" else TUKEY,
        own=own,
        better=_pair_better(found, one, other),
        notes=notes_of(found.ratio.note) if reaches(depth, "second") and not own else (),
    )


def _pair_formula(found: Difference, depth: str) -> str:
    if found.verdict in OWN:
        return PLAIN[found.verdict]
    each = MIDDLE_EACH if found.quantity in READ_OFF else ONE_EACH
    each += OR_HELD if found.unbroken_one else ""
    by_scatter = reaches(depth, "second") and found.smallest_ratio is not None
    parts = [each] if by_scatter and found.verdict != "hint" else [each, PLAIN[found.verdict]]
    if by_scatter:
        parts.append(BY_SCATTER.format(_error(found, "s √(1/n₁ + 1/n₂)", "u")))
        parts += [U] if found.shared_u else []
        parts += [T.format(_error(found, "s √(1/n₁ + 1/n₂)", "u"))] if reaches(depth, "third") else []
    return listed(parts)


def _error(found: Difference, scatter: str, stated: str) -> str:
    """The standard error of ln of the ratio: of scatter alone, or with the uncertainty that was stated."""
    return f"√(({scatter})² + {stated}²)" if found.shared_u else scatter


def _pair_numbers(found: Difference, depth: str, *, called: tuple[str, str]) -> str:
    deeper, (scale, unit) = reaches(depth, "second"), _told_in(found.quantity, depth)
    ln_values, unbroken = (found.ln_one, found.ln_other), (found.unbroken_one, found.unbroken_other)
    sides = [[scale * math.exp(value) for value in sorted(of_side)] for of_side in ln_values]
    parts = [
        _side(name, values, more, unit, digits=OF_CALCULATOR if deeper else TO_READ)
        for name, values, more in zip(called, sides, unbroken, strict=True)
    ]
    parts += [_dealings(found)] if found.verdict == "hint" else []
    if deeper:
        parts += [*_ratio_of_middles(found, scale, unit), *_interval(found)]
        parts += _over_scatter(found) if reaches(depth, "third") else []
    elif found.verdict not in OWN:
        return f"{listed(parts)}. {_times_as_much(found, called)}"
    return listed(parts)


def _told_in(quantity: str, depth: str) -> tuple[float, str]:
    """By how much a value is multiplied to stand in the unit of the depth, and that unit."""
    if quantity == TENACITY and not reaches(depth, "third"):
        return IN_CN_PER_TEX, PER_GRAM
    return 1, UNITS.get(quantity, "")


def _amount(text: str, unit: str) -> str:
    return amount(text, IN_SUM.get(unit, unit))


def _side(name: str, values: Sequence[float], unbroken: int, unit: str, *, digits: int) -> str:
    told = _amount(", ".join(figures(value, digits) for value in values), unit)
    return f"{name}: {told}{f' ({unbroken} not broken)' if unbroken else ''}"


def _dealings(found: Difference) -> str:
    n, all_of = len(found.ln_one), len(found.ln_one) + len(found.ln_other)
    return f"2 of the {math.comb(all_of, n)} ways to deal {all_of} groups into {n} and {all_of - n}"


def _times_as_much(found: Difference, called: tuple[str, str]) -> str:
    """The ratio beside the smallest that could be told, in words; why there is none."""
    if found.smallest_ratio is None or found.ratio.value is None:
        return str(found.smallest_why)
    did, do, alike = ALIKE.get(found.quantity, ("had", "have", "as much"))
    ratio, needed = (ratio_text(value) for value in (found.ratio.value, found.smallest_ratio))
    if ratio == needed:
        ratio, needed = (figures(value, OF_CALCULATOR) for value in (found.ratio.value, found.smallest_ratio))
    least = "at least " if found.unbroken_one else ""
    told = f"{called[0]} {did} {least}{ratio} times {alike} as {called[1]}"
    return f"{told}. {NEEDED.format(do, needed, alike)}"


def _ratio_of_middles(found: Difference, scale: float, unit: str) -> list[str]:
    if found.ratio.value is None:
        return []
    one, other = (scale * math.exp(math.fsum(of) / len(of)) for of in (found.ln_one, found.ln_other))
    middles = " / ".join(_amount(figures(middle, OF_CALCULATOR), unit) for middle in (one, other))
    return [f"{middles} = {figures(found.ratio.value, OF_CALCULATOR)}"]


def _interval(found: Difference) -> list[str]:
    """How far the interval goes from the ratio, to be followed with a calculator; nothing where there is no telling."""
    if found.smallest_ratio is None or found.ratio.value is None:
        return []
    factor, ratio = figures(found.smallest_ratio, OF_CALCULATOR), figures(found.ratio.value, OF_CALCULATOR)
    q = figures(math.sqrt(2) * _factor(found), OF_CALCULATOR)
    s = figures(found.s_ln or 0.0, OF_CALCULATOR)
    parts = [f"s = {s}", f"q = {q} for {found.designs} designs and {found.dof} degrees of freedom", *_stated(found)]
    parts.append(f"f = exp({q} × {_error(found, _scatter_of(found), _u(found))} / √2) = {factor}")
    if found.ratio.low is not None:
        parts.append(f"{ratio} / {factor} = {ratio_text(found.ratio.low)}")
    if found.ratio.high is not None:
        parts.append(f"{ratio} × {factor} = {ratio_text(found.ratio.high)}")
    return parts


def _stated(found: Difference) -> list[str]:
    return [f"u = {_u(found)} of the masses of a metre that were stated"] if found.shared_u else []


def _over_scatter(found: Difference) -> list[str]:
    if found.gap is None or found.ratio.value is None:
        return []
    over = _error(found, _scatter_of(found), _u(found))
    t, needed = figures(found.gap, OF_CALCULATOR), figures(_factor(found), OF_CALCULATOR)
    return [
        f"t = ln {figures(found.ratio.value, OF_CALCULATOR)} / ({over}) = {t}",
        f"more than q / √2 = {needed} counts as different",
    ]


def _factor(found: Difference) -> float:
    return tukey_factor(PROBABILITY, found.designs, found.dof)


def _scatter_of(found: Difference) -> str:
    return f"{figures(found.s_ln or 0.0, OF_CALCULATOR)} × √(1/{len(found.ln_one)} + 1/{len(found.ln_other)})"


def _u(found: Difference) -> str:
    return figures(found.shared_u, OF_CALCULATOR)


def _pair_better(found: Difference, one: str, other: str) -> str:
    if found.verdict == "one_group":
        alone = [name for name, of in ((one, found.ln_one), (other, found.ln_other)) if len(of) < 2]
        return f"A second group that makes {' and '.join(alone)}."
    if found.verdict == "weaker_unbroken":
        return f"For {other}: {TO_BREAK_ALL}"
    if found.unbroken_one:
        return f"For {one}: {TO_BREAK_ALL}"
    if found.verdict == "different":
        return f"More groups for {one} and {other}: the ratio comes closer."
    return f"More groups for {one} and {other}, or fewer designs."
