"""Everything worked out of a whole class, from what its CSV tells; each sum is made elsewhere in this package."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from app.domain.tested import TestedCord
from app.mechanics.agreement import Agreement, agreement
from app.mechanics.bench_break import bench_breaks
from app.mechanics.bench_values import BenchValue, bench_value
from app.mechanics.breaking import Bracket
from app.mechanics.censored import Pooled
from app.mechanics.comparison import Comparison, compare
from app.mechanics.cord_sums import CordSums, cord_sums
from app.mechanics.design_break import DesignBreak, design_break
from app.mechanics.material import stated_density
from app.mechanics.offset_yield import OFFSET_PERCENT
from app.mechanics.result import Result
from app.mechanics.shares_kept import ShareKept, shares_kept
from app.mechanics.strength import off_bracket
from app.mechanics.stretch_at import common_force_n, stretch_at
from app.mechanics.trend import Trend, trend

BREAK = "break_force_N"
"""The quantity that is compared first."""
TENACITY = "tenacity_cN_per_tex"

_FITTED = ("N/mm", "mm")
"""Units of figures whose interval is the uncertainty of a fit or a reading, not a bracket between two steps."""


@dataclass(frozen=True, kw_only=True)
class DesignSums:
    """One design: its cords that count, and its breaking force as cords and as cords with their knots."""

    letter: str
    cords: tuple[CordSums, ...]
    groups: tuple[str, ...]
    unbroken: int
    breaking: DesignBreak
    with_knots: DesignBreak
    agreement: Agreement


@dataclass(frozen=True, kw_only=True)
class ClassSums:
    """A class: all cords, the designs, every pair of designs in each quantity, and the trend along a numeric variable.

    `common_force_n` is the heaviest load that every cord that counts and did not end early was read at or beyond [N].
    """

    cords: tuple[CordSums, ...]
    designs: tuple[DesignSums, ...]
    comparisons: tuple[Comparison, ...]
    common_force_n: float | None
    trend: Trend
    kept: tuple[ShareKept, ...]

    def design(self, letter: str) -> DesignSums | None:
        """The design of that letter; None when it has no cord."""
        return next((design for design in self.designs if design.letter == letter), None)

    def cord(self, specimen: str) -> CordSums | None:
        """The cord of that name; None when there is none."""
        return next((cord for cord in self.cords if cord.cord.specimen == specimen), None)


def class_sums(
    cords: Iterable[TestedCord],
    *,
    offset_percent: float = OFFSET_PERCENT,
    plain_of: Mapping[str, str] = MappingProxyType({}),
) -> ClassSums:
    """Everything worked out of a class.

    Parameters: cords, as they were told, each taken once, shape (n,), masses [g], pointer and lengths [mm];
        offset_percent, the strain of the offset yield [%]; plain_of, by letter of a knotted design that of the same
        tied without a knot.
    Returns: the sums of each cord, in the order given, and of each design, in the order of their letters; pilot cords
        and cords left out are in no design.
    Raises: nothing.
    Source: no sum is made here; each function of this package names its own.
    """
    worked = tuple(cord_sums(cord, offset_percent) for cord in cords)
    by_letter = _by_letter(worked)
    common_n = common_force_n([one for made in by_letter.values() for one in made])
    comparisons = tuple(
        compare(
            quantity,
            {letter: _by_bench(made, value) for letter, made in by_letter.items()},
            shared=_stated_densities(by_letter) if quantity == TENACITY else {},
        )
        for quantity, value in _quantities(common_n).items()
    )
    return ClassSums(
        cords=worked,
        designs=tuple(_design(letter, made, comparisons[0].pooled) for letter, made in by_letter.items()),
        comparisons=comparisons,
        common_force_n=common_n,
        trend=_trend([one for made in by_letter.values() for one in made]),
        kept=shares_kept(
            {letter: [(group_of(one.cord), one.cord) for one in made] for letter, made in by_letter.items()},
            plain_of,
            pooled=comparisons[0].pooled,
        ),
    )


def no_cords(letter: str) -> DesignSums:
    """A design of which no cord counts yet.

    Parameters: letter, of the design.
    Returns: its sums, each figure [N] with the reason why there is none.
    Raises: nothing.
    Source: no sum is made here.
    """
    return _design(letter, (), None)


def _by_letter(worked: Sequence[CordSums]) -> dict[str, list[CordSums]]:
    """The cords that are in a design, by its letter, letters in order."""
    found: dict[str, list[CordSums]] = {}
    for one in worked:
        if _is_in(one):
            found.setdefault(one.cord.design, []).append(one)
    return dict(sorted(found.items()))


def _is_in(one: CordSums) -> bool:
    cord = one.cord
    return bool(cord.design and cord.rows) and cord.bench_kind != "pilot" and cord.left_out is None


def group_of(cord: TestedCord) -> str:
    """The group that made a cord.

    Parameters: cord, as it was told.
    Returns: its bench word [words]; where nobody said it, the cord is a group of its own.
    Raises: nothing.
    Source: our own rule: the group is the unit of comparison.
    """
    return cord.group or cord.specimen


def _design(letter: str, made: Sequence[CordSums], pooled: Pooled | None) -> DesignSums:
    told = [(group_of(one.cord), one) for one in made]
    highest_n = max((point.force_n for one in made for point in one.readings if point.force_n is not None), default=0.0)

    def breaking(bracket: Callable[[CordSums], Bracket]) -> DesignBreak:
        brackets = [(group, bracket(one)) for group, one in told]
        return design_break(brackets, highest_hung_n=highest_n, pooled=pooled)

    return DesignSums(
        letter=letter,
        cords=tuple(made),
        groups=tuple(dict.fromkeys(group for group, _ in told)),
        unbroken=sum(_is_unbroken(one.break_bracket) for one in made),
        breaking=breaking(lambda one: one.break_bracket),
        with_knots=breaking(lambda one: one.with_knots),
        agreement=_agreement(told),
    )


def _is_unbroken(bracket: Bracket) -> bool:
    return bracket.is_unbroken


def _agreement(told: Sequence[tuple[str, CordSums]]) -> Agreement:
    """Of the groups whose cords of the design all broke."""
    by_group: dict[str, list[Bracket]] = {}
    for group, one in told:
        by_group.setdefault(group, []).append(one.break_bracket)
    middles = {group: [_middle_n(bracket) for bracket in brackets] for group, brackets in by_group.items()}
    broken = {
        group: [value for value in values if value is not None]
        for group, values in middles.items()
        if None not in values
    }
    return agreement(BREAK, broken, unit="N")


def _middle_n(bracket: Bracket) -> float | None:
    closed = bracket.low_n is not None and bracket.high_n is not None
    return (bracket.low_n + bracket.high_n) / 2 if closed else None  # type: ignore[operator]


def _quantities(common_n: float | None) -> Mapping[str, Callable[[CordSums], Result]]:
    """What designs are compared in, each with what one cord says of it."""
    return {
        BREAK: lambda one: off_bracket(one.break_bracket, 1.0, doubt=0.0, unit="N"),
        "break_force_per_strand_N": lambda one: one.load_per_strand_n,
        TENACITY: lambda one: one.tenacity_cn_per_tex,
        "stiffness_N_per_mm": lambda one: one.straight.stiffness_n_per_mm,
        "extension_at_common_force_mm": lambda one: stretch_at(one, common_n),
    }


def _stated_densities(by_letter: Mapping[str, Sequence[CordSums]]) -> Mapping[str, Result]:
    """By letter, the linear density of designs of which one is stated and none was weighed."""
    found = {letter: stated_density([one.cord for one in made]) for letter, made in by_letter.items()}
    return {letter: density for letter, density in found.items() if density is not None}


def _by_bench(made: Sequence[CordSums], value: Callable[[CordSums], Result]) -> list[BenchValue]:
    """One value a group, of the cords that have one; groups as they first come."""
    cords: dict[str, list[BenchValue]] = {}
    for one in made:
        group = group_of(one.cord)
        known = _value(group, value(one))
        if known is not None:
            cords.setdefault(group, []).append(known)
    return [each[0] if len(each) == 1 else bench_value(group, each) for group, each in cords.items()]


def _value(group: str, found: Result) -> BenchValue | None:
    """What one cord says: its value; of an unbroken one what it held; None when it says neither."""
    if found.value is None:
        return (
            None
            if found.low is None
            else BenchValue(group=group, value=found.low, low=found.low, high=None, at_least=True)
        )
    fitted = found.unit in _FITTED and found.standard_uncertainty is not None and found.value > 0
    relative_u = (found.standard_uncertainty or 0.0) / found.value if fitted else None
    return BenchValue(group=group, value=found.value, low=found.low, high=found.high, relative_u=relative_u)


def _trend(made: Sequence[CordSums]) -> Trend:
    """The breaking force along the level of the changed variable, where that is a number."""
    levels = {one.cord.design: one.cord.level for one in made if one.cord.level is not None}
    values = [
        (level, bench)
        for letter, level in levels.items()
        for bench in bench_breaks(
            [(group_of(one.cord), one.break_bracket) for one in made if one.cord.design == letter]
        )
    ]
    return trend(BREAK, values, unit="N", slope_unit="N for each one more")
