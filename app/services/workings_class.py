"""How the figures of a design were worked out: brackets, their median, the typical breaking force, what it kept."""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from app.mechanics.bench_values import BenchValue
from app.mechanics.breaking import Bracket
from app.mechanics.censored import least_drop
from app.mechanics.class_sums import DesignSums, group_of
from app.mechanics.design_break import LEAST_BENCHES, DesignBreak
from app.mechanics.result import Result
from app.mechanics.shares_kept import ShareKept
from app.services.figure_words import (
    amount,
    as_percent,
    decimals_for,
    figures,
    force_bracket,
    in_sum,
    measured,
    newtons,
    rounded,
)
from app.services.remedies import MORE_GROUPS, remedy
from app.services.working import Working, listed, notes_of, reaches

NELSON, POOLED, TURNBULL, RATIO = "Nelson 1982", "NIST 7.4.3.3", "Turnbull 1976", "GUM 5.1.6"
NO_CORD = "No cord of this design counts yet."
BENCH_FIRST = "Our own definition: the middle of what the groups' cords held, and the middle of what broke them."
COUNTED = "Our own definition: a cord counts as not broken when all that is known is that it holds more."
HALF_EACH = "Each group's cord lies under or over the true median as a coin falls: all on one side 2 times in 2ⁿ."
SAME_WITH_KNOTS = "No knot came undone, so the cord with its knots has the same figures."
SECOND_GROUP = "A second group that makes this design."
ENDS = "from the lowest load held to the highest broken on"
LOWS = "at least the median of the loads held"
OF_TWO = "the mean of ln of the middles, turned back; half-width t s/√2, s the scatter of all designs"
LIKELIEST = "the median m for which the brackets are likeliest, ln F normal; ends where 2 ln L has fallen by q(n)"
OF_HUNDRED = 100
"""Chances are not said in parts finer than these."""
KNOTTED = " with its knots"


def design_figures(sums: DesignSums, depth: str, *, name: str) -> list[Working]:
    """How each figure of one design was worked out, as cords and, where that differs, as cords with their knots."""
    of_cords = _breaking(sums.breaking, depth, name=name)
    made = [_brackets(sums, name), _unbroken(sums, name), *of_cords]
    if sums.with_knots != sums.breaking:
        return [*made, *_breaking(sums.with_knots, depth, name=name + KNOTTED, under="with_knots.")]
    if sums.breaking.benches:
        made[2] = replace(of_cords[0], notes=(SAME_WITH_KNOTS,))
    return made


def _breaking(found: DesignBreak, depth: str, *, name: str, under: str = "") -> list[Working]:
    """The figures that a design has twice: its cords', and its cords with their knots; `under` parts their codes."""
    made = [_median(found, name, under), _spread(found, depth, name=name, under=under)]
    if reaches(depth, "second"):
        made.append(_typical(found, depth, name=name, under=under))
    if reaches(depth, "third"):
        made += [_weibull(found, depth, name=name, under=under), *_shares(found, name, under)]
    return made


def _brackets(sums: DesignSums, name: str) -> Working:
    told = [one for one in sums.cords if one.cord.outcome is not None]
    makers = _makers(sums)
    each = [f"{makers[one.cord.specimen]} {force_bracket(one.break_bracket)}" for one in told]
    return Working(
        code="brackets_N",
        name=f"Breaking force of each cord of {name}",
        said=listed(each) or NO_CORD,
        formula="a cord breaks between the force it held and the force it broke on",
        numbers=f"{_count(len(sums.cords), 'cord')} by {_count(len(sums.groups), 'group')}" if sums.cords else "",
        source=NELSON,
        own="",
        better=_better(sums.breaking),
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


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


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
        better="Masses that go on until every cord breaks." if stayed else "",
        notes=(),
    )


def _median(found: DesignBreak, name: str, under: str) -> Working:
    lows = [bench.low for bench in found.benches if bench.low is not None]
    highs = [bench.high for bench in found.benches if bench.low is not None]
    return Working(
        code=f"{under}median_break_N",
        name=f"Median bracket of {name}",
        said=force_bracket(found.median),
        formula="from the median of the loads held to the median of the loads broken on, one of each a group",
        numbers=listed([f"held: {_ordered(lows)}", f"broke on: {_ordered(highs)}"]) if lows else "",
        source="",
        own=BENCH_FIRST,
        better=_better(found),
        notes=(),
    )


def _ordered(ends_n: Sequence[float | None]) -> str:
    """Forces in order, what is only known from below last."""
    known = sorted(end for end in ends_n if end is not None)
    return ", ".join([*map(newtons, known), *["more"] * (len(ends_n) - len(known))])


def _spread(found: DesignBreak, depth: str, *, name: str, under: str) -> Working:
    n = sum(bench.low is not None for bench in found.benches)
    return Working(
        code=f"{under}spread_N",
        name=f"Where the true median of {name} may lie",
        said=_chance(found, n),
        formula=ENDS if depth == "first" else f"{ENDS}; chance at least 1 − 2/2ⁿ, n the groups",
        numbers=f"1 − 2/{2**n} = {figures(found.spread_holds or 0.0)}, n = {n}" if n else "",
        source="",
        own=f"Our own definition. {HALF_EACH}",
        better=MORE_GROUPS,
        notes=(),
    )


def _chance(found: DesignBreak, n: int) -> str:
    """The spread with how often it holds the median: 1 - 2/2**n of the time, said as so many times in so many."""
    spread = force_bracket(found.spread)
    if n < 2:
        return f"{spread}: one group alone can't say how often that holds it" if n else spread
    one_in = 2 ** (n - 1)
    times, of = (one_in - 1, one_in) if one_in <= OF_HUNDRED else (99, OF_HUNDRED)
    return f"{spread}, at least {_count(times, 'time')} in {of}"


def _typical(found: DesignBreak, depth: str, *, name: str, under: str) -> Working:
    typical = found.typical_break_force_n
    of_two, known_low = len(found.benches) < LEAST_BENCHES, typical.value is None and typical.low is not None
    return Working(
        code=f"{under}typical_break_force_N",
        name=f"Typical breaking force of {name}",
        said=measured(typical, depth),
        formula=LOWS if known_low else OF_TWO if of_two else LIKELIEST,
        numbers=_typical_numbers(found, typical),
        source="" if known_low else POOLED if of_two else NELSON,
        own=BENCH_FIRST if known_low else "",
        better=remedy(typical.why, _better(found)),
        notes=_beside(typical),
    )


def _typical_numbers(found: DesignBreak, typical: Result) -> str:
    if typical.value is None:
        lows = [bench.low for bench in found.benches if bench.low is not None]
        return "" if typical.low is None else f"held: {_ordered(lows)}"
    if len(found.benches) < LEAST_BENCHES:
        middles = " × ".join(newtons(bench.value) for bench in found.benches)
        times = figures((typical.high or typical.value) / typical.value, 3)
        return f"√({middles}) = {in_sum(typical.value, 'N')}, times or divided by {times}"
    n = sum(bench.low is not None for bench in found.benches)
    return f"n = {n}: {_told(found.benches)}; q({n}) = {rounded(least_drop(n), 2)}"


def _told(benches: Sequence[BenchValue]) -> str:
    return ", ".join(force_bracket(Bracket(low_n=bench.low, high_n=bench.high)) for bench in benches)


def _weibull(found: DesignBreak, depth: str, *, name: str, under: str) -> Working:
    weibull = found.weibull_break_force_n
    n = sum(bench.low is not None for bench in found.benches)
    return Working(
        code=f"{under}weibull_break_force_N",
        name=f"Typical breaking force of {name}, if forces scatter as Weibull's",
        said=measured(weibull, depth),
        formula="as the typical breaking force, ln F by the smallest extreme value instead of the normal",
        numbers=f"n = {n}; q({n}) = {rounded(least_drop(n), 2)}" if weibull.value is not None else "",
        source=NELSON,
        own="",
        better=remedy(weibull.why, _better(found)),
        notes=_beside(weibull),
    )


def _shares(found: DesignBreak, name: str, under: str) -> list[Working]:
    """Which share breaks where, without any shape of scatter; nothing under six groups."""
    if not found.shares:
        return []
    each = [
        f"{rounded(100 * share.share, 0)}\u00a0% {force_bracket(Bracket(low_n=share.low_n, high_n=share.high_n))}"
        for share in found.shares
    ]
    return [
        Working(
            code=f"{under}shares",
            name=f"Which share of {name} breaks where",
            said=listed(each),
            formula="the shares that give each bracket back its own part of them",
            numbers=_told(found.benches),
            source=TURNBULL,
            own="",
            better=MORE_GROUPS,
            notes=notes_of("No shape of scatter is assumed here"),
        )
    ]


def _better(found: DesignBreak) -> str:
    """What would tell the breaking force of a design closer: groups, heavier masses or smaller steps."""
    if len(found.benches) < 2:
        return SECOND_GROUP if found.benches else MORE_GROUPS
    if found.unbroken:
        return "Masses that go on until every cord breaks."
    widths = [bench.high - bench.low for bench in found.benches if bench.low is not None and bench.high is not None]
    values = [bench.value for bench in found.benches]
    apart = max(values) - min(values)
    differ = amount(rounded(apart, decimals_for(apart, 2)), "N")
    if widths and max(widths) > apart:
        return f"Smaller steps near the break: they are wider than the groups differ ({differ})."
    return f"{MORE_GROUPS[:-1]}: their cords differ by {differ}, more than the steps."


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
        notes=_beside(found),
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


def _beside(found: Result) -> tuple[str, ...]:
    """What must stand beside a figure; why there is none only where an end is told."""
    told = found.low is not None or found.high is not None
    return notes_of(found.note, found.why if told else None)
