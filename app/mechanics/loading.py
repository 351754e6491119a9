"""Which masses hang: their total mass and the force that they make, with the uncertainty of both."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from app.domain.records import LessonRecord, RungRecord, Weighing
from app.domain.standing import counted

HANGER = 0
"""The mark of the hanger among weighings."""


@dataclass(frozen=True, kw_only=True)
class Mass:
    """One mass [g] and the square of its standard uncertainty [g2]; `weighed` says whether a balance gave it."""

    mass_g: float
    variance_g2: float
    weighed: bool


@dataclass(frozen=True, kw_only=True)
class Tray:
    """What one bench hangs: its hanger (None: not weighed) and its rungs by mark (None: no mass is known)."""

    hanger: Mass | None
    rungs: Mapping[int, Mass | None]

    @property
    def weighed(self) -> bool:
        """Whether every rung has a balance mass."""
        return all(mass is not None and mass.weighed for mass in self.rungs.values())


@dataclass(frozen=True, kw_only=True)
class Load:
    """Total mass [g] and force [N] with standard uncertainties, or all None and `why` in a sentence."""

    mass_g: float | None
    mass_u_g: float | None
    force_n: float | None
    force_u_n: float | None
    hanger_counted: bool
    why: str | None = None


def division_variance(division: float) -> float:
    """Square of the standard uncertainty of a value read to one division.

    Parameters: division, width of one division [any unit], 0 or more.
    Returns: division**2 / 12 [that unit squared]: a rectangular distribution one division wide.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 4.3.7, with the half-width division / 2.
    """
    return division**2 / 12


def half_width_variance(half_width: float) -> float:
    """Square of the standard uncertainty of a value known only to lie within +- a half-width.

    Parameters: half_width [any unit], 0 or more.
    Returns: half_width**2 / 3 [that unit squared]: a rectangular distribution.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 4.3.7.
    """
    return half_width**2 / 3


def tray_of(lesson: LessonRecord, bench_id: str) -> Tray:
    """What a bench of the lesson hangs: balance masses where there are any, else printed ones.

    Parameters: lesson, the record as it stands; bench_id, one of its benches.
    Returns: the tray, masses [g]; weighings left out by a ruling are not used.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 4.3.7, for the uncertainty of each mass.
    """
    ours = (weighing for weighing in lesson.weighings if weighing.bench_id in (None, bench_id))
    weighings = counted(ours, lesson.rulings)
    return tray(lesson.rungs, weighings, bench_id=bench_id, tolerance_percent=lesson.printed_mass_tolerance_percent)


def tray(
    rungs: Iterable[RungRecord], weighings: Iterable[Weighing], *, bench_id: str, tolerance_percent: float
) -> Tray:
    """What a bench hangs, from the ladder and the weighings that count.

    Parameters: rungs, the ladder, shape (n,); weighings, shape (any,), of every tray or of one bench, mark 0 the
        hanger; bench_id, the bench whose tray it is; tolerance_percent, half-width of what printed masses may be off
        [% of the printed mass].
    Returns: the tray, masses and uncertainties [g]. A bench's own weighing goes before every tray's, a later before
        an earlier; a rung never weighed has its printed mass, one without either has None; a hanger never weighed
        is None, which counts as 0 g.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 4.3.7.
    """
    balance: dict[int, Weighing] = {}
    ours = (weighing for weighing in weighings if weighing.bench_id in (None, bench_id))
    for weighing in sorted(ours, key=lambda weighing: (weighing.bench_id is not None, weighing.n)):
        balance[weighing.mark] = weighing
    return Tray(
        hanger=_weighed(balance.get(HANGER)),
        rungs={rung.mark: _weighed(balance.get(rung.mark)) or _printed(rung, tolerance_percent) for rung in rungs},
    )


def _weighed(weighing: Weighing | None) -> Mass | None:
    if weighing is None:
        return None
    return Mass(mass_g=weighing.mass_g, variance_g2=division_variance(weighing.balance_division_g), weighed=True)


def _printed(rung: RungRecord, tolerance_percent: float) -> Mass | None:
    if rung.printed_mass_g is None:
        return None
    half_width = rung.printed_mass_g * tolerance_percent / 100
    return Mass(mass_g=rung.printed_mass_g, variance_g2=half_width_variance(half_width), weighed=False)


def load(hung: Tray, marks: Sequence[int], *, gravity_m_per_s2: float) -> Load:
    """The load of the hanger and a set of rungs.

    Parameters: hung, the tray [g]; marks, the rungs that hang, shape (k,), empty for the hanger alone;
        gravity_m_per_s2, gravity in use [m/s2], a stated convention without uncertainty.
    Returns: total mass [g], its standard uncertainty [g] (masses in quadrature), force [N] = mass x gravity / 1000
        and its standard uncertainty [N]. All None, with a sentence, when a rung is not on the ladder or has no mass.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 5.1.2 (sum of independent quantities); standard gravity by the 3rd CGPM, 1901.
    """
    found = [hung.rungs.get(mark) for mark in marks]
    masses = [mass for mass in (hung.hanger, *found) if mass is not None]
    counted_hanger = hung.hanger is not None
    if None in found:
        mark = marks[found.index(None)]
        why = f"Number {mark} has no mass yet." if mark in hung.rungs else f"There is no number {mark} on the ladder."
        return Load(mass_g=None, mass_u_g=None, force_n=None, force_u_n=None, hanger_counted=counted_hanger, why=why)
    mass_g = math.fsum(mass.mass_g for mass in masses)
    mass_u_g = math.sqrt(math.fsum(mass.variance_g2 for mass in masses))
    return Load(
        mass_g=mass_g,
        mass_u_g=mass_u_g,
        force_n=mass_g * gravity_m_per_s2 / 1000,
        force_u_n=mass_u_g * gravity_m_per_s2 / 1000,
        hanger_counted=counted_hanger,
    )
