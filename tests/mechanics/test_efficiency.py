"""How much of its strands' strength a cord keeps."""

import math
from collections.abc import Sequence

import numpy as np
import pytest
from scipy import stats

from app.domain import tested
from app.mechanics.bench_values import BenchValue
from app.mechanics.censored import Pooled
from app.mechanics.efficiency import (
    AT_LEAST,
    AT_MOST,
    BOTH_OPEN,
    NO_SCATTER,
    NO_VALUE,
    NOTHING_HELD,
    ONE_BENCH,
    bench_forces,
    ratio,
    strand_efficiency,
)
from tests.mechanics.bench_class import broke, exact, held
from tests.mechanics.told import a_cord, rows_of

POOLED = Pooled(s_ln=0.06, dof=5)
PLAITED = (broke(23, 25, "Alder"), broke(26, 28, "Hazel"))
SINGLE = (broke(9, 11, "Birch"), broke(8, 10, "Cedar"), broke(9, 11, "Rowan"))


def test_a_ratio_of_two_designs() -> None:
    """ln of 24 and 27 against ln of 10, 9 and 10; half-width t(5) 0.06 sqrt(1/2 + 1/3)."""
    found = ratio(PLAITED, SINGLE, pooled=POOLED)
    apart = (math.log(24) + math.log(27)) / 2 - (2 * math.log(10) + math.log(9)) / 3
    half = stats.t.ppf(0.975, 5) * 0.06 * math.sqrt(1 / 2 + 1 / 3)
    expected = [math.exp(apart), math.exp(apart - half), math.exp(apart + half)]
    assert [found.value, found.low, found.high] == pytest.approx(expected, rel=1e-12)
    assert found.standard_uncertainty == pytest.approx((expected[2] - expected[1]) / 2 / 1.959964, rel=1e-6)
    assert (found.unit, found.why) == ("1", None)


def test_turned_over_it_is_one_over() -> None:
    one, other = ratio(PLAITED, SINGLE, pooled=POOLED), ratio(SINGLE, PLAITED, pooled=POOLED)
    assert (one.value, one.low, one.high) == pytest.approx(
        (1 / (other.value or 0), 1 / (other.high or 0), 1 / (other.low or 0)), rel=1e-12
    )


def test_a_second_opinion_on_the_means() -> None:
    """Fieller's interval of a ratio of means with pooled scatter (E. C. Fieller, J. R. Statist. Soc. B 16 (1954), from
    memory), on values that scatter by 3 %: the two ways may differ by a few parts in a thousand."""
    upper, lower = np.array([20.0, 21.0, 20.4, 20.9]), np.array([10.0, 10.4, 9.8, 10.3])
    dof = len(upper) + len(lower) - 2
    logs = [np.log(upper), np.log(lower)]
    s_ln = math.sqrt(sum(((log - log.mean()) ** 2).sum() for log in logs) / dof)
    found = ratio(exact(*upper), exact(*lower), pooled=Pooled(s_ln=s_ln, dof=dof))
    t = stats.t.ppf(0.975, dof)
    variances = [((s_ln * side.mean()) ** 2) / len(side) for side in (upper, lower)]
    g = t * t * variances[1] / lower.mean() ** 2
    middle = upper.mean() / lower.mean() / (1 - g)
    half = t / lower.mean() / (1 - g) * math.sqrt((1 - g) * variances[0] + (middle * (1 - g)) ** 2 * variances[1])
    assert (found.low, found.high) == pytest.approx((middle - half, middle + half), rel=3e-3)


@pytest.mark.parametrize(
    ("upper", "lower", "pooled", "why"),
    [
        ((), SINGLE, POOLED, NO_VALUE),
        (PLAITED, (), POOLED, NO_VALUE),
        (PLAITED, (held(0), *SINGLE), POOLED, NOTHING_HELD),
        (PLAITED[:1], SINGLE, POOLED, ONE_BENCH),
        (PLAITED, SINGLE[:1], POOLED, ONE_BENCH),
        ((*PLAITED, held(30)), (*SINGLE, held(12)), POOLED, BOTH_OPEN),
        (PLAITED, SINGLE, None, NO_SCATTER),
        (PLAITED, SINGLE, Pooled(s_ln=0.06, dof=2), NO_SCATTER),
    ],
    ids=["no cord", "no strand", "held nothing", "one bench", "one strand bench", "both open", "no scatter", "two dof"],
)
def test_no_ratio_says_why(
    upper: Sequence[BenchValue], lower: Sequence[BenchValue], pooled: Pooled | None, why: str
) -> None:
    found = ratio(upper, lower, pooled=pooled)
    assert (found.value, found.low, found.high, found.why) == (None, None, None, why)


def test_a_side_known_from_below_leaves_one_end() -> None:
    at_least = ratio((*PLAITED, held(25)), SINGLE, pooled=POOLED)
    assert (at_least.value, at_least.high, at_least.why) == (None, None, AT_LEAST)
    whole = ratio((*PLAITED, *exact(25)), SINGLE, pooled=POOLED)
    assert at_least.low == pytest.approx(whole.low, rel=1e-12)
    at_most = ratio(PLAITED, (*SINGLE, held(9)), pooled=POOLED)
    assert (at_most.value, at_most.low, at_most.why) == (None, None, AT_MOST)
    assert at_most.high == pytest.approx(ratio(PLAITED, (*SINGLE, *exact(9)), pooled=POOLED).high, rel=1e-12)


def test_strands_share_the_load() -> None:
    whole, share = ratio(PLAITED, SINGLE, pooled=POOLED), strand_efficiency(PLAITED, SINGLE, strands=3, pooled=POOLED)
    ends = (share.value, share.low, share.high)
    assert ends == pytest.approx(((whole.value or 0) / 3, (whole.low or 0) / 3, (whole.high or 0) / 3), rel=1e-12)


def cord(group: str, outcome: str, place: str | None) -> tuple[str, tested.TestedCord]:
    return group, a_cord(*rows_of("200 210 220"), group=group, outcome=outcome, place=place, fail_mass_g=400.0)


@pytest.mark.parametrize(
    ("outcome", "place", "itself", "knotted"),
    [
        ("broke", "free_length", False, False),
        ("broke", "at_knot", True, False),
        ("broke", "in_knot", True, False),
        ("broke", "at_support", False, False),
        ("broke", None, False, False),
        ("slipped", "in_knot", True, False),
        ("held", None, True, True),
        ("stopped", None, True, True),
    ],
)
def test_a_break_at_a_knot_is_one_of_the_knotted_cord(
    outcome: str, place: str | None, itself: bool, knotted: bool
) -> None:
    told = [cord("Alder", outcome, place)]
    assert [bench.at_least for bench in bench_forces(told, with_knots=False)] == [itself]
    assert [bench.at_least for bench in bench_forces(told, with_knots=True)] == [knotted]


def test_one_knot_break_makes_its_bench_at_least_and_no_other() -> None:
    told = [cord("Alder", "broke", "at_knot"), cord("Alder", "broke", "free_length"), cord("Hazel", "broke", None)]
    benches = bench_forces(told, with_knots=False)
    assert [(bench.group, bench.at_least) for bench in benches] == [("Alder", True), ("Hazel", False)]
    assert [bench.value for bench in benches] == pytest.approx([3.5, 3.5], rel=1e-12)
