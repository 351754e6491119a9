"""The one table of class CSV columns: name, unit, meaning, and how a value is written."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime

from app.domain.errors import Refusal
from app.domain.quantities import number_typed, plain

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")
"""What a cell of words may not start with, or a spreadsheet would work it out."""


def words(value: object) -> str:
    """A cell of words, with a leading apostrophe where it would start a formula (or be taken for one that has it)."""
    text = str(value)
    return f"'{text}" if text.lstrip("'").startswith(FORMULA_STARTS) else text


def typed(value: object) -> str:
    """A number as someone typed it, sign and comma included; anything else as words."""
    text = str(value)
    try:
        number_typed("", text)
    except Refusal:
        return words(text)
    return text


def number(value: object) -> str:
    """A number in its shortest exact form."""
    if not isinstance(value, (int, float)):
        raise TypeError(f"not a number: {value!r}")
    return plain(float(value))


def codes(value: object) -> str:
    """Several codes or marks with a space between."""
    if not isinstance(value, tuple):
        raise TypeError(f"not a tuple: {value!r}")
    return " ".join(str(each) for each in value)


def moment(value: object) -> str:
    """A time in UTC, to the second, ending in Z."""
    if not isinstance(value, datetime):
        raise TypeError(f"not a time: {value!r}")
    return value.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


@dataclass(frozen=True)
class Column:
    """One column; `write` turns a value that is there into its cell, and what is not there is blank."""

    name: str
    unit: str
    meaning: str
    write: Callable[[object], str] = words


COLUMNS = (
    Column("specimen", "", "bench word and number of the cord"),
    Column("design", "", "letter of the design"),
    Column("group", "", "bench word"),
    Column("repeat", "1", "which cord of its bench", number),
    Column("step", "1", "0 the hanger alone, k with the k-th rung hung", number),
    Column("phase", "", "what the reading was for"),
    Column("turn", "1", "2 and more: the same reading taken again on purpose", number),
    Column("mass_g", "g", "total mass hung, hanger included", number),
    Column("mass_u_g", "g", "its standard uncertainty", number),
    Column("pointer_mm", "mm", "pointer on the scale", number),
    Column("events", "", "codes of what happened before this reading, within its step", codes),
    Column("events_after", "", "codes of what happened after this reading, within its step", codes),
    Column("waited_s", "s", "how long the load had hung", number),
    Column("left_out", "", "why the reading is in no sum; blank: it counts"),
    Column("bench_kind", "", "class, catch_up or pilot"),
    Column("gauge_length_mm", "mm", "between the knots under the settling load", number),
    Column("strands", "1", "strips in the cord", number),
    Column("layers", "1", "layers of a folded strip", number),
    Column("strip_width_mm", "mm", "width of a strip", number),
    Column("strip_length_mm", "mm", "length of a strip before plaiting", number),
    Column("film_thickness_um", "um", "thickness of the film", number),
    Column("cord_mass_g", "g", "mass of the cord weighed", number),
    Column("cord_length_mm", "mm", "length of the cord weighed", number),
    Column("linear_density_g_per_m", "g/m", "mass of a metre of cord", number),
    Column("level", "", "level of the changed variable, if a number", number),
    Column("outcome", "", "broke, slipped, held or stopped"),
    Column("fail_mass_g", "g", "total mass it failed under", number),
    Column("straight_first_step", "1", "first step of the straight part, as someone chose it", number),
    Column("straight_last_step", "1", "last step of the straight part, as someone chose it", number),
    Column("gravity_m_per_s2", "m/s2", "gravity in use", number),
    Column("scale", "", "the way the numbers of the scale grow: down or up"),
    Column("scale_division_mm", "mm", "smallest division of the scale", number),
    Column("judgement_mm", "mm", "half-width of the allowance for judging and parallax", number),
    Column("remark", "", "what was said of the end"),
    Column("ending", "", "how it ended"),
    Column("place", "", "where it broke"),
    Column("look", "", "how the break looked"),
    Column("marks_hung", "", "marks of the rungs that hung", codes),
    Column("taken_at", "UTC", "when the reading was first typed", moment),
    Column("s_since_zero", "s", "seconds since the zero of this cord", number),
    Column("pointer_typed", "", "the reading as it was typed", typed),
    Column("first_typed", "", "what had been typed first, if it was typed again", typed),
    Column("reason", "", "why it was typed again"),
    Column("entry_id", "", "the entry that this row shows"),
    Column("force_N", "N", "force of the mass hung", number),
    Column("extension_mm", "mm", "how far the pointer moved from the zero", number),
    Column("strain", "1", "extension over gauge length", number),
)
