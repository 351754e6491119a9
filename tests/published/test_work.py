"""Work against values that were published elsewhere; `tests/reference/work.json`."""

import json
from itertools import accumulate, pairwise
from pathlib import Path
from typing import Any

import pytest

from app.mechanics.result import ReadingScatter
from app.mechanics.work import work_to_break

PUBLISHED: dict[str, Any] = json.loads(
    (Path(__file__).parents[1] / "reference" / "work.json").read_text(encoding="utf-8")
)
MM_PER_M = 1000
BY_SCALE = ReadingScatter(u_mm=0.4)


def work_j(forces_n: list[float], stretches_m: list[float]) -> float:
    found = work_to_break(forces_n, [one * MM_PER_M for one in stretches_m], BY_SCALE, gap=False)
    assert found.value is not None
    return found.value


@pytest.mark.parametrize("case", PUBLISHED["slopes"], ids=lambda case: str(case["printed_j"]))
def test_work_of_one_or_two_slopes(case: dict[str, Any]) -> None:
    """OpenStax, University Physics Volume 1, sections 7.1 (22.0 kJ; 0.54 J), College Physics 16.1 (0.563 J).

    21950.15 J is worked out from the same two slopes, half of slope x stretch squared for each, to the hundredth.
    """
    pieces = zip(pairwise(case["stretch_m"]), case["slope_n_per_m"], strict=True)
    forces_n = list(accumulate((slope * (high - low) for (low, high), slope in pieces), initial=0.0))
    found_j = work_j(forces_n, case["stretch_m"])
    assert found_j == pytest.approx(case["printed_j"], abs=case["printed_to_j"])
    assert found_j == pytest.approx(case["exact_j"], abs=0.005)


@pytest.mark.parametrize("case", PUBLISHED["on_from_a_stretch"], ids=lambda case: str(case["printed_j"]))
def test_work_from_one_stretch_to_the_next(case: dict[str, Any]) -> None:
    """OpenStax, University Physics Volume 1, sections 7.1 (1.62 J) and 8.1 (0.18 J, then 0.54 J)."""
    stretches_m = [case["from_m"], case["to_m"]]
    found_j = work_j([case["slope_n_per_m"] * one for one in stretches_m], stretches_m)
    assert found_j == pytest.approx(case["printed_j"], abs=case["printed_to_j"])
