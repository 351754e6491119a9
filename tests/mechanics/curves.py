"""Points of a curve as they enter a sum, made by hand: force, pointer, and what else a test needs."""

from collections.abc import Iterable
from typing import Any

from hypothesis import strategies as st

from app.mechanics.reading_sums import CurvePoint
from tests.mechanics.told import a_row


def a_point(step: int, force_n: float, stretched_mm: float, **more: Any) -> CurvePoint:
    """A reading of that step under that force; its row carries nothing else of use."""
    facts: dict[str, Any] = {"force_u_n": 0.0, "extension_mm": stretched_mm, "joins": 0, "section": 1}
    row = a_row(step, stretched_mm)
    return CurvePoint(
        **({"row": row, "extension_why": None, "force_n": force_n, "stretched_mm": stretched_mm} | facts | more)
    )


def curve_of(pairs: Iterable[tuple[float, float]], **more: Any) -> tuple[CurvePoint, ...]:
    """A point for each force and pointer, step by step."""
    return tuple(a_point(step, force_n, mm, **more) for step, (force_n, mm) in enumerate(pairs))


FORCES = st.just(0.0) | st.sampled_from([1.0, 1 + 1e-12]) | st.floats(1e-6, 6000)
"""Any load that could be told, equal and nearly equal ones among them."""


@st.composite
def any_points(draw: st.DrawFn) -> tuple[CurvePoint, ...]:
    """Readings as nobody would take them: in no order, loads that shrink, pointers anywhere."""
    readings = st.tuples(st.integers(0, 12), FORCES, st.floats(-1e4, 1e4))
    more = st.fixed_dictionaries(
        {"joins": st.integers(0, 2), "section": st.integers(1, 2), "force_u_n": st.none() | st.floats(0, 100)}
    )
    return tuple(a_point(*draw(readings), **draw(more)) for _ in range(draw(st.integers(0, 12))))
