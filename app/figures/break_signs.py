"""Break signs lying down, a row a cord: a foot at what it held, a bar to a cross at what it broke on; or an arrow."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.figures.graph_plane import number_words

WIDTH, LEFT, RIGHT = 460.0, 10.0, 26.0
ROW, TOP = 26.0, 15.0
FOOT, CROSS, ARROW = 7.0, 6.0, 22.0
AXIS_ROOM, TEXT_BELOW = 28.0, 22.0
WORD_GAP, WORD_ROOM = 12.0, 90.0
PARTS = 5
STEPS_N = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0)


@dataclass(frozen=True, kw_only=True)
class Broke:
    """One cord: what it held, and what it broke on; None when it did not."""

    name: str
    held_n: float
    broke_n: float | None


@dataclass(frozen=True, kw_only=True)
class Sign:
    """One sign as an SVG path, and where its word stands."""

    path: str
    word: str
    word_x: float
    word_y: float
    anchor: str


@dataclass(frozen=True, kw_only=True)
class Tick:
    x: float
    words: str


@dataclass(frozen=True, kw_only=True)
class BreakSigns:
    """The whole drawing; `words` say it without the picture."""

    width: float
    height: float
    ground: float
    text_y: float
    ticks: tuple[Tick, ...]
    signs: tuple[Sign, ...]
    words: str


@dataclass(frozen=True, kw_only=True)
class Axis:
    """The one force axis of all drawings on a page [N]."""

    low_n: float
    high_n: float
    step_n: float

    @property
    def ticks_n(self) -> tuple[float, ...]:
        """The forces that are named under it."""
        return tuple(
            self.low_n + turn * self.step_n for turn in range(round((self.high_n - self.low_n) / self.step_n) + 1)
        )

    def px(self, force_n: float) -> float:
        """Where a force lies."""
        share = (force_n - self.low_n) / (self.high_n - self.low_n)
        return round(LEFT + share * (WIDTH - LEFT - RIGHT), 1)


def shared_axis(cords: Iterable[Broke]) -> Axis:
    """A round axis that holds every sign, with room for a word left of the first and an arrow right of the last."""
    forces = [force for cord in cords for force in (cord.held_n, cord.broke_n) if force is not None]
    low, high = (min(forces), max(forces)) if forces else (0.0, 1.0)
    room = max(high - low, 1.0) * WORD_ROOM / (WIDTH - LEFT - RIGHT - WORD_ROOM - ARROW)
    for step in STEPS_N:
        lowest, highest = max(0.0, math.floor((low - room) / step) * step), math.ceil((high + room / 4) / step) * step
        if highest - lowest <= PARTS * step:
            break
    return Axis(low_n=lowest, high_n=highest, step_n=step)


def break_signs(cords: Sequence[Broke], axis: Axis) -> BreakSigns:
    """The signs of those cords one under the other, on that axis."""
    ground = len(cords) * ROW + 6.0
    return BreakSigns(
        width=WIDTH,
        height=ground + AXIS_ROOM,
        ground=ground,
        text_y=ground + TEXT_BELOW,
        ticks=tuple(Tick(x=axis.px(force), words=number_words(force)) for force in axis.ticks_n),
        signs=tuple(_sign(cord, axis, TOP + place * ROW) for place, cord in enumerate(cords)),
        words="; ".join(_words(cord) for cord in cords),
    )


def _sign(cord: Broke, axis: Axis, y: float) -> Sign:
    held = axis.px(cord.held_n)
    foot = f"M{held} {y - FOOT}v{2 * FOOT}"
    if cord.broke_n is None:
        tip = round(held + ARROW, 1)
        path = f"{foot}M{held} {y}H{tip}M{tip - CROSS} {y - CROSS}l{CROSS} {CROSS}l-{CROSS} {CROSS}"
    else:
        end = axis.px(cord.broke_n)
        size = 2 * CROSS
        path = f"{foot}M{held} {y}H{end}M{end - CROSS} {y - CROSS}l{size} {size}m0 -{size}l-{size} {size}"
    return Sign(path=path, word=cord.name, word_x=round(held - WORD_GAP, 1), word_y=y + 6, anchor="end")


def _words(cord: Broke) -> str:
    if cord.broke_n is None:
        return f"{cord.name}: more than {cord.held_n:.1f} N"
    return f"{cord.name}: held {cord.held_n:.1f} N, broke on {cord.broke_n:.1f} N"
