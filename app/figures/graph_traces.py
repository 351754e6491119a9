"""The traces of a class graph from back to front: lines, what was not counted, ends, rings, leaders, tags, words."""

from collections.abc import Iterable, Sequence
from html import escape
from itertools import groupby
from typing import Any

from app.domain.quantities import trimmed, with_unit
from app.figures.graph_curves import Curve, Spot
from app.figures.graph_ends import EndSign, Stroke
from app.figures.graph_labels import RING, TAG, Lettering, Mark, Words
from app.figures.graph_plane import Plane
from app.figures.look import (
    AFTER_SLIP,
    BAR,
    BAR_LIFTED,
    BOLD,
    CASING,
    CURVE,
    LIFTED,
    PLAIN,
    DesignLook,
    Theme,
    design_look,
)
from app.figures.marked import is_moving

Trace = dict[str, Any]
LEADER = 1.5
OPEN_LINE = 2.0
RING_LINE = 3.0
CROSS_SIZE = 12.0
LIFTED_MARKER = 1.25
SET_HIGH = 0.11
QUIET: Trace = {"type": "scatter", "hoverinfo": "skip", "cliponaxis": False, "showlegend": False}


def all_traces(
    curves: Sequence[Curve], plane: Plane, signs: dict[str, EndSign], pen: Lettering, theme: Theme
) -> list[Trace]:
    """Every trace, in the order in which they cover each other."""
    scale = plane.drawing.scale
    traces = [trace for curve in curves for trace in _curve(curve, plane, theme)]
    traces += [_crosses(curve, plane, theme) for curve in curves if curve.crosses]
    traces += _ends(curves, plane, signs, theme)
    traces += [_sample(letter, stroke, plane, theme) for letter, stroke in pen.samples]
    for sign in pen.key_ends:
        traces.append(_strokes("key-end", sign.strokes(), plane, color=theme.ink, width=BAR * scale))
    traces.append(_strokes("leaders", pen.leaders, plane, color=theme.edge, width=LEADER * scale))
    traces += [_rings(pen.rings, plane, theme), _key_marks(pen.key_marks, plane, theme)]
    return [*traces, _tags(pen.tags, plane, theme), _letters(pen.tags, plane, theme), _words(pen.words, plane, theme)]


def _line_uid(look: DesignLook, *parts: object) -> str:
    """A lasting name for a line; dots are told by it to the style sheet, which rounds their ends."""
    return "-".join(str(part) for part in ("dots" if look.marker == "star" else "line", *parts))


def _curve(curve: Curve, plane: Plane, theme: Theme) -> list[Trace]:
    """The casing of a lifted line, then each of its sections; later sections are lighter in weight."""
    scale, look = plane.drawing.scale, design_look(curve.specimen.design, theme)
    runs = [(place, run) for place, section in enumerate(curve.sections) for run in _runs(section, plane)]
    full = (LIFTED if curve.lifted else CURVE) * scale
    traces = []
    if curve.lifted:
        strokes = [[plane.px(spot.x, spot.y) for spot in run] for _, run in runs]
        width = full + CASING * scale
        traces.append(_strokes(f"casing-{curve.specimen.specimen_id}", strokes, plane, color=theme.sheet, width=width))
    for number, (place, run) in enumerate(runs):
        width = full * (AFTER_SLIP if place else 1)
        traces.append(_section(curve, run, plane, theme, look=look, width=width, number=number))
    return traces


def _runs(section: Iterable[Spot], plane: Plane) -> list[list[Spot]]:
    """The parts of a section that lie on the graph, each without a break."""
    return [list(run) for on, run in groupby(section, key=lambda spot: plane.holds(spot.x, spot.y)) if on]


def _section(
    curve: Curve, run: list[Spot], plane: Plane, theme: Theme, *, look: DesignLook, width: float, number: int
) -> Trace:
    scale = plane.drawing.scale
    hollow = [is_moving(spot.point) for spot in run]
    size = look.marker_size * scale * (LIFTED_MARKER if curve.lifted else 1)
    return {
        "type": "scatter",
        "uid": _line_uid(look, curve.specimen.specimen_id, number),
        "name": curve.label,
        "mode": "lines+markers",
        "x": [_short(spot.x) for spot in run],
        "y": [_short(spot.y) for spot in run],
        "text": [_told(curve, spot) for spot in run],
        "hovertemplate": "%{text}<extra></extra>",
        "line": {"color": look.line, "width": width, "dash": look.dash_text(scale, lifted=curve.lifted)},
        "marker": {
            "symbol": look.marker,
            "size": size,
            "opacity": 1,
            "color": [theme.sheet if open_ else look.line for open_ in hollow] if any(hollow) else look.line,
            "line": {"color": look.line, "width": _edges(look, hollow, scale)},
        },
        "cliponaxis": False,
        "showlegend": False,
    }


def _edges(look: DesignLook, hollow: list[bool], scale: float) -> float | list[float]:
    """The edge of each marker: the bar is all edge, hollow ones have one, the others none."""
    if look.marker.endswith("-open"):
        return 4.0 * scale
    return [OPEN_LINE * scale if open_ else 0.0 for open_ in hollow] if any(hollow) else 0.0


def _told(curve: Curve, spot: Spot) -> str:
    """What is said when someone points at the point."""
    step = spot.point.reading.step
    where = "hanger alone" if step == 0 else f"step {step}"
    force = with_unit(trimmed(spot.point.force_n or 0.0), "N")
    return f"{escape(curve.label)}, {where}<br>{force}, {with_unit(trimmed(spot.point.extension_mm or 0.0, 1), 'mm')}"


def _crosses(curve: Curve, plane: Plane, theme: Theme) -> Trace:
    """Readings that are kept but not counted, as open crosses."""
    look, scale = design_look(curve.specimen.design, theme), plane.drawing.scale
    on = [spot for spot in curve.crosses if plane.holds(spot.x, spot.y)]
    return {
        "type": "scatter",
        "uid": f"crosses-{curve.specimen.specimen_id}",
        "name": curve.label,
        "mode": "markers",
        "x": [_short(spot.x) for spot in on],
        "y": [_short(spot.y) for spot in on],
        "text": [f"{_told(curve, spot)}<br>{_why_not(spot)}" for spot in on],
        "hovertemplate": "%{text}<extra></extra>",
        "marker": {
            "symbol": "x-open",
            "size": CROSS_SIZE * scale,
            "color": look.line,
            "line": {"width": OPEN_LINE * scale, "color": look.line},
        },
        "cliponaxis": False,
        "showlegend": False,
    }


def _why_not(spot: Spot) -> str:
    if spot.point.left_out is not None:
        return f"left out: {escape(spot.point.left_out)}"
    return "two numbers for this step"


def _ends(curves: Sequence[Curve], plane: Plane, signs: dict[str, EndSign], theme: Theme) -> list[Trace]:
    """All end signs over all lines, each on its own cleared ground, in the line's own colour."""
    scale = plane.drawing.scale
    traces = []
    for curve in curves:
        sign = signs.get(curve.specimen.specimen_id)
        if sign is None:
            continue
        look, name = design_look(curve.specimen.design, theme), curve.specimen.specimen_id
        width = (BAR_LIFTED if curve.lifted else BAR) * scale
        cased = width + BAR * scale
        traces.append(_strokes(f"end-casing-{name}", sign.casing(scale), plane, color=theme.sheet, width=cased))
        traces.append(_strokes(f"end-{name}", sign.strokes(), plane, color=look.line, width=width))
    return traces


def _sample(letter: str, stroke: Stroke, plane: Plane, theme: Theme) -> Trace:
    """A line sample of the key: the dash with one marker in its middle."""
    look, scale = design_look(letter, theme), plane.drawing.scale
    trace = _strokes(_line_uid(look, "key", letter), [stroke], plane, color=look.line, width=CURVE * scale)
    trace["line"]["dash"] = look.dash_text(scale)
    trace["mode"] = "lines+markers"
    edge = 4.0 * scale if look.marker.endswith("-open") else 0
    trace["marker"] = {
        "symbol": look.marker,
        "size": [0, look.marker_size * scale, 0],
        "color": look.line,
        "opacity": 1,
        "line": {"color": look.line, "width": [0, edge, 0]},
    }
    return trace


def _strokes(uid: str, strokes: Iterable[Stroke], plane: Plane, *, color: str, width: float) -> Trace:
    """Many strokes of one pen as one trace, parted by gaps."""
    x: list[float | None] = []
    y: list[float | None] = []
    for stroke in strokes:
        for place in stroke:
            along, up = plane.values(*place)
            x.append(along)
            y.append(up)
        x.append(None)
        y.append(None)
    line = {"color": color, "width": width, "simplify": False}
    return QUIET | {"uid": uid, "mode": "lines", "x": x[:-1], "y": y[:-1], "line": line}


def _marks(uid: str, marks: Sequence[Mark], plane: Plane, marker: Trace) -> Trace:
    places = [plane.values(mark.x, mark.y) for mark in marks]
    return QUIET | {
        "uid": uid,
        "mode": "markers",
        "x": [x for x, _ in places],
        "y": [y for _, y in places],
        "marker": {"opacity": 1} | marker,
    }


def _rings(rings: Sequence[Mark], plane: Plane, theme: Theme) -> Trace:
    scale = plane.drawing.scale
    line = {"width": RING_LINE * scale, "color": theme.ink}
    marker = {"symbol": "circle-open", "size": 2 * RING * scale, "color": theme.ink, "line": line}
    return _marks("rings", rings, plane, marker)


def _key_marks(marks: Sequence[Mark], plane: Plane, theme: Theme) -> Trace:
    """Samples of the open cross and of the hollow point."""
    symbols = {"cross": "x-open", "hollow": "circle-open"}
    scale = plane.drawing.scale
    line = {"width": OPEN_LINE * scale, "color": theme.ink}
    marker = {"symbol": [symbols[mark.of] for mark in marks], "size": CROSS_SIZE * scale, "color": theme.ink}
    return _marks("key-marks", marks, plane, marker | {"line": line})


def _tags(tags: Sequence[Mark], plane: Plane, theme: Theme) -> Trace:
    """The squares that the letters stand on."""
    colours = [design_look(tag.of, theme).tag for tag in tags]
    marker = {"symbol": "square", "size": TAG * plane.drawing.text, "color": colours, "line": {"width": 0}}
    return _marks("tags", tags, plane, marker)


def _letters(tags: Sequence[Mark], plane: Plane, theme: Theme) -> Trace:
    """The letters on their squares."""
    font = {"size": plane.drawing.text, "weight": BOLD, "color": theme.tag_letter}
    trace = _text("letters", [(tag.x, tag.y, tag.of) for tag in tags], plane, font)
    return trace | {"textposition": "middle center"}


def _words(words: Sequence[Words], plane: Plane, theme: Theme) -> Trace:
    """All words but the axes'; the style sheet gives them a margin of paper."""
    font = {
        "size": plane.drawing.text,
        "color": theme.ink,
        "weight": [BOLD if line.bold else PLAIN for line in words],
        "lineposition": ["under" if line.underlined else "none" for line in words],
    }
    trace = _text("words", [(line.left, line.middle, line.text) for line in words], plane, font)
    return trace | {"textposition": "middle right"}


def _text(uid: str, lines: Sequence[tuple[float, float, str]], plane: Plane, font: Trace) -> Trace:
    """Lines of text about the middles that are given: plotly sets them a little high, which is made good here."""
    places = [plane.values(x, y + SET_HIGH * plane.drawing.text) for x, y, _ in lines]
    return QUIET | {
        "uid": uid,
        "mode": "text",
        "x": [x for x, _ in places],
        "y": [y for _, y in places],
        "text": [escape(text, quote=False) for _, _, text in lines],
        "textfont": font,
    }


def _short(value: float) -> float:
    return float(f"{value:.6g}")
