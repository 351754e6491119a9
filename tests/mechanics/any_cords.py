"""Cords of any kind for properties, in whole grams and millimetres; and all numbers that were worked out of them."""

import math
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from typing import Any

from hypothesis import strategies as st

from app.domain.tested import Row, TestedCord, row_order
from app.domain.vocabulary import OUTCOMES
from app.mechanics.result import Interval, Result

HANGER_G = st.integers(20, 200)
STEP_G = st.sampled_from((50, 100, 200, 200, 200, 500))
MOST_READINGS = 14
MOVED_MM = st.integers(-3, 40)
EVENTS = st.sampled_from(((),) * 12 + (("pointer_moved",), ("knot_slipped",), ("still_moving",)))
TOLD = ("cord", "row", "rows")
"""What a cord's sums repeat of what was told."""
BY_ENDING = (
    ("_n_per_mm", "N/mm"),
    ("_mm_per_n", "mm/N"),
    ("_mm", "mm"),
    ("_n", "N"),
    ("_j", "J"),
)
POWERS = {
    "mm": (1, 0),
    "N": (0, 1),
    "N/mm": (-1, 1),
    "mm/N": (1, -1),
    "J": (1, 1),
    "N/(g/m)": (0, 1),
    "cN/tex": (0, 1),
    "km": (0, 1),
    "MPa": (0, 1),
    "1": (0, 0),
}
"""By unit, the power of a length read on the scale, and of a mass hung."""


@st.composite
def any_loading(draw: st.DrawFn) -> tuple[Row, ...]:
    """A zero and loads, each heavier than the one before, with returns between."""
    mass_g, pointer_mm = float(draw(HANGER_G)), float(draw(st.integers(100, 300)))
    hanger_g, rows = mass_g, [Row(step=0, phase="zero", mass_g=mass_g, mass_u_g=0.0, pointer_mm=pointer_mm)]
    zero_mm = pointer_mm
    for step in range(1, draw(st.integers(2, MOST_READINGS))):
        mass_g, pointer_mm = mass_g + draw(STEP_G), pointer_mm + draw(MOVED_MM)
        told = {"mass_g": mass_g, "mass_u_g": 0.0, "events": draw(EVENTS)}
        rows.append(Row(step=step, phase="load", pointer_mm=pointer_mm, **told))
        if draw(st.integers(0, 5)) == 0:
            back_mm = zero_mm + draw(st.integers(-2, 12))
            rows.append(Row(step=step, phase="return", mass_g=hanger_g, mass_u_g=0.0, pointer_mm=back_mm))
    return tuple(sorted(rows, key=row_order))


@st.composite
def any_cord(draw: st.DrawFn, *, specimen: str = "Alder-1", design: str = "A") -> TestedCord:
    """A cord that was loaded, with whatever end."""
    rows = draw(any_loading())
    outcome = draw(st.sampled_from((None, *sorted(set(OUTCOMES.values())), "broke", "broke")))
    failed = outcome in ("broke", "slipped")
    facts: dict[str, Any] = {
        "design": design,
        "group": specimen.partition("-")[0],
        "gravity_m_per_s2": draw(st.sampled_from((9.8, 10.0))),
        "scale": draw(st.sampled_from(("down", "up"))),
        "scale_division_mm": draw(st.sampled_from((1.0, 5.0))),
        "gauge_length_mm": draw(st.sampled_from((None, 300.0))),
        "outcome": outcome,
        "fail_mass_g": max(row.mass_g or 0.0 for row in rows) + draw(STEP_G) if failed else None,
    }
    return TestedCord(specimen=specimen, rows=rows, **facts)


@st.composite
def any_class(draw: st.DrawFn) -> tuple[TestedCord, ...]:
    """Two or three designs by two or three groups each, a cord a group."""
    designs, groups = draw(st.integers(2, 3)), draw(st.integers(2, 3))
    return tuple(
        draw(any_cord(specimen=f"{letter}{group}-1", design=letter))
        for letter in "ABC"[:designs]
        for group in range(groups)
    )


def mirrored(cord: TestedCord) -> TestedCord:
    """The same cord read on a scale whose numbers grow the other way."""
    rows = tuple(replace(row, pointer_mm=-row.pointer_mm) for row in cord.rows)
    return replace(cord, rows=rows, scale={"down": "up", "up": "down"}[cord.scale])


def scaled(cord: TestedCord, *, length: float, mass: float) -> TestedCord:
    """The same cord told in other units of length and mass."""

    def times(value: float | None, factor: float) -> float | None:
        return None if value is None else value * factor

    rows = tuple(replace(row, pointer_mm=row.pointer_mm * length, mass_g=times(row.mass_g, mass)) for row in cord.rows)
    return replace(
        cord,
        rows=rows,
        scale_division_mm=cord.scale_division_mm * length,
        judgement_mm=cord.judgement_mm * length,
        gauge_length_mm=times(cord.gauge_length_mm, length),
        fail_mass_g=times(cord.fail_mass_g, mass),
    )


def moved(cord: TestedCord, by_mm: float) -> TestedCord:
    """The same cord with a constant added to all its pointers."""
    return replace(cord, rows=tuple(replace(row, pointer_mm=row.pointer_mm + by_mm) for row in cord.rows))


def numbers(found: Any, name: str = "", unit: str = "1") -> Iterator[tuple[str, str, float | str | None]]:
    """Every number, None and code in what was worked out, with its place and unit; no sentences, nothing told."""
    if is_dataclass(found):
        unit = found.unit if isinstance(found, Result | Interval) else unit
        for each in fields(found):
            if each.name not in (*TOLD, "unit", "why", "note", "notes", "scatter_warning"):
                yield from numbers(getattr(found, each.name), f"{name}.{each.name}", _unit(each.name, unit))
    elif isinstance(found, tuple):
        for place, one in enumerate(found):
            yield from numbers(one, f"{name}[{place}]", unit)
    else:
        yield name, unit, found


def _unit(field: str, unit: str) -> str:
    return next((known for ending, known in BY_ENDING if field.endswith(ending)), unit)


def same(one: float | str | None, other: float | str | None, *, factor: float = 1.0, rel: float = 1e-9) -> bool:
    """Whether two figures agree, the first times a factor, but for what arithmetic does to the last digits."""
    if isinstance(one, str | None) or isinstance(other, str | None):
        return one == other
    return math.isclose(one * factor, other, rel_tol=rel, abs_tol=rel)
