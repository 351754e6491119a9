"""The table of cords: which figures stand in it at each depth, and how a cell says one."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from app.services.figure_words import between, bracketed, measured
from app.services.working import Working, is_figure
from app.services.workings import cord_workings

BRIEF = {"third": "second"}
"""By depth, that in whose words a cell says a figure: a standard uncertainty stands in its working alone."""


@dataclass(frozen=True, kw_only=True)
class Column:
    """One figure of a cord: the code of its working, the head of its column; `says` where the working says too much."""

    code: str
    head: str
    says: Callable[[Any, str], str] | None = None
    always: bool = True


@dataclass(frozen=True, kw_only=True)
class Cell:
    """What stands in a cell, nothing where it is not known; `code` is that of the working that it is asked for."""

    code: str
    said: str


BREAK = Column(code="break_force_N", head="Held, then broke on")
LONGER = Column(code="extension_mm", head="Longer by")
STRAIGHT_TO = Column(code="limit_of_proportionality_N", head="Straight up to")
LIMIT = Column(
    code="limit_of_proportionality_N",
    head="Limit of proportionality",
    says=lambda sums, _: between(sums.straight.limit_n),
)
STIFFNESS = Column(
    code="stiffness_N_per_mm",
    head="Stiffness",
    says=lambda sums, depth: measured(sums.straight.stiffness_n_per_mm, depth),
)
CHOSEN = Column(code="chosen", head="Stiffness, part chosen", always=False)
SET = Column(code="permanent_set_mm", head="Set that stayed")
FOR_EACH_GRAM = Column(
    code="break_force_per_linear_density",
    head="For each gram in a metre",
    says=lambda sums, depth: bracketed(replace(sums.load_per_linear_density, unit="N"), depth),
)
WORK = Column(code="work_J", head="Work to the last reading", says=lambda sums, depth: measured(sums.work_j, depth))
TENACITY = Column(
    code="tenacity_cN_per_tex",
    head="Tenacity",
    says=lambda sums, depth: bracketed(sums.tenacity_cn_per_tex, depth),
)
LENGTH = Column(
    code="breaking_length_km",
    head="Breaking length",
    says=lambda sums, depth: bracketed(sums.breaking_length_km, depth),
)
KNOTTED = "break_force_with_knots_N"
"""The working that stands in place of the breaking force where a knot came undone and the knots are meant too."""

BY_DEPTH: Mapping[str, Sequence[Column]] = {
    "first": (BREAK, LONGER, STRAIGHT_TO, SET, FOR_EACH_GRAM),
    "second": (BREAK, LONGER, STIFFNESS, CHOSEN, LIMIT, SET, FOR_EACH_GRAM),
    "third": (BREAK, STIFFNESS, CHOSEN, LIMIT, SET, WORK, TENACITY, LENGTH),
}


def cells(sums: Any, depth: str, *, with_knots: bool) -> list[Cell]:
    """The cells of one cord, one for each column of the depth."""
    told = {one.code: one for one in cord_workings(sums, BRIEF.get(depth, depth))}
    deep = {one.code: one for one in cord_workings(sums, depth)}
    return [_cell(column, deep | told, sums, BRIEF.get(depth, depth), with_knots) for column in BY_DEPTH[depth]]


def _cell(column: Column, told: Mapping[str, Working], sums: Any, depth: str, with_knots: bool) -> Cell:
    code = KNOTTED if with_knots and column is BREAK and KNOTTED in told else column.code
    found = told.get(code)
    if found is None or not is_figure(found):
        return Cell(code=code if found else "", said="")
    return Cell(code=code, said=column.says(sums, depth) if column.says else found.said)


def columns_shown(rows: Sequence[Sequence[Cell]], depth: str) -> list[int]:
    """The places of the columns that are shown: those that always are, and those of which some cord has a figure."""
    return [
        place for place, column in enumerate(BY_DEPTH[depth]) if column.always or any(row[place].said for row in rows)
    ]
