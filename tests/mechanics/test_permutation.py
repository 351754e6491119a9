"""Chance arrangements of the same values."""

import math
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.mechanics.permutation import alike_p, pair_p


@pytest.mark.parametrize(
    ("one", "other", "chance"), [(2, 2, 1 / 3), (3, 2, 1 / 5), (3, 3, 1 / 10), (4, 4, 1 / 35), (5, 5, 1 / 126)]
)
def test_values_that_lie_wholly_apart(one: int, other: int, chance: float) -> None:
    """Closed form: two of all choices of n out of the values, one way and the other."""
    apart = tuple(10.0 + place * place for place in range(one)), tuple(float(place) for place in range(other))
    assert pair_p(*apart) == pytest.approx(chance, rel=1e-12)
    assert chance == pytest.approx(2 / math.comb(one + other, one), rel=1e-12)


def test_three_designs_by_hand() -> None:
    """Of the 90 ways to deal 1 2 | 4 5 | 8 9 in pairs, the six that only swap whole pairs have the greatest sum."""
    assert alike_p(((1.0, 2.0), (4.0, 5.0), (8.0, 9.0))) == pytest.approx(6 / 90, rel=1e-12)


def test_equal_values_are_alike() -> None:
    assert alike_p(((3.0, 3.0), (3.0, 3.0))) == 1


def test_one_design_is_not_compared() -> None:
    assert alike_p(((1.0, 2.0),)) is None


def test_many_arrangements_are_drawn_always_alike() -> None:
    sets = ((30.0, 31.0), (20.0, 21.0), (17.0, 17.5), (19.0, 19.5), (26.0, 27.0))
    found = alike_p(sets)
    assert found is not None
    assert found == alike_p(tuple(tuple(reversed(one)) for one in reversed(sets)))
    assert round(found * 10_000) == pytest.approx(found * 10_000, abs=1e-9), "9,999 drawn and the one seen"
    assert found < 0.01


@given(st.permutations(((1.0, 2.5), (4.0, 5.0), (8.0, 9.0))))
def test_the_order_of_designs_does_not_matter(sets: Sequence[tuple[float, ...]]) -> None:
    assert alike_p(tuple(sets)) == pytest.approx(6 / 90, rel=1e-12)
