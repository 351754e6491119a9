"""How it was worked out what the plait took of its strips."""

from app.mechanics.cord_sums import CordSums
from app.services.figure_words import as_percent, in_sum, measured
from app.services.remedies import remedy
from app.services.working import Working, notes_of


def take_up(sums: CordSums, depth: str) -> Working | None:
    """How much shorter the cord is than its strips; None of a cord of which no strip was measured."""
    found, strip_mm, cord_mm = sums.take_up, sums.cord.strip_length_mm, sums.cord.cord_length_mm
    if strip_mm is None:
        return None
    numbers = "" if found.value is None else f"1 − {in_sum(cord_mm or 0.0, 'mm')} / {in_sum(strip_mm, 'mm')}"
    return Working(
        code="take_up",
        name="Take-up of the plait",
        said=measured(as_percent(found), depth),
        formula="1 − length of the cord ÷ length of a strip before plaiting",
        numbers=numbers,
        source="ISO 7211-3",
        own="",
        better=remedy(found.why, "A longer piece of cord and its strips."),
        notes=notes_of(found.why),
    )
