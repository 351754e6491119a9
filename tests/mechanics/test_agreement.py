"""Repeatability and reproducibility."""

import math

import numpy as np
import pytest
from scipy import stats

from app.mechanics.agreement import FEW_GROUPS, INTERVAL_LEADS, NO_SCATTER, Agreement, agreement

FIVE = {"Alder": (10, 12), "Birch": (11, 13), "Cedar": (9, 13), "Elder": (12, 14), "Hazel": (20, 22)}


def test_three_groups_by_hand() -> None:
    """Variances 2, 2, 8 within; means 11, 12, 11 with variance 1/3, less than 4/2, so s_R is s_r."""
    found = agreement("break_force_N", {group: FIVE[group] for group in ("Alder", "Birch", "Cedar")}, unit="N")
    assert found.repeatability.value == pytest.approx(2, rel=1e-12)
    assert found.reproducibility.value == found.repeatability.value
    assert found.repeatability.low == pytest.approx(2 * math.sqrt(3 / stats.chi2.ppf(0.975, 3)), rel=1e-12)
    assert found.repeatability.high == pytest.approx(2 * math.sqrt(3 / stats.chi2.ppf(0.025, 3)), rel=1e-12)
    assert found.repeatability.note == INTERVAL_LEADS
    assert [group.h for group in found.groups] == pytest.approx(
        [-1 / math.sqrt(3), 2 / math.sqrt(3), -1 / math.sqrt(3)]
    )
    assert [group.k for group in found.groups] == pytest.approx([math.sqrt(0.5), math.sqrt(0.5), math.sqrt(2)])


def test_a_group_far_out_widens_reproducibility_and_is_named_from_five_on() -> None:
    """Variances 2, 2, 8, 2, 2: s_r^2 3.2; means 11, 12, 11, 13, 21: variance 17.8; s_R^2 = 17.8 - 1.6 + 3.2."""
    found = agreement("break_force_N", FIVE, unit="N")
    assert found.repeatability.value == pytest.approx(math.sqrt(3.2), rel=1e-12)
    assert found.reproducibility.value == pytest.approx(math.sqrt(19.4), rel=1e-12)
    assert found.reproducibility.low < found.reproducibility.value < found.reproducibility.high
    assert found.named == ("Hazel",)
    assert found.repeatability.note is None
    four = agreement("break_force_N", {group: FIVE[group] for group in list(FIVE)[1:4]} | {"Hazel": (90, 92)}, unit="N")
    assert any(group.beyond for group in four.groups)
    assert four.named == ()


def test_groups_of_different_size_by_hand() -> None:
    """1 3 | 2 4 6 | 5 7: within 2 + 8 + 2 with 4 degrees; n0 = (7 - 17/7)/2; grand mean 4; between 2*4 + 0 + 2*4."""
    found = agreement("any", {"A": (1, 3), "B": (2, 4, 6), "C": (5, 7)}, unit="N")
    n0 = (7 - 17 / 7) / 2
    assert found.repeatability.value == pytest.approx(math.sqrt(3), rel=1e-12)
    assert found.reproducibility.value == pytest.approx(math.sqrt((8 - 3) / n0 + 3), rel=1e-12)


def test_groups_with_one_cord_are_passed_over() -> None:
    assert agreement("any", FIVE | {"Yew": (90,)}, unit="N") == agreement("any", FIVE, unit="N")


def test_two_groups_are_too_few() -> None:
    found = agreement("any", {"A": (1, 2), "B": (1, 3), "C": (1,)}, unit="N")
    assert (found.repeatability.why, found.reproducibility.value, found.groups) == (FEW_GROUPS, None, ())


def test_cords_that_are_all_alike_show_no_scatter() -> None:
    found = agreement("any", {"A": (1.1, 1.1, 1.1), "B": (2, 2), "C": (2, 2)}, unit="N")
    assert (found.repeatability.why, found.reproducibility.why) == (NO_SCATTER, NO_SCATTER)
    assert {group.k for group in found.groups} == {None}
    assert agreement("any", {"A": (1, 1), "B": (1, 1), "C": (1, 1)}, unit="N").groups[0].h is None


def _classes(groups: int, *, between: float, count: int) -> list[Agreement]:
    chance = np.random.default_rng(groups)
    made = chance.normal(20, 1, (count, groups, 2)) + chance.normal(0, between, (count, groups, 1))
    return [agreement("any", {str(place): row for place, row in enumerate(one.tolist())}, unit="N") for one in made]


@pytest.mark.parametrize("between", [0.0, 2.0])
def test_the_intervals_hold(between: float) -> None:
    """400 made-up classes of five groups: 95 % within 3 standard errors, 1.1 points each."""
    found = _classes(5, between=between, count=400)
    s_r = np.mean([one.repeatability.low <= 1 <= one.repeatability.high for one in found])
    s_all = math.sqrt(1 + between**2)
    reproducibility = np.mean([one.reproducibility.low <= s_all <= one.reproducibility.high for one in found])
    assert s_r == pytest.approx(0.95, abs=0.033)
    assert reproducibility == pytest.approx(0.955, abs=0.033)


def test_any_of_five_equal_groups_is_named_one_time_in_twenty() -> None:
    found = _classes(5, between=0, count=400)
    assert np.mean([bool(one.named) for one in found]) == pytest.approx(0.05, abs=0.033)
