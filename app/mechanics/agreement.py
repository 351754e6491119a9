"""How well cords of one design agree within a group and between groups: repeatability and reproducibility."""

import math
import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from scipy import stats

from app.mechanics.one_way import between_squares, mean, squares, within_squares
from app.mechanics.result import Result, from_interval, none

LEAST_GROUPS = 3
NAMED_FROM = 5
"""With fewer groups none is named, and the interval says more than the value."""
FALSE_ALARM = 0.05
"""How often any of equal groups is named, by h or k together."""

FEW_GROUPS = "It takes at least three groups with two results or more of one design."
NO_SCATTER = "Each group found the same for all its cords, so it is not known how far they scatter."
INTERVAL_LEADS = "So few groups took part that the interval says more than the value."


@dataclass(frozen=True, kw_only=True)
class GroupAgreement:
    """One group beside the others: h, how far its mean lies out; k, how far its cords scatter; each with its line.

    h or k is None where nothing scatters.
    """

    group: str
    cords: int
    mean: float
    s: float
    h: float | None
    h_line: float
    k: float | None
    k_line: float

    @property
    def beyond(self) -> bool:
        """Whether h or k lies beyond its line."""
        return (self.h is not None and abs(self.h) > self.h_line) or (self.k is not None and self.k > self.k_line)


@dataclass(frozen=True, kw_only=True)
class Agreement:
    """Standard deviations of one cord, within a group (repeatability) and whichever group made it (reproducibility).

    `named` are the groups that should look again at how they made or tested theirs: for the teacher's eyes.
    """

    quantity: str
    repeatability: Result
    reproducibility: Result
    groups: tuple[GroupAgreement, ...]
    named: tuple[str, ...]


def agreement(quantity: str, values: Mapping[str, Sequence[float]], *, unit: str) -> Agreement:
    """How well cords of one design agree.

    Parameters: quantity, its name; values, of the cords of each group, one design, groups whose cords all broke
        [unit]; unit, theirs. Groups with fewer than two cords are passed over.
    Returns: repeatability and reproducibility [unit] with their 95 % intervals, h and k [1] of each group; a sentence
        in their place when fewer than three groups remain.
    Raises: nothing.
    Source: ISO 5725-2 and ASTM E691 (from memory). Interval of the latter: F. A. Graybill and C.-M. Wang (1980, from
        memory); it holds 95-97 % where that of F. E. Satterthwaite (1946) falls to 89 %, when groups differ much.
    """
    several = {group: tuple(cords) for group, cords in values.items() if len(cords) > 1}
    if len(several) < LEAST_GROUPS:
        nothing = none(FEW_GROUPS, unit)
        return Agreement(quantity=quantity, repeatability=nothing, reproducibility=nothing, groups=(), named=())
    groups = _groups(several)
    repeatability, reproducibility = _scatters(tuple(several.values()), unit)
    few = len(groups) < NAMED_FROM
    return Agreement(
        quantity=quantity,
        repeatability=_led(repeatability) if few else repeatability,
        reproducibility=_led(reproducibility) if few else reproducibility,
        groups=groups,
        named=() if few else tuple(group.group for group in groups if group.beyond),
    )


def _led(scatter: Result) -> Result:
    return scatter if scatter.value is None else scatter.noted(INTERVAL_LEADS)


def _scatters(sets: Sequence[Sequence[float]], unit: str) -> tuple[Result, Result]:
    within, dof = within_squares(sets)
    if within <= 0:
        return none(NO_SCATTER, unit), none(NO_SCATTER, unit)
    between, dof_between = between_squares(sets)
    cords = _cords_a_group(sets)
    s2_r = within / dof
    of_means = between / dof_between / cords
    return (
        _scatter(s2_r, ((s2_r, dof),), unit),
        _scatter(s2_r, ((of_means, dof_between), ((1 - 1 / cords) * s2_r, dof)), unit),
    )


def _cords_a_group(sets: Sequence[Sequence[float]]) -> float:
    """Cords a group; when groups made different numbers, the number that gives the mean squares their meaning."""
    counts = [len(one) for one in sets]
    return (sum(counts) - sum(count * count for count in counts) / sum(counts)) / (len(counts) - 1)


def _scatter(least: float, parts: Sequence[tuple[float, int]], unit: str) -> Result:
    """The root of a variance that is a sum of parts, each with its degrees of freedom, and at least `least`.

    The interval adds the parts' own distances to their ends in quadrature: of one part it is that by chi-squared.
    """
    total = math.fsum(part for part, _ in parts)
    down, up = (
        math.hypot(*(part * (1 - dof / float(stats.chi2.ppf(tail, dof))) for part, dof in parts))
        for tail in (0.975, 0.025)
    )
    value = math.sqrt(max(total, least))
    return from_interval(value, min(math.sqrt(total - down), value), max(math.sqrt(total + up), value), unit=unit)


def _groups(several: Mapping[str, Sequence[float]]) -> tuple[GroupAgreement, ...]:
    sets = tuple(several.values())
    within, dof = within_squares(sets)
    means = [mean(one) for one in sets]
    s_r, s_means, centre = math.sqrt(within / dof), statistics.stdev(means), mean(means)
    alpha = FALSE_ALARM / (2 * len(sets))
    return tuple(
        GroupAgreement(
            group=group,
            cords=len(cords),
            mean=own,
            s=(s := math.sqrt(squares(cords) / (len(cords) - 1))),
            h=(own - centre) / s_means if s_means > 0 else None,
            h_line=h_line(len(sets), alpha),
            k=s / s_r if s_r > 0 else None,
            k_line=k_line(len(cords) - 1, dof, alpha),
        )
        for (group, cords), own in zip(several.items(), means, strict=True)
    )


def h_line(groups: int, alpha: float) -> float:
    """How far out the mean of one of several equal groups lies only rarely.

    Parameters: groups, how many there are, at least 3; alpha, how rarely, both sides together [1].
    Returns: the line for Mandel's h [1].
    Raises: nothing.
    Source: ASTM E691, with Student's t for groups - 2 degrees of freedom.
    """
    t = float(stats.t.ppf(1 - alpha / 2, groups - 2))
    return (groups - 1) * t / math.sqrt(groups * (t * t + groups - 2))


def k_line(dof: int, dof_all: int, alpha: float) -> float:
    """How far the cords of one of several equal groups scatter only rarely, over the scatter of all.

    Parameters: dof, degrees of freedom of that group's scatter, at least 1 [1]; dof_all, those of all groups, that
        one included, more than dof [1]; alpha, how rarely [1].
    Returns: the line for Mandel's k [1].
    Raises: ZeroDivisionError when dof is 0.
    Source: ASTM E691, with F for dof and the others' degrees of freedom; written for groups of different size.
    """
    f = float(stats.f.ppf(1 - alpha, dof, dof_all - dof))
    return math.sqrt(dof_all / dof / (1 + (dof_all - dof) / dof / f))
