"""Single straight lines against published ones; `tests/reference/lines.json` and the tables that it names."""

import math
from typing import Any

import pytest

from app.mechanics.line import Line, least_squares, through_origin, with_stated_u
from app.mechanics.material import section_area
from app.mechanics.result import from_scatter
from app.mechanics.stiffness import youngs_modulus
from tests.mechanics.told import a_cord
from tests.published.tables import columns, published

LINES = published("lines.json")
MM_PER_CM = 10


def digits(found: float, certified: str) -> float:
    """To how many digits a figure agrees with a certified one."""
    error = abs(found - float(certified)) / abs(float(certified))
    return 16.0 if error == 0 else -math.log10(error)


def fitted(name: str) -> tuple[Line, dict[str, Any]]:
    y, x = columns(name)
    line = least_squares(x, y) if name == "nist_norris.csv" else through_origin(x, y)
    return line, LINES[name]


@pytest.mark.parametrize(
    ("name", "figure"),
    [
        ("nist_norris.csv", one)
        for one in ("intercept", "intercept_u", "slope", "slope_u", "scatter", "residual_squares")
    ]
    + [("nist_noint1.csv", one) for one in ("slope", "slope_u", "scatter", "residual_squares")],
)
def test_certified_lines(name: str, figure: str) -> None:
    """NIST StRD, Norris and NoInt1: certified to 15 digits; ours agree to 12 and more, standard errors too."""
    line, certified = fitted(name)
    assert digits(getattr(line, figure), certified[figure]) > 12
    assert line.dof == certified["dof"]


def test_line_through_the_origin_is_sure_of_it() -> None:
    """NIST StRD, NoInt1."""
    line, _ = fitted("nist_noint1.csv")
    assert (line.intercept, line.intercept_u, line.covariance) == (0, 0, 0)


@pytest.mark.parametrize("figure", ["intercept", "intercept_u", "slope", "slope_u", "covariance", "residual_squares"])
def test_line_of_stated_uncertainties(figure: str) -> None:
    """ISO/TS 28037:2010, clause 6, page 13: figures as printed, observed chi-squared 1.665."""
    expected = LINES["iso28037_wls_equal.csv"]
    x, y, u = columns("iso28037_wls_equal.csv")
    line = with_stated_u(x, y, u)
    printed_to = expected["printed_to"] if figure in ("covariance", "residual_squares") else 1e-6
    assert getattr(line, figure) == pytest.approx(expected[figure], abs=printed_to)


def thermometer() -> Line:
    t, b = columns("gum_h3_thermometer.csv")
    return least_squares([one - LINES["gum_h3_thermometer.csv"]["t0"] for one in t], b)


@pytest.mark.parametrize("figure", ["intercept", "intercept_u", "slope", "slope_u", "scatter", "residual_squares"])
def test_calibration_line_of_a_thermometer(figure: str) -> None:
    """JCGM 100:2008 (GUM), H.3: figures as printed; s from memory."""
    expected, printed_to = LINES["gum_h3_thermometer.csv"][figure]
    assert getattr(thermometer(), figure) == pytest.approx(expected, abs=printed_to)


def test_value_of_the_line_keeps_the_covariance() -> None:
    """JCGM 100:2008 (GUM), H.3.4: b(30) = -0.1494 with u = 0.0041; without the covariance it would be 0.0073."""
    expected, line = LINES["gum_h3_thermometer.csv"], thermometer()
    value, u = line.at(30 - expected["t0"])
    assert value == pytest.approx(expected["at_30"][0], abs=expected["at_30"][1])
    assert u == pytest.approx(expected["at_30_u"][0], abs=expected["at_30_u"][1])
    correlation = line.covariance / line.intercept_u / line.slope_u
    assert correlation == pytest.approx(expected["correlation"][0], abs=expected["correlation"][1])
    assert line.dof == expected["dof"]


def wire() -> tuple[Line, dict[str, Any]]:
    """The line of the wire's straight part: reading [cm] on load [N]."""
    expected = LINES["openstax_wire_pointer.csv"]
    low, high = expected["straight_n"]
    pairs = [pair for pair in zip(*columns("openstax_wire_pointer.csv"), strict=True) if low <= pair[0] <= high]
    return least_squares([load for load, _ in pairs], [reading for _, reading in pairs]), expected


def test_pan_of_the_wire_hung_when_its_zero_was_read() -> None:
    """OpenStax, University Physics Volume 1, section 12.4: the line of 15 to 55 N reads 4.000 cm at 4.97 N.

    The pan is told to weigh 5.0 N. No answer is printed: slope 0.003630(19) cm/N is our own sum, worked out twice.
    """
    line, expected = wire()
    assert line.slope == pytest.approx(expected["slope_cm_per_n"][0], abs=expected["slope_cm_per_n"][1])
    assert line.slope_u == pytest.approx(expected["slope_u_cm_per_n"][0], abs=expected["slope_u_cm_per_n"][1])
    at_n = (expected["zero_reading_cm"] - line.intercept) / line.slope
    assert at_n == pytest.approx(expected["load_at_zero_reading_n"][0], abs=expected["load_at_zero_reading_n"][1])


def test_wire_is_of_aluminium() -> None:
    """OpenStax, University Physics Volume 1, section 12.4, and its Table 12.1: Young's modulus 7.0e10 Pa."""
    line, expected = wire()
    area_mm2 = math.pi * expected["diameter_mm"] ** 2 / 4
    cord = a_cord(
        gauge_length_mm=expected["length_mm"], strands=1, strip_width_mm=1.0, film_thickness_um=1000 * area_mm2
    )
    stiffness = 1 / (line.slope * MM_PER_CM)
    found = youngs_modulus(from_scatter(stiffness, 0.005 * stiffness, 2.0, unit="N/mm"), cord)
    assert section_area(cord).value == pytest.approx(area_mm2)
    assert found.value == pytest.approx(expected["youngs_modulus_mpa"][0], abs=expected["youngs_modulus_mpa"][1])
