"""Material, textile units and gravity against published and exact figures; `tests/reference/units.json`."""

import math
from collections.abc import Callable
from typing import Any

import pint
import pytest

from app.mechanics.breaking import Bracket
from app.mechanics.gravity import normal_gravity_m_per_s2
from app.mechanics.material import film_thickness, linear_density, take_up
from app.mechanics.result import ReadingScatter, Result, from_scatter
from app.mechanics.stiffness import secant_stiffness, youngs_modulus
from app.mechanics.strength import breaking_length, load_per_linear_density, stress_at_break, tenacity
from tests.mechanics.curves import curve_of
from tests.mechanics.told import a_cord
from tests.published.tables import published, rows

UNITS = published("units.json")
STANDARD = 9.80665
G_PER_M_OF_TEX = 0.001
GRAM_FORCE_N = STANDARD / 1000
EXACTLY = ReadingScatter(u_mm=0.0)


def value(result: Result) -> float:
    assert result.value is not None, result.why
    return result.value


def broke_at(force_n: float) -> Bracket:
    return Bracket(low_n=force_n, high_n=force_n)


def strip(**more: Any) -> Any:
    return a_cord(**({"gravity_m_per_s2": STANDARD, "strands": 1} | more))


def weighed(mass_g: float, length_mm: float) -> float:
    return value(linear_density(strip(cord_mass_g=mass_g, cord_length_mm=length_mm)))


def tenacity_of(force_n: float, linear_density_g_per_m: float) -> float:
    return value(tenacity(broke_at(force_n), strip(linear_density_g_per_m=linear_density_g_per_m)))


def stress_over_1_mm2(force_n: float) -> float:
    return value(stress_at_break(broke_at(force_n), strip(strip_width_mm=1.0, film_thickness_um=1000.0)))


DENIER_G_PER_M = 1 / 9000
POUND_G, YARD_MM = 453.59237, 914.4

OURS: dict[tuple[str, str], Callable[[], float]] = {
    ("gf/den", "cN/tex"): lambda: tenacity_of(GRAM_FORCE_N, DENIER_G_PER_M),
    ("gf/tex", "cN/tex"): lambda: tenacity_of(GRAM_FORCE_N, G_PER_M_OF_TEX),
    ("cN/dtex", "cN/tex"): lambda: tenacity_of(0.01, G_PER_M_OF_TEX / 10),
    ("cN/tex", "gf/den"): lambda: tenacity_of(0.01, G_PER_M_OF_TEX) / tenacity_of(GRAM_FORCE_N, DENIER_G_PER_M),
    ("cN/tex", "km"): lambda: value(breaking_length(broke_at(0.01), strip(linear_density_g_per_m=G_PER_M_OF_TEX))),
    ("tex", "den"): lambda: weighed(1, 1e6) / weighed(1, 9e6),
    ("den", "dtex"): lambda: weighed(1, 9e6) / weighed(1, 1e7),
    ("N/tex", "GPa/(g/cm3)"): lambda: stress_over_1_mm2(1000) / 1000 / (tenacity_of(1000, 1.0) / 100),
    ("(cN/tex)*(g/cm3)", "MPa"): lambda: stress_over_1_mm2(1.0) / tenacity_of(1.0, 1.0),
    ("tex*Ne", "constant"): lambda: weighed(POUND_G, 840 * YARD_MM) * 1000,
    ("kgf/cm2", "MPa"): lambda: stress_over_1_mm2(STANDARD) / 100,
}
"""Each conversion as our own sums make it: a film of 1 g/cm3 and 1 mm2 weighs 1 g/m."""


@pytest.mark.parametrize("row", rows("textile_conversions.csv"), ids=lambda row: f"{row['from_unit']} {row['to_unit']}")
def test_textile_units(row: dict[str, str]) -> None:
    """Definitions of tex (ISO 1144), denier and gram-force (3rd CGPM, 1901): exact, or to the 13 digits printed."""
    found = OURS[row["from_unit"], row["to_unit"]]()
    assert found == pytest.approx(float(row["factor"]), rel=1e-14 if row["exact"] == "yes" else 1e-12)


def test_every_conversion_is_tried() -> None:
    """Both lists are the same."""
    assert {(row["from_unit"], row["to_unit"]) for row in rows("textile_conversions.csv")} == set(OURS)


@pytest.mark.parametrize(("force_n", "g_per_m"), [(25.53, 1.479), (17.515, 0.884), (0.3, 5.2)])
def test_a_units_library_agrees(force_n: float, g_per_m: float) -> None:
    """Second opinion: the library pint converts force over linear density to cN/tex, gf/den and km."""
    ureg = pint.UnitRegistry()
    quotient = (force_n * ureg.newton) / (g_per_m * ureg.gram / ureg.meter)
    cord = strip(linear_density_g_per_m=g_per_m)
    assert tenacity_of(force_n, g_per_m) == pytest.approx(quotient.to("centinewton / tex").magnitude, rel=1e-13)
    length = (quotient / (STANDARD * ureg.meter / ureg.second**2)).to("kilometer").magnitude
    assert value(breaking_length(broke_at(force_n), cord)) == pytest.approx(length, rel=1e-13)
    assert value(load_per_linear_density(broke_at(force_n), cord)) == pytest.approx(force_n / g_per_m, rel=1e-15)


def test_strip_of_film() -> None:
    """Worked out from the definitions: 15 mm x 25 um at 0.92 g/cm3 under 18.5 MPa, 2.011 cN/tex, 2.051 km."""
    case = UNITS["strip_of_film"]
    facts = {name: case[name] for name in ("strip_width_mm", "film_thickness_um", "linear_density_g_per_m")}
    cord = strip(**facts)
    force_n = case["stress_mpa"] * case["strip_width_mm"] * case["film_thickness_um"] / 1000
    assert value(stress_at_break(broke_at(force_n), cord)) == pytest.approx(case["stress_mpa"])
    assert value(tenacity(broke_at(force_n), cord)) == pytest.approx(case["tenacity_cn_per_tex"], abs=case["tolerance"])
    assert value(breaking_length(broke_at(force_n), cord)) == pytest.approx(
        case["breaking_length_km"], abs=case["tolerance"]
    )


def test_thickness_of_a_film_by_weighing() -> None:
    """The principle of ISO 4591 (from memory of the clause): 0.230 g, 100 cm2, 0.92 g/cm3 are 25.0 um."""
    case = UNITS["thickness_by_weighing"]
    found = film_thickness(case["mass_g"], case["area_mm2"], case["density_kg_per_m3"])
    assert value(found) == pytest.approx(case["thickness_um"], abs=case["tolerance"])


def test_take_up_is_not_crimp() -> None:
    """Textile practice (terms of ISO 7211-3): 21.2 cm of thread in 20 cm are 5.66 % take-up and 6.0 % crimp."""
    case = UNITS["take_up"]
    found = take_up(case["strip_length_mm"], case["cord_length_mm"])
    assert 100 * value(found) == pytest.approx(case["take_up_percent"], abs=case["tolerance"])
    assert 100 * value(found) != pytest.approx(case["crimp_percent"], abs=0.1)


def test_stress_of_a_rod() -> None:
    """OpenStax, University Physics Volume 1, chapter 12, problem 73: 1.10e9 Pa."""
    case = UNITS["stress"]
    found = stress_at_break(broke_at(case["force_n"]), strip(strip_width_mm=case["area_mm2"], film_thickness_um=1000))
    assert value(found) == pytest.approx(case["stress_mpa"], abs=case["tolerance"])


@pytest.mark.parametrize("case", UNITS["youngs_modulus"], ids=lambda case: str(case["modulus_mpa"]))
def test_youngs_modulus(case: dict[str, Any]) -> None:
    """OpenStax, University Physics Volume 1, chapter 12, problems 57 (1.35e9 Pa) and 59 (11e10 Pa)."""
    area_mm2 = math.pi * case["diameter_mm"] ** 2 / 4
    cord = strip(gauge_length_mm=case["length_mm"], strip_width_mm=area_mm2, film_thickness_um=1000)
    stiffness = from_scatter(case["force_n"] / case["stretch_mm"], 0.0, 2.0, unit="N/mm")
    assert value(youngs_modulus(stiffness, cord)) == pytest.approx(case["modulus_mpa"], abs=case["tolerance"])


def test_secant_of_a_spring() -> None:
    """OpenStax, College Physics, section 16.1: 10.0 kg move a fish scale by 8.00 cm, 1.23e3 N/m."""
    case = UNITS["spring"]
    force_n = case["mass_g"] * case["gravity_m_per_s2"] / 1000
    found = secant_stiffness(curve_of([(0, 0), (force_n, case["stretch_mm"])]), force_n, EXACTLY)
    assert value(found) == pytest.approx(case["stiffness_n_per_mm"], abs=case["tolerance"])


@pytest.mark.parametrize("row", rows("wgs84_normal_gravity.csv"), ids=lambda row: row["latitude_deg"])
def test_normal_gravity(row: dict[str, str]) -> None:
    """NIMA TR8350.2 (WGS 84): equator 9.7803253359, pole 9.8321849379, and between, north as south."""
    latitude_deg, expected = float(row["latitude_deg"]), float(row["g_m_s2"])
    printed_to = UNITS["wgs84_normal_gravity.csv"]["printed_to"]
    assert normal_gravity_m_per_s2(latitude_deg) == pytest.approx(expected, abs=1.01 * printed_to)
    assert normal_gravity_m_per_s2(-latitude_deg) == normal_gravity_m_per_s2(latitude_deg)
