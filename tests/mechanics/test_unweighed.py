"""Rungs that nobody weighed."""

import math
from itertools import pairwise

import numpy as np
import pytest

from app.mechanics.result import NORMAL_975, Interval, Result
from app.mechanics.unweighed import NOT_WEIGHED, level_doubt, step_doubt, widened_by
from tests.cord_recipe import Case, masses_g, newtons
from tests.mechanics.test_shapes import a_section
from tests.mechanics.test_straight import a_cord, found

STEPS_N = [1.0, 3.0, 5.0, 9.0]
POINTER_MM = [10.0, 20.0, 30.0, 50.0]


def nested_u(half_width: float, *, hanger_u: float = 0.0) -> list[float]:
    """Standard uncertainties of totals whose steps are right to that part of themselves."""
    variances = [hanger_u**2]
    for low, high in pairwise(STEPS_N):
        variances.append(variances[-1] + (half_width * (high - low)) ** 2 / 3)
    return [math.sqrt(one) for one in variances]


@pytest.mark.parametrize(("half_width", "unweighed"), [(0.02, False), (0.0201, True), (0.1, True), (0, False)])
def test_the_half_width_of_a_rung_is_found_again_from_nested_totals(half_width: float, unweighed: bool) -> None:
    doubt = step_doubt(a_section(STEPS_N, POINTER_MM), nested_u(half_width, hanger_u=0.3))
    assert doubt.half_width == pytest.approx(half_width)
    assert doubt.is_unweighed is unweighed


def test_exact_forces_bring_no_doubt() -> None:
    doubt = step_doubt(a_section(STEPS_N, POINTER_MM), None)
    assert (doubt.half_width, doubt.first_u, doubt.is_unweighed) == (0, 0, False)


def test_repeats_and_the_order_of_readings_change_nothing() -> None:
    force, u = [STEPS_N[i] for i in (3, 0, 2, 1, 2)], [nested_u(0.1)[i] for i in (3, 0, 2, 1, 2)]
    doubt = step_doubt(a_section(force, [POINTER_MM[i] for i in (3, 0, 2, 1, 2)]), u)
    assert doubt.half_width == pytest.approx(0.1)
    assert len(doubt.step) == 3


def test_totals_that_are_not_nested_still_bring_their_difference() -> None:
    """A file may tell a heavier load as the better known: 0.3 N, then 0.2 N, leaves a step known to 0.05 N2."""
    doubt = step_doubt(a_section(STEPS_N, POINTER_MM), [0.3, 0.2, 0.2, 0.1])
    assert (doubt.u * 8) ** 2 == pytest.approx([0.05, 0, 0.03])


def test_a_slope_takes_its_doubt_from_the_steps_it_runs_over() -> None:
    section = a_section(STEPS_N, POINTER_MM)
    doubt = step_doubt(section, nested_u(0.1))
    u = 0.1 / math.sqrt(3)
    assert doubt.of_slope(section.steps[1:] > 0) == pytest.approx(u * math.sqrt(4 + 4 + 16) / 8)
    assert doubt.of_slope(section.steps[1:] < 0.6) == pytest.approx(u * math.sqrt(4 + 4) / 4)


def test_a_level_is_moved_by_every_rung_below_a_reading() -> None:
    """Each step made wrong by hand, least squares done again: the line's value without load moves as foretold."""
    section = a_section(STEPS_N, POINTER_MM)
    doubt = step_doubt(section, nested_u(0.1))
    moved = []
    for wrong in range(3):
        force = [one + (0.1 / math.sqrt(3) * (STEPS_N[wrong + 1] - STEPS_N[wrong])) * (at > wrong)
                 for at, one in enumerate(STEPS_N)]  # fmt: skip
        mean, mean_error = sum(STEPS_N) / 4, sum(force) / 4 - sum(STEPS_N) / 4
        along = [one - mean for one in STEPS_N]
        slope_error = sum(a * (f - s) for a, f, s in zip(along, force, STEPS_N, strict=True)) / sum(
            a * a for a in along
        )
        moved.append(mean_error - slope_error * mean)
    found = level_doubt(section, doubt, place=section.no_force, part=(0.0, 1.0)) * section.span_n
    assert found == pytest.approx(math.sqrt(sum(one**2 for one in moved)))


def test_a_figure_is_widened_in_quadrature_at_both_ends() -> None:
    wide = widened_by(Result(value=10, unit="N/mm", low=7, high=11), 4 / NORMAL_975)
    assert (wide.low, wide.high) == (pytest.approx(5), pytest.approx(10 + math.sqrt(17)))
    assert wide.standard_uncertainty == pytest.approx((5 + math.sqrt(17)) / 2 / NORMAL_975)
    assert widened_by(Result(value=10, unit="N/mm", low=7, high=None), 1).high is None
    assert widened_by(Result(value=10, unit="N/mm", low=7, high=11), 20, least=0.0).low == 0
    nothing = Result(value=None, unit="N/mm", why="needs four readings")
    assert widened_by(nothing, 1) is nothing


class TestStraightPart:
    """What becomes of the straight part of a cord."""

    case = Case(readings=12, bend="kink", ratio=2.0)
    force, pointer = a_cord(case, 9)

    def u_n(self, half_width: float) -> list[float]:
        steps = np.diff(masses_g(12))
        grams = np.sqrt(np.concatenate(([0.0], np.cumsum((half_width * steps) ** 2 / 3))))
        return newtons(grams).tolist()

    def test_no_limit_is_given_and_the_figures_are_wider(self) -> None:
        exact, doubted = (found(self.force, self.pointer, force_u_n=u) for u in (None, self.u_n(0.1)))
        assert exact.bend == "sharply"
        assert doubted.limit_n == Interval(low=None, high=None, unit="N", why=NOT_WEIGHED)
        assert (doubted.bend, doubted.curved_early, doubted.shape) == (None, False, "bent")
        for name in ("zero_force_mm", "line_at_start_mm", "stiffness_n_per_mm"):
            narrow, wide = getattr(exact, name), getattr(doubted, name)
            assert wide.value == narrow.value
            assert wide.low < narrow.low < narrow.high < wide.high

    def test_the_stiffness_is_widened_over_the_steps_of_its_straight_part(self) -> None:
        exact, doubted = (found(self.force, self.pointer, force_u_n=u) for u in (None, self.u_n(0.1)))
        k, high = exact.stiffness_n_per_mm.value, exact.stiffness_n_per_mm.high
        assert k is not None
        assert high is not None
        steps = [up - low for low, up in pairwise(self.force) if up <= (exact.to_n or 0)]
        more = 1.96 * k * 0.1 / math.sqrt(3) * math.sqrt(sum(step**2 for step in steps)) / sum(steps)
        assert doubted.stiffness_n_per_mm.high == pytest.approx(k + math.hypot(high - k, more), rel=1e-5)

    def test_rungs_right_to_two_percent_are_as_good_as_weighed(self) -> None:
        exact, doubted = (found(self.force, self.pointer, force_u_n=u) for u in (None, self.u_n(0.02)))
        assert doubted == exact
