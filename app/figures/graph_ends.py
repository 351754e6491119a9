"""How ends are drawn: a foot at what was held, a bar up to a cross at what it broke on, or an arrow for "more than"."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from app.figures.graph_curves import Curve
from app.figures.graph_plane import Plane
from app.figures.label_places import Box

CROSS = 8.5
CROSS_LIFTED = 11.0
ARROW = 30.0
ARROW_HEAD = 8.0
CLEAR = 12.0
"""Px on the squarish drawing: half a cross, an arrow's length and half its head, what is left uncased over a foot."""

Stroke = list[tuple[float, float]]


@dataclass(frozen=True, kw_only=True)
class EndSign:
    """One end in px: the bar stands at `x` from its foot up to its top, where a cross or an arrow's head is."""

    x: float
    foot: float
    top: float
    half: float
    broke: bool

    @property
    def box(self) -> Box:
        """The room that the sign takes, in px."""
        return Box(self.x - self.half, self.top - self.half, 2 * self.half, self.foot - self.top + self.half)

    def strokes(self) -> list[Stroke]:
        """The lines to draw, each a row of px pairs."""
        x, top, half = self.x, self.top, self.half
        bar = [(x, self.foot), (x, top)]
        foot = [(x - half, self.foot), (x + half, self.foot)]
        if self.broke:
            cross = [[(x - half, top - half), (x + half, top + half)], [(x - half, top + half), (x + half, top - half)]]
            return [bar, foot, *cross]
        return [bar, foot, [(x - half, top + half), (x, top), (x + half, top + half)]]

    def casing(self, scale: float) -> list[Stroke]:
        """What is cleared behind it, so that it stands out from the lines; its own curve still reaches the foot."""
        start = max(self.top, self.foot - CLEAR * scale)
        return [[(self.x, start), (self.x, self.top)], *self.strokes()[2:]]


def sign_path(sign: EndSign) -> str:
    """The sign as the path of an SVG."""
    strokes = sign.strokes()
    return "".join("M" + "L".join(f"{round(x, 1):g} {round(y, 1):g}" for x, y in stroke) for stroke in strokes)


def end_signs(curves: Sequence[Curve], plane: Plane) -> dict[str, EndSign]:
    """The sign of each cord that ended, by specimen id; those that would cover each other stand side by side."""
    found = {curve.specimen.specimen_id: _sign(curve, plane) for curve in curves if curve.has_end_sign}
    names = list(found)
    places = side_by_side([found[name] for name in names], plane.box, 2 * plane.drawing.scale)
    return {name: replace(found[name], x=x) for name, x in zip(names, places, strict=True)}


def _sign(curve: Curve, plane: Plane) -> EndSign:
    scale = plane.drawing.scale
    half = scale * (CROSS_LIFTED if curve.lifted else CROSS)
    x, foot = plane.px(min(max(curve.end.x, plane.x_from), plane.x_to), curve.low or 0.0)
    if curve.high is None:
        return EndSign(x=x, foot=foot, top=max(foot - ARROW * scale, half), half=ARROW_HEAD * scale, broke=False)
    return EndSign(x=x, foot=foot, top=plane.px(0.0, curve.high)[1], half=half, broke=True)


def side_by_side(signs: Sequence[EndSign], field: Box, gap: float) -> list[float]:
    """Where each sign stands so that none meets another: crowds are spread evenly about their middle."""
    crowds = [[place] for place in sorted(range(len(signs)), key=lambda place: signs[place].x)]
    spread = {place: signs[place].x for place in range(len(signs))}
    while (pair := _meeting(crowds, signs, spread, gap)) is not None:
        first, second = pair
        joined = sorted(crowds[first] + crowds[second], key=lambda place: signs[place].x)
        crowds = [crowd for place, crowd in enumerate(crowds) if place not in pair] + [joined]
        spread |= _in_a_row(joined, signs, field, gap)
    return [spread[place] for place in range(len(signs))]


def _meeting(
    crowds: list[list[int]], signs: Sequence[EndSign], spread: dict[int, float], gap: float
) -> tuple[int, int] | None:
    """Two crowds of which a sign meets one of the other; None when all stand clear."""
    boxes = {place: replace(sign, x=spread[place]).box for place, sign in enumerate(signs)}
    for first, crowd in enumerate(crowds):
        for second in range(first + 1, len(crowds)):
            if any(boxes[a].meets(boxes[b], gap / 2) for a in crowd for b in crowds[second]):
                return first, second
    return None


def _in_a_row(crowd: list[int], signs: Sequence[EndSign], field: Box, gap: float) -> dict[int, float]:
    """The crowd's signs next to each other about the middle of where they belong, inside the field."""
    width = sum(2 * signs[place].half + gap for place in crowd)
    middle = sum(signs[place].x for place in crowd) / len(crowd)
    left = max(field.left, min(middle - width / 2, field.right - width))
    found = {}
    for place in crowd:
        step = 2 * signs[place].half + gap
        found[place] = left + step / 2
        left += step
    return found
