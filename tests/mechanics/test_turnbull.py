"""How breaking forces spread with no shape assumed."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.mechanics.censored import Ends
from app.mechanics.turnbull import Share, shares


def told(*cords: tuple[float, float | None]) -> list[tuple[float, float | None, float]]:
    return [(part.low_n, part.high_n, round(part.share, 6)) for part in shares(cords)]


def test_brackets_apart_share_alike() -> None:
    assert told((5, 6), (1, 2), (3, 4), (5, 6)) == [(1, 2, 0.25), (3, 4, 0.25), (5, 6, 0.5)]


def test_brackets_that_overlap_break_in_what_they_share() -> None:
    assert told((1, 3), (2, 4), (2.5, 5)) == [(2.5, 3, 1)]


def test_brackets_that_meet_at_a_force_do_not_overlap() -> None:
    """A cord breaks over its low end and at or under its high end."""
    assert told((1, 2), (2, 3)) == [(1, 2, 0.5), (2, 3, 0.5)]


def test_an_unbroken_cord_hands_its_share_to_those_that_held_more() -> None:
    """Of three, one breaks first; the unbroken one may break with the last: 1/3 and 2/3."""
    assert told((1, 2), (3, None), (5, 6)) == [(1, 2, 0.333333), (5, 6, 0.666667)]


def test_what_held_most_of_all_may_break_anywhere_beyond() -> None:
    assert told((1, 2), (3, None)) == [(1, 2, 0.5), (3, None, 0.5)]


def _agrees_with_itself(cords: Ends, found: tuple[Share, ...]) -> float:
    """The largest change when each cord hands its share out anew by the spread that was found."""
    high = [math.inf if part.high_n is None else part.high_n for part in found]
    inside = np.array(
        [
            [
                low <= part.low_n and end <= (math.inf if top is None else top)
                for part, end in zip(found, high, strict=True)
            ]
            for low, top in cords
        ],
        dtype=float,
    )
    share = np.array([part.share for part in found])
    handed = inside * share / (inside @ share)[:, np.newaxis]
    return float(np.abs(handed.mean(axis=0) - share).max())


ends = st.tuples(st.integers(0, 30), st.none() | st.integers(1, 8)).map(
    lambda pair: (float(pair[0]), None if pair[1] is None else float(pair[0] + pair[1]))
)


@settings(max_examples=150, deadline=None)
@given(st.lists(ends, min_size=1, max_size=14))
def test_the_spread_agrees_with_itself(cords: list[tuple[float, float | None]]) -> None:
    found = shares(tuple(cords))
    assert math.fsum(part.share for part in found) == pytest.approx(1, abs=1e-12)
    assert _agrees_with_itself(tuple(cords), found) < 1e-6
