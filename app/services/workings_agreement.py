"""How well cords of one design agree, within a group and between groups: each figure with its working."""

import math
from collections.abc import Sequence

from app.mechanics.agreement import Agreement, GroupAgreement
from app.mechanics.result import Result
from app.services.figure_words import figures, in_sum, measured, rounded
from app.services.remedies import MORE_GROUPS, remedy
from app.services.working import OF_CALCULATOR, Working, listed, notes_of

ISO_5725, E691 = "ISO 5725-2", "ASTM E691"


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
    terms = " + ".join(f"{group.cords - 1} × {figures(group.s, OF_CALCULATOR)}²" for group in found.groups)
    dof = sum(group.cords - 1 for group in found.groups)
    return f"√(({terms}) / {dof}) = {in_sum(found.repeatability.value, found.repeatability.unit)}"


def _between(found: Agreement) -> str:
    s_r, s_big = found.repeatability.value, found.reproducibility.value
    if s_r is None or s_big is None:
        return ""
    s_l = math.sqrt(max(0.0, s_big * s_big - s_r * s_r))
    parts = " + ".join(f"{figures(part, OF_CALCULATOR)}²" for part in (s_l, s_r))
    return f"√({parts}) = {in_sum(s_big, found.reproducibility.unit)}"


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
