"""One cord's own curve as the numbers of an SVG, ready to be printed by a page that runs no script.

A script that draws the same follows these rules. Drawn are the counted readings of the zero and on the way up. The plot
area leaves 46 px at the left, 24 right, 14 above and 62 below (narrow: 62, 30, 18, 86). Each axis begins at zero and
ends at the first of 1, 1.2, 1.6, 2, 2.5, 3, 3.5, 4, 5, 6, 8, 10 times a power of ten that is not under what it has to
show, nor under 20 mm or 5 N: along, 1.1 times the greatest extension; up, the greatest of the forces read, the next
force, and 1.06 times the end of a bar or arrow. Its ticks stand 1, 2, 4 or 5 times a power of ten apart, the smallest
such step that divides the end into at most seven parts. Numbers are rounded to a tenth of a px.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from app.domain.quantities import shown
from app.figures.axis_steps import axis_end, ticks
from app.figures.graph_curves import ROOM_ALONG, ROOM_ARROW, Curve, Spot, curve_of, most_near
from app.figures.graph_ends import CROSS, EndSign, sign_path
from app.figures.graph_plane import PARTS, number_words
from app.figures.marked import RINGED, is_moving
from app.mechanics.classwork import SpecimenPicture

ARROW = 24.0
LEAST_X_MM, LEAST_Y_N = 20.0, 5.0
MARGINS = {False: (46.0, 24.0, 14.0, 62.0), True: (62.0, 30.0, 18.0, 86.0)}
TEXT = {False: 18.0, True: 25.0}
WORD_LEFT_FROM = 0.3
"""From this share of the width on, the word of an end stands left of its sign."""


@dataclass(frozen=True, kw_only=True)
class Tick:
    """A tick: its place in px along its axis, and its number."""

    at: float
    words: str


@dataclass(frozen=True, kw_only=True)
class Place:
    """A point in px; `hollow` while the pointer was still moving."""

    x: float
    y: float
    hollow: bool = False


@dataclass(frozen=True, kw_only=True)
class Section:
    """One unbroken stretch: the `points` of its polyline, the place of each marker, whether it comes after a slip."""

    points: str
    marks: tuple[Place, ...]
    after_slip: bool


@dataclass(frozen=True, kw_only=True)
class End:
    """How the cord ended: the `path` of its sign, and a word with its place and SVG anchor (start, end)."""

    path: str
    word: str
    x: float
    y: float
    anchor: str


@dataclass(frozen=True, kw_only=True)
class CordCurve:
    """Everything that is printed; `letter` is the design's, `next_y` the height of the line at the next force."""

    width: float
    height: float
    text: float
    letter: str
    words: str
    left: float
    right: float
    top: float
    bottom: float
    x_ticks: tuple[Tick, ...]
    y_ticks: tuple[Tick, ...]
    sections: tuple[Section, ...]
    crosses: tuple[Place, ...]
    rings: tuple[Place, ...]
    next_y: float | None
    end: End | None


@dataclass(frozen=True, kw_only=True)
class _Frame:
    """The plot area with what its axes end at."""

    left: float
    right: float
    top: float
    bottom: float
    x_to: float
    y_to: float

    def place(self, spot: Spot) -> Place:
        return Place(x=self.x(spot.x), y=self.y(spot.y), hollow=is_moving(spot.point))

    def x(self, value: float) -> float:
        return round(self.left + value / self.x_to * (self.right - self.left), 1)

    def y(self, value: float) -> float:
        return round(self.bottom - value / self.y_to * (self.bottom - self.top), 1)


def cord_curve(
    specimen: SpecimenPicture,
    *,
    next_force_n: float | None = None,
    width: float = 500.0,
    height: float = 330.0,
    narrow: bool = False,
) -> CordCurve | None:
    """The curve of one cord in px, with a line at the force that comes next; None before its first reading counts."""
    curve = curve_of(specimen, "extension", "load")
    if curve is None:
        return None
    frame = _frame(curve, next_force_n, width=width, height=height, narrow=narrow)
    readings = "1 reading" if len(curve.spots) == 1 else f"{len(curve.spots)} readings"
    return CordCurve(
        width=width,
        height=height,
        text=TEXT[narrow],
        letter=specimen.design,
        words=f"{specimen.bench}: force against extension, {readings}",
        left=frame.left,
        right=frame.right,
        top=frame.top,
        bottom=frame.bottom,
        x_ticks=tuple(Tick(at=frame.x(tick), words=number_words(tick)) for tick in ticks(frame.x_to, parts=PARTS)),
        y_ticks=tuple(Tick(at=frame.y(tick), words=number_words(tick)) for tick in ticks(frame.y_to, parts=PARTS)),
        sections=tuple(_section(frame, spots, after_slip=place > 0) for place, spots in enumerate(curve.sections)),
        crosses=tuple(frame.place(spot) for spot in curve.crosses),
        rings=tuple(_rings(frame, curve)),
        next_y=None if next_force_n is None else frame.y(next_force_n),
        end=_end(frame, curve, width) if curve.has_end_sign else None,
    )


def _frame(curve: Curve, next_force_n: float | None, *, width: float, height: float, narrow: bool) -> _Frame:
    left, right, top, bottom = MARGINS[narrow]
    ends = [value * ROOM_ARROW for value in (curve.low, curve.high) if value is not None and curve.has_end_sign]
    along = most_near([0.0, *(spot.x for spot in curve.spots)], "extension") * ROOM_ALONG
    return _Frame(
        left=left,
        right=width - right,
        top=top,
        bottom=height - bottom,
        x_to=axis_end(along, least=LEAST_X_MM),
        y_to=axis_end(max(*(spot.y for spot in curve.spots), next_force_n or 0.0, *ends), least=LEAST_Y_N),
    )


def _section(frame: _Frame, spots: Iterable[Spot], *, after_slip: bool) -> Section:
    marks = tuple(frame.place(spot) for spot in spots if -frame.x_to * 0.04 <= spot.x <= frame.x_to)
    points = " ".join(f"{mark.x:g},{mark.y:g}" for mark in marks)
    return Section(points=points, marks=marks, after_slip=after_slip)


def _rings(frame: _Frame, curve: Curve) -> Iterable[Place]:
    """Where something happened that is seen on the curve."""
    steps = {event.step for event in curve.specimen.events if event.kind in RINGED}
    return (frame.place(spot) for spot in curve.spots if spot.point.reading.step in steps)


def _end(frame: _Frame, curve: Curve, width: float) -> End:
    x, foot = frame.x(min(curve.end.x, frame.x_to)), frame.y(curve.low or 0.0)
    top = foot - ARROW if curve.high is None else frame.y(curve.high)
    sign = EndSign(x=x, foot=foot, top=top, half=CROSS, broke=curve.high is not None)
    left = x > width * WORD_LEFT_FROM
    return End(
        path=sign_path(sign),
        word="broke" if sign.broke else f"more than {shown(curve.low or 0.0, 1)}",
        x=round(x - 18 if left else x + 18, 1),
        y=round(top + 6, 1),
        anchor="end" if left else "start",
    )
