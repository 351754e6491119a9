"""One breaking force a bench."""

import math

import pytest

from app.mechanics.bench_break import bench_breaks
from app.mechanics.breaking import Bracket


def between(low: float, high: float | None) -> Bracket:
    return Bracket(low_n=low, high_n=high)


def test_one_cord_is_its_bracket_to_the_last_digit() -> None:
    (bench,) = bench_breaks([("Alder", between(26.35947, 28.36071))])
    assert (bench.low, bench.high, bench.at_least) == (26.35947, 28.36071, False)
    assert bench.value == (26.35947 + 28.36071) / 2


def test_an_unbroken_cord_is_at_least_what_it_held() -> None:
    (bench,) = bench_breaks([("Maple", between(32.39, None))])
    assert (bench.value, bench.low, bench.high, bench.at_least) == (32.39, 32.39, None, True)


def test_two_cords_of_one_bench_make_one_value() -> None:
    """Middles 10 and 40 have the geometric mean 20, lows 9 and 36 have 18, highs 11 and 44 have 22."""
    benches = bench_breaks([("Alder", between(9, 11)), ("Hazel", between(5, 7)), ("Alder", between(36, 44))])
    assert [bench.group for bench in benches] == ["Alder", "Hazel"]
    assert (benches[0].value, benches[0].low, benches[0].high) == pytest.approx((20, 18, 22), rel=1e-12)


def test_one_unbroken_cord_leaves_its_bench_without_a_high_end() -> None:
    (bench,) = bench_breaks([("Alder", between(9, 11)), ("Alder", between(40, None))])
    assert (bench.value, bench.low) == pytest.approx((20, math.sqrt(9 * 40)), rel=1e-12)
    assert (bench.high, bench.at_least) == (None, True)


def test_a_cord_that_held_nothing_breaks_no_sum() -> None:
    (bench,) = bench_breaks([("Alder", between(0, 2)), ("Alder", between(3, 5))])
    assert (bench.low, bench.value) == (0, pytest.approx(2, rel=1e-12))


def test_a_cord_that_says_nothing_makes_no_bench() -> None:
    assert bench_breaks([("Alder", Bracket(low_n=None, high_n=None, why="not ended"))]) == ()
