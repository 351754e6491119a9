"""What a cord is made of: mass of a metre, section of its strips, thickness of its film, take-up, with uncertainties.

A cord is told without the uncertainty of its measures, so each has an assumed one, a rectangular distribution.
"""

import math
from collections.abc import Sequence

from app.domain.tested import TestedCord
from app.mechanics.cord import linear_density_g_per_m
from app.mechanics.loading import half_width_variance
from app.mechanics.result import NORMAL_975, Result, from_scatter, none, relative_product

LENGTH_HALF_WIDTH_MM = 2.5
"""Of a length along a cord or strip, by rule: where does a knot start? Common practice, no published source."""

STRIP_WIDTH_HALF_WIDTH_MM = 0.75
"""Of the width of a strip, by rule. Common practice, no published source."""

FILM_THICKNESS_HALF_WIDTH_PERCENT = 4.0
"""Of a film's thickness, by a stack of 16 or by weighing. Common practice, no published source."""

LINEAR_DENSITY_HALF_WIDTH_PERCENT = 3.0
"""Of the mass of a metre of cord, by balance and rule. Common practice, no published source."""

LEAST = 1e-9
"""A measure of less is none: divided by it, a force would be more than a number can hold."""

NO_FREE_LENGTH = "The length between the knots was not measured."
NO_LINEAR_DENSITY = "The mass of a metre of this cord is not known: weigh a piece of it and measure its length."
NO_STRANDS = "The number of strips of this cord is not known."
NO_WIDTH = "The width of a strip was not measured."
NO_THICKNESS = "The thickness of the film is not known: weigh a piece of known area."
NO_LENGTHS = "Take-up needs the length of a strip before plaiting and that of the cord made of it."
LONGER_THAN_STRIPS = "The cord is told to be longer than its strips were, so one of the two lengths can't be right."
NOTHING_WEIGHED = "Mass, area and density must all be more than nothing."
OF_MATERIAL = "of the material's section"


def free_length(cord: TestedCord) -> Result:
    """The length of a cord between its knots.

    Parameters: cord, as it was told [mm].
    Returns: the free length [mm] with its assumed uncertainty; None, with a sentence, when nobody measured it.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 4.3.7; the half-width is common practice, no published source.
    """
    length_mm = cord.gauge_length_mm
    if length_mm is None or not _is_known(length_mm):
        return none(NO_FREE_LENGTH, "mm")
    return assumed(length_mm, _u(LENGTH_HALF_WIDTH_MM), unit="mm")


def linear_density(cord: TestedCord) -> Result:
    """The mass of a metre of cord.

    Parameters: cord, as it was told: the mass [g] and length [mm] of a piece weighed, or its linear density [g/m].
    Returns: mass over length where a piece was weighed, else what was stated [g/m], with its assumed uncertainty
        (1 g/m = 1000 tex); None, with a sentence, when neither is known.
    Raises: nothing.
    Source: the definition of linear density, as in ISO 1144, the tex system (from memory); JCGM 100:2008, 4.3.7.
    """
    weighed = linear_density_g_per_m(cord.cord_mass_g, cord.cord_length_mm)
    value = weighed if _is_known(weighed) else cord.linear_density_g_per_m
    if value is None or not _is_known(value):
        return none(NO_LINEAR_DENSITY, "g/m")
    return assumed(value, value * _u(LINEAR_DENSITY_HALF_WIDTH_PERCENT / 100), unit="g/m")


def stated_density(cords: Sequence[TestedCord]) -> Result | None:
    """The one mass of a metre that was stated for a whole design.

    Parameters: cords, of one design, as they were told, shape (n,), may be empty.
    Returns: the linear density [g/m] with its assumed uncertainty; None when it is not known of each, differs, or was
        weighed on one of them.
    Raises: nothing.
    Source: no sum is made here; `linear_density` names its own.
    """
    found = [linear_density(cord) for cord in cords]
    weighed = any(cord.cord_mass_g is not None and cord.cord_length_mm is not None for cord in cords)
    same = len({one.value for one in found}) == 1
    return found[0] if same and not weighed and found[0].value is not None else None


def section_area(cord: TestedCord) -> Result:
    """The section of the material that a cord is made of: A = n w t, times the layers of a folded strip.

    Parameters: cord, as it was told: strips [1], their width [mm], layers [1] (not told: one), thickness [um].
    Returns: the section before any load [mm2] with its assumed uncertainty; of more than one strip with the note
        that it is the material's: a plait has no section of its own. None, with a sentence for what is missing.
    Raises: nothing.
    Source: elementary; JCGM 100:2008 (GUM), 5.1.6 and 4.3.7.
    """
    strands, width_mm, thickness_um = cord.strands, cord.strip_width_mm, cord.film_thickness_um
    if strands is None or not _is_known(strands):
        return none(NO_STRANDS, "mm2")
    if width_mm is None or not _is_known(width_mm):
        return none(NO_WIDTH, "mm2")
    if thickness_um is None or not _is_known(thickness_um):
        return none(NO_THICKNESS, "mm2")
    area_mm2 = strands * (cord.layers or 1) * width_mm * thickness_um / 1000
    doubt = math.hypot(_u(STRIP_WIDTH_HALF_WIDTH_MM) / width_mm, _u(FILM_THICKNESS_HALF_WIDTH_PERCENT / 100))
    return assumed(area_mm2, area_mm2 * doubt, unit="mm2").noted(OF_MATERIAL if strands > 1 else None)


def take_up(strip_length_mm: float | None, cord_length_mm: float | None) -> Result:
    """How much shorter a cord is than the strips that it was plaited from, as a part of the strips' length.

    Parameters: strip_length_mm, of a strip before plaiting [mm]; cord_length_mm, of the cord made of it [mm].
    Returns: 1 - cord / strip [1] with its assumed uncertainty; None, with a sentence, when a length is missing or the
        cord is the longer. (Crimp divides by the cord's length instead: the two are never mixed.)
    Raises: nothing.
    Source: textile practice, as in ISO 7211-3 (from memory); JCGM 100:2008 (GUM), 5.1.6.
    """
    if strip_length_mm is None or cord_length_mm is None or min(strip_length_mm, cord_length_mm) < LEAST:
        return none(NO_LENGTHS, "1")
    if cord_length_mm > strip_length_mm:
        return none(LONGER_THAN_STRIPS, "1")
    left, u_mm = cord_length_mm / strip_length_mm, _u(LENGTH_HALF_WIDTH_MM)
    return assumed(1 - left, left * relative_product((cord_length_mm, u_mm), (strip_length_mm, u_mm)), unit="1")


def film_thickness(
    mass_g: float,
    area_mm2: float,
    density_kg_per_m3: float,
    *,
    mass_u_g: float = 0.0,
    area_u_mm2: float = 0.0,
    density_u_kg_per_m3: float = 0.0,
) -> Result:
    """The thickness of a film by weighing a piece of known area: t = m / (rho A).

    Parameters: mass_g, of the piece [g]; area_mm2, of its one side [mm2]; density_kg_per_m3, of the material
        [kg/m3]; mass_u_g [g], area_u_mm2 [mm2], density_u_kg_per_m3 [kg/m3], their standard uncertainties.
    Returns: the thickness [um]; None, with a sentence, when one of the three is not over 0.
    Raises: nothing.
    Source: the principle of ISO 4591 (from memory of the clause); JCGM 100:2008 (GUM), 5.1.6.
    """
    if min(mass_g, area_mm2, density_kg_per_m3) <= 0:
        return none(NOTHING_WEIGHED, "um")
    doubt = relative_product((mass_g, mass_u_g), (area_mm2, area_u_mm2), (density_kg_per_m3, density_u_kg_per_m3))
    thickness_um = mass_g / density_kg_per_m3 / area_mm2 * 1e9
    return assumed(thickness_um, thickness_um * doubt, unit="um")


def assumed(value: float, u: float, *, unit: str) -> Result:
    """A figure whose uncertainty is no scatter of readings but what its inputs are taken to be good to.

    Parameters: value; u, its standard uncertainty; unit [its symbol].
    Returns: value -+ 1.96 standard uncertainties [that unit].
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 6.2.1, coverage of 95 % of a normal distribution.
    """
    return from_scatter(value, u, NORMAL_975, unit=unit)


def relative_u(result: Result) -> float:
    """The standard uncertainty of a figure over its value.

    Parameters: result, a figure over 0 with its uncertainty, or none.
    Returns: their quotient [1]; 0 where either is missing.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 5.1.6.
    """
    return result.standard_uncertainty / result.value if result.value and result.standard_uncertainty else 0.0


def _u(half_width: float) -> float:
    return math.sqrt(half_width_variance(half_width))


def _is_known(value: float | None) -> bool:
    return value is not None and value >= LEAST
