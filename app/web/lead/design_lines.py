"""The table of designs: a line a design, its break signs, its figures, the verdict beside the yardstick cord."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.figures.break_signs import Axis, BreakSigns, Broke, break_signs, shared_axis
from app.services.design_table import DesignRow, design_rows
from app.services.figure_words import force_bracket
from app.services.picture import Seen
from app.services.working import Working, is_figure
from app.web.lead.design_asked import SHARES, names_of, workings_of_design
from app.web.lead.pair_lines import VERDICTS, differing

TELLING = ("different", "hint")
"""Verdicts beside which it is said which of the two held more."""


@dataclass(frozen=True, kw_only=True)
class DesignLine:
    """One design; `cords` are the names of those that ended, each with its bracket in words.

    `told` holds what was worked out of it, by code; `kept` what it kept of the strength of its strips. `differ` names
    the things in which it differs from the yardstick cord where these are two or more.
    """

    row: DesignRow
    cords: Sequence[tuple[str, str, str]]
    signs: BreakSigns | None
    told: Mapping[str, Working]
    kept: Sequence[Working]
    verdict: str
    did: str
    differ: str
    under: str

    def says(self, code: str) -> str:
        """The figure of that code; nothing where it is not known."""
        found = self.told.get(code)
        return found.said if found is not None and is_figure(found) else ""

    def breaking(self, code: str) -> str:
        """The code of a figure of the breaking force, of the cords or of the cords with their knots."""
        return self.under + code if self.under + code in self.told else code

    @property
    def places(self) -> str:
        """Where its cords broke, in words."""
        return ", ".join(f"{count} {words}" for words, count in self.row.places)


def design_lines(found: Seen, *, with_knots: bool) -> list[DesignLine]:
    """A line for each design of the plan; the signs of all lie on one axis."""
    rows = design_rows(found.picture, with_knots=with_knots)
    axis = shared_axis(broke for row in rows for broke in _broke(row))
    return [_line(found, row, axis, with_knots=with_knots) for row in rows]


def _line(found: Seen, row: DesignRow, axis: Axis, *, with_knots: bool) -> DesignLine:
    name = names_of(found.lesson)[row.letter]
    told = workings_of_design(found, row.sums, name) if row.sums else ()
    broke = _broke(row)
    verdict, did = _beside(row)
    return DesignLine(
        row=row,
        cords=[(one.cord.specimen, one.cord.group, force_bracket(bracket)) for one, bracket in row.brackets],
        signs=break_signs(broke, axis) if broke else None,
        told={one.code: one for one in told if one.code != SHARES},
        kept=[one for one in told if one.code == SHARES],
        verdict=verdict,
        did=did,
        differ=differing(found.lesson, row.beside.one, row.beside.other) if row.beside else "",
        under="with_knots." if with_knots else "",
    )


def _broke(row: DesignRow) -> list[Broke]:
    """The cords of which it is known what they held, each under the word of its bench."""
    return [
        Broke(name=_called(one, row), held_n=bracket.low_n, broke_n=bracket.high_n)
        for one, bracket in row.brackets
        if bracket.low_n is not None
    ]


def _called(one: Any, row: DesignRow) -> str:
    several = sum(other.cord.group == one.cord.group for other, _ in row.brackets) > 1
    return str(one.cord.specimen if several else one.cord.group)


def _beside(row: DesignRow) -> tuple[str, str]:
    """The verdict beside the yardstick cord in one bold word, and what it did."""
    if row.beside is None:
        return "", ""
    verdict = row.beside.verdict
    did = "held more" if row.beside.one == row.letter else "held less"
    return VERDICTS[verdict], did if verdict in TELLING else ""
