"""Which designs of a class can be held against which, so that it is seen what plaiting and knots cost."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.domain.tested import TestedCord
from app.mechanics.censored import Pooled
from app.mechanics.efficiency import bench_forces, ratio, strand_efficiency
from app.mechanics.result import Result

Made = Mapping[str, Sequence[tuple[str, TestedCord]]]
"""By letter of the design: its cords, each with the group that made it."""


@dataclass(frozen=True, kw_only=True)
class ShareKept:
    """How much of `beside`'s strength a design keeps: of so many single strands, or of the same cord without knots.

    `strands` is None where knots are meant. `cord` counts a break at a knot as "at least", `with_knots` as it fell.
    """

    design: str
    beside: str
    strands: int | None
    cord: Result
    with_knots: Result


def shares_kept(made: Made, plain_of: Mapping[str, str], *, pooled: Pooled | None) -> tuple[ShareKept, ...]:
    """What each design keeps of the strength of its strands, and of itself without knots.

    Parameters: made, by letter in order, its cords; plain_of, by letter of a knotted design, that of the same design
        tied without a knot, which only a plan can tell; pooled, scatter of ln of a bench's force [1] or None.
    Returns: the shares [1], designs in order: one for each design of several strands beside each of one strand, one
        for each knotted design that has its twin.
    Raises: nothing.
    Source: no sum is made here; efficiency names its own.
    """
    counts = {letter: _strands(cords) for letter, cords in made.items()}
    singles = [letter for letter, count in counts.items() if count == 1]
    of_strands = (
        _of_strands(made, (letter, single), count, pooled=pooled)
        for letter, count in counts.items()
        if count is not None and count > 1
        for single in singles
    )
    of_knots = (_of_knots(made, pair, pooled=pooled) for pair in plain_of.items() if set(pair) <= made.keys())
    return (*of_strands, *of_knots)


def _strands(cords: Sequence[tuple[str, TestedCord]]) -> int | None:
    """The number of strands when all cords of the design have the same."""
    told = {cord.strands for _, cord in cords}
    return told.pop() if len(told) == 1 else None


def _of_strands(made: Made, pair: tuple[str, str], strands: int, *, pooled: Pooled | None) -> ShareKept:
    cord, with_knots = (
        strand_efficiency(
            *(bench_forces(made[letter], with_knots=knots) for letter in pair), strands=strands, pooled=pooled
        )
        for knots in (False, True)
    )
    return ShareKept(design=pair[0], beside=pair[1], strands=strands, cord=cord, with_knots=with_knots)


def _of_knots(made: Made, pair: tuple[str, str], *, pooled: Pooled | None) -> ShareKept:
    """The knotted cord as it fell beside the plain one; a break at a knot is just what is looked for."""
    plain = bench_forces(made[pair[1]], with_knots=False)
    fell = ratio(bench_forces(made[pair[0]], with_knots=True), plain, pooled=pooled)
    return ShareKept(design=pair[0], beside=pair[1], strands=None, cord=fell, with_knots=fell)
