"""A class's designs as a table: a row a design, with what its cords held, and its pair with the yardstick cord."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.domain import vocabulary
from app.mechanics.agreement import NAMED_FROM, Agreement, GroupAgreement
from app.mechanics.breaking import Bracket
from app.mechanics.class_sums import DesignSums
from app.mechanics.classwork import ClassPicture
from app.mechanics.comparison import Comparison, Difference
from app.mechanics.cord_sums import CordSums
from app.mechanics.permutation import alike_p
from app.services.verdict_words import alike_words

SURE_FIRST = ("different", "hint", "cannot_tell", "weaker_unbroken", "one_group")
"""Verdicts in the order in which they are told: what can be said comes before what can't."""


@dataclass(frozen=True, kw_only=True)
class DesignRow:
    """One design; `sums` None when no cord of it counts.

    `brackets` are those of its cords that ended, or of the cords with their knots. `places` counts where they broke, by
    the words of the place; of the cords with their knots also those of which a knot came undone. `beside` is its pair
    with the yardstick cord in breaking force.
    """

    letter: str
    name: str
    is_yardstick: bool
    sums: DesignSums | None
    brackets: tuple[tuple[CordSums, Bracket], ...]
    places: tuple[tuple[str, int], ...]
    beside: Difference | None

    @property
    def unbroken(self) -> int:
        """How many cords that ended did not break; with their knots, how many did not come undone either."""
        return sum(bracket.is_unbroken for _, bracket in self.brackets)


def design_rows(picture: ClassPicture, *, with_knots: bool) -> list[DesignRow]:
    """A row for each design of the plan, in the plan's order."""
    yardstick = next((design.letter for design in picture.designs if design.is_yardstick), "")
    beside = _beside(picture.sums.comparisons[0], yardstick)
    return [
        DesignRow(
            letter=design.letter,
            name=design.name,
            is_yardstick=design.is_yardstick,
            sums=design.sums,
            brackets=_brackets(design.sums, with_knots=with_knots) if design.sums else (),
            places=_places(design.sums.cords, with_knots=with_knots) if design.sums else (),
            beside=beside.get(design.letter),
        )
        for design in picture.designs
    ]


def told_in_order(comparison: Comparison) -> list[Difference]:
    """The pairs of designs in one quantity, those first of which most can be said."""
    return sorted(comparison.differences, key=lambda found: SURE_FIRST.index(found.verdict))


def alike(comparison: Comparison) -> str:
    """How often designs that are all alike would differ as much; nothing for fewer than two designs of two groups."""
    p = alike_p(comparison.sets)
    return "" if p is None else alike_words(p)


def held_against_others(found: Agreement) -> tuple[GroupAgreement, ...]:
    """The groups of a design, each with h and k; none while they are so few that nobody may be named."""
    return found.groups if len(found.groups) >= NAMED_FROM else ()


def _brackets(sums: DesignSums, *, with_knots: bool) -> tuple[tuple[CordSums, Bracket], ...]:
    return tuple(
        (one, one.with_knots if with_knots else one.break_bracket) for one in sums.cords if one.cord.outcome is not None
    )


def _beside(comparison: Comparison, yardstick: str) -> Mapping[str, Difference]:
    """By letter of the other design, its pair with the yardstick cord."""
    pairs = ((found, {found.one, found.other} - {yardstick}) for found in comparison.differences)
    return {rest.pop(): found for found, rest in pairs if len(rest) == 1}


def _places(cords: Sequence[CordSums], *, with_knots: bool) -> tuple[tuple[str, int], ...]:
    """Of the cords that broke, the most frequent first."""
    told = (_place(one, with_knots=with_knots) for one in cords)
    return tuple(Counter(words for words in told if words).most_common())


def _place(one: CordSums, *, with_knots: bool) -> str:
    """Where a cord broke, or that its knot came undone where that counts as its end; nothing when it did neither."""
    cord = one.cord
    if cord.outcome == "broke":
        return vocabulary.PLACES[cord.place] if cord.place else "nobody said where"
    return vocabulary.ENDINGS["knot_undone"] if with_knots and cord.outcome == "slipped" else ""
