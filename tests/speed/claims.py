"""Claims of how often, or how large: what was measured here beside what the design measured, and whether both agree.

The design's figure is a range over its cases, told to so many digits. Ours agrees when it lies within three of its own
standard errors of that range and half a last digit; the design's error (400 to 6,000 cords a case) is left out.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from tests.cord_recipe import Array

ERRORS = 3.0
PARTS = 20
LEAST_SHARE = 0.002
"""Shares of 0 and 100 % in a sample do not mean that nothing ever happens."""


@dataclass(frozen=True, kw_only=True)
class Range:
    """A figure of the design, from and to, and half of the last digit that it is told with."""

    low: float
    high: float
    half_digit: float


@dataclass(frozen=True, kw_only=True)
class Claim:
    """One line of a table: measured on `runs` cords or classes; `least` to `most` agrees with the design.

    `remark`: what is known of a difference from the design.
    """

    what: str
    case: str
    runs: int
    measured: float
    unit: str
    design: Range
    least: float
    most: float
    remark: str = ""

    @property
    def name(self) -> str:
        """The figure and its case."""
        return f"{self.what}: {self.case}" if self.case else self.what

    @property
    def agrees(self) -> bool:
        """Whether the measured figure lies within the band."""
        return self.least <= self.measured <= self.most

    @property
    def is_open(self) -> bool:
        """Whether there is a difference that nobody has explained."""
        return not self.agrees and not self.remark

    def __str__(self) -> str:
        """The claim in one line, as a failing test tells it."""
        return (
            f"{self.name}: {self.measured:.3g} {self.unit} of {self.runs}, design {_range(self.design)}, "
            f"agrees from {self.least:.3g} to {self.most:.3g}"
        )


@dataclass(frozen=True, kw_only=True)
class Figure:
    """One figure of the design to be found again: `found` gives hits (a share) or sizes of so many cords or classes.

    `middle` of sizes is measured (median, mean); None: hits. `case` says of which cords or classes.
    """

    what: str
    found: Callable[[int], ArrayLike]
    design: Range
    unit: str = "%"
    middle: Callable[..., Any] | None = None
    remark: str = ""
    case: str = ""

    @property
    def name(self) -> str:
        """The figure and its case."""
        return f"{self.what}: {self.case}" if self.case else self.what

    def claim(self, runs: int) -> Claim:
        """The figure measured on so many."""
        found = np.asarray(self.found(runs), dtype=float)
        return self._share(found) if self.middle is None else self._size(found, self.middle)

    def _share(self, found: Array) -> Claim:
        least = _edge(self.design.low - self.design.half_digit, found.size, -ERRORS)
        most = _edge(self.design.high + self.design.half_digit, found.size, ERRORS)
        return self._claim(found.size, 100 * _of(np.mean, found), max(0.0, least), min(100.0, most))

    def _size(self, found: Array, middle: Callable[..., Any]) -> Claim:
        """Its error is found from the middles of parts of the sample."""
        parts = np.array_split(found, PARTS)
        error = float(np.std([_of(middle, part) for part in parts], ddof=1)) / math.sqrt(PARTS)
        apart = ERRORS * error + self.design.half_digit
        return self._claim(found.size, _of(middle, found), self.design.low - apart, self.design.high + apart)

    def _claim(self, runs: int, measured: float, least: float, most: float) -> Claim:
        return Claim(
            what=self.what,
            case=self.case,
            runs=runs,
            measured=measured,
            unit=self.unit,
            design=self.design,
            least=least,
            most=most,
            remark=self.remark,
        )


def _of(middle: Callable[..., Any], found: Array) -> float:
    return float(middle(found)) if found.size else math.nan


def _edge(figure: float, runs: int, errors: float) -> float:
    part = min(max(figure / 100, LEAST_SHARE), 1 - LEAST_SHARE)
    return figure + errors * 100 * math.sqrt(part * (1 - part) / max(runs, 1))


def percent(low: float, high: float | None = None, *, half_digit: float = 0.5) -> Range:
    """Shares of the design [%]."""
    return Range(low=low, high=low if high is None else high, half_digit=half_digit)


def about(low: float, high: float, half_digit: float) -> Range:
    """Sizes of the design, in whatever unit."""
    return Range(low=low, high=high, half_digit=half_digit)


def _range(design: Range) -> str:
    return f"{design.low:g}" if design.low == design.high else f"{design.low:g} to {design.high:g}"


def _agreement(claim: Claim) -> str:
    if claim.agrees:
        return "yes"
    return f"no: {claim.remark}" if claim.remark else "**no**"


def table(claims: Sequence[Claim]) -> str:
    """The claims as a table in Markdown."""
    head = "| claim | runs | measured | design | agrees from - to | agrees |\n|---|---:|---:|---:|---:|---|\n"
    return head + "".join(
        f"| {one.name} | {one.runs} | {one.measured:.3g} {one.unit} | {_range(one.design)} "
        f"| {one.least:.3g} - {one.most:.3g} | {_agreement(one)} |\n"
        for one in claims
    )


def digest(claims: Sequence[Claim]) -> str:
    """The claims as a short table in Markdown: the cases of one figure in one line, from the least to the most."""
    of: dict[tuple[str, str], list[Claim]] = {}
    for claim in claims:
        of.setdefault((claim.what, claim.unit), []).append(claim)
    head = "| figure | cases | measured | design | agree |\n|---|---:|---:|---:|---:|\n"
    return head + "".join(f"| {what} | {len(some)} | {_digested(some)} |\n" for (what, _), some in of.items())


def _digested(some: Sequence[Claim]) -> str:
    measured, unit = sorted(one.measured for one in some), some[0].unit
    design = Range(low=min(one.design.low for one in some), high=max(one.design.high for one in some), half_digit=0.0)
    span = f"{measured[0]:.3g}" if len(some) == 1 else f"{measured[0]:.3g} to {measured[-1]:.3g}"
    return f"{span} {unit} | {_range(design)} | {sum(one.agrees for one in some)}"
