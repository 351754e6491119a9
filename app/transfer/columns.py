"""The one table of class CSV columns: name, unit, meaning, how a value is written, and how a cell is read."""

from collections.abc import Callable
from dataclasses import dataclass

from app.domain import limits, vocabulary
from app.transfer.cell_read import Codes, FreeWords, IfKnown, Needed, Number, OneOf, Reader, Whole, Words
from app.transfer.cell_write import codes, moment, number, typed, words

_MASS_G = Number(bounds=(0.0, limits.TOTAL_MASS_G), unit="g")
_LENGTH_MM = Number(bounds=limits.GAUGE_LENGTH_MM, unit="mm")
_SIZE = (0.0, limits.MEASURE_MOST)
_COUNT = (1, 1_000)
_OUTCOMES = tuple(dict.fromkeys(vocabulary.OUTCOMES.values()))
_DENSITY_MOST = limits.QUANTITY_LIMITS["cord_mass_g"][1] / limits.GAUGE_LENGTH_MM[0] * 1000
"""Grams per metre of the heaviest piece that may be weighed, were it the shortest."""


@dataclass(frozen=True)
class Column:
    """One column; what is not there is a blank cell.

    `write` turns a value that is there into its cell; `read` turns a cell into its value, and is None where the
    column is kept in the file and not read back.
    """

    name: str
    unit: str
    meaning: str
    write: Callable[[object], str] = words
    read: Reader | None = None


COLUMNS = (
    Column("specimen", "", "bench word and number of the cord", read=Needed(read=Words())),
    Column("design", "", "letter of the design", read=Words()),
    Column("group", "", "bench word", read=Words()),
    Column("repeat", "1", "which cord of its bench", number, Whole(bounds=_COUNT)),
    Column("step", "1", "0 the hanger alone, k with the k-th rung hung", number, Whole(bounds=limits.STEP)),
    Column("phase", "", "what the reading was for", read=OneOf(known=vocabulary.PHASES)),
    Column("turn", "1", "2 and more: the same reading taken again on purpose", number, Whole(bounds=limits.TURN)),
    Column("mass_g", "g", "total mass hung, hanger included", number, _MASS_G),
    Column("mass_u_g", "g", "its standard uncertainty", number, _MASS_G),
    Column(
        "pointer_mm", "mm", "pointer on the scale", number, Needed(read=Number(bounds=limits.POINTER_MM, unit="mm"))
    ),
    Column(
        "events", "", "codes of what happened before this reading, within its step", codes,
        Codes(known=vocabulary.EVENTS),
    ),
    Column(
        "events_after", "", "codes of what happened after this reading, within its step", codes,
        Codes(known=vocabulary.EVENTS),
    ),
    Column("waited_s", "s", "how long the load had hung", number, Number(bounds=limits.WAIT_S, unit="s")),
    Column("left_out", "", "why the reading is in no sum; blank: it counts", read=FreeWords()),
    Column("bench_kind", "", "class, catch_up or pilot", read=OneOf(known=vocabulary.BENCH_KINDS)),
    Column("gauge_length_mm", "mm", "between the knots under the settling load", number, _LENGTH_MM),
    Column("strands", "1", "strips in the cord", number, Whole(bounds=_COUNT)),
    Column("layers", "1", "layers of a folded strip", number, Whole(bounds=_COUNT)),
    Column("strip_width_mm", "mm", "width of a strip", number, Number(bounds=_SIZE, unit="mm")),
    Column("strip_length_mm", "mm", "length of a strip before plaiting", number, Number(bounds=_SIZE, unit="mm")),
    Column("film_thickness_um", "um", "thickness of the film", number, Number(bounds=_SIZE, unit="um")),
    Column(
        "cord_mass_g", "g", "mass of the cord weighed", number,
        Number(bounds=limits.QUANTITY_LIMITS["cord_mass_g"], unit="g"),
    ),
    Column("cord_length_mm", "mm", "length of the cord weighed", number, _LENGTH_MM),
    Column(
        "linear_density_g_per_m", "g/m", "mass of a metre of cord", number,
        Number(bounds=(0.0, _DENSITY_MOST), unit="g/m"),
    ),
    Column("level", "", "level of the changed variable, if a number", number, Number(bounds=(-1e9, 1e9))),
    Column("outcome", "", "broke, slipped, held or stopped", read=OneOf(known=_OUTCOMES)),
    Column("fail_mass_g", "g", "total mass it failed under", number, _MASS_G),
    Column(
        "straight_first_step", "1", "first step of the straight part, as someone chose it", number,
        Whole(bounds=limits.STEP),
    ),
    Column(
        "straight_last_step", "1", "last step of the straight part, as someone chose it", number,
        Whole(bounds=limits.STEP),
    ),
    Column("gravity_m_per_s2", "m/s2", "gravity in use", number, Number(bounds=limits.GRAVITY, unit="m/s2")),
    Column("scale", "", "the way the numbers of the scale grow: down or up", read=OneOf(known=vocabulary.SCALE_WAYS)),
    Column(
        "scale_division_mm", "mm", "smallest division of the scale", number,
        Number(bounds=limits.DIVISION_MM, unit="mm"),
    ),
    Column(
        "judgement_mm", "mm", "half-width of the allowance for judging and parallax", number,
        Number(bounds=limits.JUDGEMENT_MM, unit="mm"),
    ),
    Column("remark", "", "what was said of the end", read=FreeWords()),
    Column("ending", "", "how it ended"),
    Column("place", "", "where it broke", read=IfKnown(known=vocabulary.PLACES)),
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
)  # fmt: skip
