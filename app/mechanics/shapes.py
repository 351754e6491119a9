"""The family of shapes of a curve, fitted at every place of toe and bend at once by closed forms.

A shape is a straight line in force, with a toe before it (the cord takes up its slack), a bend after it, both or
neither; toe and bend begin at places of one grid, sharply (power 1) or gradually (power 2). Every column is freed of
the line and brought to length one, so that a fit with toe and bend is a system of two by two, solved for all places.
"""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from app.mechanics.section import DUST, FloatArray, IntArray, Section

BoolArray = NDArray[np.bool_]

READINGS_FOR_TOE, READINGS_FOR_BEND = 6, 8
TOE_PLACES, BEND_PLACES = 3, 40
"""Places between two readings."""
FULL_GRID_STEPS = 60
"""Ladders longer than this get fewer places between two readings, so that work stays bounded."""
TOE_SHARE = 0.25
"""A toe ends within this part of the range, or within three steps if that is more."""
TOE_STEPS = 3
PAST_TOE, ON_STRAIGHT, BEYOND_BEND = 4, 3, 2
"""Readings there must be at or above a toe's end, on the straight part, strictly beyond a bend."""
STEPS_ON_STRAIGHT = 2
"""Forces there must be on the straight part for it to have a slope."""
BEFORE_STIFFER, BEYOND_STIFFER, STIFFER_SHARE = 5, 3, 0.4
"""Readings up to and strictly beyond the place where a cord gets stiffer, and the part of the range it lies above."""
POWERS = (1.0, 2.0)
ROUND = 1e-9
"""Places, and coefficients beside what they are worked out from, that differ by less are equal."""
NOT_APART = 1e-12
"""A column with less than this part of its square left beside the line tells nothing that the line doesn't."""
ALIKE = 1e-9
"""Toe and bend whose correlation squared is closer to one than this can't be told apart."""


@dataclass(frozen=True, kw_only=True)
class Line:
    """A section's straight line through all readings, and what every other shape is built on.

    `directions` (N, 2) are the line's two directions at length one; `shares` (2,) what the pointer has of them; `rest`
    (N,) the pointer without them; `rss` its square.
    """

    directions: FloatArray
    shares: FloatArray
    rest: FloatArray
    rss: float
    middle: float
    length: float

    def slope(self) -> FloatArray:
        """What the slope takes of the two directions, shape (2,)."""
        return np.array([0.0, 1.0 / self.length])

    def value_at(self, place: float) -> FloatArray:
        """What the line's value at a force takes of the two directions, shape (2,)."""
        return np.array([len(self.rest) ** -0.5, (place - self.middle) / self.length])


@dataclass(frozen=True, kw_only=True)
class Columns:
    """Columns of one kind, m of them, the first one empty: the shape without.

    `place` and `power` say what each is; `unit` (N, m) the column without the line at length one; `length` what it was
    divided by; `lean` (2, m) what it has of the line's directions; `pull` what the pointer has of it.
    """

    place: FloatArray
    power: FloatArray
    unit: FloatArray
    length: FloatArray
    lean: FloatArray
    pull: FloatArray


@dataclass(frozen=True, kw_only=True)
class Grid:
    """Every place of toe (rows) and bend (columns): `rss` (toes, bends), infinite where a place may not stand.

    Row 0 is without toe, column 0 without bend. `overlap` is the product of the two columns at length one.
    """

    section: Section
    line: Line
    toe: Columns
    bend: Columns
    overlap: FloatArray
    rss: FloatArray

    @property
    def nothing(self) -> float:
        """The coefficient of a column at length one below which it is nought: whole millimetres often make it so."""
        return ROUND * float(np.sqrt(self.line.rss)) + DUST

    @cached_property
    def free_bend_rss(self) -> FloatArray:
        """Of every bend without a toe, whichever way it bends, shape (bends,)."""
        return np.maximum(self.line.rss - self.bend.pull**2, 0.0)

    @cached_property
    def stiffer_rss(self) -> FloatArray:
        """Of every place where the cord may get stiffer, shape (bends,); infinite elsewhere."""
        place, force = self.bend.place, self.section.force
        up_to = np.searchsorted(force, place, side="right")
        may = (up_to >= BEFORE_STIFFER) & (len(force) - up_to >= BEYOND_STIFFER)
        may &= (place >= STIFFER_SHARE - ROUND) & (self.bend.power == 1.0) & (self.bend.pull <= self.nothing)
        return np.where(may, self.free_bend_rss, np.inf)

    def shares(self, toe: IntArray, bend: IntArray) -> tuple[FloatArray, FloatArray, FloatArray]:
        """At those places: coefficients of toe and bend at length one, and what their overlap leaves, shape (m,)."""
        overlap = self.overlap[toe, bend]
        left = 1.0 - overlap**2
        pull_toe, pull_bend = self.toe.pull[toe], self.bend.pull[bend]
        return (pull_toe - overlap * pull_bend) / left, (pull_bend - overlap * pull_toe) / left, left

    def figures(self, toe: IntArray, bend: IntArray, *, of: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Figures of the straight line at those places, and their variances for a scatter of one, shape (k, m).

        `of` (k, 2) says what each figure takes of the line's directions.
        """
        share_toe, share_bend, left = self.shares(toe, bend)
        lean_toe, lean_bend = of @ self.toe.lean[:, toe], of @ self.bend.lean[:, bend]
        value = (of @ self.line.shares)[:, None] - lean_toe * share_toe - lean_bend * share_bend
        leaning = lean_toe**2 + lean_bend**2 - 2 * self.overlap[toe, bend] * lean_toe * lean_bend
        return value, (of**2).sum(axis=1)[:, None] + leaning / left

    def fitted(self, toe: int, bend: int) -> FloatArray:
        """The curve of one place at the readings, shape (N,)."""
        share_toe, share_bend, _ = self.shares(np.array([toe]), np.array([bend]))
        extra = self.toe.unit[:, toe] * share_toe + self.bend.unit[:, bend] * share_bend
        curve: FloatArray = self.line.directions @ self.line.shares + extra
        return curve


def grid_places(steps: FloatArray, between: int) -> FloatArray:
    """The places of a grid over a ladder.

    Parameters: steps, distinct forces of shape (m,) in rising order [any unit]; between, places a step [1].
    Returns: the forces and the places between them, rising [the unit of steps].
    Raises: nothing.
    Source: none needed.
    """
    inner = steps[:-1, None] + np.diff(steps)[:, None] * (np.arange(between) / between)
    return np.append(inner.ravel(), steps[-1])


def bend_places(section: Section) -> FloatArray:
    """All places of a section's ladder where a bend is looked for, and those around them.

    Parameters: section, its readings.
    Returns: places from 0 to 1 [range of force], shape (m,).
    Raises: nothing.
    Source: our own grid.
    """
    return grid_places(section.steps, _between(section, BEND_PLACES))


def straight_line(section: Section) -> Line:
    """The straight line through all readings.

    Parameters: section, at least two forces.
    Returns: the line in orthonormal directions [the section's own units].
    Raises: nothing.
    Source: ordinary least squares.
    """
    middle = float(section.force.mean())
    along = section.force - middle
    length = float(np.sqrt(along @ along))
    directions = np.column_stack((np.full(section.readings, section.readings**-0.5), along / length))
    shares = directions.T @ section.pointer
    rest = section.pointer - directions @ shares
    return Line(directions=directions, shares=shares, rest=rest, rss=float(rest @ rest), middle=middle, length=length)


def bend_columns(section: Section, line: Line, place: FloatArray, power: FloatArray) -> Columns:
    """Bends at any places.

    Parameters: section, its readings; line, through them; place, from 0 to 1 [range of force], and power [1], both of
        shape (m,).
    Returns: the columns, the empty one first, without those that the line could do as well [the section's own units].
    Raises: nothing.
    Source: least squares by partitioned inverse.
    """
    return _columns(line, place, power, np.maximum(section.force[:, None] - place, 0.0))


def fit_shapes(section: Section) -> Grid:
    """Every shape that the number of readings allows, at every place.

    Parameters: section, at least four readings under two forces.
    Returns: the grid [the section's own units].
    Raises: nothing.
    Source: least squares by partitioned inverse; our own grid and rules of what may stand.
    """
    line = straight_line(section)
    toe, bend = _toes(section, line), _bends(section, line)
    overlap = toe.unit.T @ bend.unit
    grid = Grid(section=section, line=line, toe=toe, bend=bend, overlap=overlap, rss=overlap)
    return replace(grid, rss=_rss(grid))


def _rss(grid: Grid) -> FloatArray:
    """Least squares of every pair of places, infinite where the pair may not stand or has a wrong sign."""
    pull_toe, pull_bend, overlap = grid.toe.pull[:, None], grid.bend.pull[None, :], grid.overlap
    toe, bend = pull_toe - overlap * pull_bend, pull_bend - overlap * pull_toe
    left = 1.0 - overlap * overlap
    may = (toe >= -grid.nothing) & (bend >= -grid.nothing) & (left > ALIKE) & _room_between(grid)
    gain = (toe * pull_toe + bend * pull_bend) / np.where(may, left, 1.0)
    return np.where(may, np.maximum(grid.line.rss - gain, 0.0), np.inf)


def _room_between(grid: Grid) -> BoolArray:
    """Whether enough readings, and forces, lie on the straight part between toe (rows) and bend (columns)."""
    enough = _between_places(grid, grid.section.force) >= ON_STRAIGHT
    if len(grid.section.steps) < grid.section.readings:
        enough &= _between_places(grid, grid.section.steps) >= STEPS_ON_STRAIGHT
    return enough


def _between_places(grid: Grid, force: FloatArray) -> IntArray:
    """How many of those forces lie between toe and bend, both ends in."""
    before = np.searchsorted(force, grid.toe.place, side="left")
    up_to = np.searchsorted(force, grid.bend.place, side="right")
    between: IntArray = up_to[None, :] - before[:, None]
    return between


def _toes(section: Section, line: Line) -> Columns:
    place = grid_places(section.steps, _between(section, TOE_PLACES))
    last = max(float(section.steps[: TOE_STEPS + 1][-1]), TOE_SHARE)
    past = section.readings - np.searchsorted(section.force, place, side="left")
    may = (place >= section.steps[1]) & (place <= last + ROUND) & (past >= PAST_TOE)
    place, power = _both_powers(place[may & (section.readings >= READINGS_FOR_TOE)])
    columns = _columns(line, place, power, np.maximum(place - section.force[:, None], 0.0), sign=-1.0)
    return replace(columns, place=np.append(-np.inf, columns.place[1:]))


def _bends(section: Section, line: Line) -> Columns:
    place = bend_places(section)
    up_to = np.searchsorted(section.force, place, side="right")
    may = (up_to >= ON_STRAIGHT) & (section.readings - up_to >= BEYOND_BEND)
    place, power = _both_powers(place[may & (section.readings >= READINGS_FOR_BEND)])
    return bend_columns(section, line, place, power)


def _between(section: Section, most: int) -> int:
    """Places a step: the most, or fewer on a very long ladder."""
    return max(1, min(most, most * FULL_GRID_STEPS // len(section.steps)))


def _both_powers(place: FloatArray) -> tuple[FloatArray, FloatArray]:
    return np.tile(place, len(POWERS)), np.repeat(POWERS, len(place))


def _columns(line: Line, place: FloatArray, power: FloatArray, past: FloatArray, *, sign: float = 1.0) -> Columns:
    """Columns from how far each reading lies past each place, shape (N, m)."""
    raw = sign * np.where(power == 1.0, past, past * past)
    lean = line.directions.T @ raw
    rest = raw - line.directions @ lean
    square = np.einsum("ij,ij->j", rest, rest)
    apart = square > NOT_APART * np.einsum("ij,ij->j", raw, raw)
    if not apart.all():
        place, power, lean, rest, square = place[apart], power[apart], lean[:, apart], rest[:, apart], square[apart]
    length = np.sqrt(square)
    none = np.zeros((len(line.rest) + 2, 1))
    unit = np.hstack((none[2:], rest / length))
    return Columns(
        place=np.append(np.inf, place),
        power=np.append(0.0, power),
        unit=unit,
        length=np.append(1.0, length),
        lean=np.hstack((none[:2], lean / length)),
        pull=line.rest @ unit,
    )
