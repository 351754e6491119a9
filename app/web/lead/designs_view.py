"""The figures of a lesson by cord and by design, and what may be said of two designs, gathered before printing."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from app.domain.records import LessonRecord
from app.services.class_table import CordRow, Count, class_table, count, loads_words
from app.services.design_table import held_against_others
from app.services.figure_words import newtons
from app.services.picture import Seen
from app.services.working import Working
from app.services.workings import agreement_workings
from app.services.workings_trend import trend_workings
from app.web.lead.cord_columns import BY_DEPTH, Cell, Column, cells, columns_shown
from app.web.lead.design_asked import Asked, asked_working
from app.web.lead.design_lines import DesignLine, design_lines
from app.web.lead.pair_lines import Compared, compared

VIEWS = {"cord": "the cord", "knots": "the cord with its knots"}
"""What a breaking force is meant of: a knot that comes undone ends the second only."""
OF_GROUPS = "groups"
"""The code of the working of h and k."""


@dataclass(frozen=True, kw_only=True)
class CordLine:
    """One cord as the class table has it, with its figures."""

    row: CordRow
    cells: Sequence[Cell]


@dataclass(frozen=True, kw_only=True)
class Agreed:
    """How well cords of one design agree; `groups` are held against each other only from five on."""

    letter: str
    name: str
    told: Sequence[Working]
    groups: Sequence[Any]
    named: Sequence[str]


@dataclass(frozen=True, kw_only=True)
class DesignsView:
    """The whole page; `mine` is false for a reader of another's shelf."""

    lesson: LessonRecord
    mine: bool
    of: str
    count: Count
    loads: str
    columns: Sequence[Column]
    cords: Sequence[CordLine]
    designs: Sequence[DesignLine]
    compared: Sequence[Compared]
    agreed: Sequence[Agreed]
    trend: Sequence[Working]
    common_n: float | None
    asked: Asked | None

    @property
    def views(self) -> Mapping[str, str]:
        """What a breaking force may be meant of, each code with its words."""
        return VIEWS

    @property
    def has_yardstick(self) -> bool:
        """Whether the lesson has a yardstick cord to be beside."""
        return any(line.row.is_yardstick for line in self.designs)

    @property
    def some_ended(self) -> bool:
        """Whether any cord of a design has ended."""
        return any(line.row.brackets for line in self.designs)

    @property
    def knots_tell_more(self) -> bool:
        """Whether a knot came undone somewhere, so that the cord with its knots has figures of its own."""
        known = [line.row.sums for line in self.designs if line.row.sums]
        return any(sums.with_knots != sums.breaking for sums in known)

    @property
    def common(self) -> str:
        """The load at which stretches are held against each other; nothing when there is none."""
        return newtons(self.common_n) if self.common_n else ""

    @property
    def plaited_alone(self) -> bool:
        """Whether cords of several strips were made, and no single strip beside them."""
        several = any((design.strands or 1) > 1 for design in self.lesson.designs)
        return several and not any(line.kept for line in self.designs)


def designs_view(found: Seen, asked: Mapping[str, str], *, mine: bool) -> DesignsView:
    """The page for what the address asks; what it can't show gives way to the cord itself, and nothing asked about."""
    lesson, picture = found.lesson, found.picture
    with_knots = asked.get("of") == "knots"
    table = class_table(picture)
    cords = _cord_lines(found, table, with_knots=with_knots)
    shown = columns_shown([line.cells for line in cords], lesson.depth)
    levels = any(design.level is not None for design in lesson.designs)
    return DesignsView(
        lesson=lesson,
        mine=mine,
        of="knots" if with_knots else "cord",
        count=count(table),
        loads=loads_words(picture),
        columns=[BY_DEPTH[lesson.depth][place] for place in shown],
        cords=[replace(line, cells=[line.cells[place] for place in shown]) for line in cords],
        designs=design_lines(found, with_knots=with_knots),
        compared=compared(found),
        agreed=_agreed(found),
        trend=trend_workings(picture.sums.trend, lesson.depth) if levels else (),
        common_n=picture.sums.common_force_n,
        asked=asked_working(found, asked.get("ask", "")),
    )


def _cord_lines(found: Seen, table: Sequence[CordRow], *, with_knots: bool) -> list[CordLine]:
    """A line for each cord of which anything hung, designs in order, those that are in no sum last."""
    sums = {one.cord.specimen: one for one in found.picture.sums.cords}
    order = sorted(table, key=lambda row: (row.left_out is not None or row.bench_kind == "pilot", row.design))
    return [CordLine(row=row, cells=cells(sums[row.name], found.lesson.depth, with_knots=with_knots)) for row in order]


def _agreed(found: Seen) -> list[Agreed]:
    """Of each design that three groups or more made twice."""
    return [
        _of_design(found, design) for design in found.picture.designs if design.sums and design.sums.agreement.groups
    ]


def _of_design(found: Seen, design: Any) -> Agreed:
    groups = held_against_others(design.sums.agreement)
    told = agreement_workings(design.sums, found.lesson.depth)
    return Agreed(
        letter=design.letter,
        name=design.name,
        told=[one for one in told if groups or one.code != OF_GROUPS],
        groups=groups,
        named=design.sums.agreement.named,
    )
