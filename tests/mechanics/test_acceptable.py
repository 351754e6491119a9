"""The steepest and the shallowest line through all bars."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from app.mechanics.acceptable import NOT_ALL_BARS, UPRIGHT, AcceptableLines, acceptable_lines
from app.mechanics.straight import PointerLine

BAR = 0.7821
"""No sum of the readings below is a multiple of it, so that no line only just touches."""


def drawn(found: AcceptableLines) -> tuple[PointerLine, PointerLine]:
    assert found.steepest is not None
    assert found.shallowest is not None
    return found.steepest, found.shallowest


def test_two_readings_have_lines_from_corner_to_corner() -> None:
    """By hand: from (1, 11) to (5, 17) and from (1, 9) to (5, 19), bars of 1 about 10 and 18."""
    found = acceptable_lines([1, 5], [10, 18], 1.0)
    steepest, shallowest = drawn(found)
    assert (steepest.at(1), steepest.at(5)) == pytest.approx((11, 17))
    assert (shallowest.at(1), shallowest.at(5)) == pytest.approx((9, 19))
    assert found.half_difference_n_per_mm == pytest.approx((1 / 1.5 - 1 / 2.5) / 2)


def test_bars_that_no_line_passes_through_say_so() -> None:
    found = acceptable_lines([0, 1, 2], [0, 5, 0], 1.0)
    assert (found.steepest, found.shallowest, found.half_difference_n_per_mm) == (None, None, None)
    assert found.why == NOT_ALL_BARS


def test_two_bars_under_one_load_must_overlap() -> None:
    assert acceptable_lines([0, 1, 1, 2], [0, 2, 4.1, 6], 1.0).why == NOT_ALL_BARS
    assert acceptable_lines([0, 1, 1, 2], [0, 2, 3.9, 6], 1.0).why is None


def test_a_line_that_leans_back_has_no_gradient_to_halve() -> None:
    found = acceptable_lines([0, 1, 2], [10, 10.5, 11], 1.0)
    assert drawn(found)[0].slope_mm_per_n == pytest.approx(-0.5)
    assert (found.half_difference_n_per_mm, found.why) == (None, UPRIGHT)


@st.composite
def readings(draw: st.DrawFn) -> tuple[list[float], list[float]]:
    force = draw(st.lists(st.integers(0, 30), min_size=2, max_size=9))
    assume(len(set(force)) > 1)
    return [float(one) for one in force], [2 * one + draw(st.integers(-20, 20)) / 10 for one in force]


@settings(max_examples=40, deadline=None)
@given(given_readings=readings())
def test_a_solver_for_linear_programs_agrees(given_readings: tuple[list[float], list[float]]) -> None:
    """Second opinion: scipy.optimize.linprog, the slope made least and most under |reading - a - c force| <= bar."""
    force, reading = given_readings
    bar = BAR
    sides = np.column_stack([np.ones(len(force)), force])
    limits = {
        "A_ub": np.vstack([sides, -sides]),
        "b_ub": np.concatenate([np.add(reading, bar), bar - np.array(reading)]),
    }
    least, most = (linprog((0, sign), **limits, bounds=(None, None)) for sign in (1, -1))
    found = acceptable_lines(force, reading, bar)
    if found.why == NOT_ALL_BARS:
        assert not least.success
        return
    steepest, shallowest = drawn(found)
    assert (steepest.slope_mm_per_n, shallowest.slope_mm_per_n) == pytest.approx((least.fun, -most.fun), abs=1e-7)
    for line in (steepest, shallowest):
        assert all(abs(mm - line.at(n)) <= bar + 1e-9 for n, mm in zip(force, reading, strict=True))


@given(given_readings=readings(), turned=st.permutations(range(9)))
def test_order_does_not_matter(given_readings: tuple[list[float], list[float]], turned: list[int]) -> None:
    force, reading = given_readings
    order = [i for i in turned if i < len(force)]
    again = acceptable_lines([force[i] for i in order], [reading[i] for i in order], BAR)
    assert again == acceptable_lines(force, reading, BAR)
