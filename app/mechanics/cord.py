"""What a cord is before it is loaded: its own measures where there are any, else what the design says."""

from collections.abc import Iterable
from dataclasses import dataclass

from app.domain.records import DesignRecord, Measure
from app.domain.standing import measured


@dataclass(frozen=True, kw_only=True)
class Cord:
    """Free length [mm], number of strips, strip width [mm] and linear density [g/m]; None where nobody said."""

    free_length_mm: float | None
    strands: int | None
    strip_width_mm: float | None
    linear_density_g_per_m: float | None


def cord_of(measures: Iterable[Measure], design: DesignRecord) -> Cord:
    """The cord as measured, else as designed.

    Parameters: measures of the cord that count, shape (n,), may be empty; design, as the cord was made.
    Returns: lengths [mm], a count [1], linear density [g/m], each the mean of its places; None where nothing is known.
    Raises: nothing.
    Source: our own rules for entries.
    """
    given = tuple(measures)
    strands = _either(measured(given, "strands"), design.strands)
    weighed = linear_density_g_per_m(measured(given, "cord_mass_g"), measured(given, "cord_length_mm"))
    return Cord(
        free_length_mm=_either(measured(given, "free_length_mm"), design.free_length_mm),
        strands=None if strands is None else round(strands),
        strip_width_mm=_either(measured(given, "strip_width_mm"), design.strip_width_mm),
        linear_density_g_per_m=_either(weighed, design.linear_density_g_per_m),
    )


def linear_density_g_per_m(mass_g: float | None, length_mm: float | None) -> float | None:
    """Mass of a metre of cord.

    Parameters: mass_g, of the piece weighed [g]; length_mm, its length [mm].
    Returns: mass / length [g/m] (1 g/m = 1000 tex); None when either is missing or the length is 0.
    Raises: nothing.
    Source: the definition of linear density, as in ISO 1144, the tex system (from memory).
    """
    return mass_g / length_mm * 1000 if mass_g is not None and length_mm else None


def _either(own: float | None, planned: float | None) -> float | None:
    return planned if own is None else own
