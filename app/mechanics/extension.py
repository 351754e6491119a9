"""Pointer readings to extensions: from the zero, by the way the scale grows, joined where a moved pointer was read."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from app.domain.tested import Row, TestedCord, row_order
from app.mechanics.loading import division_variance, half_width_variance

NO_ZERO = "The zero has not been read yet."
NO_ZERO_COUNTS = "No zero counts: it is left out, or there are two numbers for it."
SIGN = {"down": 1.0, "up": -1.0}
PUT_BACK = "pointer_put_back"
BEFORE_PUT_BACK = ("zero", "load", "later", PUT_BACK)
NEW_SECTION = ("knot_slipped", "support_moved")


@dataclass(frozen=True, kw_only=True)
class Scale:
    """How pointer readings were made: `way` the numbers grow (down, up), division [mm], judgement half-width [mm]."""

    way: str
    division_mm: float
    judgement_mm: float


@dataclass(frozen=True, kw_only=True)
class Extension:
    """Extension [mm], or None and `why` in a sentence.

    `stretched_mm` is the pointer as it enters a fit: joined over a pointer put back, and turned so that it grows as
    the cord stretches. `u_factor` times the standard uncertainty of one reading is that of the extension; None after
    the pointer or the support moved and nothing joins the two, for how far is not known. `section` counts from 1: a
    curve goes on as a new section where nothing joins it to what came before.
    """

    extension_mm: float | None
    stretched_mm: float
    u_factor: float | None
    joins: int
    section: int
    why: str | None = None


@dataclass(frozen=True)
class _Stretch:
    """What holds from some moment on: the section, the offset of the pointer [mm], how many offsets were added.

    `lost`: the pointer or the support moved by nobody knows how much.
    """

    section: int = 1
    offset_mm: float = 0.0
    offsets: int = 0
    lost: bool = False

    def gap(self, *, lost: bool) -> "_Stretch":
        return _Stretch(self.section + 1, self.offset_mm, self.offsets, self.lost or lost)


def reading_u_mm(scale: Scale) -> float:
    """Standard uncertainty of one pointer reading, from the scale only.

    Parameters: scale, its division [mm] and judgement half-width [mm].
    Returns: sqrt(division**2 / 12 + judgement**2 / 3) [mm]; a floor, the scatter of hands and swing is not in it.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 4.3.7 and 5.1.2.
    """
    return math.sqrt(division_variance(scale.division_mm) + half_width_variance(scale.judgement_mm))


def scale_of(cord: TestedCord) -> Scale:
    """The scale that a cord's pointer was read on.

    Parameters: cord, as it was told [mm].
    Returns: its scale [mm].
    Raises: nothing.
    Source: no sum is made here.
    """
    return Scale(way=cord.scale, division_mm=cord.scale_division_mm, judgement_mm=cord.judgement_mm)


def strain(extension_mm: float | None, free_length_mm: float | None) -> float | None:
    """Extension over free length.

    Parameters: extension_mm [mm] or None; free_length_mm, between the knots under the settling load [mm] or None.
    Returns: their quotient [1]; None when either is missing or the length is 0.
    Raises: nothing.
    Source: the definition of engineering strain (nominal strain), as in ISO 527-1 (from memory).
    """
    return extension_mm / free_length_mm if extension_mm is not None and free_length_mm else None


def extensions(cord: TestedCord) -> tuple[Extension, ...]:
    """How far the pointer had moved from the zero at each reading of one specimen.

    Parameters: cord, its rows in the order of the test, pointer [mm], shape (n,); a row may serve as zero or join a
        moved pointer when nobody left it out, or only together with the whole cord.
    Returns: n extensions e = s (x - x0) [mm], s = +1 when the numbers grow downward, -1 upward, x0 the mean of the r
        usable zeros; their u is u_x sqrt(1 + 1/r), of a zero itself u_x sqrt(1 - 1/r), 0 when there is one. No
        extension, with a sentence, while no zero is usable. After a slipped knot or a moved support a new section
        begins, after the latter without u; after a moved pointer too, unless a reading before it moved and one of
        phase pointer_put_back were taken under one load of that step: then their difference is added from there on,
        2 u_x**2 to the variance of every reading after the one put back (whose own error cancels), and the section
        goes on.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 5.1.2; the joining of two zeros is our own definition.
    """
    zeros = [row for row in cord.rows if row.phase == "zero"]
    zero_mm = [row.pointer_mm for row in zeros if cord.usable(row)]
    why = None if zero_mm else NO_ZERO_COUNTS if zeros else NO_ZERO
    mean_mm = math.fsum(zero_mm) / len(zero_mm) if zero_mm else 0.0
    sign, shares = SIGN[cord.scale], 1 / len(zero_mm) if zero_mm else 0.0

    def extension(row: Row, stretch: _Stretch) -> Extension:
        own = -shares if row.phase == "zero" and cord.usable(row) else shares
        return Extension(
            extension_mm=None if why else sign * (row.pointer_mm + stretch.offset_mm - mean_mm) + 0.0,
            stretched_mm=sign * (row.pointer_mm + stretch.offset_mm),
            u_factor=None if stretch.lost else math.sqrt(1 + own + 2 * stretch.offsets),
            joins=stretch.offsets,
            section=stretch.section,
            why=why,
        )

    return tuple(extension(row, stretch) for row, stretch in zip(cord.rows, _stretches(cord), strict=True))


def _stretches(cord: TestedCord) -> list[_Stretch]:
    """What holds at each reading, by walking through readings and events in the order of the test."""
    joins = _joins(cord)
    before, after = _told(cord.rows)
    moved = {row.step for row in cord.rows if "pointer_moved" in row.events + row.events_after}
    joined = {place for back, held in joins.items() for place in range(held + 1, back + 1)}
    now, found = _Stretch(), list[_Stretch]()
    for place, row in enumerate(cord.rows):
        now = _after(now, before.get(place, ()), joinable=place in joined)
        if place in joins:
            held, at_held = cord.rows[joins[place]], found[joins[place]]
            offset_mm = at_held.offset_mm + held.pointer_mm - row.pointer_mm
            found.append(_Stretch(now.section, offset_mm, at_held.offsets, now.lost))
            now = _Stretch(now.section, offset_mm, at_held.offsets + 1, now.lost)
        else:
            now = now.gap(lost=True) if _is_put_back(cord, row) and row.step not in moved else now
            found.append(now)
        now = _after(now, after.get(place, ()), joinable=place + 1 in joined)
    return found


def _told(rows: Sequence[Row]) -> tuple[Mapping[int, Sequence[str]], Mapping[int, Sequence[str]]]:
    """By place, what was told before a reading and after it; of readings of one moment, which come in any order, all
    before the first and all after the last."""
    before, after = {}, {}
    for _, moment in groupby(range(len(rows)), key=lambda place: row_order(rows[place])):
        places = tuple(moment)
        before[places[0]] = [kind for place in places for kind in rows[place].events]
        after[places[-1]] = [kind for place in places for kind in rows[place].events_after]
    return before, after


def _after(now: _Stretch, events: Iterable[str], *, joinable: bool) -> _Stretch:
    gaps = {kind for kind in events if kind in NEW_SECTION or (kind == "pointer_moved" and not joinable)}
    return now.gap(lost=gaps != {"knot_slipped"}) if gaps else now


def _joins(cord: TestedCord) -> Mapping[int, int]:
    """By place of a pointer put back, the place of the last reading of its step before it, under the same load."""
    joins = {}
    for place, row in enumerate(cord.rows):
        if _is_put_back(cord, row):
            before = (
                held
                for held, other in enumerate(cord.rows[:place])
                if other.step == row.step and other.phase in BEFORE_PUT_BACK and cord.usable(other)
            )
            held = max(before, default=None)
            if held is not None and _under_one_load(cord.rows[held], row):
                joins[place] = held
    return joins


def _is_put_back(cord: TestedCord, row: Row) -> bool:
    return row.phase == PUT_BACK and cord.usable(row)


def _under_one_load(one: Row, other: Row) -> bool:
    """Whether two readings of a step hung the same, as far as their masses are known."""
    if one.mass_g is None or other.mass_g is None:
        return True
    return math.isclose(one.mass_g, other.mass_g, rel_tol=1e-9)
