"""How the line along a numeric variable, and the stretch at the common load, were worked out."""

from collections.abc import Sequence
from typing import Any

import pytest

from app.mechanics.bench_values import BenchValue
from app.mechanics.trend import Trend, trend
from app.services.remedies import TO_BREAK_ALL
from app.services.workings_trend import trend_workings
from tests.services.workings_told import holds


def line(values: Sequence[tuple[float, float]], **more: Any) -> Trend:
    """The trend of those levels and forces, one a group."""
    told = [
        (level, BenchValue(group=str(place), value=force_n, low=None, high=None, **more))
        for place, (level, force_n) in enumerate(values)
    ]
    return trend("break_force_N", told, unit="N", slope_unit="N for each one more")


CLOSE = [(1, 9.0), (1, 11.0), (2, 19.0), (2, 21.0), (3, 29.0), (3, 31.0)]


def test_the_line_is_said_with_its_own_numbers() -> None:
    """Closed form: means 10, 20, 30 at 1, 2, 3; the six lie 1 N off, so s = sqrt(6/4)."""
    slope, start = trend_workings(line(CLOSE), "third")
    assert slope.said.replace("\u00a0", " ").startswith("10.0 ± 1.7 N for each one more")
    assert slope.numbers.replace("\u00a0", " ") == "F = 0 N + 10 N × n; scatter about it 1.225 N, 4 degrees of freedom"
    assert start.code == "intercept"
    holds((slope, start))


def test_lack_of_fit_stands_beside_at_the_third_depth() -> None:
    bent = [(1, 9.9), (1, 10.1), (2, 29.9), (2, 30.1), (3, 30.9), (3, 31.1)]
    notes = trend_workings(line(bent), "third")[0].notes
    assert notes[-1] == "The means leave the line by more than the groups scatter: a line is not the whole story."
    assert trend_workings(line(bent), "second")[0].notes == ()
    assert not trend_workings(line(bent), "first")


@pytest.mark.parametrize(
    ("found", "better"),
    [
        (line(CLOSE[:4]), "More groups, spread over more values of the variable."),
        (line(CLOSE, at_least=True), TO_BREAK_ALL),
    ],
)
def test_no_line_says_why_and_what_would_help(found: Trend, better: str) -> None:
    (slope,) = trend_workings(found, "second")
    assert slope.said.endswith(".")
    assert slope.numbers == ""
    assert slope.better == better
