"""Pointer readings to extensions: from the zero, by the way the scale grows, joined where a moved pointer was read."""

import math
from collections.abc import Iterable, Sequence, Set
from dataclasses import dataclass

from app.domain.records import Event, Reading
from app.domain.standing import event_order, reading_order
from app.mechanics.loading import division_variance, half_width_variance

NO_ZERO = "The zero has not been read yet."
NO_ZERO_COUNTS = "No zero counts: it is left out, or there are two numbers for it."
SIGN = {"down": 1.0, "up": -1.0}
BEFORE_PUT_BACK = ("zero", "load", "later")
NEW_SECTION = ("knot_slipped", "support_moved")


@dataclass(frozen=True, kw_only=True)
class Scale:
    """How pointer readings were made: `way` the numbers grow (down, up), division [mm], judgement half-width [mm]."""

    way: str
    division_mm: float
    judgement_mm: float


@dataclass(frozen=True, kw_only=True)
class Extension:
    """Extension [mm] with its standard uncertainty [mm] from the scale only, or both None and `why` in a sentence.

    `section` counts from 1: a curve goes on as a new section where nothing joins it to what came before.
    """

    extension_mm: float | None
    extension_u_mm: float | None
    section: int
    why: str | None = None


@dataclass(frozen=True)
class _Stretch:
    """What holds from some moment on: the section, the offset of the pointer [mm], how many offsets were added."""

    section: int = 1
    offset_mm: float = 0.0
    offsets: int = 0


def reading_u_mm(scale: Scale) -> float:
    """Standard uncertainty of one pointer reading, from the scale only.

    Parameters: scale, its division [mm] and judgement half-width [mm].
    Returns: sqrt(division**2 / 12 + judgement**2 / 3) [mm]; a floor, the scatter of hands and swing is not in it.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 4.3.7 and 5.1.2.
    """
    return math.sqrt(division_variance(scale.division_mm) + half_width_variance(scale.judgement_mm))


def strain(extension_mm: float | None, free_length_mm: float | None) -> float | None:
    """Extension over free length.

    Parameters: extension_mm [mm] or None; free_length_mm, between the knots under the settling load [mm] or None.
    Returns: their quotient [1]; None when either is missing or the length is 0.
    Raises: nothing.
    Source: the definition of engineering strain (nominal strain), as in ISO 527-1 (from memory).
    """
    return extension_mm / free_length_mm if extension_mm is not None and free_length_mm else None


def extensions(
    readings: Iterable[Reading], events: Iterable[Event], *, usable: Set[str], scale: Scale
) -> dict[str, Extension]:
    """By entry id, how far the pointer had moved from the zero at each reading of one specimen.

    Parameters: readings, the standing ones in any order, pointer [mm], shape (n,); events that count, shape (m,);
        usable, entry ids of the readings that may serve as zero or join a moved pointer; scale, how it was read.
    Returns: n extensions e = s (x - x0) [mm], s = +1 when the numbers grow downward, -1 upward, x0 the mean of the r
        usable zeros; u = u0 sqrt(1 + 1/r) [mm], of a zero itself u0 sqrt(1 - 1/r), 0 when there is one. All None with
        a sentence while no zero is usable. After a slipped knot or a moved support a new section begins; after a
        moved pointer too, unless a reading before and one of phase pointer_put_back were taken under that step's
        load: then their difference is added from there on, 2 u0**2 to the variance of every reading after the one
        put back (whose own error cancels), and the section goes on.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 5.1.2; the joining of two zeros is our own definition.
    """
    ordered = sorted(readings, key=reading_order)
    zeros = [reading for reading in ordered if reading.phase == "zero"]
    zero_mm = [reading.pointer_mm for reading in zeros if reading.entry_id in usable]
    stretches = _stretches(ordered, events, usable)
    if not zero_mm:
        why = NO_ZERO_COUNTS if zeros else NO_ZERO
        return {
            entry_id: Extension(extension_mm=None, extension_u_mm=None, section=stretch.section, why=why)
            for entry_id, stretch in stretches.items()
        }
    mean_mm, u_mm = math.fsum(zero_mm) / len(zero_mm), reading_u_mm(scale)

    def extension(reading: Reading) -> Extension:
        stretch = stretches[reading.entry_id]
        shared = -1 if reading in zeros and reading.entry_id in usable else 1
        return Extension(
            extension_mm=SIGN[scale.way] * (reading.pointer_mm + stretch.offset_mm - mean_mm) + 0.0,
            extension_u_mm=u_mm * math.sqrt(1 + shared / len(zero_mm) + 2 * stretch.offsets),
            section=stretch.section,
        )

    return {reading.entry_id: extension(reading) for reading in ordered}


def _stretches(ordered: Sequence[Reading], events: Iterable[Event], usable: Set[str]) -> dict[str, _Stretch]:
    """By entry id, what holds at each reading, by walking through readings and events in the order of the test."""
    placed = [event for event in events if event.step is not None]
    joins = _joins([reading for reading in ordered if reading.entry_id in usable])
    walk: list[Reading | Event] = sorted(
        [*ordered, *placed], key=lambda item: reading_order(item) if isinstance(item, Reading) else event_order(item)
    )
    moved = {event.step for event in placed if event.kind == "pointer_moved"}
    now, found, joined = _Stretch(), dict[str, _Stretch](), set[int]()
    for item in walk:
        if isinstance(item, Event):
            if item.kind in NEW_SECTION or (item.kind == "pointer_moved" and item.step not in joins):
                now = _Stretch(now.section + 1, now.offset_mm, now.offsets)
            continue
        if item.phase == "pointer_put_back" and item.step not in joined and item.step in moved and item.step in joins:
            joined.add(item.step)
            found[item.entry_id] = _Stretch(now.section, now.offset_mm + joins[item.step], now.offsets)
            now = _Stretch(now.section, now.offset_mm + joins[item.step], now.offsets + 1)
            continue
        found[item.entry_id] = now
    return found


def _joins(usable: Sequence[Reading]) -> dict[int, float]:
    """By step, the offset [mm] that a pointer put back under that step's load brings: before minus after."""
    before = {reading.step: reading.pointer_mm for reading in usable if reading.phase in BEFORE_PUT_BACK}
    after = {reading.step: reading.pointer_mm for reading in reversed(usable) if reading.phase == "pointer_put_back"}
    return {step: before[step] - after[step] for step in after if step in before}
