"""Comparing and agreeing against values that were published elsewhere; `tests/reference/comparison.json`."""

import csv
import json
import math
from itertools import combinations, groupby
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import stats
from statsmodels.stats.multicomp import pairwise_tukeyhsd
from statsmodels.stats.oneway import anova_oneway

from app.mechanics.agreement import Agreement, agreement, h_line, k_line
from app.mechanics.comparison import compare
from app.mechanics.one_way import between_squares, mean, tukey_tail, within_squares
from app.mechanics.permutation import permutation_p
from app.mechanics.shared_scatter import half_width, pooled_scatter
from tests.mechanics.bench_class import exact

FOLDER = Path(__file__).parents[1] / "reference"
PUBLISHED: dict[str, Any] = json.loads((FOLDER / "comparison.json").read_text(encoding="utf-8"))
MATERIALS = "ABCDE"


def rows(name: str) -> list[dict[str, str]]:
    with (FOLDER / PUBLISHED[name]["file"]).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def sets_of(name: str, key: str, value: str) -> dict[str, list[float]]:
    ordered = sorted(rows(name), key=lambda row: row[key])
    return {one: [float(row[value]) for row in some] for one, some in groupby(ordered, key=lambda row: row[key])}


def resistance() -> dict[str, list[float]]:
    return sets_of("resistance", "level", "resistance")


@pytest.mark.parametrize("pair", PUBLISHED["resistance"]["tukey_95_percent"])
def test_tukey_intervals_of_four_levels(pair: str) -> None:
    """NIST/SEMATECH e-Handbook 7.4.7.1: all pairs of four levels at 5 %, printed to two decimals."""
    sets = resistance()
    pooled = pooled_scatter(list(sets.values()))
    assert pooled is not None
    one, other = (sets[level] for level in pair.split("-"))
    apart = mean(one) - mean(other)
    half = half_width(pooled, (len(one), len(other)), sets=len(sets), probability=0.95)
    found = [apart - half, apart + half]
    assert found == pytest.approx(PUBLISHED["resistance"]["tukey_95_percent"][pair], abs=0.0051)
    assert found == pytest.approx(PUBLISHED["resistance"]["to_three_decimals"].get(pair, found), abs=0.00051)


def test_one_way_sums_of_three_levels() -> None:
    """NIST/SEMATECH e-Handbook 7.4.3.3: sums of squares and F."""
    sets = [values for level, values in resistance().items() if level != "4"]
    published = PUBLISHED["resistance"]["three_levels"]
    (within, dof), (between, dof_between) = within_squares(sets), between_squares(sets)
    assert within == pytest.approx(published["within_squares"], abs=0.0005)
    assert between == pytest.approx(published["between_squares"], abs=0.0005)
    assert between / dof_between / (within / dof) == pytest.approx(published["f"], abs=0.005)


def test_one_way_sums_that_share_seven_digits() -> None:
    """NIST StRD AtmWtAg: the certified values, as far as values of nine decimals in a float can carry them."""
    sets = list(sets_of("silver", "group", "value").values())
    published = PUBLISHED["silver"]
    (within, dof), (between, dof_between) = within_squares(sets), between_squares(sets)
    assert within == pytest.approx(published["within_squares"], rel=1e-9)
    assert between == pytest.approx(published["between_squares"], rel=1e-9)
    assert between / dof_between / (within / dof) == pytest.approx(published["f"], rel=1e-9)
    assert math.sqrt(within / dof) == pytest.approx(published["residual_sd"], rel=1e-9)


def test_a_second_opinion_on_all_pairs() -> None:
    """statsmodels, `pairwise_tukeyhsd` on ln of the same values at 4 %: who differs, p and the ends of every ratio."""
    sets = resistance()
    found = compare("resistance", {level: exact(*values) for level, values in sets.items()})
    names = [level for level, values in sets.items() for _ in values]
    other = pairwise_tukeyhsd(np.log([value for values in sets.values() for value in values]), names, alpha=0.04)
    theirs = list(combinations(range(4), 2))
    for one in found.differences:
        low, high = sorted((int(one.one) - 1, int(one.other) - 1))
        place = theirs.index((low, high))
        assert (one.verdict == "different") == other.reject[place]
        assert one.gap is not None
        assert tukey_tail(one.gap, 4, one.dof) == pytest.approx(other.pvalues[place], abs=1e-6)
        ends = sorted(abs(end) for end in (math.log(one.ratio.low or 0), math.log(one.ratio.high or 0)))
        assert ends == pytest.approx(sorted(abs(other.confint[place])), abs=1e-6)


def test_a_second_opinion_on_one_way_sums() -> None:
    """statsmodels, `anova_oneway` with equal variances: F of the four levels."""
    sets = list(resistance().values())
    (within, dof), (between, dof_between) = within_squares(sets), between_squares(sets)
    other = anova_oneway(sets, use_var="equal")
    assert between / dof_between / (within / dof) == pytest.approx(other.statistic, rel=1e-12)


def _mean(values: NDArray[np.float64], axis: int) -> NDArray[np.float64]:
    return np.asarray(values.mean(axis=axis))


@pytest.mark.parametrize(
    ("name", "one", "other"), [("maize", "cross_in", "self_in"), ("bands", "heated_mm", "ambient_mm")]
)
def test_all_arrangements_of_pairs(name: str, one: str, other: str) -> None:
    """R. A. Fisher (1935), section 21, 1726 of 32768 (from memory); the elastic bands, 6 of 512 (worked out)."""
    apart = [float(row[one]) - float(row[other]) for row in rows(name)]
    published = PUBLISHED[name]["as_far_out"] / PUBLISHED[name]["arrangements"]
    assert permutation_p([apart], _mean, arrangement="samples", all_under=40_000) == pytest.approx(published, rel=1e-12)


def glucose(material: str) -> Agreement:
    some = [row for row in rows("glucose") if row["material"] == material]
    values: dict[str, list[float]] = {}
    for row in some:
        values.setdefault(row["laboratory"], []).append(float(row["glucose_mg_per_dL"]))
    return agreement("glucose", values, unit="mg/dL")


@pytest.mark.parametrize("material", MATERIALS)
def test_repeatability_and_reproducibility_of_glucose_in_serum(material: str) -> None:
    """ASTM E691, worked example: A, D and E as the standard prints them (from memory), B and C worked out."""
    found = glucose(material)
    both = [found.repeatability.value, found.reproducibility.value]
    assert both == pytest.approx(PUBLISHED["glucose"]["s_r_and_s_R"][material], abs=0.00006)


def test_laboratories_beyond_the_line_of_k() -> None:
    """ASTM E691 at 0.5 %, as a public package flags this copy: material C laboratory 4, material E laboratory 2."""
    line = PUBLISHED["glucose"]["k_line"]
    beyond = [f"{material} {one.group}" for material in MATERIALS for one in glucose(material).groups if one.k > line]
    assert beyond == PUBLISHED["glucose"]["beyond_k"]


GLUCOSE = PUBLISHED["glucose"]
LINES = [
    (GLUCOSE["lines_at"], GLUCOSE["h_line"], GLUCOSE["k_line"]),
    *((float(at), h, k) for at, (h, k) in GLUCOSE["other_lines"].items()),
]


@pytest.mark.parametrize(("at", "h", "k"), LINES)
def test_lines_of_h_and_k(at: float, h: float, k: float) -> None:
    """ASTM E691, table 5: 8 laboratories, 3 replicates (at 0.5 % from memory, the others worked out)."""
    assert h_line(8, at) == pytest.approx(h, abs=0.00006)
    assert k_line(2, 16, at) == pytest.approx(k, abs=0.00006)


def test_the_range_of_two_is_students_t() -> None:
    """Closed form: of two sets the studentized range over the root of 2 is Student's t, both sides together."""
    for gap, dof in ((0.5, 3), (2.5, 4), (3.3, 11)):
        assert tukey_tail(gap, 2, dof) == pytest.approx(2 * stats.t.sf(gap, dof), rel=1e-9)
