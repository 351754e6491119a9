"""One specimen's points and events, each reading with what was worked out for it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from app.domain.records import Reading
from app.domain.standing import beside, event_order
from app.mechanics.extension import Extension, strain
from app.mechanics.seen import Seen


@dataclass(frozen=True, kw_only=True)
class Point:
    """One standing reading with what was worked out for it.

    `state` is stands, matched, differs or ruled_out; `left_out` is the reason or None; `counts` says whether it may
    enter a sum: it stands, is not left out, and its specimen is not left out. `waited_s` is the newest wait that was
    told of it, for a correction typed later does not wait again.
    """

    reading: Reading
    state: str
    left_out: str | None
    counts: bool
    waited_s: float | None
    mass_g: float | None
    mass_u_g: float | None
    force_n: float | None
    force_u_n: float | None
    load_why: str | None
    extension_mm: float | None
    extension_u_mm: float | None
    extension_why: str | None
    strain: float | None
    section: int
    marks_hung: tuple[int, ...]
    events: tuple[str, ...]
    events_after: tuple[str, ...]
    taken_at: datetime
    s_since_zero: float | None
    first_typed: str
    reason: str | None


@dataclass(frozen=True, kw_only=True)
class CurveEvent:
    """An event that is drawn: its code, step, and the force and extension of the reading that it is marked at."""

    kind: str
    step: int
    after_reading: bool
    force_n: float | None
    extension_mm: float | None
    at: datetime


def points_of(seen: Seen, reached: Mapping[str, Extension], free_length_mm: float | None) -> tuple[Point, ...]:
    """The points of one specimen, in the order of the test.

    Parameters: seen, what counts of it; reached, its extensions [mm] by entry id; free_length_mm [mm] or None.
    Returns: a point for each standing reading, shape (n,): mass [g], force [N], extension [mm], strain [1], seconds
        since the zero [s], and the codes of the events beside it.
    Raises: KeyError when a reading has no entry in `reached`.
    Source: no sum is made here; loading and extension name their own.
    """
    zeros = [reading for reading in seen.readings if reading.phase == "zero"]
    zero = next((reading for reading in zeros if reading.entry_id in seen.usable), zeros[0] if zeros else None)
    told = beside(seen.readings, seen.events)
    codes: dict[tuple[str, bool], dict[str, None]] = {}
    for event in sorted(seen.events, key=event_order):
        if event.entry_id in told:
            reading, after = told[event.entry_id]
            codes.setdefault((reading.entry_id, after), {})[event.kind] = None
    return tuple(
        _point(
            seen,
            reading,
            reached[reading.entry_id],
            free_length_mm=free_length_mm,
            zero=zero,
            codes={after: tuple(codes.get((reading.entry_id, after), ())) for after in (False, True)},
        )
        for reading in seen.readings
    )


def _point(
    seen: Seen,
    reading: Reading,
    reached: Extension,
    *,
    free_length_mm: float | None,
    zero: Reading | None,
    codes: dict[bool, tuple[str, ...]],
) -> Point:
    marks = seen.marks_at(reading)
    hung = seen.load_of(marks)
    first = seen.chains[reading.entry_id][-1]
    zero_at = None if zero is None else seen.chains[zero.entry_id][-1].taken_at
    return Point(
        reading=reading,
        waited_s=next((one.waited_s for one in seen.chains[reading.entry_id] if one.waited_s is not None), None),
        state=seen.state[reading.entry_id],
        left_out=seen.left_out.get(reading.entry_id),
        counts=reading.entry_id in seen.usable and seen.specimen_left_out is None,
        mass_g=hung.mass_g,
        mass_u_g=hung.mass_u_g,
        force_n=hung.force_n,
        force_u_n=hung.force_u_n,
        load_why=hung.why,
        extension_mm=reached.extension_mm,
        extension_u_mm=reached.extension_u_mm,
        extension_why=reached.why,
        strain=strain(reached.extension_mm, free_length_mm),
        section=reached.section,
        marks_hung=marks,
        events=codes[False],
        events_after=codes[True],
        taken_at=first.taken_at,
        s_since_zero=None if zero_at is None else (first.taken_at - zero_at).total_seconds(),
        first_typed=first.pointer_typed,
        reason=reading.reason if reading.replaces else None,
    )


def curve_events(seen: Seen, points: Sequence[Point]) -> tuple[CurveEvent, ...]:
    """The events of one specimen, each at the point beside which it is drawn.

    Parameters: seen, what counts of it; points, its points, force [N] and extension [mm].
    Returns: an event for each that has a step, shape (m,), in the order of the test.
    Raises: nothing.
    Source: our own rules for entries.
    """
    told = beside(seen.readings, seen.events)
    at = {point.reading.entry_id: point for point in points}
    events = []
    for event in sorted(seen.events, key=event_order):
        if event.step is None:
            continue
        point = at[told[event.entry_id][0].entry_id] if event.entry_id in told else None
        events.append(
            CurveEvent(
                kind=event.kind,
                step=event.step,
                after_reading=event.after_reading,
                force_n=None if point is None else point.force_n,
                extension_mm=None if point is None else point.extension_mm,
                at=event.taken_at,
            )
        )
    return tuple(events)
