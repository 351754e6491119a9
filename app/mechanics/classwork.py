"""The whole class at once: a lesson's record in, its class picture out; every sum is made elsewhere in this package."""

from dataclasses import dataclass
from datetime import datetime

from app.domain.records import Ending, Reading


@dataclass(frozen=True, kw_only=True)
class Point:
    """One standing reading with what was worked out for it.

    `state` is stands, matched, differs or ruled_out; `left_out` is the reason or None; `counts` says whether it may
    enter a sum: it stands (or lost nothing to another), is not left out, and its specimen is not left out.
    """

    reading: Reading
    state: str
    left_out: str | None
    counts: bool
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
    s_since_zero: float | None
    first_typed: str
    reason: str | None


@dataclass(frozen=True, kw_only=True)
class Bracket:
    """A breaking force in newtons: it lies over `low_n` and at or under `high_n`; no `high_n` means "more than".

    `why` says in a sentence why an end, or both, can't be had.
    """

    low_n: float | None
    high_n: float | None
    low_u_n: float | None = None
    high_u_n: float | None = None
    why: str | None = None


@dataclass(frozen=True, kw_only=True)
class CurveEvent:
    """An event that is drawn: its code, step, and the force and extension of the reading that it is marked at."""

    kind: str
    step: int
    after_reading: bool
    force_n: float | None
    extension_mm: float | None
    at: datetime


@dataclass(frozen=True, kw_only=True)
class SpecimenPicture:
    specimen_id: str
    name: str
    bench_id: str
    bench: str
    bench_kind: str
    design: str
    specimen_no: int
    left_out: str | None
    free_length_mm: float | None
    strands: int | None
    strip_width_mm: float | None
    linear_density_g_per_m: float | None
    points: tuple[Point, ...]
    events: tuple[CurveEvent, ...]
    ending: Ending | None
    ending_state: str
    outcome: str | None
    fail_mass_g: float | None
    break_bracket: Bracket

    @property
    def counted(self) -> tuple[Point, ...]:
        """The points that may be drawn as the curve, in order of load."""
        return tuple(point for point in self.points if point.counts)


@dataclass(frozen=True, kw_only=True)
class DesignPicture:
    letter: str
    name: str
    is_yardstick: bool
    specimens: int
    groups: int
    unbroken: int
    brackets: tuple[Bracket, ...]
    median: Bracket


@dataclass(frozen=True, kw_only=True)
class ClassPicture:
    """Everything worked out from a lesson as it stands at change `head`."""

    lesson_id: str
    head: int
    title: str
    gravity_m_per_s2: float
    gravity_from: str | None
    weighed: bool
    hanger_counted: bool
    specimens: tuple[SpecimenPicture, ...]
    designs: tuple[DesignPicture, ...]
