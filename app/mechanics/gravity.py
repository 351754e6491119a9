"""What a kilogram weighs: the conventions that classes use, and normal gravity at a latitude."""

import math
from collections.abc import Mapping

from app.domain.errors import fault
from app.domain.limits import LATITUDE_DEG
from app.domain.quantities import STANDARD_GRAVITY_M_PER_S2

CONVENTIONS: Mapping[float, str] = {
    STANDARD_GRAVITY_M_PER_S2: "standard gravity",
    9.81: "9.81, as schools use it",
    9.8: "9.8, as schools use it",
    10.0: "10, as schools use it",
}
"""The values that a lesson may state without a latitude [m/s2], each with its words; the last three are common
practice in schools, no published source."""

AT_EQUATOR_M_PER_S2 = 9.7803253359
SOMIGLIANA = 0.00193185265241
ECCENTRICITY_SQUARED = 0.00669437999014
"""Of the ellipsoid of WGS 84, NIMA TR8350.2 (third edition)."""


def normal_gravity_m_per_s2(latitude_deg: float) -> float:
    """Gravity on the ellipsoid of WGS 84, at sea level, at a latitude.

    Parameters: latitude_deg, north or south [degrees].
    Returns: normal gravity [m/s2]; a height of 1,000 m takes 0.003 off, which is left out.
    Raises: InvalidEntry when the latitude is beyond a pole.
    Source: NIMA TR8350.2, Department of Defense World Geodetic System 1984, equation 4-1 (Somigliana's formula).
    """
    if not LATITUDE_DEG[0] <= latitude_deg <= LATITUDE_DEG[1]:
        raise fault("latitude_deg", "A latitude lies between −90 and 90 degrees.")
    sine_squared = math.sin(math.radians(latitude_deg)) ** 2
    return AT_EQUATOR_M_PER_S2 * (1 + SOMIGLIANA * sine_squared) / math.sqrt(1 - ECCENTRICITY_SQUARED * sine_squared)


def convention_words(gravity_m_per_s2: float) -> str | None:
    """What a value of g is called when it is one of the conventions.

    Parameters: gravity_m_per_s2, gravity in use [m/s2].
    Returns: its words; None when it is none of them, so that it must have come from elsewhere.
    Raises: nothing.
    Source: 3rd CGPM, 1901, for the standard; the others are common practice, no published source.
    """
    return CONVENTIONS.get(gravity_m_per_s2)
