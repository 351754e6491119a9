"""The straight part of a curve: its stiffness, where it begins and ends, and the pointer's place without any load."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from app.mechanics.bend import (
    CURVED_EARLY,
    IT_GETS_STIFFER,
    TOO_FEW_FOR_BEND,
    how_it_bends,
    is_curved_early,
    limit_of_proportionality,
)
from app.mechanics.put_back import farther, joins_doubt
from app.mechanics.result import Interval, ReadingScatter, Result, from_interval, none
from app.mechanics.section import FloatArray, Section, section_of
from app.mechanics.shape_choice import STIFFER, Choice, choose
from app.mechanics.shapes import READINGS_FOR_BEND, READINGS_FOR_TOE, fit_shapes
from app.mechanics.stiffness import turned_round
from app.mechanics.unweighed import NOT_WEIGHED, StepDoubt, level_doubt, step_doubt, widened_by

READINGS_FOR_FIT = 4
HANDS_MM = 0.7
"""What hands, swing and creep add to a reading as a rule."""
WANDERING = 3.0
"""A scatter so many times what is usual is spoken of."""

NEEDS_FOUR = "needs four readings"
ONE_FORCE = "all readings hang under one force"
NOT_LOOKED_FOR = "slack and bends not looked for"
PUT_BACK = "the pointer was put back on the way, so where the line bends is less sure than is said"
READINGS_WANDER = "the readings wander more than the scale explains, or the cord has no straight part"


@dataclass(frozen=True, kw_only=True)
class PointerLine:
    """A straight line: where the pointer would stand without any load, and how far it moves per newton."""

    intercept_mm: float
    slope_mm_per_n: float

    def at(self, force_n: float) -> float:
        """The line's value at a force."""
        return self.intercept_mm + self.slope_mm_per_n * force_n


@dataclass(frozen=True, kw_only=True)
class StraightPart:
    """What one section's readings say of the straight part; `shape` and `line` None where nothing could be fitted.

    `fitted_mm` and `residuals_mm` are in the order the readings were given in. `zero_force_mm` is the line's value
    without any load, `line_at_start_mm` its value at the lowest force. `limit_n` open at both ends says why; open at
    its high end, no bend was seen. `notes` holds every sentence that must stand beside the figures.
    """

    shape: str | None
    readings: int
    stiffness_n_per_mm: Result
    zero_force_mm: Result
    line_at_start_mm: Result
    limit_n: Interval
    scatter: ReadingScatter
    from_n: float | None = None
    to_n: float | None = None
    bend_at_n: float | None = None
    bend: str | None = None
    curved_early: bool = False
    line: PointerLine | None = None
    fitted_mm: tuple[float, ...] = ()
    residuals_mm: tuple[float, ...] = ()
    scatter_warning: str | None = None
    notes: tuple[str, ...] = ()


def straight_part(
    force_n: Sequence[float],
    pointer_mm: Sequence[float],
    *,
    force_u_n: Sequence[float] | None,
    u0_mm: float,
    joins: Sequence[int] | None = None,
) -> StraightPart:
    """The straight part of one section of a first loading.

    Parameters: force_n [N] and pointer_mm [mm], both of shape (N,): readings that may enter a fit, repeats as readings,
        in any order, the pointer growing with stretch; force_u_n, standard uncertainty of each total force [N], shape
        (N,), None where the forces are exact; u0_mm, the scale's own part of one reading [mm]; joins, pointers put
        back before each reading [1], shape (N,), None where none was.
    Returns: shape, stiffness [N/mm], limit of proportionality [N], pointer without load [mm], scatter [mm]; each with
        its 95 % interval or the reason why it can't be had.
    Raises: nothing.
    Source: least squares of pointer on force (the force is set, the reading carries the error) over a family of shapes;
        intervals by profile; zero by the construction of ASTM D882, annex A1 (from memory); rates by simulation.
    """
    if len(force_n) < READINGS_FOR_FIT:
        return _no_fit(NEEDS_FOUR, readings=len(force_n), u0_mm=u0_mm)
    section = section_of(force_n, pointer_mm, u0_mm=u0_mm)
    if section is None:
        return _no_fit(ONE_FORCE, readings=len(force_n), u0_mm=u0_mm)
    choice = choose(fit_shapes(section))
    part = _worded(_figured(choice, joins, u0_mm=u0_mm), choice, step_doubt(section, force_u_n))
    bends = joins is not None and part.readings >= READINGS_FOR_BEND
    return replace(part, notes=(*part.notes, PUT_BACK)) if bends else part


def _no_fit(why: str, *, readings: int, u0_mm: float) -> StraightPart:
    return StraightPart(
        shape=None,
        readings=readings,
        stiffness_n_per_mm=none(why, "N/mm"),
        zero_force_mm=none(why, "mm"),
        line_at_start_mm=none(why, "mm"),
        limit_n=Interval(low=None, high=None, unit="N", why=why),
        scatter=ReadingScatter(u_mm=u0_mm),
    )


def _figured(choice: Choice, joins: Sequence[int] | None, *, u0_mm: float) -> StraightPart:
    """The figures that follow from the chosen shape and its rivals."""
    grid, section = choice.grid, choice.grid.section
    scatter_mm = math.sqrt(choice.rss / choice.dof) * section.unit_mm
    scatter = ReadingScatter(u_mm=max(scatter_mm, u0_mm), dof=choice.dof)
    (slope, without_load, start), low, high = _straight_figures(choice, joins, scatter)
    per_newton = section.unit_mm / section.span_n
    fitted = grid.fitted(choice.toe, choice.bend)
    return StraightPart(
        shape=choice.shape,
        readings=section.readings,
        stiffness_n_per_mm=turned_round(*(float(one) * per_newton for one in (slope, low[0], high[0]))),
        zero_force_mm=_on_scale(section, without_load, low[1], high[1]),
        line_at_start_mm=_on_scale(section, start, low[2], high[2]),
        limit_n=limit_of_proportionality(choice),
        scatter=scatter,
        from_n=section.force_n(choice.toe_place),
        to_n=section.force_n(choice.bend_place),
        bend_at_n=section.force_n(choice.bend_place) if choice.bend else None,
        line=PointerLine(intercept_mm=section.pointer_mm(without_load), slope_mm_per_n=float(slope) * per_newton),
        fitted_mm=tuple((section.mean_mm + section.unit_mm * section.as_given(fitted)).tolist()),
        residuals_mm=tuple((section.unit_mm * section.as_given(section.pointer - fitted)).tolist()),
        scatter_warning=READINGS_WANDER if scatter_mm > WANDERING * max(HANDS_MM, u0_mm) else None,
    )


def _straight_figures(
    choice: Choice, joins: Sequence[int] | None, scatter: ReadingScatter
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Slope, value without load and at the lowest force: values, low and high ends, each of shape (3,)."""
    line, section = choice.grid.line, choice.grid.section
    of = np.array([line.slope(), line.value_at(section.no_force), line.value_at(0.0)])
    value, low, high = choice.figures(of)
    if joins is None:
        return value, low, high
    doubt = joins_doubt(section, joins, part=(choice.toe_place, choice.bend_place))
    more = doubt * scatter.factor * scatter.u_mm / section.unit_mm
    return value, farther(value, low, more), farther(value, high, more)


def _on_scale(section: Section, value: float, low: float, high: float) -> Result:
    ends = section.pointer_mm(value), section.pointer_mm(low), section.pointer_mm(high)
    return from_interval(*ends, unit="mm")


def _worded(part: StraightPart, choice: Choice, doubt: StepDoubt) -> StraightPart:
    """The figures with what must be said of them, and without those that unweighed rungs forbid."""
    if doubt.is_unweighed:
        return _of_unweighed(part, choice, doubt)
    early = is_curved_early(choice, part.limit_n)
    notes = (*_by_number(part.readings), *([CURVED_EARLY] if early else []))
    if part.shape == STIFFER:
        notes = (*notes, IT_GETS_STIFFER)
    return replace(part, bend=how_it_bends(choice), curved_early=early, notes=notes)


def _of_unweighed(part: StraightPart, choice: Choice, doubt: StepDoubt) -> StraightPart:
    """The figures with the doubt about the rungs in them, and without the limit."""
    section, ends = choice.grid.section, (choice.toe_place, choice.bend_place)
    inside = (section.steps[:-1] >= ends[0]) & (section.steps[1:] <= ends[1])
    stiffness = part.stiffness_n_per_mm
    to_mm = abs(part.line.slope_mm_per_n) * section.span_n if part.line else 0.0
    zero, start = (level_doubt(section, doubt, place=place, part=ends) for place in (section.no_force, 0.0))
    return replace(
        part,
        stiffness_n_per_mm=widened_by(stiffness, doubt.of_slope(inside) * (stiffness.value or 0.0), least=0.0),
        zero_force_mm=widened_by(part.zero_force_mm, to_mm * math.hypot(zero, doubt.first_u)),
        line_at_start_mm=widened_by(part.line_at_start_mm, to_mm * start),
        limit_n=Interval(low=None, high=None, unit="N", why=NOT_WEIGHED),
        notes=_by_number(part.readings),
    )


def _by_number(readings: int) -> tuple[str, ...]:
    """What so few readings leave out."""
    if readings < READINGS_FOR_TOE:
        return (NOT_LOOKED_FOR,)
    return (TOO_FEW_FOR_BEND,) if readings < READINGS_FOR_BEND else ()
