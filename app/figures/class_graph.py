"""The class graph as a plain plotly dictionary: every bench's curve on one plane, drawn for a given screen."""

from typing import Any

from app.domain.errors import fault
from app.figures.graph_curves import ALONG, UP, Curve, curves_of, ends_needed
from app.figures.graph_ends import end_signs
from app.figures.graph_labels import write_labels
from app.figures.graph_layout import layout_of
from app.figures.graph_plane import BELOW_ZERO, Plane
from app.figures.graph_traces import all_traces
from app.figures.graph_words import line_of_words
from app.figures.look import DRAWINGS, THEMES
from app.mechanics.classwork import ClassPicture

Figure = dict[str, Any]
VIEWS = ("benches", "one_bench")


def class_graph(
    picture: ClassPicture,
    *,
    view: str = "benches",
    bench: str | None = None,
    upright: str = "load",
    x: str = "extension",
    y: str = "load",
    theme: str = "projector",
    drawing: str = "wide",
    previous: tuple[float, float] | None = None,
) -> Figure:
    """The figure, `data` and `layout`; `layout.meta` says in words what is shown, and where both axes end.

    `previous` are the ends of the axes that the page showed before (x, y, in the same measures): they never shrink.
    """
    _check(view=view, upright=upright, x=x, y=y, theme=theme, drawing=drawing)
    lifted = _lifted_bench(picture, view, bench)
    curves, missing = curves_of(picture, x, y, lifted_bench=lifted)
    plane = _plane(curves, x, y, drawing=drawing, previous=previous)
    signs = end_signs(curves, plane)
    designs = [(design.letter, design.name) for design in picture.designs]
    pen = write_labels(curves, plane, signs, designs=designs, name=UP[y])
    words = line_of_words(picture, curves, missing, x=x, y=y, lifted=lifted, unplaced=pen.unplaced)
    return {
        "data": all_traces(curves, plane, signs, pen, THEMES[theme]),
        "layout": layout_of(plane, THEMES[theme], x=x, y=y, words=words),
    }


def _check(**asked: str) -> None:
    """Every code is one that can be drawn, or a refusal that names the field."""
    known = {
        "view": VIEWS,
        "upright": ("load",),
        "x": tuple(ALONG),
        "y": tuple(UP),
        "theme": tuple(THEMES),
        "drawing": tuple(DRAWINGS),
    }
    for field, code in asked.items():
        if code not in known[field]:
            raise fault(field, f"This graph can't be drawn that way. It can be: {', '.join(known[field])}.")


def _lifted_bench(picture: ClassPicture, view: str, bench: str | None) -> str | None:
    """The word of the bench to bring forward, as the lesson writes it; None when all stand alike."""
    if view != "one_bench":
        return None
    words = {specimen.bench.casefold(): specimen.bench for specimen in picture.specimens}
    found = words.get((bench or "").casefold())
    if found is None:
        raise fault("bench", "No bench of that word has a cord in this lesson.")
    return found


def _plane(curves: list[Curve], x: str, y: str, *, drawing: str, previous: tuple[float, float] | None) -> Plane:
    """Both axes for these curves; left of zero there is room only when a cord reads shorter than at its zero."""
    x_to, y_to = ends_needed(curves, x, y, previous=previous)
    short = any(-BELOW_ZERO * x_to <= spot.x < 0 for curve in curves for spot in curve.spots)
    return Plane(drawing=DRAWINGS[drawing], x_to=x_to, y_to=y_to, x_from=-BELOW_ZERO * x_to if short else 0.0)
