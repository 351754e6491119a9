"""Whole invented classes: breaking forces of designs and benches as the sums take them, made once for each case."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from app.mechanics.bench_values import BenchValue
from app.mechanics.comparison import Comparison, compare
from tests.cord_recipe import Breaks, Strengths, make_breaks
from tests.speed.fits import seed_of

QUANTITY = "break_force_N"


@dataclass(frozen=True, kw_only=True)
class Kind:
    """How the cords of a class scatter and how its ladder steps: what the design tries its figures over."""

    cv: float = 0.15
    law: str = "normal"
    step_n: float = 2.0
    top: float | None = None

    def __str__(self) -> str:
        """The kind in a few words."""
        words = [] if self.law == "normal" else [self.law]
        words += [f"CV {100 * self.cv:g} %, steps {self.step_n:g} N"]
        words += [] if self.top is None else [f"masses end {self.top:g} s over the median"]
        return ", ".join(words)


PLAIN = Kind()
KINDS = (PLAIN, Kind(law="weibull"), Kind(law="spoiled", cv=0.10), Kind(cv=0.10, step_n=3.0))
"""Normal, Weibull, one cord in ten spoiled, steps wider than the scatter."""


@dataclass(frozen=True, kw_only=True)
class Classroom:
    """How many benches each design has, how strong and how scattered it is beside the others, and of which kind."""

    benches: tuple[int, ...]
    kind: Kind = PLAIN
    ratios: tuple[float, ...] = ()
    scatters: tuple[float, ...] = ()

    @property
    def name(self) -> str:
        """The class in a few words."""
        return f"{'+'.join(map(str, self.benches))}, {self.kind}"

    def each(self, of_designs: Sequence[float]) -> list[float]:
        """A figure of each design, told for each of its benches."""
        told = of_designs or [1.0] * len(self.benches)
        return [figure for figure, benches in zip(told, self.benches, strict=True) for _ in range(benches)]


def broken(classroom: Classroom, runs: int) -> Breaks:
    """The breaks of so many such classes, one cord a bench."""
    strengths = Strengths(
        medians=classroom.each(classroom.ratios),
        cv=classroom.kind.cv,
        law=classroom.kind.law,
        step_n=classroom.kind.step_n,
        top=classroom.kind.top,
        scatters=classroom.each(classroom.scatters),
    )
    return make_breaks(strengths, runs, seed=seed_of(classroom))


def bench_values(brackets: Sequence[tuple[float, float | None]]) -> list[BenchValue]:
    """Those breaks as values of benches."""
    return [
        BenchValue(
            group=str(place),
            value=low if high is None else (low + high) / 2,
            low=low,
            high=high,
            at_least=high is None,
        )
        for place, (low, high) in enumerate(brackets)
    ]


@lru_cache(maxsize=64)
def compared(classroom: Classroom, runs: int) -> tuple[Comparison, ...]:
    """What is said of so many such classes."""
    breaks = broken(classroom, runs)
    ends = np.cumsum(classroom.benches)[:-1].tolist()
    return tuple(compare(QUANTITY, _designs(breaks.brackets(one), ends)) for one in range(runs))


def _designs(brackets: list[tuple[float, float | None]], ends: list[int]) -> dict[str, list[BenchValue]]:
    parts = zip([0, *ends], [*ends, len(brackets)], strict=True)
    return {chr(ord("A") + place): bench_values(brackets[slice(*part)]) for place, part in enumerate(parts)}
