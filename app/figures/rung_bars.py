"""The ladder as the lesson sheet draws it: a bar a rung, as tall as its printed mass, marks where the mass changes."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

WIDTH = 620.0
FOOT = 62.0
TALLEST = 58.0
GAP = 6.0
WIDEST = 60.0


@dataclass(frozen=True, kw_only=True)
class RungBar:
    """One rung's bar in px; `mark` is written below it, or blank."""

    x: float
    y: float
    width: float
    height: float
    heavy: bool
    mark: str

    @property
    def middle(self) -> float:
        """Where its mark stands."""
        return round(self.x + self.width / 2, 1)


def rung_bars(masses_g: Sequence[float | None]) -> tuple[RungBar, ...]:
    """The bars of a ladder; a rung without a printed mass is as tall as the heaviest."""
    most = max((mass for mass in masses_g if mass), default=1.0)
    width = min(WIDEST, (WIDTH - GAP * (len(masses_g) - 1)) / len(masses_g)) if masses_g else 0.0
    bars = []
    for place, mass in enumerate(masses_g):
        share = (mass or most) / most
        bars.append(
            RungBar(
                x=round(place * (width + GAP), 1),
                y=round(FOOT - share * TALLEST, 1),
                width=round(width, 1),
                height=round(share * TALLEST, 1),
                heavy=share > 0.75,
                mark=str(place + 1) if _is_turn(masses_g, place) else "",
            )
        )
    return tuple(bars)


def _is_turn(masses_g: Sequence[float | None], place: int) -> bool:
    """Whether a mark stands there: at both ends, and on each side of a change of mass, if the ladder has few."""
    last = len(masses_g) - 1
    if place in (0, last):
        return True
    changes = sum(one != other for one, other in pairwise(masses_g))
    return changes <= 3 and (masses_g[place] != masses_g[place - 1] or masses_g[place] != masses_g[place + 1])
