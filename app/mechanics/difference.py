"""Two designs compared: the verdict, the ratio, and what the class could have shown at all."""

import math
from dataclasses import dataclass
from typing import Literal

from app.mechanics.bench_values import DesignValues
from app.mechanics.censored import Pooled
from app.mechanics.one_way import tukey_tail
from app.mechanics.result import Result, from_interval, none
from app.mechanics.shared_scatter import half_width, standard_error

Verdict = Literal["different", "hint", "cannot_tell", "one_group", "weaker_unbroken"]

LEAST_DOF = 3
"""Two against two is never called different: no test by rank alone goes below 1 in 3 there."""
LEAST_DOF_INTERVAL = 2
TOUCHING = 1e-9
"""Brackets that overlap by less than this part touch: the means of several cords end in digits that mean nothing."""
MOST_LN = 700.0
"""The greatest logarithm that is taken back: a float holds no more."""

ONE_GROUP = "Only one group has a result for {}."
BOTH_ALONE = "Only one group has a result for {}, and only one for {}."
BOTH_UNBROKEN = "Not every {} and not every {} was broken, so nothing is known of their ratio."
AT_LEAST = "At least, because not every {} was broken."
AT_MOST = "At most, because not every {} was broken; so there is no interval."
SCATTER_UNKNOWN = "It is not known yet how far cords of one design scatter."
TOO_FEW = "With so few cords, no ratio could have been called different."
MAY_BE_STRONGER = "Not every {} was broken, so no ratio could have been called different."


@dataclass(frozen=True, kw_only=True)
class Difference:
    """Two designs in one quantity; `one` has the greater mean of ln.

    `overlap`: the brackets of `one` do not lie wholly above those of `other`. `chance_one_in`, of a hint: luck parts
    exact values of equal designs so, one way or the other, 1 time in so many. `leans`: different by the scatter of
    other designs, their own would not have been enough. `designs` are all that are compared at once. `gap` is the
    difference over its standard error; `shared_u`, a part of that error, is the relative uncertainty of what all values
    of a side were divided by, of both together. `smallest_why` says why there is no smallest ratio.
    """

    one: str
    other: str
    quantity: str
    verdict: Verdict
    ratio: Result
    smallest_ratio: float | None
    smallest_why: str | None
    overlap: bool
    leans: bool
    chance_one_in: int | None
    ln_one: tuple[float, ...]
    ln_other: tuple[float, ...]
    unbroken_one: int
    unbroken_other: int
    designs: int
    s_ln: float | None
    dof: int
    gap: float | None
    shared_u: float

    @property
    def pairs(self) -> int:
        """How many pairs of designs are compared at once."""
        return math.comb(self.designs, 2)


@dataclass(frozen=True, kw_only=True)
class Pair:
    """Two designs, the greater first, with what is known of the scatter of the class.

    `shared_u` is the relative standard uncertainty of what all values of a side were divided by, of both together.
    """

    one: DesignValues
    other: DesignValues
    pooled: Pooled | None
    designs: int
    shared_u: float = 0.0

    @property
    def counts(self) -> tuple[int, int]:
        """How many groups have a result for each."""
        return len(self.one.ln_values), len(self.other.ln_values)

    @property
    def alone(self) -> bool:
        """Whether one of them was made by one group only."""
        return min(self.counts) < 2

    @property
    def apart_ln(self) -> float:
        """The difference of their means of ln."""
        return self.one.mean_ln - self.other.mean_ln

    @property
    def overlap(self) -> bool:
        """Whether their brackets overlap, or are not known on the side that counts."""
        if self.one.low is None or self.other.high is None:
            return True
        return self.one.low < self.other.high * (1 - TOUCHING)

    @property
    def half(self) -> float | None:
        """Half the interval of ln of the ratio; None where there is none."""
        if self.alone or self.pooled is None or self.pooled.dof < LEAST_DOF_INTERVAL:
            return None
        return half_width(self.pooled, self.counts, sets=self.designs, shared_u=self.shared_u)

    @property
    def own_dof(self) -> int:
        """Degrees of freedom of the scatter that the two show by themselves."""
        return sum(len(design.ln_values) - 1 for design in (self.one, self.other) if not design.unbroken)

    @property
    def may_differ(self) -> bool:
        """Whether they could be called different at all."""
        return self.pooled is not None and self.pooled.dof >= LEAST_DOF and not self.alone and not self.other.unbroken


def pair_of(
    one: DesignValues, other: DesignValues, *, pooled: Pooled | None, designs: int, shared_u: float = 0.0
) -> Pair:
    """Two designs, the greater first; of equal ones in the order given.

    Parameters: one and other, two designs' bench values; pooled, the scatter of the class [1], None when not known;
        designs, how many are compared at once; shared_u, relative standard uncertainty of what all values of a side
        were divided by, of both together [1].
    Returns: the pair.
    Raises: nothing.
    Source: our own definition.
    """
    greater, lesser = (one, other) if one.mean_ln >= other.mean_ln else (other, one)
    return Pair(one=greater, other=lesser, pooled=pooled, designs=designs, shared_u=shared_u)


def difference_of(quantity: str, pair: Pair) -> Difference:
    """What may be said of two designs.

    Parameters: quantity, its name; pair, the two, the greater first.
    Returns: the verdict, and the ratio [1] of the greater to the other.
    Raises: nothing.
    Source: Tukey-Kramer procedure on ln of the values, NIST/SEMATECH e-Handbook 7.4.7.1; thresholds by simulation.
    """
    error = standard_error(pair.pooled, pair.counts, shared_u=pair.shared_u) if pair.pooled else 0.0
    gap = pair.apart_ln / error if pair.may_differ else None
    verdict = _verdict(pair, gap)
    smallest_why = _no_smallest(pair)
    return Difference(
        one=pair.one.design,
        other=pair.other.design,
        quantity=quantity,
        verdict=verdict,
        ratio=_ratio(pair),
        smallest_ratio=_back(pair.half) if pair.half is not None and smallest_why is None else None,
        smallest_why=smallest_why,
        overlap=pair.overlap,
        leans=verdict == "different" and pair.own_dof < LEAST_DOF,
        chance_one_in=math.comb(sum(pair.counts), pair.counts[0]) // 2 if verdict == "hint" else None,
        ln_one=pair.one.ln_values,
        ln_other=pair.other.ln_values,
        unbroken_one=pair.one.unbroken,
        unbroken_other=pair.other.unbroken,
        designs=pair.designs,
        s_ln=pair.pooled.s_ln if pair.pooled else None,
        dof=pair.pooled.dof if pair.pooled else 0,
        gap=gap,
        shared_u=pair.shared_u,
    )


def _verdict(pair: Pair, gap: float | None) -> Verdict:
    if pair.alone:
        return "one_group"
    if pair.other.unbroken:
        return "weaker_unbroken"
    if gap is not None and pair.half is not None and pair.apart_ln > pair.half:
        return "different"
    return "cannot_tell" if pair.overlap else "hint"


def _no_smallest(pair: Pair) -> str | None:
    if pair.alone:
        return _alone(pair)
    if pair.other.unbroken:
        return MAY_BE_STRONGER.format(pair.other.design)
    if pair.pooled is None:
        return SCATTER_UNKNOWN
    return None if pair.may_differ else TOO_FEW


def _alone(pair: Pair) -> str:
    letters = sorted(design.design for design in (pair.one, pair.other) if len(design.ln_values) < 2)
    return (BOTH_ALONE if len(letters) == 2 else ONE_GROUP).format(*letters)


def _ratio(pair: Pair) -> Result:
    """The ratio of the two, one-sided when a cord of either was not broken."""
    if pair.alone:
        return none(_alone(pair), "1")
    if pair.one.unbroken and pair.other.unbroken:
        return none(BOTH_UNBROKEN.format(pair.one.design, pair.other.design), "1")
    value, half = _back(pair.apart_ln), pair.half
    if pair.other.unbroken:
        return Result(value=value, unit="1", note=AT_MOST.format(pair.other.design))
    note = AT_LEAST.format(pair.one.design) if pair.one.unbroken else None
    if half is None:
        return Result(value=value, unit="1", note=note or (TOO_FEW if pair.pooled else SCATTER_UNKNOWN))
    high = None if pair.one.unbroken else _back(pair.apart_ln + half)
    return from_interval(value, _back(pair.apart_ln - half), high, unit="1").noted(note)


def p_of(difference: Difference) -> float | None:
    """How often luck alone parts some pair of equal designs so far.

    Parameters: difference, one that `compare` made.
    Returns: the probability [1], an upper bound when not every cord of the greater design was broken; None when the
        pair could not have been called different: one group only, fewer than 3 degrees of freedom, or not every cord
        of the lesser design broken.
    Raises: nothing.
    Source: Tukey-Kramer procedure, NIST/SEMATECH e-Handbook 7.4.7.1.
    """
    if difference.gap is None:
        return None
    return tukey_tail(difference.gap, difference.designs, difference.dof)


def _back(ln: float) -> float:
    return math.exp(min(ln, MOST_LN))
