"""The look-again rules on what is measured of a cord, and on the masses of a tray."""

from app.domain import check_words as words
from app.domain.thresholds import AT
from app.domain.told import CordFacts, Note


def look_again_at_cord(cord: CordFacts) -> tuple[Note, ...]:
    """What is to ask of a cord's measures: its length against the plan, its mass against the plan."""
    notes = (length_note(cord), mass_note(cord))
    return tuple(note for note in notes if note is not None)


def length_note(cord: CordFacts) -> Note | None:
    """Row 27: a length far from the plan; when it is a tenth of it, the likely one is ten times that."""
    length_mm, planned_mm = cord.free_length_mm, cord.planned_length_mm
    if length_mm is None or not planned_mm or _near(length_mm / planned_mm):
        return None
    if _near(10 * length_mm / planned_mm):
        said = words.in_centimetres(length_mm, planned_mm)
        return Note(note=27, words=said, about=cord.length_key, likely_mm=round(10 * length_mm, 9))
    return Note(note=27, words=words.other_length(length_mm, planned_mm), about=cord.length_key)


def _near(of_plan: float) -> bool:
    low, high = AT.length_of_plan
    return low <= of_plan <= high


def mass_note(cord: CordFacts) -> Note | None:
    """Row 28: more than so many times the planned linear density; row 32: it weighs like another number of strips."""
    density, planned = cord.linear_density_g_per_m, cord.planned_density_g_per_m
    if density is None or not planned:
        return None
    if density > AT.density_of_plan * planned:
        return Note(note=28, words=words.heavy(density, planned), about=cord.mass_key)
    if not cord.strands:
        return None
    weighs_like = max(1, round(density / planned * cord.strands))
    if weighs_like == cord.strands:
        return None
    return Note(note=32, words=words.other_strands(weighs_like, cord.strands), about=cord.mass_key)


def rung_note(printed_mass_g: float | None, printed_kind: str, *, balance_mass_g: float, key: str) -> Note | None:
    """Row 12: the balance mass of a rung is just what its label says of its drained contents."""
    if printed_kind != "drained" or printed_mass_g is None or balance_mass_g != printed_mass_g:
        return None
    return Note(note=12, words=words.drained(balance_mass_g), about=key)
