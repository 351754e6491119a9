"""What may be wrong with a readings file that is read all the same, each doubt in a sentence."""

from collections.abc import Iterator, Sequence
from difflib import get_close_matches

from app.domain.tested import LOADING, TestedCord
from app.domain.vocabulary import SCALE_WAYS
from app.transfer.cell_read import shown
from app.transfer.columns import COLUMNS
from app.transfer.csv_read import Header

GRAMS_LEAST = 10.0
"""A file whose heaviest load is under so many grams is asked whether it is in kilograms."""

Noted = tuple[TestedCord, tuple[str, ...]]
"""A cord, and by row what names it in a note."""


def doubts_of(noted: Sequence[Noted], header: Header) -> Iterator[str]:
    """The doubts about a file, those about its columns first, then those about each cord."""
    yield from _misspelt(header)
    rows = [row for cord, _ in noted for row in cord.rows]
    if not rows:
        yield "There are no readings in the file."
    if blank := sum(row.mass_g is None for row in rows):
        yield f"{blank} of {len(rows)} rows have no mass; no force can be worked out for them."
    yield from _in_kilograms([row.mass_g for row in rows if row.mass_g is not None])
    yield from _wrong_way([cord for cord, _ in noted])
    if any(row.mass_g is not None and row.mass_u_g is None for row in rows):
        yield "No uncertainty of the masses is stated: give a column mass_u_g, or the division of the balance."
    if len(noted) > 1 and not all(cord.group for cord, _ in noted):
        yield "Cords that name no group in a column group count as made by a group each."
    for cord, about in noted:
        yield from _not_growing(cord, about)


def _misspelt(header: Header) -> Iterator[str]:
    missing = [column.name for column in COLUMNS if column.read is not None and column.name not in header.known]
    for name in header.unknown:
        for meant in get_close_matches(name.casefold(), missing, n=1, cutoff=0.85):
            yield f"The column {shown(name, 40)} is not read. Is {meant} meant?"


def _in_kilograms(masses_g: Sequence[float]) -> Iterator[str]:
    if 0 < max(masses_g, default=0.0) < GRAMS_LEAST:
        yield f"All masses are under {GRAMS_LEAST:g} g: are they in kg? The column mass_g is read in g."


def _wrong_way(cords: Sequence[TestedCord]) -> Iterator[str]:
    """A doubt when the pointer of every cord goes against the way that its scale is read, so far as it moves."""
    for way, goes, other in (("down", "fall", "up"), ("up", "rise", "down")):
        moves = [move for move in (_move_mm(cord) for cord in cords if cord.scale == way) if move]
        if moves and all((move < 0) == (way == "down") for move in moves):
            yield (
                f"The pointer readings {goes} as the load grows: do the scale's numbers grow {SCALE_WAYS[other]}? "
                f"Then say --scale {other}."
            )


def _move_mm(cord: TestedCord) -> float | None:
    """How far the last reading of loading lies from the first; None where no more hung at the last."""
    loaded = [
        (row.mass_g, row.pointer_mm)
        for row in cord.rows
        if row.phase in LOADING and row.counts and row.mass_g is not None
    ]
    if not loaded or loaded[-1][0] <= loaded[0][0]:
        return None
    return loaded[-1][1] - loaded[0][1]


def _not_growing(cord: TestedCord, about: Sequence[str]) -> Iterator[str]:
    """A doubt when a later step of loading hangs no more than one before it; the first such step is named."""
    before, step = -1.0, -1
    for row, name in zip(cord.rows, about, strict=True):
        if row.phase not in LOADING or not row.counts or row.mass_g is None:
            continue
        if row.step != step and row.mass_g <= before:
            yield f"{cord.specimen}: the mass does not grow at step {row.step} ({name}), where the cord is loaded."
            return
        before, step = row.mass_g, row.step
