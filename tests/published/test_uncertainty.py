"""How uncertainties pass through a sum, against published examples; `tests/reference/uncertainty.json`."""

import math
from itertools import combinations
from typing import Any

import numpy as np
import pytest
from uncertainties import ufloat

from app.mechanics.breaking import Bracket
from app.mechanics.line import least_squares
from app.mechanics.material import FILM_THICKNESS_HALF_WIDTH_PERCENT as FILM
from app.mechanics.material import LENGTH_HALF_WIDTH_MM as LENGTH
from app.mechanics.material import LINEAR_DENSITY_HALF_WIDTH_PERCENT as DENSITY
from app.mechanics.material import STRIP_WIDTH_HALF_WIDTH_MM as WIDTH
from app.mechanics.material import film_thickness, take_up
from app.mechanics.propagation import difference_u, propagated, propagated_u
from app.mechanics.result import NORMAL_975, from_scatter, student
from app.mechanics.stiffness import youngs_modulus
from app.mechanics.strength import breaking_length, tenacity
from tests.mechanics.told import a_cord, a_row
from tests.published.tables import columns, published, rows

PUBLISHED = published("uncertainty.json")
PRECISELY = 1e-12


def rectangular(value: float, half_width: float) -> Any:
    return ufloat(value, half_width / math.sqrt(3))


def test_end_gauge() -> None:
    """JCGM 100:2008 (GUM), H.1: u_c = 32 nm; expansion and temperature enter through differences alone."""
    budget = {row["quantity"]: row for row in rows("gum_h1_end_gauge.csv")}
    names = ("l_S", "d_mean", "d_random", "d_systematic", "alpha_S", "theta", "delta_alpha", "delta_theta")
    estimate = {name: float(budget[name]["estimate"]) for name in names}
    variances = np.diag([float(budget[name]["standard_uncertainty"]) ** 2 for name in names]).tolist()
    length = estimate["l_S"]
    gradient = (
        *(1, 1, 1, 1),
        -length * estimate["delta_theta"],
        -length * estimate["delta_alpha"],
        -length * estimate["theta"],
        -length * estimate["alpha_S"],
    )
    case = PUBLISHED["gum_h1_end_gauge.csv"]
    assert propagated_u(gradient, variances) == pytest.approx(case["u_nm"], abs=case["printed_to_nm"])


def impedance() -> tuple[list[float], tuple[tuple[float, ...], ...]]:
    """R, X and Z of the means, and their covariance matrix, from five sets of readings taken together."""
    readings = np.array(columns("gum_h2_impedance.csv"))
    (volt, amp, phase), shared = readings.mean(axis=1), np.cov(readings) / readings.shape[1]
    z, cosine, sine = volt / amp, math.cos(phase), math.sin(phase)
    derivatives = [
        [cosine / amp, -z * cosine / amp, -z * sine],
        [sine / amp, -z * sine / amp, z * cosine],
        [1 / amp, -z / amp, 0.0],
    ]
    return [z * cosine, z * sine, z], propagated(derivatives, shared.tolist())


def test_quantities_measured_together() -> None:
    """JCGM 100:2008 (GUM), H.2, tables H.3 and H.4: 127.732 (0.0711), 219.847 (0.2956), 254.260 (0.2363) ohm."""
    case, (values, covariance) = PUBLISHED["gum_h2_impedance.csv"], impedance()
    u = [math.sqrt(covariance[i][i]) for i in range(3)]
    assert values == pytest.approx(case["values_ohm"], abs=case["values_printed_to"])
    assert u == pytest.approx(case["u_ohm"], abs=case["u_to"])
    assert u == pytest.approx(case["u_printed_ohm"], abs=case["u_printed_to"])
    for (i, one), (j, other) in combinations(enumerate("RXZ"), 2):
        expected = pytest.approx(case["correlations"][f"{one},{other}"], abs=case["correlations_printed_to"])
        assert covariance[i][j] / u[i] / u[j] == expected


@pytest.mark.parametrize("dof", PUBLISHED["student_95"]["factors"])
def test_coverage_factors(dof: str) -> None:
    """JCGM 100:2008 (GUM), table G.2 (from memory)."""
    case = PUBLISHED["student_95"]
    assert student(0.975, int(dof)) == pytest.approx(case["factors"][dof], abs=case["printed_to"])


def test_second_opinion_on_nested_loads() -> None:
    """The library uncertainties follows each mass by itself: what hangs in both loads cancels in their difference."""
    masses = [ufloat(100, 0.29), ufloat(103, 0.29), ufloat(98, 5.8), ufloat(204, 11.8)]
    light, heavy = sum(masses[:2]), sum(masses)
    assert difference_u(light.s, heavy.s) == pytest.approx((heavy - light).s, rel=PRECISELY)
    assert difference_u(heavy.s, light.s) == pytest.approx((heavy - light).s, rel=PRECISELY)
    assert difference_u(light.s, heavy.s) < math.hypot(light.s, heavy.s)


def test_second_opinion_on_tenacity_and_breaking_length() -> None:
    """The library uncertainties, on the same inputs: bracket, masses, linear density of +-3 %."""
    cord = a_cord(a_row(0, 200), a_row(9, 300, mass_u_g=31.0), linear_density_g_per_m=1.479, gravity_m_per_s2=9.81)
    bracket = Bracket(low_n=18.5, high_n=20.5)
    force = rectangular(19.5, 1.0) * ufloat(1, 31.0 / 1000)
    expected = force / rectangular(1.479, 1.479 * DENSITY / 100)
    for found, factor in ((tenacity(bracket, cord), 0.1), (breaking_length(bracket, cord), 1 / 9.81)):
        assert found.value == pytest.approx(factor * expected.n, rel=PRECISELY)
        assert found.standard_uncertainty == pytest.approx(factor * expected.s, rel=PRECISELY)
        assert (found.low, found.high) == pytest.approx((factor * 18.5 / 1.479, factor * 20.5 / 1.479), rel=PRECISELY)


def test_second_opinion_on_youngs_modulus() -> None:
    """The library uncertainties, on a stiffness whose interval is even, free length, strip width and thickness."""
    cord = a_cord(gauge_length_mm=200, strands=1, layers=2, strip_width_mm=15, film_thickness_um=25)
    area = 2 * rectangular(15, WIDTH) * rectangular(25, 25 * FILM / 100) / 1000
    expected = ufloat(0.45, 0.02) * rectangular(200, LENGTH) / area
    found = youngs_modulus(from_scatter(0.45, 0.02, NORMAL_975, unit="N/mm"), cord)
    assert found.value == pytest.approx(expected.n, rel=PRECISELY)
    assert found.standard_uncertainty == pytest.approx(expected.s, rel=PRECISELY)


def test_second_opinion_on_take_up_and_thickness() -> None:
    """The library uncertainties, on two lengths, and on mass, area and density."""
    left = rectangular(260, LENGTH) / rectangular(300, LENGTH)
    found = take_up(300, 260)
    assert found.value == pytest.approx((1 - left).n, rel=PRECISELY)
    assert found.standard_uncertainty == pytest.approx((1 - left).s, rel=PRECISELY)
    weighed = ufloat(0.23, 0.003) / ufloat(920, 9) / ufloat(10000, 60) * 1e9
    film = film_thickness(0.23, 10000, 920, mass_u_g=0.003, area_u_mm2=60, density_u_kg_per_m3=9)
    assert (film.value, film.standard_uncertainty) == pytest.approx((weighed.n, weighed.s), rel=PRECISELY)


def test_second_opinion_on_a_value_of_a_line() -> None:
    """The library uncertainties, each reading followed by itself through the closed form of the slope."""
    force, reading = [0.8, 1.8, 2.8, 4.8, 6.7, 8.7], [218.0, 222.5, 224.0, 229.0, 234.5, 238.0]
    line = least_squares(force, reading)
    followed = [ufloat(one, line.scatter) for one in reading]
    mean = sum(force) / len(force)
    slope = sum((x - mean) * y for x, y in zip(force, followed, strict=True)) / sum((x - mean) ** 2 for x in force)
    expected = sum(followed) / len(followed) + slope * (12.0 - mean)
    assert line.at(12.0) == pytest.approx((expected.n, expected.s), rel=1e-10)
    assert (slope.n, slope.s) == pytest.approx((line.slope, line.slope_u), rel=1e-10)
