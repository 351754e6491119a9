"""Designs compared: the group is the unit, and one engine makes the verdict for any quantity that is positive."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from types import MappingProxyType

from app.mechanics.bench_values import BenchValue, DesignValues, bench_value, design_values, least_variance
from app.mechanics.censored import Pooled
from app.mechanics.difference import Difference, Verdict, difference_of, p_of, pair_of
from app.mechanics.material import relative_u
from app.mechanics.result import Result
from app.mechanics.shared_scatter import pooled_scatter

__all__ = [
    "BenchValue",
    "Comparison",
    "DesignValues",
    "Difference",
    "Verdict",
    "bench_value",
    "compare",
    "p_of",
]


MOST_DESIGNS = 60
"""Pairs grow with the square: more designs than these are in no lesson, and their pairs are not compared."""


@dataclass(frozen=True, kw_only=True)
class Comparison:
    """All designs in one quantity. `passed_over` names groups whose value is not over 0, so that no ratio has it."""

    quantity: str
    designs: tuple[DesignValues, ...]
    differences: tuple[Difference, ...]
    pooled: Pooled | None
    passed_over: tuple[str, ...]

    @property
    def sets(self) -> tuple[tuple[float, ...], ...]:
        """Ln of the bench values of each design that two groups or more have a result for."""
        return tuple(design.ln_values for design in self.designs if len(design.ln_values) > 1)


def compare(
    quantity: str,
    designs: Mapping[str, Sequence[BenchValue]],
    *,
    shared: Mapping[str, Result] = MappingProxyType({}),
) -> Comparison:
    """Every pair of designs compared, by the scatter that all of them share.

    Parameters: quantity, its name; designs, by letter in order, each with its bench values [one unit, positive],
        shape (n,), may be empty; shared, by letter, what all values of the design were divided by [any unit], designs
        left out that have no such thing.
    Returns: one difference for each pair of designs that have a value, the ratio [1] of the greater to the other; of
        more than 60 designs none, for nobody reads 1,770 sentences.
    Raises: nothing.
    Source: Tukey-Kramer procedure on ln of the values, NIST/SEMATECH e-Handbook 7.4.7.1; thresholds by simulation.
    """
    usable = {letter: [value for value in values if value.value > 0] for letter, values in designs.items()}
    taken = tuple(design_values(letter, values) for letter, values in usable.items() if values)
    several = [design for design in taken if len(design.ln_values) > 1]
    pooled = pooled_scatter(
        [design.ln_values for design in several if not design.unbroken],
        floor=least_variance([value for design in several for value in usable[design.design]]),
    )
    pairs = (
        pair_of(*two, pooled=pooled, designs=len(several), shared_u=_shared_u(shared, *two))
        for two in combinations(taken if len(taken) <= MOST_DESIGNS else (), 2)
    )
    return Comparison(
        quantity=quantity,
        designs=taken,
        differences=tuple(difference_of(quantity, pair) for pair in pairs),
        pooled=pooled,
        passed_over=tuple(value.group for values in designs.values() for value in values if value.value <= 0),
    )


def _shared_u(shared: Mapping[str, Result], one: DesignValues, other: DesignValues) -> float:
    """Relative uncertainty of what two designs were divided by; what both share cancels in their ratio."""
    mine, theirs = (shared.get(design.design) for design in (one, other))
    if mine is not None and theirs is not None and mine.value == theirs.value:
        return 0.0
    return math.hypot(*(relative_u(side) for side in (mine, theirs) if side is not None))
