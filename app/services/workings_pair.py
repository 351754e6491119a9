"""How a sentence about two designs, and how well cords of one design agree, was worked out."""

import math
from collections.abc import Mapping, Sequence

from app.domain.quantities import with_unit
from app.mechanics.agreement import Agreement, GroupAgreement
from app.mechanics.comparison import Difference
from app.mechanics.result import Result
from app.services.figure_words import figures, in_sum, measured, rounded
from app.services.remedies import MORE_GROUPS, remedy
from app.services.verdict_words import verdict_words
from app.services.working import Working, listed, notes_of, reaches

TUKEY, FISHER, ISO_5725, E691 = "NIST 7.4.7.1", "Fisher 1935", "ISO 5725-2", "ASTM E691"
QUANTITIES = {
    "break_force_N": ("breaking force", "N"),
    "break_force_per_strand_N": ("breaking force for each strip", "N"),
    "tenacity_cN_per_tex": ("strength for the mass of a metre", "cN/tex"),
    "stiffness_N_per_mm": ("stiffness", "N/mm"),
    "extension_at_common_force_mm": ("stretch under the same load", "mm"),
}
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
RATIO_BY_LN = "ratio = geometric mean of one / of the other; times or divided by exp(q s √(1/n₁ + 1/n₂))"


def difference_working(found: Difference, depth: str, *, names: Mapping[str, str]) -> Working:
    """How the sentence about two designs in one quantity was worked out."""
    what, unit = QUANTITIES.get(found.quantity, (found.quantity, ""))
    one, other = (names.get(letter, letter) for letter in (found.one, found.other))
    by_luck = found.verdict == "hint"
    own = OWN.get(found.verdict, "")
    return Working(
        code=found.quantity,
        name=f"{one} and {other}: {what}",
        said=verdict_words(found, depth, names=names),
        formula=PLAIN[found.verdict] if not reaches(depth, "second") or own or by_luck else RATIO_BY_LN,
        numbers=_pair_numbers(found, depth, unit=unit, called=(one, other)),
        source="" if own else FISHER if by_luck else TUKEY,
        own=own,
        better=_pair_better(found, one, other),
        notes=notes_of(found.ratio.note) if reaches(depth, "second") and not own else (),
    )


def _pair_numbers(found: Difference, depth: str, *, unit: str, called: tuple[str, str]) -> str:
    sides = zip(called, (found.ln_one, found.ln_other), (found.unbroken_one, found.unbroken_other), strict=True)
    parts = [_side(name, values, unbroken, unit) for name, values, unbroken in sides]
    if found.verdict == "hint":
        parts.append(_dealings(found))
    if reaches(depth, "second") and found.ratio.value is not None:
        means = [math.exp(math.fsum(values) / len(values)) for values in (found.ln_one, found.ln_other)]
        parts.append(f"{in_sum(means[0], unit)} / {in_sum(means[1], unit)} = {figures(found.ratio.value)}")
    if reaches(depth, "third") and found.s_ln is not None and found.gap is not None:
        parts.append(_over_scatter(found, found.s_ln, found.gap))
    return listed(parts)


def _side(name: str, ln_values: Sequence[float], unbroken: int, unit: str) -> str:
    values = ", ".join(figures(math.exp(value)) for value in sorted(ln_values))
    return f"{name}: {with_unit(values, unit)}{f' ({unbroken} not broken)' if unbroken else ''}"


def _dealings(found: Difference) -> str:
    n, all_of = len(found.ln_one), len(found.ln_one) + len(found.ln_other)
    return f"2 of the {math.comb(all_of, n)} ways to deal {all_of} groups into {n} and {all_of - n}"


def _over_scatter(found: Difference, s_ln: float, gap: float) -> str:
    counts = f"√(1/{len(found.ln_one)} + 1/{len(found.ln_other)})"
    error, stated = f"(s {counts})", ""
    if found.shared_u:
        error = f"√((s {counts})² + u²)"
        stated = f", u = {in_sum(100 * found.shared_u, '%')} of the masses of a metre that were stated"
    apart = f"ln ratio / {error} = {figures(gap, 3)}, s = {in_sum(100 * s_ln, '%')}{stated}"
    if found.smallest_ratio is None:
        return apart
    needed = math.log(found.smallest_ratio) * gap / _ln_ratio(found) if _ln_ratio(found) else None
    return apart if needed is None else f"{apart}; more than {figures(needed, 3)} counts as different"


def _ln_ratio(found: Difference) -> float:
    return math.log(found.ratio.value) if found.ratio.value else 0.0


def _pair_better(found: Difference, one: str, other: str) -> str:
    if found.verdict == "one_group":
        alone = [name for name, of in ((one, found.ln_one), (other, found.ln_other)) if len(of) < 2]
        return f"A second group that makes {' and '.join(alone)}."
    if found.verdict == "weaker_unbroken":
        return f"Masses that go on until every {other} breaks."
    if found.unbroken_one:
        return f"Masses that go on until every {one} breaks."
    if found.verdict == "different":
        return f"More groups for {one} and {other}: the ratio comes closer."
    return f"More groups for {one} and {other}, or fewer designs."


def agreement_figures(found: Agreement, depth: str) -> list[Working]:
    """How repeatability, reproducibility, and h and k of each group were worked out."""
    return [
        _scatter(
            found.repeatability,
            depth,
            code="repeatability",
            formula="s_r = √(Σ (n_i − 1) s_i² / Σ (n_i − 1)), s_i the scatter of the cords of one group",
            numbers=_within(found),
        ),
        _scatter(
            found.reproducibility,
            depth,
            code="reproducibility",
            formula="s_R = √(s_L² + s_r²), s_L the scatter of the groups themselves, never under 0",
            numbers=_between(found),
        ),
        *([_h_and_k(found.groups)] if found.groups else []),
    ]


def _scatter(found: Result, depth: str, *, code: str, formula: str, numbers: str) -> Working:
    return Working(
        code=code,
        name=code.capitalize(),
        said=measured(found, depth),
        formula=formula,
        numbers=numbers,
        source=ISO_5725,
        own="",
        better=remedy(found.why, MORE_GROUPS),
        notes=notes_of(found.note),
    )


def _within(found: Agreement) -> str:
    if found.repeatability.value is None:
        return ""
    terms = " + ".join(f"{group.cords - 1} × {figures(group.s, 3)}²" for group in found.groups)
    dof = sum(group.cords - 1 for group in found.groups)
    return f"√(({terms}) / {dof}) = {in_sum(found.repeatability.value, found.repeatability.unit)}"


def _between(found: Agreement) -> str:
    s_r, s_big = found.repeatability.value, found.reproducibility.value
    if s_r is None or s_big is None:
        return ""
    s_l = math.sqrt(max(0.0, s_big * s_big - s_r * s_r))
    return f"√({figures(s_l, 3)}² + {figures(s_r, 3)}²) = {in_sum(s_big, found.reproducibility.unit)}"


def _h_and_k(groups: Sequence[GroupAgreement]) -> Working:
    return Working(
        code="groups",
        name="h and k of each group",
        said=listed([f"{group.group} h {_two(group.h)}, k {_two(group.k)}" for group in groups]),
        formula="h = (mean of the group − mean of all) / scatter of the means; k = s of the group / s_r",
        numbers=f"lines: h ±{_two(groups[0].h_line)}; k {', '.join(sorted({_two(group.k_line) for group in groups}))}",
        source=E691,
        own="",
        better="More cords by each group.",
        notes=notes_of("Equal groups pass a line by luck 1 time in 20, all groups together"),
    )


def _two(value: float | None) -> str:
    return "unknown" if value is None else rounded(value, 2)
