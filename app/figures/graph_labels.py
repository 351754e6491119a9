"""The lettering of a class graph in px: tags, words, leaders, rings, two keys, spread so that nothing is covered."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from app.domain.vocabulary import EVENTS
from app.figures.graph_curves import Curve, Spot
from app.figures.graph_ends import EndSign, Stroke
from app.figures.graph_plane import Plane
from app.figures.label_places import Box, Field, Leads, Place
from app.figures.lettering import cut_to, text_width
from app.figures.marked import RINGED, is_moving

TAG = 1.2
ROW = 1.375
AFTER_TAG = 0.3
"""Side of a tag, height of a row and the space after a tag, in heights of the text."""
BESIDE = 23.5
CLOSE = 42.0
SHY = 14.0
SAMPLE = 72.0
RING = 9.0
APART = 5.0
EVENT_REACH = 190.0
SPOT = 9.0
KEY_CLEAR = 30.0
"""Px on the squarish drawing: from an end to its label, how far one may stand without a leader, where a leader starts,
a line sample, a ring's radius, the space between two labels, how far an event's words may stand off, half of what a
marker takes, the white about a key."""
NAME_SHARE = 0.34
"""The most of the graph's width that a name may take."""


@dataclass(frozen=True)
class Words:
    """A line of text: its left end, the middle of its height, and how it is set."""

    left: float
    middle: float
    text: str
    bold: bool = False
    underlined: bool = False


@dataclass(frozen=True)
class Mark:
    """A sign at a place: a tag's letter, a ring, or a sample of the keys."""

    x: float
    y: float
    of: str


@dataclass
class Lettering:
    """Everything that is written on one graph, gathered while it is placed."""

    boxes: list[tuple[str, Box]] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)
    tags: list[Mark] = field(default_factory=list)
    rings: list[Mark] = field(default_factory=list)
    leaders: list[Stroke] = field(default_factory=list)
    samples: list[tuple[str, Stroke]] = field(default_factory=list)
    key_ends: list[EndSign] = field(default_factory=list)
    key_marks: list[Mark] = field(default_factory=list)
    unplaced: list[str] = field(default_factory=list)


def write_labels(
    curves: Sequence[Curve], plane: Plane, signs: dict[str, EndSign], *, designs: Sequence[tuple[str, str]], name: str
) -> Lettering:
    """The whole lettering: keys and lifted lines first, then each line's label, then what else there is room for."""
    box = plane.box
    scale, text = plane.drawing.scale, plane.drawing.text
    spots = [[plane.px(s.x, s.y) for s in section if plane.holds(s.x, s.y)] for c in curves for section in c.sections]
    place = Field(Box(box.left + 4, box.top + 2, box.width - 4, box.height - 6), spots)
    place.take(Box(box.left, box.top, text_width(name, text) + 16 * scale, text * 1.2))
    for sign in signs.values():
        place.take(sign.box)
    for curve in curves:
        for spot in (curve.end, *curve.crosses, *_ringed(curve)):
            if plane.holds(spot.x, spot.y):
                x, y = plane.px(spot.x, spot.y)
                place.take(Box(x - SPOT * scale, y - SPOT * scale, 2 * SPOT * scale, 2 * SPOT * scale))
    pen = Lettering()
    _design_key(pen, place, plane, designs)
    for curve in (curve for curve in curves if curve.lifted):
        _label(pen, place, plane, curve, signs.get(curve.specimen.specimen_id))
    _end_key(pen, place, plane, curves)
    from_top = sorted(curves, key=lambda curve: plane.px(curve.end.x, curve.end.y)[1])
    for curve in (curve for curve in from_top if not curve.lifted):
        _label(pen, place, plane, curve, signs.get(curve.specimen.specimen_id))
    for curve in reversed(curves):
        _off_graph(pen, place, plane, curve)
        _event_words(pen, place, plane, curve)
    return pen


def _net(field_box: Box, width: float, height: float, *, from_top: bool) -> list[Box]:
    """Places for a block, the right ones first, from the top or from the foot."""
    lefts = [field_box.right - width - 4 - turn * (field_box.width - width - 8) / 6 for turn in range(7)]
    tops = [field_box.top + 12 + turn * (field_box.height - height - 36) / 8 for turn in range(9)]
    return [Box(left, top, width, height) for left in lefts for top in (tops if from_top else reversed(tops))]


def _design_key(pen: Lettering, place: Field, plane: Plane, designs: Sequence[tuple[str, str]]) -> None:
    """One line sample for each design, in the emptiest corner."""
    text, scale = plane.drawing.text, plane.drawing.scale
    named = [(letter, cut_to(name, text, plane.box.width * NAME_SHARE)) for letter, name in designs]
    if not named:
        return
    start = SAMPLE * scale + 0.5 * text + TAG * text
    width = start + 0.4 * text + max(text_width(name, text, bold=False) for _, name in named)
    box = place.first_clear(_net(place.box, width, ROW * text * len(named), from_top=False), KEY_CLEAR * scale)
    pen.boxes.append(("key", box))
    for row, (letter, name) in enumerate(named):
        y = box.top + ROW * text * (row + 0.5)
        pen.samples.append((letter, [(box.left + SAMPLE * scale * part / 2, y) for part in range(3)]))
        pen.tags.append(Mark(box.left + start - TAG * text / 2, y, letter))
        pen.words.append(Words(box.left + start + 0.4 * text, y, name))


def _end_key(pen: Lettering, place: Field, plane: Plane, curves: Sequence[Curve]) -> None:
    """How an end is drawn, once; with it the signs that this graph happens to hold."""
    rows = []
    if any(curve.has_end_sign for curve in curves):
        rows += [("broke", "broke on this"), ("", "held this"), ("arrow", "more than this")]
    if any(curve.crosses for curve in curves):
        rows.append(("cross", "not counted"))
    if any(is_moving(spot.point) for curve in curves for spot in curve.spots):
        rows.append(("hollow", "still moving"))
    if not rows:
        return
    text, scale = plane.drawing.text, plane.drawing.scale
    width = 2.2 * text + max(text_width(words, text, bold=False) for _, words in rows)
    box = place.first_clear(_net(place.box, width, ROW * text * len(rows), from_top=True), KEY_CLEAR * scale)
    pen.boxes.append(("end key", box))
    x = box.left + 10 * scale
    for row, (sign, words) in enumerate(rows):
        y = box.top + ROW * text * (row + 0.5)
        pen.words.append(Words(x + text, y, words))
        if sign == "broke":
            pen.key_ends.append(EndSign(x=x, foot=y + ROW * text, top=y, half=8.5 * scale, broke=True))
        elif sign == "arrow":
            pen.key_ends.append(EndSign(x=x, foot=y + 0.4 * text, top=y - 0.4 * text, half=8 * scale, broke=False))
        elif sign:
            pen.key_marks.append(Mark(x, y, sign))


def _label(pen: Lettering, place: Field, plane: Plane, curve: Curve, sign: EndSign | None) -> None:
    """The tag and bench word at the line's end, with a leader where they had to stand off."""
    text, scale = plane.drawing.text, plane.drawing.scale
    name = cut_to(curve.label, text, plane.box.width * NAME_SHARE)
    at = (sign.x, sign.top) if sign else _inside(plane, curve.end)
    tag = TAG * text
    told = _told_below(curve)
    longest = max(text_width(name, text), *(text_width(line, text, bold=False) for line in told), 0.0)
    wanted = Box(
        at[0] + BESIDE * scale, at[1] - tag / 2, tag + AFTER_TAG * text + longest, tag + len(told) * ROW * text
    )
    lead = _leads_from(at, scale)
    box = place.near(_pulled_in(wanted, place.box), lead, gap=APART * scale)
    if box is None:
        pen.unplaced.append(name)
        return
    pen.boxes.append((name, box))
    middle, left = box.top + tag / 2, box.left + tag + AFTER_TAG * text
    pen.tags.append(Mark(box.left + tag / 2, middle, curve.specimen.design))
    pen.words.append(Words(left, middle, name, bold=True, underlined=curve.lifted))
    for row, line in enumerate(told, start=1):
        pen.rings.append(Mark(box.left + tag / 2, middle + row * ROW * text, curve.specimen.design))
        pen.words.append(Words(left, middle + row * ROW * text, line))
    _add_leader(pen, lead(box))


def _add_leader(pen: Lettering, leader: tuple[Place, Place] | None) -> None:
    pen.leaders += [list(leader)] if leader else []


def _leads_from(at: Place, scale: float, *, close: float = CLOSE) -> Leads:
    """Which leader a box has: a thin line from the place to the box's near side, when the box stands off."""

    def lead(box: Box) -> tuple[Place, Place] | None:
        to_x, to_y = _near_side(at, box, APART * scale)
        distance = math.hypot(to_x - at[0], to_y - at[1])
        if distance <= close * scale:
            return None
        start = SHY * scale / distance
        return (at[0] + (to_x - at[0]) * start, at[1] + (to_y - at[1]) * start), (to_x, to_y)

    return lead


def _near_side(at: Place, box: Box, gap: float) -> Place:
    """The middle of the side of the box that a leader from the place ends at."""
    middle = box.top + box.height / 2
    if box.left <= at[0] <= box.right:
        return (at[0], box.bottom + gap) if box.bottom < at[1] else (at[0], box.top - gap)
    return (box.left - gap, middle) if box.left > at[0] else (box.right + gap, middle)


def _inside(plane: Plane, spot: Spot) -> Place:
    """Where the spot lies, or the nearest place on the graph's edge."""
    return plane.px(min(max(spot.x, plane.x_from), plane.x_to), min(max(spot.y, 0.0), plane.y_range))


def _pulled_in(wanted: Box, field_box: Box) -> Box:
    """The wanted box moved just inside the field."""
    left = max(field_box.left, min(wanted.left, field_box.right - wanted.width))
    return replace(wanted, left=left, top=max(field_box.top, min(wanted.top, field_box.bottom - wanted.height)))


def _ringed(curve: Curve) -> list[Spot]:
    """The points of a curve that get a ring."""
    steps = {event.step for event in curve.specimen.events if event.kind in RINGED}
    return [spot for spot in curve.spots if spot.point.reading.step in steps]


def _told_below(curve: Curve) -> list[str]:
    """What happened to a lifted cord, each line to stand under its name; the others have it at the ring."""
    if not curve.lifted:
        return []
    return list(dict.fromkeys(EVENTS[event.kind] for event in curve.specimen.events if event.kind in RINGED))


def _event_words(pen: Lettering, place: Field, plane: Plane, curve: Curve) -> None:
    """A ring at each event that is seen on a curve, and its words where there is room."""
    reach = EVENT_REACH * plane.drawing.scale
    for spot in _ringed(curve):
        if not plane.holds(spot.x, spot.y):
            continue
        at = plane.px(spot.x, spot.y)
        pen.rings.append(Mark(*at, curve.specimen.design))
        if not curve.lifted:
            step = spot.point.reading.step
            kinds = [event.kind for event in curve.specimen.events if event.step == step and event.kind in RINGED]
            words = f"{curve.label}: {', '.join(EVENTS[kind] for kind in dict.fromkeys(kinds))}"
            _free_words(pen, place, plane, at, words, reach=reach)


def _off_graph(pen: Lettering, place: Field, plane: Plane, curve: Curve) -> None:
    """Words at the edge, at its force, for a reading that lies off the graph."""
    for spot in (*curve.spots, *curve.crosses):
        if not plane.holds(spot.x, spot.y):
            arrow = "←" if spot.x < plane.x_from else "→"
            _free_words(
                pen, place, plane, _inside(plane, spot), f"{arrow} {curve.label}: off the graph", reach=math.inf
            )


def _free_words(pen: Lettering, place: Field, plane: Plane, at: Place, words: str, *, reach: float) -> None:
    """Plain words below and right of a place, or wherever is free within reach; left away when nothing is."""
    text, scale = plane.drawing.text, plane.drawing.scale
    words = cut_to(words, text, plane.box.width * 2 * NAME_SHARE)
    wanted = Box(at[0] + BESIDE * scale, at[1] + BESIDE * scale, text_width(words, text, bold=False), text * 1.15)
    lead = _leads_from(at, scale, close=BESIDE)
    box = place.near(_pulled_in(wanted, place.box), lead, gap=APART * scale, most=reach)
    if box is not None:
        pen.boxes.append((words, box))
        pen.words.append(Words(box.left, box.top + box.height / 2, words))
        _add_leader(pen, lead(box))
