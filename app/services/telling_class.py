"""What was worked out of a class, put into the fields of /api/v1 and of `analyse --json`."""

from collections.abc import Sequence

from app.mechanics.agreement import Agreement
from app.mechanics.class_sums import BREAK, ClassSums, DesignSums
from app.mechanics.comparison import Difference
from app.mechanics.design_break import DesignBreak
from app.mechanics.result import none
from app.mechanics.shares_kept import ShareKept
from app.mechanics.trend import Trend
from app.services.telling import Said, bracket, quantity
from app.services.verdict_words import verdict_words

NO_REPEATS = "No design was made and broken twice or more by at least three groups."


def design(sums: DesignSums) -> Said:
    """One design: how many cords and groups, its brackets, and what is typical of it."""
    return {
        "design": sums.letter,
        "specimens": len(sums.cords),
        "groups": len(sums.groups),
        "unbroken": sums.unbroken,
        **_breaking(sums, sums.breaking),
        "with_knots": _breaking(sums, sums.with_knots),
    }


def _breaking(sums: DesignSums, found: DesignBreak) -> Said:
    told = [
        bracket(each) for each, cord in zip(found.brackets, sums.cords, strict=True) if cord.cord.outcome is not None
    ]
    return {
        "brackets_N": told,
        "median_break_N": bracket(found.median),
        "spread_N": {**bracket(found.spread), "holds": found.spread_holds},
        "typical_break_force_N": quantity(found.typical_break_force_n),
        "weibull_break_force_N": quantity(found.weibull_break_force_n),
        "shares": [{"low_N": each.low_n, "high_N": each.high_n, "share": each.share} for each in found.shares],
    }


def differences(sums: ClassSums, depth: str) -> list[Said]:
    """Every pair of designs in each quantity, the breaking force first; its words name designs by their letters."""
    return [difference(each, depth) for comparison in sums.comparisons for each in comparison.differences]


def difference(found: Difference, depth: str) -> Said:
    """One pair of designs in one quantity."""
    return {
        "one": found.one,
        "other": found.other,
        "quantity": found.quantity,
        "ratio": quantity(found.ratio),
        "smallest_ratio": found.smallest_ratio,
        "smallest_why": found.smallest_why,
        "verdict": found.verdict,
        "words": verdict_words(found, depth, names={}),
    }


def repeatability(sums: ClassSums, *, naming: bool) -> Said:
    """How well cords of one design agree: of the design that most groups made twice or more, of equals the first.

    Groups are told one by one only with `naming`: how a group stands beside the others is for the teacher.
    """
    known = [each for each in sums.designs if each.agreement.groups]
    if not known:
        nothing = quantity(none(NO_REPEATS, "N"))
        return {"design": None, "quantity": BREAK, "repeatability": nothing, "reproducibility": nothing, "groups": []}
    most = max(known, key=lambda each: len(each.agreement.groups))
    told = {"design": most.letter, **agreement(most.agreement)}
    return told if naming else {**told, "groups": []}


def agreement(found: Agreement) -> Said:
    """Repeatability and reproducibility of one design, with h and k of each group."""
    return {
        "quantity": found.quantity,
        "repeatability": quantity(found.repeatability),
        "reproducibility": quantity(found.reproducibility),
        "groups": [{"group": each.group, "h": each.h, "k": each.k} for each in found.groups],
    }


def trend(found: Trend) -> Said:
    """The breaking force along the level of the changed variable, and whether the levels leave the line."""
    fit = found.lack_of_fit
    return {
        "quantity": found.quantity,
        "slope": quantity(found.slope),
        "at_none": quantity(found.intercept),
        "lack_of_fit": None
        if fit is None
        else {"f": fit.f, "p": fit.p, "dof": fit.dof, "dof_repeats": fit.dof_repeats},
    }


def shares_kept(kept: Sequence[ShareKept]) -> list[Said]:
    """What designs keep of the strength of their strands, and of themselves without knots."""
    return [
        {
            "design": each.design,
            "beside": each.beside,
            "strands": each.strands,
            "cord": quantity(each.cord),
            "with_knots": quantity(each.with_knots),
        }
        for each in kept
    ]
