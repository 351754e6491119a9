"""What is said beside a file has limits too."""

from typing import Any

import pytest

from app.domain.errors import InvalidEntry
from app.transfer.reading_options import ReadingOptions


@pytest.mark.parametrize(
    "given",
    [
        {"gravity_m_per_s2": 0.0},
        {"gravity_m_per_s2": float("nan")},
        {"gravity_m_per_s2": float("inf")},
        {"scale_division_mm": 0.0},
        {"judgement_mm": -0.1},
        {"balance_division_g": 0.0},
        {"scale": "sideways"},
    ],
)
def test_an_option_outside_its_limits_is_refused_by_name(given: dict[str, Any]) -> None:
    with pytest.raises(InvalidEntry) as refusal:
        ReadingOptions(**given)
    assert [fault.field for fault in refusal.value.faults] == list(given)


def test_a_judgement_of_nothing_is_one() -> None:
    assert ReadingOptions(judgement_mm=0.0, scale="up").judgement_mm == 0.0
