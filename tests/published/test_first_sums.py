"""Force, extension and strain against values that were published elsewhere; `tests/reference/first_sums.json`."""

import json
import math
from pathlib import Path
from typing import Any

import pytest

from app.domain.quantities import STANDARD_GRAVITY_M_PER_S2
from app.mechanics.extension import reading_u_mm, scale_of, strain
from app.mechanics.loading import division_variance, half_width_variance, load, tray
from app.mechanics.reading_sums import reading_sums
from app.mechanics.result import ReadingScatter
from tests.mechanics.cords import a_ladder
from tests.mechanics.told import a_cord, rows_of

PUBLISHED: dict[str, Any] = json.loads(
    (Path(__file__).parents[1] / "reference" / "first_sums.json").read_text(encoding="utf-8")
)


def test_standard_gravity() -> None:
    """3rd General Conference on Weights and Measures (1901): 9.80665 m/s2; so a kilogram pulls with 9.80665 N."""
    published = PUBLISHED["standard_gravity"]["g_m_per_s2"]
    kilogram = tray(a_ladder(1000.0), (), bench_id="bench", tolerance_percent=0)
    assert published == STANDARD_GRAVITY_M_PER_S2
    assert load(kilogram, (1,), gravity_m_per_s2=STANDARD_GRAVITY_M_PER_S2).force_n == published


@pytest.mark.parametrize("case", PUBLISHED["rectangular"], ids=lambda case: str(case["half_width"]))
def test_rectangular_distribution(case: dict[str, Any]) -> None:
    """JCGM 100:2008 (GUM), 4.3.7, and the example of the Eurachem/CITAC guide, appendix E.1 (from memory)."""
    expected = pytest.approx(case["standard_uncertainty"], abs=case["tolerance"])
    assert math.sqrt(half_width_variance(case["half_width"])) == expected
    assert math.sqrt(division_variance(2 * case["half_width"])) == expected


def test_difference_of_two_readings_to_the_nearest_millimetre() -> None:
    """JCGM 100:2008 (GUM), 5.1.2 with 4.3.7."""
    case = PUBLISHED["difference_of_two_readings"]
    cord = a_cord(*rows_of("218 222"), scale_division_mm=1.0, judgement_mm=0.0)
    found = reading_sums(cord, ReadingScatter(u_mm=reading_u_mm(scale_of(cord))))[1]
    assert found.extension_u_mm == pytest.approx(case["standard_uncertainty_mm"], abs=case["tolerance"])


@pytest.mark.parametrize("case", PUBLISHED["loads"], ids=lambda case: str(case["mass_g"]))
def test_load_of_a_mass(case: dict[str, Any]) -> None:
    """OpenStax, University Physics Volume 1, section 12.3, and College Physics, section 16.1: worked examples."""
    hung = tray(a_ladder(case["mass_g"]), (), bench_id="bench", tolerance_percent=0)
    found = load(hung, (1,), gravity_m_per_s2=case["gravity_m_per_s2"])
    assert found.force_n is not None
    assert found.force_n / case["over"] == pytest.approx(case["published"], abs=case["tolerance"])


def test_strain_of_a_wire() -> None:
    """OpenStax, University Physics Volume 1, section 12.3: 1.0 mm of a 2.0 m wire is a strain of 5.0e-4."""
    case = PUBLISHED["strain"]
    assert strain(case["extension_mm"], case["free_length_mm"]) == pytest.approx(case["published"], rel=1e-12)
