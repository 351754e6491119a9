"""The plane of a class graph: from what was measured to px on its drawing, and back."""

from dataclasses import dataclass
from functools import cached_property

from app.figures.axis_steps import ticks
from app.figures.label_places import Box
from app.figures.lettering import text_width
from app.figures.look import Drawing

PARTS = 7
BELOW_ZERO = 0.04
"""Room left of zero, as a share of the axis, once a cord reads a little shorter than at its zero."""
DIGITS = 6


def number_words(value: float) -> str:
    """A tick's number: no zeros that say nothing, a narrow space in thousands."""
    return f"{value:,.10g}".replace(",", "\u202f").replace("-", "−")


@dataclass(frozen=True, kw_only=True)
class Plane:
    """Both axes on one drawing."""

    drawing: Drawing
    x_to: float
    y_to: float
    x_from: float = 0.0

    @property
    def x_ticks(self) -> tuple[float, ...]:
        """Where the lower axis is marked."""
        return ticks(self.x_to, parts=PARTS)

    @property
    def y_ticks(self) -> tuple[float, ...]:
        """Where the upright axis is marked."""
        return ticks(self.y_to, parts=PARTS)

    @cached_property
    def left(self) -> float:
        """Where the upright axis stands: farther in when its numbers are long."""
        longest = max(text_width(number_words(tick), self.drawing.text) for tick in self.y_ticks)
        return max(self.drawing.left, longest + 13 * self.drawing.scale)

    @cached_property
    def box(self) -> Box:
        """The plot area in px of the whole drawing."""
        drawing = self.drawing
        return Box(
            self.left,
            drawing.top,
            drawing.width - drawing.right - self.left,
            drawing.height - drawing.bottom - drawing.top,
        )

    @cached_property
    def y_range(self) -> float:
        """The value at the very top of the plot area, a little over the last tick."""
        return self.y_to * self.box.height / (self.box.height - self.drawing.headroom)

    def px(self, x: float, y: float) -> tuple[float, float]:
        """Where a pair of values lies."""
        box = self.box
        return (
            box.left + (x - self.x_from) / (self.x_to - self.x_from) * box.width,
            box.bottom - y / self.y_range * box.height,
        )

    def values(self, x: float, y: float) -> tuple[float, float]:
        """The pair of values at a place, rounded to what a screen can show."""
        box = self.box
        along = self.x_from + (x - box.left) / box.width * (self.x_to - self.x_from)
        up = (box.bottom - y) / box.height * self.y_range
        return float(f"{along:.{DIGITS}g}"), float(f"{up:.{DIGITS}g}")

    def holds(self, x: float, y: float) -> bool:
        """Whether a pair of values lies on the graph."""
        return self.x_from <= x <= self.x_to and 0 <= y <= self.y_range
