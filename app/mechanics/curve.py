"""One specimen's points and events, each reading with what was worked out for it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from app.domain.records import Reading
from app.domain.standing import beside, event_order
from app.domain.tested import Row, TestedCord
from app.mechanics.reading_sums import ReadingSums
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


def points_of(seen: Seen, cord: TestedCord, sums: Sequence[ReadingSums]) -> tuple[Point, ...]:
    """The points of one specimen, in the order of the test.

    Parameters: seen, what counts of it; cord, the same as it is told; sums, what was worked out of each of its rows,
        shape (n,): force [N], extension [mm].
    Returns: a point for each standing reading, shape (n,): mass [g], force [N], extension [mm], strain [1], seconds
        since the zero [s], and the codes of the events beside it.
    Raises: ValueError when readings, rows and sums are not equally many.
    Source: no sum is made here; loading and extension name their own.
    """
    zeros = [reading for reading in seen.readings if reading.phase == "zero"]
    zero = next((reading for reading in zeros if reading.entry_id in seen.usable), zeros[0] if zeros else None)
    zero_at = None if zero is None else seen.chains[zero.entry_id][-1].taken_at
    return tuple(
        _point(seen, reading, row, worked, zero_at=zero_at)
        for reading, row, worked in zip(seen.readings, cord.rows, sums, strict=True)
    )


def _point(seen: Seen, reading: Reading, row: Row, worked: ReadingSums, *, zero_at: datetime | None) -> Point:
    marks = seen.marks_at(reading)
    first = seen.chains[reading.entry_id][-1]
    return Point(
        reading=reading,
        waited_s=row.waited_s,
        state=seen.state[reading.entry_id],
        left_out=seen.left_out.get(reading.entry_id),
        counts=row.counts,
        mass_g=row.mass_g,
        mass_u_g=row.mass_u_g,
        force_n=worked.force_n,
        force_u_n=worked.force_u_n,
        load_why=seen.load_of(marks).why,
        extension_mm=worked.extension_mm,
        extension_u_mm=worked.extension_u_mm,
        extension_why=worked.extension_why,
        strain=worked.strain,
        section=worked.section,
        marks_hung=marks,
        events=row.events,
        events_after=row.events_after,
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
