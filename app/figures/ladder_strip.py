"""The ladder strip: one bar a rung, short for light and tall for heavy; what hung, what hangs now, what is to come."""

from collections.abc import Sequence
from dataclasses import dataclass

LEAST = 4


@dataclass(frozen=True, kw_only=True)
class Pen:
    """The sizes of one drawing, in px: from bar to bar, a bar's width, where bars stand, the tallest, the whole."""

    pitch: int
    width: int
    foot: int
    tallest: int
    height: int
    rail_y: int


PENS = {
    "wide": Pen(pitch=26, width=22, foot=21, tallest=20, height=24, rail_y=23),
    "row": Pen(pitch=9, width=6, foot=17, tallest=16, height=20, rail_y=18),
}
"""`wide` is stretched to its place, `row` stands in a line of a table."""


@dataclass(frozen=True, kw_only=True)
class Bar:
    """One rung's bar: place and size in px, and its state: held, now or left."""

    x: float
    y: float
    width: float
    height: float
    state: str


@dataclass(frozen=True, kw_only=True)
class LadderStrip:
    """All that is printed; `pointer` is the path over the bar that is now, empty when none is."""

    width: int
    height: int
    rail_y: int
    bars: tuple[Bar, ...]
    pointer: str
    words: str


def ladder_strip(
    masses_g: Sequence[float | None], *, read: int, now: int | None = None, pen: str = "row"
) -> LadderStrip:
    """The strip of a ladder whose first `read` rungs were hung and read, and whose rung `now` comes next or hangs."""
    sizes = PENS[pen]
    most = max((mass for mass in masses_g if mass), default=1.0)
    bars = tuple(
        _bar(sizes, place, (mass or most) / most, state=_state(place + 1, read=read, now=now))
        for place, mass in enumerate(masses_g)
    )
    here = now if now is not None and 1 <= now <= len(bars) else None
    return LadderStrip(
        width=sizes.pitch * len(bars),
        height=sizes.height,
        rail_y=sizes.rail_y,
        bars=bars,
        pointer=f"M{sizes.pitch * (here - 1) + sizes.width // 2 - 5} -8h10l-5 6z" if here else "",
        words=f"{min(read, len(bars))} of {len(bars)} rungs hung and read",
    )


def _state(mark: int, *, read: int, now: int | None) -> str:
    if mark == now:
        return "now"
    return "held" if mark <= read else "left"


def _bar(sizes: Pen, place: int, share: float, *, state: str) -> Bar:
    height = max(LEAST, round(sizes.tallest * share))
    edge = 0.5 if state == "left" else 0.0  # the line of an outlined bar lies within it
    return Bar(
        x=sizes.pitch * place + edge,
        y=sizes.foot - height + edge,
        width=sizes.width - 2 * edge,
        height=height - 2 * edge,
        state=state,
    )
