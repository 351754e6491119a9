"""Where a cord leaves its straight part: the limit of proportionality as an interval, and what is said of it."""

import numpy as np

from app.domain.quantities import shown, with_unit
from app.mechanics.result import Interval, student
from app.mechanics.section import FloatArray
from app.mechanics.shape_choice import STIFFER, Choice
from app.mechanics.shapes import READINGS_FOR_BEND, Grid, bend_places

SHARPLY, GRADUALLY = "sharply", "gradually"
EARLY_SHARE = 0.4
"""A bend that isn't sharp and may lie under this part of the greatest force is a curve from early on."""

TOO_FEW_FOR_BEND = "too few readings to look for a bend"
CANT_TELL = "these readings can't tell"
IT_GETS_STIFFER = "it gets stiffer there: are the masses touching the tray?"
CURVED_EARLY = "curved from early on: a straight part only as far as this scale can tell"


def limit_of_proportionality(choice: Choice) -> Interval:
    """The force where the straight line and the bent part that fit the readings best meet.

    Parameters: choice, the curve's shape [the section's own units].
    Returns: its interval [N]; where no bend is seen, the force up to which one that doubled the stretch per newton
        would have shown, with an open end; both ends open where the readings can't tell.
    Raises: nothing.
    Source: profile of the sum of squares over places; our own rule, its coverage found by simulation.
    """
    section = choice.grid.section
    if section.readings < READINGS_FOR_BEND:
        return Interval(low=None, high=None, unit="N", why=TOO_FEW_FOR_BEND)
    if choice.is_bent or choice.shape == STIFFER:
        low, high = _reach_of_bend(choice)
        return Interval(low=section.force_n(low), high=section.force_n(high), unit="N")
    bound = _doubling_bound(choice.grid)
    if bound is None:
        return Interval(low=None, high=None, unit="N", why=CANT_TELL)
    low_n = section.force_n(bound)
    return Interval(low=low_n, high=None, unit="N", why=_no_bend_seen(low_n))


def how_it_bends(choice: Choice) -> str | None:
    """Whether a bend is sharp or gradual, as far as the readings tell.

    Parameters: choice, the curve's shape [the section's own units].
    Returns: "sharply", "gradually", or None where the readings allow both or there is no bend.
    Raises: nothing.
    Source: our own rule: one beats the other by more than scatter can.
    """
    if not choice.is_bent:
        return None
    rss = choice.grid.rss[1:] if choice.toe else choice.grid.rss[:1]
    power = choice.grid.bend.power
    sharp = float(rss[:, power == 1.0].min(initial=np.inf))
    gradual = float(rss[:, power == 2.0].min(initial=np.inf))
    if gradual + choice.reach < sharp:
        return GRADUALLY
    return SHARPLY if sharp + choice.reach < gradual else None


def is_curved_early(choice: Choice, limit_n: Interval) -> bool:
    """Whether a cord may have no straight part worth the name.

    Parameters: choice, the curve's shape; limit_n, its limit of proportionality [N].
    Returns: True where the bend isn't sharp and may lie under 40 % of the greatest force.
    Raises: nothing.
    Source: our own rule, found by simulation on curves that are never straight.
    """
    if not choice.is_bent or limit_n.low is None or how_it_bends(choice) == SHARPLY:
        return False
    return limit_n.low < EARLY_SHARE * choice.grid.section.force_n(1.0)


def _reach_of_bend(choice: Choice) -> tuple[float, float]:
    """Lowest and highest place of every rival, widened by one place of the grid each way."""
    places, found = bend_places(choice.grid.section), choice.grid.bend.place[choice.rival_bend]
    low, high = np.searchsorted(places, (found.min(), found.max()))
    return float(places[max(low - 1, 0)]), float(places[min(high + 1, len(places) - 1)])


def _doubling_bound(grid: Grid) -> float | None:
    """The last place, counted from the first on without a break, where doubled stretch per newton is ruled out."""
    sharp = np.flatnonzero(grid.bend.power == 1.0)
    shown = _more_than_doubled(grid, sharp) < 0.0
    run = len(shown) if shown.all() else int(np.argmin(shown))
    return float(grid.bend.place[sharp[run - 1]]) if run else None


def _more_than_doubled(grid: Grid, bend: np.ndarray) -> FloatArray:
    """Upper 95 % end of (stretch per newton beyond the bend less twice that before it), bends of either sign."""
    slope = grid.line.slope()
    length = grid.bend.length[bend]
    lean = slope @ grid.bend.lean[:, bend]
    change = grid.bend.pull[bend] / length
    before = slope @ grid.line.shares - lean * grid.bend.pull[bend]
    dof = grid.section.readings - 4
    variance = np.maximum(grid.free_bend_rss[bend] / dof, grid.section.least_variance)
    spread = np.sqrt(variance * (slope @ slope + (lean + 1.0 / length) ** 2))
    upper: FloatArray = change - before + student(0.975, dof) * spread
    return upper


def _no_bend_seen(low_n: float) -> str:
    return "no bend seen; one that doubled the stretch per newton would have shown up to " + with_unit(
        shown(low_n, 1), "N"
    )
