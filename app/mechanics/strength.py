"""What a breaking force says of the material: for each strip, for each gram in a metre, for each square millimetre."""

import math

from app.domain.tested import TestedCord
from app.mechanics.breaking import Bracket
from app.mechanics.material import LEAST, NO_STRANDS, linear_density, relative_u, section_area
from app.mechanics.result import Result, none

NO_BREAK = "No breaking force of this cord is known."
UNBROKEN = "It did not break, so all that is known is that it is more."
NO_SECTION_OF_A_PLAIT = "A plait has no single section, so no stress of it is given: compare by the mass of a metre."

CN_PER_TEX = 0.1
"""1 N for each g/m is 0.1 cN/tex: 100 cN over 1000 tex."""


def load_per_strand(bracket: Bracket, cord: TestedCord) -> Result:
    """The breaking force for each strip of the cord.

    Parameters: bracket, the cord's breaking force [N]; cord, as it was told, its strips [1].
    Returns: breaking force / strips [N], as `off_bracket` does; None, with a sentence, when either is not known.
    Raises: nothing.
    Source: our own definition.
    """
    if not cord.strands or cord.strands < 0:
        return none(NO_STRANDS, "N")
    return off_bracket(bracket, 1 / cord.strands, doubt=_force_doubt(cord), unit="N")


def load_per_linear_density(bracket: Bracket, cord: TestedCord) -> Result:
    """The breaking force for each gram in a metre of cord.

    Parameters: bracket, the cord's breaking force [N]; cord, as it was told, its linear density [g/m].
    Returns: breaking force / linear density [N/(g/m)], as `off_bracket` does; None, with a sentence, when either is
        not known.
    Raises: nothing.
    Source: the definition of tenacity, in the units of a classroom.
    """
    return _over_linear_density(bracket, cord, 1.0, unit="N/(g/m)")


def tenacity(bracket: Bracket, cord: TestedCord) -> Result:
    """The breaking force over the linear density, as the textile trade says it.

    Parameters: bracket, the cord's breaking force [N]; cord, as it was told, its linear density [g/m].
    Returns: tenacity [cN/tex], as `off_bracket` does; None, with a sentence, when either is not known.
    Raises: nothing.
    Source: the definition of tenacity; ISO 1144 for the tex (from memory).
    """
    return _over_linear_density(bracket, cord, CN_PER_TEX, unit="cN/tex")


def breaking_length(bracket: Bracket, cord: TestedCord) -> Result:
    """The length of cord that would break under its own weight: L = F / (mu g).

    Parameters: bracket, the cord's breaking force [N]; cord, as it was told, its linear density [g/m] and gravity in
        use [m/s2].
    Returns: the length [km], as `off_bracket` does; None, with a sentence, when either is not known.
    Raises: nothing.
    Source: the definition of breaking length, of yarn and paper (from memory).
    """
    return _over_linear_density(bracket, cord, 1 / cord.gravity_m_per_s2, unit="km")


def stress_at_break(bracket: Bracket, cord: TestedCord) -> Result:
    """The engineering stress under which a single flat strip broke.

    Parameters: bracket, the cord's breaking force [N]; cord, as it was told [mm, um].
    Returns: breaking force over the section before any load [MPa], as `off_bracket` does; None, with a sentence, for
        a cord of several strips or an unknown section.
    Raises: nothing.
    Source: the definition of engineering (nominal) stress, as in ISO 527-1 (from memory).
    """
    area = _single_section(cord)
    if area.value is None:
        return none(area.why or "", "MPa")
    doubt = math.hypot(relative_u(area), _force_doubt(cord))
    return off_bracket(bracket, 1 / area.value, doubt=doubt, unit="MPa")


def off_bracket(bracket: Bracket, factor: float, *, doubt: float, unit: str) -> Result:
    """A figure that is a breaking force times a factor.

    Parameters: bracket, the breaking force [N]; factor [the figure's unit per N]; doubt, relative standard
        uncertainty of the factor and of the force together [1]; unit, of the figure [its symbol].
    Returns: the bracket's middle times the factor, its ends as low and high; u joins the bracket's width as a
        rectangular distribution and the doubt [that unit]. Of an unbroken cord no value, with a sentence, and low;
        of no breaking force nothing, with a sentence.
    Raises: nothing.
    Source: JCGM 100:2008 (GUM), 4.3.7 (a value between two bounds) and 5.1.6.
    """
    if bracket.low_n is None:
        return none(bracket.why or NO_BREAK, unit)
    if bracket.high_n is None:
        return Result(value=None, unit=unit, low=bracket.low_n * factor, why=bracket.why or UNBROKEN)
    middle_n = (bracket.low_n + bracket.high_n) / 2
    width_u_n = (bracket.high_n - bracket.low_n) / math.sqrt(12)
    return Result(
        value=middle_n * factor,
        unit=unit,
        standard_uncertainty=factor * math.hypot(width_u_n, middle_n * doubt),
        low=bracket.low_n * factor,
        high=bracket.high_n * factor,
    )


def _over_linear_density(bracket: Bracket, cord: TestedCord, scale: float, *, unit: str) -> Result:
    density = linear_density(cord)
    if density.value is None:
        return none(density.why or "", unit)
    doubt = math.hypot(relative_u(density), _force_doubt(cord))
    return off_bracket(bracket, scale / density.value, doubt=doubt, unit=unit)


def _single_section(cord: TestedCord) -> Result:
    """The section of a cord that is a single flat strip [mm2]."""
    several = cord.strands is not None and cord.strands > 1
    return none(NO_SECTION_OF_A_PLAIT, "mm2") if several else section_area(cord)


def _force_doubt(cord: TestedCord) -> float:
    """Relative standard uncertainty of the heaviest load read: the one it failed under hangs the same masses."""
    known = [(row.mass_g, row.mass_u_g or 0.0) for row in cord.rows if row.mass_g and row.mass_g >= LEAST]
    heaviest_g, u_g = max(known, default=(1.0, 0.0))
    return u_g / heaviest_g
