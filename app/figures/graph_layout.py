"""The layout of a class graph: two axes in an L, their names at their ends, level hairlines and nothing else."""

from typing import Any

from app.figures.graph_curves import ALONG, UP
from app.figures.graph_plane import Plane, number_words
from app.figures.look import BOLD, HAIR, SANS, Theme

AXIS = 2.0
TICK = 8.4


def layout_of(plane: Plane, theme: Theme, *, x: str, y: str, words: dict[str, str]) -> dict[str, Any]:
    """Sizes, axes and names; `meta` for the page's script and its line of words."""
    drawing = plane.drawing
    box = plane.box
    return {
        "width": drawing.width,
        "height": drawing.height,
        "autosize": False,
        "margin": {
            "l": box.left,
            "r": drawing.right,
            "t": drawing.top,
            "b": drawing.bottom,
            "pad": 0,
            "autoexpand": False,
        },
        "paper_bgcolor": theme.sheet,
        "plot_bgcolor": theme.sheet,
        "font": {"family": SANS, "size": drawing.text, "color": theme.ink},
        "showlegend": False,
        "dragmode": False,
        "hovermode": "closest",
        "hoverlabel": {
            "bgcolor": theme.sheet,
            "bordercolor": theme.ink,
            "font": {"family": SANS, "size": drawing.text, "color": theme.ink},
        },
        "uirevision": f"{x}/{y}",
        "xaxis": _axis(plane, theme, plane.x_ticks, ends=(plane.x_from, plane.x_to)),
        "yaxis": _upright(plane, theme),
        "annotations": _names(plane, x=x, y=y),
        "meta": {"words": words, "x": x, "y": y, "x_to": plane.x_to, "y_to": plane.y_to},
    }


def _axis(plane: Plane, theme: Theme, ticks: tuple[float, ...], *, ends: tuple[float, float]) -> dict[str, Any]:
    scale = plane.drawing.scale
    return {
        "range": list(ends),
        "autorange": False,
        "fixedrange": True,
        "zeroline": False,
        "showgrid": False,
        "showline": True,
        "linecolor": theme.ink,
        "linewidth": AXIS * scale,
        "tickmode": "array",
        "tickvals": list(ticks),
        "ticktext": [number_words(tick) for tick in ticks],
        "tickangle": 0,
        "ticks": "outside",
        "ticklen": TICK * scale,
        "tickwidth": AXIS * scale,
        "tickcolor": theme.ink,
        "tickfont": {"size": plane.drawing.text, "color": theme.ink},
    }


def _upright(plane: Plane, theme: Theme) -> dict[str, Any]:
    """The force's axis: hairlines instead of ticks, and none at zero, where the other axis lies."""
    axis = _axis(plane, theme, plane.y_ticks, ends=(0.0, plane.y_range))
    return axis | {
        "showgrid": True,
        "gridcolor": theme.hair,
        "gridwidth": HAIR * plane.drawing.scale,
        "tickcolor": theme.sheet,
        "tickwidth": 0,
    }


def _names(plane: Plane, *, x: str, y: str) -> list[dict[str, Any]]:
    """The axes' names: at the top left inside the graph, and under the right end."""
    drawing = plane.drawing
    shared = {"xref": "paper", "yref": "paper", "showarrow": False, "borderpad": 0}
    font = {"size": drawing.text, "weight": BOLD}
    return [
        shared
        | {"text": UP[y], "font": font, "x": 0, "y": 1, "xanchor": "left", "yanchor": "top"}
        | {"xshift": 10 * drawing.scale, "yshift": 4 * drawing.scale},
        shared
        | {"text": ALONG[x], "font": font, "x": 1, "y": 0, "xanchor": "right", "yanchor": "bottom"}
        | {"yshift": 3 * drawing.scale - drawing.bottom},
    ]
