"""What a lesson takes g to be, where that came from, and how it is said beside forces."""

import re
from collections.abc import Mapping
from typing import Any

from app.domain.errors import fault
from app.domain.quantities import plain, trimmed, with_unit
from app.domain.records import LessonRecord
from app.mechanics.gravity import CONVENTIONS, convention_words, normal_gravity_m_per_s2

DECIMALS = 5
"""Of g by a latitude, as the standard has them; a height of 10 m changes the fifth."""

LATITUDE_DECIMALS = 6
NAMED = tuple((plain(value), name) for value, name in CONVENTIONS.items())
"""The conventions, each as it is typed and as it is called."""

_LATITUDE = re.compile(r"latitude (−?)(\d+(?:\.\d+)?)°")


def gravity_words(gravity_m_per_s2: float, gravity_from: str | None) -> str:
    """The g in use and where it came from: "g = 9.81 N/kg, as schools use it"."""
    value = trimmed(gravity_m_per_s2, DECIMALS)
    how = (gravity_from or convention_words(gravity_m_per_s2) or "").removeprefix(f"{value}, ")
    return f"g = {with_unit(value, 'N/kg')}" + (f", {how}" if how else "")


def latitude_of(gravity_from: str | None) -> float | None:
    """The latitude [degrees] that g came from; None when it came from elsewhere."""
    found = _LATITUDE.fullmatch(gravity_from or "")
    return None if found is None else float(found[2]) * (-1 if found[1] else 1)


def gravity_asked(
    lesson: LessonRecord, *, gravity_m_per_s2: float | None, latitude_deg: float | None
) -> dict[str, Any]:
    """The columns of a lesson whose sheet says that g and that latitude: whichever of the two is new counts.

    Raises InvalidEntry when both are new, or neither is said, or the latitude is beyond a pole.
    """
    if gravity_m_per_s2 is None and latitude_deg is None:
        raise fault("gravity_m_per_s2", "Type g here, or a latitude.")
    g = lesson.gravity_m_per_s2 if gravity_m_per_s2 is None else gravity_m_per_s2
    before, same_g = latitude_of(lesson.gravity_from), g == lesson.gravity_m_per_s2
    if latitude_deg is None or latitude_deg == before:
        if same_g and latitude_deg == before:
            return {}
        return {"gravity_m_per_s2": g, "gravity_from": convention_words(g)}
    if not same_g:
        raise fault("latitude_deg", "Say g in one way only: as a number, or by a latitude.")
    return {
        "gravity_m_per_s2": round(normal_gravity_m_per_s2(latitude_deg), DECIMALS),
        "gravity_from": f"latitude {trimmed(latitude_deg + 0.0, LATITUDE_DECIMALS)}°",
    }


def called_by_name(columns: Mapping[str, Any]) -> dict[str, Any]:
    """The columns of a new lesson; a g of which nobody says where it came from has its convention's name, if any."""
    return {**columns, "gravity_from": columns["gravity_from"] or convention_words(columns["gravity_m_per_s2"])}


def where_from(lesson: LessonRecord, columns: Mapping[str, Any]) -> Mapping[str, Any]:
    """The columns that are to change; with a new g of which nobody says where it came from, what it is called."""
    new = columns.get("gravity_m_per_s2", lesson.gravity_m_per_s2)
    if "gravity_from" in columns or new == lesson.gravity_m_per_s2:
        return columns
    return {**columns, "gravity_from": convention_words(new)}
