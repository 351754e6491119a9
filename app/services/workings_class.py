"""How the figures of a design were worked out: the bracket of each cord, which did not break, what it kept."""

import math
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace

from app.mechanics.breaking import Bracket
from app.mechanics.class_sums import DesignSums, group_of
from app.mechanics.cord_sums import CordSums
from app.mechanics.result import Result
from app.mechanics.shares_kept import ShareKept
from app.services.figure_words import as_percent, counted, force_bracket, in_sum, measured
from app.services.remedies import MORE_GROUPS, after, remedy
from app.services.working import Working, beside, listed, reaches
from app.services.workings_design_break import Broken, break_better, breaking_figures

NELSON, RATIO = "Nelson 1982", "GUM 5.1.6"
NO_CORD = "No cord of this design counts yet."
COUNTED = "Our own definition: a cord counts as not broken when all that is known is that it holds more."
SAME_WITH_KNOTS = "No knot came undone, so the cord with its knots has the same figures."
KNOTTED = " with its knots"


def design_figures(sums: DesignSums, depth: str, *, name: str) -> list[Working]:
    """How each figure of one design was worked out, as cords and, where that differs, as cords with their knots."""
    of = Broken(found=sums.breaking, depth=depth, name=name, ended=_ended(sums, lambda one: one.break_bracket))
    of_cords = breaking_figures(of)
    made = [_brackets(sums, name, break_better(of)), _unbroken(sums, name), *of_cords]
    if sums.with_knots != sums.breaking:
        ended = _ended(sums, lambda one: one.with_knots)
        knotted = replace(of, found=sums.with_knots, name=name + KNOTTED, under="with_knots.", ended=ended)
        return [*made, *breaking_figures(knotted)]
    if sums.breaking.benches:
        made[2] = replace(of_cords[0], notes=(SAME_WITH_KNOTS,))
    return made


def _ended(sums: DesignSums, bracket: Callable[[CordSums], Bracket]) -> tuple[str | None, ...]:
    """How the cords ended that did not break."""
    return tuple(one.cord.outcome for one in sums.cords if bracket(one).is_unbroken)


def _brackets(sums: DesignSums, name: str, better: str) -> Working:
    told = [one for one in sums.cords if one.cord.outcome is not None]
    makers = _makers(sums)
    each = [f"{makers[one.cord.specimen]} {force_bracket(one.break_bracket)}" for one in told]
    return Working(
        code="brackets_N",
        name=f"Breaking force of each cord of {name}",
        said=listed(each) or NO_CORD,
        formula="a cord breaks between the force it held and the force it broke on",
        numbers=f"{counted(len(sums.cords), 'cord')} by {counted(len(sums.groups), 'group')}" if sums.cords else "",
        source=NELSON,
        own="",
        better=better,
        notes=(),
    )


def _makers(sums: DesignSums) -> dict[str, str]:
    """By cord its group, with the cord's number where the group made several; its name where no number tells them."""
    groups = {one.cord.specimen: group_of(one.cord) for one in sums.cords}
    numbered = {one.cord.specimen: f"{groups[one.cord.specimen]} {one.cord.repeat}" for one in sums.cords}
    of_group, of_number = Counter(groups.values()), Counter(numbered.values())
    return {
        cord: group if of_group[group] == 1 else numbered[cord] if of_number[numbered[cord]] == 1 else cord
        for cord, group in groups.items()
    }


def _unbroken(sums: DesignSums, name: str) -> Working:
    makers = _makers(sums)
    stayed = [makers[one.cord.specimen] for one in sums.cords if one.break_bracket.is_unbroken]
    return Working(
        code="unbroken",
        name=f"Cords of {name} that did not break",
        said=f"{sums.unbroken} of {len(sums.cords)}" if sums.cords else NO_CORD,
        formula="a cord that did not break holds more than its greatest load",
        numbers=", ".join(stayed),
        source="",
        own=COUNTED,
        better=after(_ended(sums, lambda one: one.break_bracket)),
        notes=(),
    )


def kept_workings(kept: Sequence[ShareKept], depth: str, *, sums: DesignSums, name: str) -> list[Working]:
    """What the design lost to plaiting, and at the third depth to its knots."""
    shown = [one for one in kept if one.design == sums.letter and reaches(depth, "second" if one.strands else "third")]
    return [
        _kept(one, found, depth, sums=sums, name=f"{name}{KNOTTED}" if knots else name)
        for one in shown
        for knots, found in ((False, one.cord), (True, one.with_knots))
        if not knots or (one.strands is not None and one.with_knots != one.cord)
    ]


def _kept(one: ShareKept, found: Result, depth: str, *, sums: DesignSums, name: str) -> Working:
    of = f"{one.strands} single strips" if one.strands else "the same cord without knots"
    share = as_percent(found)
    return Working(
        code="shares_kept",
        name=f"What {name} keeps of {of} (design {one.beside})",
        said=measured(share, depth),
        formula="F / (n F₁), F₁ of one strip" if one.strands else "F with knots / F without",
        numbers=_kept_numbers(one, found, sums),
        source=RATIO,
        own="",
        better=remedy(found.why, MORE_GROUPS),
        notes=beside(found),
    )


def _kept_numbers(one: ShareKept, found: Result, sums: DesignSums) -> str:
    """Geometric means of both designs' groups; the other's follows from the share."""
    values = [bench.value for bench in sums.breaking.benches if bench.value > 0]
    if found.value is None or not values:
        return ""
    mean_n = math.exp(math.fsum(map(math.log, values)) / len(values))
    n = one.strands or 1
    other = in_sum(mean_n / n / found.value, "N")
    under = f"({n} × {other})" if one.strands else other
    return f"{in_sum(mean_n, 'N')} / {under} = {in_sum(100 * found.value, '%')}"
