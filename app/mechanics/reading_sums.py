"""What is worked out of each reading of a cord, and which of them make its curve."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from app.domain.tested import LOADING, Row, TestedCord
from app.mechanics.extension import Extension, extensions, strain
from app.mechanics.result import ReadingScatter


@dataclass(frozen=True, kw_only=True)
class ReadingSums:
    """Force [N], extension [mm], their standard uncertainties, and strain of one reading; None with a why."""

    force_n: float | None
    force_u_n: float | None
    extension_mm: float | None
    extension_u_mm: float | None
    extension_why: str | None
    strain: float | None
    section: int


@dataclass(frozen=True, kw_only=True)
class CurvePoint:
    """One reading as it enters a fit or an area: its row, force [N] and the pointer, joined and turned [mm]."""

    row: Row
    force_n: float
    force_u_n: float | None
    stretched_mm: float
    extension_mm: float | None
    extension_why: str | None
    joins: int
    section: int


def force_of(cord: TestedCord, mass_g: float | None) -> float | None:
    """The force of a mass, or the standard uncertainty of one that of the other.

    Parameters: cord, whose gravity is in use [m/s2]; mass_g [g] or None.
    Returns: mass x gravity / 1000 [N]; None of None.
    Raises: nothing.
    Source: Newton's second law; standard gravity by the 3rd CGPM, 1901.
    """
    return None if mass_g is None else mass_g * cord.gravity_m_per_s2 / 1000


def reading_sums(cord: TestedCord, scatter: ReadingScatter) -> tuple[ReadingSums, ...]:
    """What follows from each reading of one cord.

    Parameters: cord, its rows in the order of the test, shape (n,); scatter, of one reading of it [mm].
    Returns: n forces [N], extensions [mm] with their standard uncertainties, strains [1] and sections.
    Raises: nothing.
    Source: no sum is made here; extension names its own.
    """
    return tuple(
        _of_reading(cord, row, reached, scatter) for row, reached in zip(cord.rows, extensions(cord), strict=True)
    )


def _of_reading(cord: TestedCord, row: Row, reached: Extension, scatter: ReadingScatter) -> ReadingSums:
    return ReadingSums(
        force_n=force_of(cord, row.mass_g),
        force_u_n=force_of(cord, row.mass_u_g),
        extension_mm=reached.extension_mm,
        extension_u_mm=_u_mm(reached, scatter),
        extension_why=reached.why,
        strain=strain(reached.extension_mm, cord.gauge_length_mm),
        section=reached.section,
    )


def _u_mm(reached: Extension, scatter: ReadingScatter) -> float | None:
    known = reached.extension_mm is not None and reached.u_factor is not None
    return reached.u_factor * scatter.u_mm if known else None  # type: ignore[operator]


def curve_points(cord: TestedCord, phases: Sequence[str] = LOADING) -> tuple[CurvePoint, ...]:
    """The readings of some phases that count and whose force is known.

    Parameters: cord, its rows in the order of the test, shape (n,); phases, codes.
    Returns: at most n points, force [N] and pointer [mm], in the order of the test; with the phases of the first
        loading a later reading stands in where the step has no other.
    Raises: nothing.
    Source: our own rules for entries.
    """
    loaded = {row.step for row in cord.rows if row.counts and row.phase in phases}
    if not any(_is_in(row, phases, loaded) for row in cord.rows):
        return ()
    return tuple(
        CurvePoint(
            row=row,
            force_n=row.mass_g * cord.gravity_m_per_s2 / 1000,
            force_u_n=force_of(cord, row.mass_u_g),
            stretched_mm=reached.stretched_mm,
            extension_mm=reached.extension_mm,
            extension_why=reached.why,
            joins=reached.joins,
            section=reached.section,
        )
        for row, reached in zip(cord.rows, extensions(cord), strict=True)
        if row.counts and row.mass_g is not None and _is_in(row, phases, loaded)
    )


def _is_in(row: Row, phases: Sequence[str], loaded: set[int]) -> bool:
    stands_in = row.phase == "later" and "load" in phases and row.step not in loaded
    return row.phase in phases or stands_in


def longest_section(points: Sequence[CurvePoint]) -> tuple[CurvePoint, ...]:
    """The points of the section with most of them, of equals the first.

    Parameters: points, of one cord, shape (n,), force [N] and pointer [mm].
    Returns: those of one section, in the order given; none of none.
    Raises: nothing.
    Source: our own rule: no fit, area or limit crosses a gap that isn't joined.
    """
    sizes = Counter(point.section for point in points)
    longest = max(sizes, key=lambda section: (sizes[section], -section), default=0)
    return tuple(point for point in points if point.section == longest)
