"""The breaking force of one design."""

import math
from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from app.mechanics.breaking import NO_BRACKET, Bracket
from app.mechanics.censored import Pooled, estimate
from app.mechanics.design_break import (
    FEW_BROKEN,
    FEWER_THAN_8,
    LEANS,
    NOWHERE,
    ONE_BENCH,
    OPEN_ABOVE,
    TWO_BENCHES,
    WIDE,
    DesignBreak,
    design_break,
)
from app.mechanics.scatter_shape import NORMAL

Ends = tuple[float | None, float | None]
POOLED = Pooled(s_ln=0.06, dof=4)
SIX: tuple[Ends, ...] = ((16, 18), (18, 20), (20, 22), (18, 20), (20, 22), (22, 24))
EIGHT: tuple[Ends, ...] = (*SIX, (20, 22), (18, 20))


def between(low: float | None, high: float | None, why: str | None = None) -> Bracket:
    return Bracket(low_n=low, high_n=high, why=why)


def design(*ends: Ends, pooled: Pooled | None = None, highest_hung_n: float = 0.0) -> DesignBreak:
    """A design of one cord a bench."""
    brackets = [(f"bench {place}", between(*pair)) for place, pair in enumerate(ends)]
    return design_break(brackets, highest_hung_n=highest_hung_n, pooled=pooled)


def ends_of(bracket: Bracket) -> Ends:
    return bracket.low_n, bracket.high_n


def test_of_nothing_nothing_is_known() -> None:
    found = design(pooled=POOLED)
    assert (found.benches, found.unbroken, found.spread_holds, found.shares) == ((), 0, None, ())
    assert found.median.why == found.spread.why == found.typical_break_force_n.why == NO_BRACKET


def test_one_bench_is_its_bracket() -> None:
    found = design((20, 22), pooled=POOLED)
    assert ends_of(found.median) == ends_of(found.spread) == (20, 22)
    assert found.spread_holds == 0
    assert (found.typical_break_force_n.value, found.typical_break_force_n.why) == (None, ONE_BENCH)


@pytest.mark.parametrize("pooled", [None, Pooled(s_ln=0.06, dof=2)])
def test_two_benches_need_the_scatter_of_others(pooled: Pooled | None) -> None:
    found = design((20, 22), (24, 26), pooled=pooled).typical_break_force_n
    assert (found.value, found.low, found.high, found.why) == (None, None, None, TWO_BENCHES)


def test_two_benches_lean_on_the_pooled_scatter() -> None:
    """exp(mean of ln 21 and ln 25 -+ t(4) 0.06 / sqrt 2)."""
    found = design((20, 22), (24, 26), pooled=POOLED).typical_break_force_n
    factor = math.exp(stats.t.ppf(0.975, 4) * 0.06 / math.sqrt(2))
    middle = math.sqrt(21 * 25)
    assert (found.value, found.low, found.high) == pytest.approx((middle, middle / factor, middle * factor), rel=1e-12)
    assert found.standard_uncertainty == pytest.approx(middle * (factor - 1 / factor) / 2 / 1.959964, rel=1e-6)
    assert (found.unit, found.why, found.note) == ("N", None, LEANS)


@pytest.mark.parametrize(
    ("ends", "low"),
    [(((20, 22), (24, None)), 22), (((20, None), (24, None)), 22), (((20, 22), (24, None), (26, None)), 24)],
)
def test_fewer_than_two_broken_is_at_least_the_median_of_the_lows(ends: Sequence[Ends], low: float) -> None:
    found = design(*ends, pooled=POOLED).typical_break_force_n
    assert (found.value, found.low, found.high, found.why) == (None, low, None, FEW_BROKEN)


def test_from_three_benches_on_it_is_estimated() -> None:
    ends = ((16.0, 18.0), (18.0, 20.0), (20.0, 22.0))
    expected = estimate(ends, NORMAL, top_n=66)
    found = design(*ends).typical_break_force_n
    assert expected is not None
    assert expected.low_n is not None
    assert expected.high_n is not None
    assert (found.value, found.low, found.high) == (expected.median_n, expected.low_n, expected.high_n)
    assert found.standard_uncertainty == pytest.approx((expected.high_n - expected.low_n) / 2 / 1.959964, rel=1e-6)
    assert found.note is None


def test_an_interval_that_does_not_close_in_time_has_no_upper_end() -> None:
    ends: tuple[Ends, ...] = ((14, 16), (20, 22), (24, None), (24, None))
    found = design(*ends, highest_hung_n=24).typical_break_force_n
    assert (found.high, found.standard_uncertainty, found.note) == (None, None, OPEN_ABOVE)
    assert found.low is not None
    assert design(*ends, highest_hung_n=400).typical_break_force_n.high is not None


def test_an_end_that_stays_open_though_all_broke_is_for_their_scatter() -> None:
    found = design((2, 3), (10, 11), (60, 61)).typical_break_force_n
    assert (found.high, found.note) == (None, WIDE)
    below = design((0, 3), (0, 30), (30, 31)).typical_break_force_n
    assert (below.low, below.note) == (None, WIDE)


def test_a_typical_force_far_beyond_what_was_hung_is_not_given() -> None:
    found = design((2, 3), (19, 20), *[(20, None)] * 18).typical_break_force_n
    assert (found.value, found.low, found.why) == (None, 20, NOWHERE)


def test_cords_that_fell_at_once_do_not_say_where() -> None:
    found = design((0, 1), (0, 1), (0, 1))
    assert (found.typical_break_force_n.value, found.typical_break_force_n.low) == (None, 0)
    assert found.typical_break_force_n.why == NOWHERE
    assert ends_of(found.median) == (0, 1)


@pytest.mark.parametrize(("benches", "holds"), [(2, 0.5), (3, 0.75), (4, 0.875), (5, 0.9375), (6, 0.96875)])
def test_how_often_all_brackets_together_hold_the_median(benches: int, holds: float) -> None:
    assert design(*SIX[:benches]).spread_holds == holds


def test_the_spread_runs_from_the_lowest_low_to_the_highest_high() -> None:
    assert ends_of(design(*SIX).spread) == (16, 24)
    assert ends_of(design(*SIX, (17, None)).spread) == (16, None)


def test_shares_come_from_six_benches_on() -> None:
    assert design(*SIX[:5]).shares == ()
    assert [(part.low_n, part.high_n) for part in design(*SIX).shares] == [(16, 18), (18, 20), (20, 22), (22, 24)]


def test_weibull_comes_from_eight_benches_on() -> None:
    seven, eight = design(*EIGHT[:7]).weibull_break_force_n, design(*EIGHT).weibull_break_force_n
    assert (seven.value, seven.why) == (None, FEWER_THAN_8)
    assert eight.value is not None
    assert eight.value != design(*EIGHT).typical_break_force_n.value
    assert eight.value == pytest.approx(design(*EIGHT).typical_break_force_n.value, rel=0.05)
    few = design((20, 22), *[(22, None)] * 7).weibull_break_force_n
    assert (few.value, few.low, few.why) == (None, 22, FEW_BROKEN)


def test_two_cords_of_one_bench_are_one_value() -> None:
    pairs = [("Alder", between(9, 11)), ("Alder", between(36, 44)), ("Hazel", between(17, 23))]
    found = design_break(pairs, highest_hung_n=44, pooled=POOLED)
    assert [bench.group for bench in found.benches] == ["Alder", "Hazel"]
    assert found.typical_break_force_n.value == pytest.approx(20, rel=1e-12)
    assert found.median.low_n == pytest.approx(17.5, rel=1e-12)
    assert len(found.brackets) == 3


def test_only_a_cord_that_did_not_break_is_unbroken() -> None:
    pairs = [
        ("Alder", between(9, None)),
        ("Hazel", between(9, None, "not known")),
        ("Maple", between(None, None, "no")),
    ]
    assert design_break(pairs, highest_hung_n=9, pooled=None).unbroken == 1


def test_the_demonstration_lesson() -> None:
    """Middles of the invented lesson: R 26.4, P2 18.7, X3 17.6, D3 19.5 N; of P4 one broke at 31.3, one held 32.39."""
    told: dict[str, tuple[float, Sequence[Ends]]] = {
        "R": (26.4, ((26.36, 28.36), (24.54, 26.52))),
        "P2": (18.7, ((18.84, 20.81), (16.51, 18.52))),
        "X3": (17.6, ((16.58, 18.51), (16.73, 18.65))),
        "D3": (19.5, ((18.58, 20.53), (18.53, 20.53))),
    }
    for middle, ends in told.values():
        found = design(*ends, pooled=Pooled(s_ln=0.05, dof=4))
        assert sum(bench.value for bench in found.benches) / 2 == pytest.approx(middle, abs=0.051)
        assert found.typical_break_force_n.value == pytest.approx(middle, abs=0.1)
    four = design((32.39, None), (30.35, 32.31), pooled=Pooled(s_ln=0.05, dof=4))
    assert round(four.benches[1].value, 1) == 31.3
    assert four.unbroken == 1
    assert ends_of(four.median) == (pytest.approx(31.37), None)
    assert (four.typical_break_force_n.value, four.typical_break_force_n.low) == (None, pytest.approx(31.37))


ends = st.tuples(st.floats(0.0, 60.0), st.none() | st.floats(0.05, 10.0)).map(
    lambda pair: (pair[0], None if pair[1] is None else pair[0] + pair[1])
)


@settings(max_examples=60, deadline=None)
@given(st.lists(ends, max_size=9), st.permutations(range(9)))
def test_the_order_of_benches_does_not_matter(cords: list[Ends], order: list[int]) -> None:
    one = design(*cords, pooled=POOLED)
    other = design(*(cords[place] for place in order if place < len(cords)), pooled=POOLED)
    assert replace(other, brackets=one.brackets, benches=one.benches) == one


@settings(max_examples=60, deadline=None)
@given(st.lists(ends, min_size=1, max_size=6), st.floats(0.1, 20.0), st.integers(0, 5))
def test_more_held_never_lowers_a_lower_bound(cords: list[Ends], more: float, which: int) -> None:
    """A cord that held more before it was given up."""
    low = cords[which % len(cords)][0] or 0.0
    fewer = [*cords, (low, None)]
    held = design(*fewer), design(*cords, (low + more, None))
    assert (held[1].median.low_n or 0) >= (held[0].median.low_n or 0)
    assert (held[1].spread.low_n or 0) >= (held[0].spread.low_n or 0)
