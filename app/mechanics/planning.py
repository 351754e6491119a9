"""Planning before anything hangs: strips of a sheet, strip for a cord, what it may hold, how far a ladder reaches."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from app.mechanics.result import Interval

READINGS_FOR_A_BEND = 8
"""With fewer readings, the zero counted, no bend can be looked for."""

READINGS_RECOMMENDED = 10
"""From here on a bend is found in most cords that have one."""

TOP_OVER_HIGH = 1.5
"""A ladder that reaches less than so many times the most that is expected may leave the strongest cord whole."""

PLAIT_KEEPS = (0.85, 0.95)
KNOT_KEEPS = (0.5, 0.7)
"""Share of the strength that is left after plaiting or twisting, and after a knot [1]: planning values, from memory."""

_DUST = 1e-9
"""A whole number of strips that binary division leaves just short of it is still that many."""


@dataclass(frozen=True, kw_only=True)
class Cut:
    """So many strips, each of `strip_mm` length [mm]."""

    count: int
    strip_mm: float


@dataclass(frozen=True, kw_only=True)
class Cuts:
    """The strips of one sheet or bag, cut across it or along it."""

    crosswise: Cut
    lengthwise: Cut


@dataclass(frozen=True, kw_only=True)
class LadderReach:
    """What a ladder is good for, if the weakest cord breaks at `low_n` and the strongest at `high_n` [N].

    `readings_before_low` and `readings_before_high` count the zero too; `top_n` is the load of all rungs [N].
    """

    low_n: float
    high_n: float
    readings_before_low: int
    readings_before_high: int
    top_n: float

    @property
    def too_few(self) -> bool:
        """Whether the weakest cord may break before a bend can be looked for."""
        return self.readings_before_low < READINGS_FOR_A_BEND

    @property
    def few(self) -> bool:
        """Whether a bend could be looked for in the weakest cord, but would often go unseen."""
        return READINGS_FOR_A_BEND <= self.readings_before_low < READINGS_RECOMMENDED

    @property
    def may_outlive(self) -> bool:
        """Whether the strongest cord may outlive the masses."""
        return self.top_n < TOP_OVER_HIGH * self.high_n


def tube_strips(
    flat_width_mm: float, height_mm: float, *, strip_width_mm: float, gusset_mm: float = 0.0, side_seams: bool = False
) -> Cuts:
    """The strips of a flat tube, as a bag is one, with nothing lost between two cuts.

    Parameters: flat_width_mm, lying flat [mm]; height_mm, what can be used of it [mm]; strip_width_mm [mm], over 0;
        gusset_mm, depth of the fold at each side [mm]; side_seams, whether welds run up both sides.
    Returns: crosswise hoops of 2 widths and 4 gussets, cut open [mm]; with welds at the sides two strips of a width
        each, for the weld is cut out. Lengthwise as many strips as fit round it, each of the height [mm]; with welds,
        as many as fit on both faces.
    Raises: nothing.
    Source: plane geometry.
    """
    round_mm = 2 * flat_width_mm + 4 * gusset_mm
    hoops, height = _fit(height_mm, strip_width_mm), height_mm
    if side_seams:
        face_mm = round_mm / 2
        return Cuts(
            crosswise=Cut(count=2 * hoops, strip_mm=face_mm),
            lengthwise=Cut(count=2 * _fit(face_mm, strip_width_mm), strip_mm=height),
        )
    return Cuts(
        crosswise=Cut(count=hoops, strip_mm=round_mm),
        lengthwise=Cut(count=_fit(round_mm, strip_width_mm), strip_mm=height),
    )


def sheet_strips(width_mm: float, height_mm: float, *, strip_width_mm: float) -> Cuts:
    """The strips of a flat sheet, with nothing lost between two cuts.

    Parameters: width_mm and height_mm, of the sheet [mm]; strip_width_mm [mm], over 0.
    Returns: crosswise as many as fit in the height, each of the width [mm]; lengthwise as many as fit in the width,
        each of the height [mm].
    Raises: nothing.
    Source: plane geometry.
    """
    return Cuts(
        crosswise=Cut(count=_fit(height_mm, strip_width_mm), strip_mm=width_mm),
        lengthwise=Cut(count=_fit(width_mm, strip_width_mm), strip_mm=height_mm),
    )


def _fit(room_mm: float, strip_width_mm: float) -> int:
    return math.floor(room_mm / strip_width_mm + _DUST)


def strip_for_cord_mm(free_length_mm: float, *, take_up_factor: float, knot_mm: float) -> float:
    """How long a strip must be for a cord of that free length.

    Parameters: free_length_mm, between the knots [mm]; take_up_factor, strip over cord [1]; knot_mm, the strip that
        one knot and its tail need [mm].
    Returns: factor x free length + 2 knots [mm].
    Raises: nothing.
    Source: the definition of take-up; the knots' allowance is counted in strip, as it is measured.
    """
    return take_up_factor * free_length_mm + 2 * knot_mm


def lengths_of_strip(strip_mm: float, cut_mm: float) -> int:
    """How many lengths one strip gives, with nothing lost between two cuts.

    Parameters: strip_mm, its length [mm]; cut_mm, a length that is wanted of it [mm], over 0.
    Returns: as many whole lengths as fit [1], 0 when the strip is too short for one.
    Raises: nothing.
    Source: plane geometry.
    """
    return _fit(strip_mm, cut_mm)


def longest_cord_mm(strip_mm: float, *, take_up_factor: float, knot_mm: float) -> float:
    """The longest free length that a strip allows.

    Parameters: strip_mm, its length [mm]; take_up_factor, strip over cord [1], over 0; knot_mm, the strip that one
        knot and its tail need [mm].
    Returns: (strip - 2 knots) / factor [mm], 0 when the knots alone need more.
    Raises: nothing.
    Source: the definition of take-up.
    """
    return max(0.0, (strip_mm - 2 * knot_mm) / take_up_factor)


def kept_share(*, laid_up: bool, knotted: bool) -> tuple[float, float]:
    """The least and most share of the strips' strength that lay-up and knots leave.

    Parameters: laid_up, whether the strips are plaited or twisted; knotted, whether knots hold the ends.
    Returns: the two shares [1], both 1 when neither takes any.
    Raises: nothing.
    Source: planning values of workshop practice, from memory; knots are told to leave 45 to 80 %.
    """
    plait = PLAIT_KEEPS if laid_up else (1.0, 1.0)
    knot = KNOT_KEEPS if knotted else (1.0, 1.0)
    return plait[0] * knot[0], plait[1] * knot[1]


def expected_break(
    strength_mpa: tuple[float, float],
    *,
    strands: int,
    strip_width_mm: float,
    thickness_mm: float,
    kept: tuple[float, float],
) -> Interval:
    """Between which forces a cord of flat film is expected to break: a range, for it is only an estimate.

    Parameters: strength_mpa, the least and most strength of the film [MPa]; strands, strips of the cord, each layer
        one [1]; strip_width_mm [mm]; thickness_mm, of one layer [mm]; kept, the least and most share of the strips'
        strength that lay-up and knots leave [1].
    Returns: strength x strands x width x thickness x share, least and most [N].
    Raises: nothing.
    Source: the definition of engineering stress, on the flat strips' section.
    """
    section_mm2 = strands * strip_width_mm * thickness_mm
    low, high = (strength * section_mm2 * share for strength, share in zip(strength_mpa, kept, strict=True))
    return Interval(low=low, high=high, unit="N")


def ladder_reach(force_n: Sequence[float], *, low_n: float, high_n: float) -> LadderReach:
    """How many readings a ladder gives before the weakest and the strongest cord break, and whether it reaches.

    Parameters: force_n, the load of each step, the hanger alone first [N], shape (n,), not empty; low_n, where the
        weakest cord may break [N]; high_n, where the strongest may [N].
    Returns: the readings, the zero counted, under each of both, and the load of all rungs [N].
    Raises: nothing.
    Source: our own definition; the limits of 8 and 10 readings and of 1.5 by our own simulation.
    """
    return LadderReach(
        low_n=low_n,
        high_n=high_n,
        readings_before_low=sum(load < low_n for load in force_n),
        readings_before_high=sum(load < high_n for load in force_n),
        top_n=max(force_n),
    )


def falling_j(mass_g: float, height_mm: float, *, gravity_m_per_s2: float) -> float:
    """What a load brings down with it when a cord breaks.

    Parameters: mass_g, all that hangs [g]; height_mm, over what it falls on [mm]; gravity_m_per_s2 [m/s2].
    Returns: mass x gravity x height [J].
    Raises: nothing.
    Source: energy in a uniform field of gravity, m g h.
    """
    return mass_g / 1000 * gravity_m_per_s2 * height_mm / 1000
