"""Which shape a curve has, and every other place of it that the readings leave possible."""

from dataclasses import dataclass

import numpy as np

from app.mechanics.result import student
from app.mechanics.section import FloatArray, IntArray
from app.mechanics.shapes import READINGS_FOR_BEND, READINGS_FOR_TOE, Grid

STRAIGHT, TOE, BENT, TOE_BENT, STIFFER = "straight", "toe", "bent", "toe_bent", "stiffer"
PARAMETERS = {STRAIGHT: 2, TOE: 4, BENT: 4, TOE_BENT: 6, STIFFER: 4}

BEND_GAIN = {
    8: 12.5, 9: 10.5, 10: 10.0, 11: 9.5, 12: 9.0, 13: 8.7, 14: 8.5, 15: 8.4, 16: 8.3, 17: 8.2, 18: 8.1
}  # fmt: skip
BEND_PAST_TOE_GAIN = {
    8: 17.0, 9: 13.0, 10: 12.5, 11: 12.0, 12: 11.3, 13: 10.8, 14: 10.3, 15: 10.3, 16: 10.2, 17: 10.2, 18: 10.1
}  # fmt: skip
STIFFER_GAIN = {
    8: 12.5, 9: 11.5, 10: 11.5, 11: 11.3, 12: 11.0, 13: 10.8, 14: 10.5, 15: 10.5, 16: 10.4, 17: 10.4, 18: 10.3
}  # fmt: skip
TOE_GAIN = {
    6: 9.0, 7: 7.5, 8: 6.0, 9: 5.3, 10: 5.0, 11: 5.0, 12: 4.9, 13: 4.9, 14: 4.8, 15: 4.8, 16: 4.8, 17: 4.8, 18: 4.8
}  # fmt: skip
"""By number of readings (the last for more): the gain over the simpler shape from which the richer one is taken.

Found on straight lines with normal scatter: the place is searched for, so the table of F is far too low.
"""

_NONE, _SOME, _ANY = slice(0, 1), slice(1, None), slice(None)
_OWN = {STRAIGHT: (_NONE, _NONE), TOE: (_SOME, _NONE), BENT: (_NONE, _SOME), TOE_BENT: (_SOME, _SOME)}
"""Where a shape's places lie in the grid: toes and bends."""
_RIVALS = {STRAIGHT: (_ANY, _NONE), TOE: (_ANY, _NONE), BENT: (_ANY, _SOME), TOE_BENT: (_ANY, _SOME)}
"""Where the places lie that bound a figure of the straight part."""
_TIE = 1e-12
"""Places whose squares differ by less than this part of the straight line's are equal: the first is taken."""


@dataclass(frozen=True, kw_only=True)
class Choice:
    """The shape taken and where its toe and bend lie in the grid (0: none), with the places as good as far as we know.

    `variance` is that of one reading, never under the scale's own; `reach` the loss in `rss` that is within reach of
    scatter at 95 %. The rivals, shape (m,), lie within it, each with the `room` that it has left.
    """

    grid: Grid
    shape: str
    toe: int
    bend: int
    rss: float
    dof: int
    variance: float
    reach: float
    rival_toe: IntArray
    rival_bend: IntArray
    room: FloatArray

    @property
    def is_bent(self) -> bool:
        """Whether the readings say that the cord gives more from some force on."""
        return self.shape in (BENT, TOE_BENT)

    @property
    def toe_place(self) -> float:
        """Where the straight part begins, from 0 to 1."""
        return float(self.grid.toe.place[self.toe]) if self.toe else 0.0

    @property
    def bend_place(self) -> float:
        """Where the straight part ends, from 0 to 1."""
        return float(self.grid.bend.place[self.bend]) if self.bend else 1.0

    def figures(self, of: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Figures of the straight line: value, low and high end of the 95 % interval, each of shape (k,).

        `of` (k, 2) says what each figure takes of the line's directions. The ends are the farthest that any rival
        place allows, so where toe and bend lie, and how sharp they are, costs the interval nothing.
        """
        value, _ = self.grid.figures(np.array([self.toe]), np.array([self.bend]), of=of)
        around, variance = self.grid.figures(self.rival_toe, self.rival_bend, of=of)
        half = np.sqrt(variance * self.room)
        return value[:, 0], (around - half).min(axis=1), (around + half).max(axis=1)


def threshold(table: dict[int, float], readings: int) -> float:
    """The gain from which a richer shape is taken.

    Parameters: table, gains by number of readings [1]; readings, how many [1], at least the table's first.
    Returns: the gain [1].
    Raises: KeyError for fewer readings than the table begins with.
    Source: our own simulation of straight cords, `tests/speed/coverage.py`.
    """
    return table[min(readings, max(table))]


def choose(grid: Grid) -> Choice:
    """The shape of a curve, by what it gains over the simpler ones.

    Parameters: grid, every shape at every place [the section's own units].
    Returns: the choice [the section's own units].
    Raises: nothing.
    Source: our own rule, its thresholds found by simulation; `tests/speed/coverage.py` finds their rates again.
    """
    shape = _shape(grid)
    toe, bend, rss = _best_place(grid, shape)
    dof = grid.section.readings - PARAMETERS[shape]
    variance = max(rss / dof, grid.section.least_variance)
    reach = student(0.975, dof) ** 2 * variance
    rival_toe, rival_bend, room = _within_reach(grid, shape, rss + reach)
    return Choice(
        grid=grid,
        shape=shape,
        toe=toe,
        bend=bend,
        rss=rss,
        dof=dof,
        variance=variance,
        reach=reach,
        rival_toe=rival_toe,
        rival_bend=rival_bend,
        room=room,
    )


def _shape(grid: Grid) -> str:
    readings = grid.section.readings
    if readings >= READINGS_FOR_BEND:
        from_line = _gains(grid, STRAIGHT, BENT) > threshold(BEND_GAIN, readings)
        if from_line or _gains(grid, TOE, TOE_BENT) > threshold(BEND_PAST_TOE_GAIN, readings):
            with_toe = not from_line or _gains(grid, BENT, TOE_BENT) > threshold(TOE_GAIN, readings)
            return TOE_BENT if with_toe else BENT
        stiffer = _gains(grid, STRAIGHT, STIFFER) > threshold(STIFFER_GAIN, readings)
        if stiffer and _least(grid, STIFFER) < _least(grid, TOE):
            return STIFFER
    if readings >= READINGS_FOR_TOE and _gains(grid, STRAIGHT, TOE) > threshold(TOE_GAIN, readings):
        return TOE
    return STRAIGHT


def _gains(grid: Grid, simple: str, rich: str) -> float:
    """What the richer shape takes off the simpler one's squares, over the variance that it leaves."""
    least = _least(grid, rich)
    variance = max(least / (grid.section.readings - PARAMETERS[rich]), grid.section.least_variance)
    return (_least(grid, simple) - least) / variance


def _least(grid: Grid, shape: str) -> float:
    """Least squares of a shape: never worse than a simpler one inside it."""
    if shape == STIFFER:
        return min(float(grid.stiffer_rss.min()), grid.line.rss)
    toes, bends = _OWN[shape]
    inside = slice(None, toes.stop), slice(None, bends.stop)
    return float(grid.rss[inside].min())


def _best_place(grid: Grid, shape: str) -> tuple[int, int, float]:
    """Row, column and least squares of a shape's best place; the first of equal ones."""
    rss, first_toe, first_bend = _part(grid, shape, _OWN)
    best = float(rss.min())
    toe, bend = divmod(int(np.argmax(rss <= best + _TIE * grid.line.rss)), rss.shape[1])
    return toe + first_toe, bend + first_bend, float(rss[toe, bend])


def _within_reach(grid: Grid, shape: str, limit: float) -> tuple[IntArray, IntArray, FloatArray]:
    """Rows, columns and room left of every place that bounds a figure of that shape, its squares under the limit."""
    rss, first_toe, first_bend = _part(grid, shape, _RIVALS)
    toe, bend = np.nonzero(rss < limit)
    return toe + first_toe, bend + first_bend, limit - rss[toe, bend]


def _part(grid: Grid, shape: str, where: dict[str, tuple[slice, slice]]) -> tuple[FloatArray, int, int]:
    """A part of the grid's squares, and the row and column that it begins at."""
    if shape == STIFFER:
        return grid.stiffer_rss[None, :], 0, 0
    toes, bends = where[shape]
    return grid.rss[toes, bends], toes.start or 0, bends.start or 0
