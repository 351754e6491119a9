"""Cords as a class CSV tells them, made by hand; every figure is invented unless a test says whose it is."""

from typing import Any

from app.domain.tested import Row, TestedCord


def a_row(step: int, pointer_mm: float, **more: Any) -> Row:
    """A reading of a hanger of 100 g and rungs of 100 g: step k holds (k + 1) x 100 g, a return the hanger alone."""
    phase = more.get("phase", "load" if step else "zero")
    hung = 0 if phase == "return" else step
    facts: dict[str, Any] = {"phase": phase, "mass_g": 100.0 * (hung + 1), "mass_u_g": 0.0}
    return Row(**({"step": step, "pointer_mm": float(pointer_mm)} | facts | more))


def rows_of(pointers: str, **more: Any) -> tuple[Row, ...]:
    """The zero and the loads of a pointer column such as "218 222 224"."""
    return tuple(a_row(step, float(text), **more) for step, text in enumerate(pointers.split()))


def a_cord(*rows: Row, **more: Any) -> TestedCord:
    """A cord of Alder's, design A, g = 10 m/s2: a newton a step, begun with one newton."""
    facts: dict[str, Any] = {"specimen": "Alder-1", "design": "A", "group": "Alder", "gravity_m_per_s2": 10.0}
    return TestedCord(**({"rows": rows} | facts | more))
