"""How the breaking force of a design was worked out: the middle of its groups, the spread, the typical force."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.mechanics.bench_values import BenchValue
from app.mechanics.breaking import Bracket
from app.mechanics.censored import least_drop
from app.mechanics.design_break import LEAST_BENCHES, DesignBreak
from app.mechanics.result import Result
from app.services.figure_words import (
    amount,
    counted,
    decimals_for,
    figures,
    force_bracket,
    in_sum,
    measured,
    newtons,
    rounded,
)
from app.services.remedies import FAIL_MASS, MORE_GROUPS, after, remedy
from app.services.working import OF_CALCULATOR, Working, beside, listed, notes_of, reaches

NELSON, POOLED, TURNBULL = "Nelson 1982", "NIST 7.4.3.3", "Turnbull 1976"
BENCH_FIRST = "Our own definition: the middle of what the groups' cords held, and the middle of what broke them."
OWN = "Our own definition. "
HALF_EACH = "Each group's cord lies under or over the true median as a coin falls: all on one side 2 times in 2ⁿ."
AS_COINS = "A group's cord is as likely to lie under the true middle as over it, as a coin falls on either side."
SECOND_GROUP = "A second group that makes this design."
ENDS = "from the lowest load held to the highest broken on"
HELD = "the median of the loads held, one of each group: a group whose cord broke has held less than it can hold"
OF_TWO = "the mean of ln of the middles, turned back; half-width t s/√2, s the scatter of all designs"
LIKELIEST = "the median m for which the brackets are likeliest, ln F normal; ends where 2 ln L has fallen by q(n)"
OF_HUNDRED = 100
"""Chances are not said in parts finer than these."""


@dataclass(frozen=True, kw_only=True)
class Broken:
    """What is known of one design's breaking force, whose it is, and how it is said.

    `under` parts the codes of the cords with their knots from those of the cords; `ended` says how the cords ended
    that did not break.
    """

    found: DesignBreak
    depth: str
    name: str
    under: str = ""
    ended: Iterable[str | None] = ()

    @property
    def groups(self) -> int:
        """How many groups know what their cords held."""
        return len(self.lows_n)

    @property
    def lows_n(self) -> list[float]:
        """What each group's cords held."""
        return [bench.low for bench in self.found.benches if bench.low is not None]


def breaking_figures(of: Broken) -> list[Working]:
    """The figures that a design has twice: its cords', and its cords with their knots."""
    made = [_median(of), _spread(of)]
    if reaches(of.depth, "second"):
        made.append(_typical(of))
    if reaches(of.depth, "third"):
        made += [_weibull(of), *_shares(of)]
    return made


def _median(of: Broken) -> Working:
    highs = [bench.high for bench in of.found.benches if bench.low is not None]
    deeper = reaches(of.depth, "second")
    middle = "median" if deeper else "middle"
    return Working(
        code=f"{of.under}median_break_N",
        name=f"Median bracket of {of.name}" if deeper else f"Middle of the groups of {of.name}",
        said=force_bracket(of.found.median),
        formula=f"from the {middle} of the loads held to the {middle} of the loads broken on, one of each a group",
        numbers=listed([f"held: {_ordered(of.lows_n)}", f"broke on: {_ordered(highs)}"]) if of.groups else "",
        source="",
        own=BENCH_FIRST,
        better=break_better(of),
        notes=(),
    )


def _ordered(ends_n: Sequence[float | None]) -> str:
    """Forces in order, what is only known from below last."""
    known = sorted(end for end in ends_n if end is not None)
    return ", ".join([*map(newtons, known), *["more"] * (len(ends_n) - len(known))])


def _spread(of: Broken) -> Working:
    n, deeper = of.groups, reaches(of.depth, "second")
    return Working(
        code=f"{of.under}spread_N",
        name=f"Where the true {'median' if deeper else 'middle'} of {of.name} may lie",
        said=_chance(of),
        formula=f"{ENDS}; chance at least 1 − 2/2ⁿ, n the groups" if deeper else ENDS,
        numbers=(_chance_numbers(of) if deeper else _in_coins(n)) if n else "",
        source="",
        own=OWN + (HALF_EACH if deeper else AS_COINS),
        better=MORE_GROUPS,
        notes=(),
    )


def _chance_numbers(of: Broken) -> str:
    return f"1 − 2/{2**of.groups} = {figures(of.found.spread_holds or 0.0)}, n = {of.groups}"


def _in_coins(n: int) -> str:
    """The chance that every group's cord lies on one side of the true middle, without a formula."""
    if n < 2:
        return "one group: its cord lies on one side of the true middle, nobody knows which"
    return f"{n} groups: {n} coins all fall alike 2 times in {2**n}, and then the true middle lies outside"


def _chance(of: Broken) -> str:
    """The spread with how often it holds the median: 1 - 2/2**n of the time, said as so many in so many."""
    spread, n = force_bracket(of.found.spread), of.groups
    if n < 2:
        return f"{spread}: one group alone can't say how often that holds it" if n else spread
    one_in = 2 ** (n - 1)
    times, among = (one_in - 1, one_in) if one_in <= OF_HUNDRED else (99, OF_HUNDRED)
    if reaches(of.depth, "second"):
        return f"{spread}, at least {counted(times, 'time')} in {among}"
    return f"{spread}, in at least {'half' if among == 2 else f'{times} in {among}'} of such lessons"


def _typical(of: Broken) -> Working:
    typical = of.found.typical_break_force_n
    of_two, known_low = len(of.found.benches) < LEAST_BENCHES, _is_held_alone(typical)
    return Working(
        code=f"{of.under}typical_break_force_N",
        name=f"Typical breaking force of {of.name}",
        said=_typical_said(typical, of.depth),
        formula=HELD if known_low else OF_TWO if of_two else LIKELIEST,
        numbers=_typical_numbers(of, typical),
        source="" if known_low else POOLED if of_two else NELSON,
        own=BENCH_FIRST if known_low else "",
        better=remedy(typical.why, break_better(of)),
        notes=beside(typical),
    )


def _is_held_alone(typical: Result) -> bool:
    """Whether no more is known than what was held."""
    return typical.value is None and typical.low is not None


def _typical_said(typical: Result, depth: str) -> str:
    if not _is_held_alone(typical):
        return measured(typical, depth)
    return f"median of what was held {newtons(typical.low or 0.0)}; how much more is typical can't be said"


def _typical_numbers(of: Broken, typical: Result) -> str:
    if typical.value is None:
        return "" if typical.low is None else f"held: {_ordered(of.lows_n)}"
    benches, n = of.found.benches, of.groups
    if len(benches) < LEAST_BENCHES:
        middles = " × ".join(amount(figures(bench.value, OF_CALCULATOR), "N") for bench in benches)
        times = figures((typical.high or typical.value) / typical.value, 3)
        return f"√({middles}) = {in_sum(typical.value, 'N')}, times or divided by {times}"
    return f"n = {n}: {_told(benches)}; q({n}) = {rounded(least_drop(n), 2)}"


def _told(benches: Sequence[BenchValue]) -> str:
    return ", ".join(force_bracket(Bracket(low_n=bench.low, high_n=bench.high)) for bench in benches)


def _weibull(of: Broken) -> Working:
    weibull, n = of.found.weibull_break_force_n, of.groups
    return Working(
        code=f"{of.under}weibull_break_force_N",
        name=f"Typical breaking force of {of.name}, if forces scatter as Weibull's",
        said=_typical_said(weibull, of.depth),
        formula="as the typical breaking force, ln F by the smallest extreme value instead of the normal",
        numbers=f"n = {n}; q({n}) = {rounded(least_drop(n), 2)}" if weibull.value is not None else "",
        source=NELSON,
        own="",
        better=remedy(weibull.why, break_better(of)),
        notes=beside(weibull),
    )


def _shares(of: Broken) -> list[Working]:
    """Which share breaks where, without any shape of scatter; nothing under six groups."""
    if not of.found.shares:
        return []
    each = [
        f"{rounded(100 * share.share, 0)}\u00a0% {force_bracket(Bracket(low_n=share.low_n, high_n=share.high_n))}"
        for share in of.found.shares
    ]
    return [
        Working(
            code=f"{of.under}shares",
            name=f"Which share of {of.name} breaks where",
            said=listed(each),
            formula="the shares that give each bracket back its own part of them",
            numbers=_told(of.found.benches),
            source=TURNBULL,
            own="",
            better=MORE_GROUPS,
            notes=notes_of("No shape of scatter is assumed here"),
        )
    ]


def break_better(of: Broken) -> str:
    """What would tell the breaking force of a design closer: groups, ends by themselves or smaller steps."""
    found = of.found
    if len(found.benches) < 2:
        return SECOND_GROUP if found.benches else MORE_GROUPS
    if found.unbroken:
        return after(of.ended)
    if any(bench.high is None for bench in found.benches):
        return FAIL_MASS
    widths = [bench.high - bench.low for bench in found.benches if bench.low is not None and bench.high is not None]
    values = [bench.value for bench in found.benches]
    apart = max(values) - min(values)
    differ = amount(rounded(apart, min(decimals_for(apart, 2), 2)), "N")
    if widths and max(widths) > apart:
        return f"Smaller steps near the break: they are wider than the groups differ ({differ})."
    return f"{MORE_GROUPS[:-1]}: their cords differ by {differ}, more than the steps."
