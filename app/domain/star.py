"""A star of designs round the yardstick cord: what each is made like, and in which things it differs from that one."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from app.domain.quantities import plain
from app.domain.records import DesignRecord
from app.domain.vocabulary import DIRECTIONS, LAY_UPS

NAME_MOST = 60

_THINGS: Mapping[str, Callable[[DesignRecord], Any]] = {
    "strips": lambda design: (design.strands, design.lay_up),
    "cut": lambda design: design.direction,
    "layers": lambda design: design.layers,
    "strip width": lambda design: design.strip_width_mm,
    "free length": lambda design: design.free_length_mm,
    "sheet": lambda design: design.material_id,
    "knot": lambda design: design.end_fixing,
}
"""What may be changed of a cord. A strip count brings its own plait, so that the two count as one thing."""


def yardstick_of(designs: Sequence[DesignRecord]) -> DesignRecord | None:
    """The yardstick cord; the first design when none is marked, None without any."""
    return next((design for design in designs if design.is_yardstick), designs[0] if designs else None)


def strips_words(design: DesignRecord) -> str:
    """How many strips and how they are laid up: "3 plaited", "4 flat plait"."""
    lay_up = LAY_UPS.get(design.lay_up or "", "")
    if design.lay_up == "plait_flat" and design.strands == 3:
        lay_up = "plaited"
    if design.lay_up == "strip":
        return lay_up if design.strands in (None, 1) else f"{design.strands} strips"
    return " ".join(part for part in (str(design.strands or ""), lay_up) if part)


def cut_words(design: DesignRecord) -> str:
    """Which way the strips are cut."""
    return DIRECTIONS.get(design.direction or "", "")


def level_text(design: DesignRecord) -> str:
    """The level of the changed variable as it is typed; blank when there is none."""
    return plain(design.level) if design.level is not None else design.level_words or ""


def design_name(design: DesignRecord, unit: str = "") -> str:
    """The short name that a design's cells make: "3 plaited, along"."""
    level = " ".join(part for part in (level_text(design), unit) if part) if level_text(design) else ""
    return ", ".join(part for part in (strips_words(design), cut_words(design), level) if part)[:NAME_MOST]


def moved(design: DesignRecord, yardstick: DesignRecord) -> tuple[str, ...]:
    """The things in which a design differs from the yardstick cord, or from any other design.

    A level that only says one of them as a number is not a thing of its own.
    """
    differing = [name for name, value in _THINGS.items() if value(design) != value(yardstick)]
    if level_text(design) != level_text(yardstick) and not _says_a_thing(design, differing):
        differing.append("level")
    return tuple(differing)


def _says_a_thing(design: DesignRecord, differing: Sequence[str]) -> bool:
    numbers = {
        "strips": design.strands,
        "layers": design.layers,
        "strip width": design.strip_width_mm,
        "free length": design.free_length_mm,
    }
    return design.level is not None and any(numbers.get(name) == design.level for name in differing)


def differ_words(things: Sequence[str]) -> str:
    """Two or more things that differ, in words: "two things differ: strips and cut"; blank for one or none."""
    if len(things) < 2:
        return ""
    counts = {2: "two", 3: "three", 4: "four", 5: "five", 6: "six", 7: "seven", 8: "eight"}
    listed = ", ".join(things[:-1]) + " and " + things[-1]
    return f"{counts[len(things)]} things differ: {listed}"
