"""What a person chose of a curve: the line, its interval, and where the readings leave it."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.mechanics.acceptable import NOT_ALL_BARS
from app.mechanics.chosen import ACROSS_A_GAP, FOR_THESE, ONE_LOAD, TOO_FEW, ChosenPart, chosen_part
from app.mechanics.reading_sums import CurvePoint
from app.mechanics.result import ReadingScatter, student
from app.mechanics.stiffness import NO_STRETCH
from tests.cord_recipe import Case, make_cords
from tests.mechanics.curves import a_point, any_points, curve_of
from tests.mechanics.demo_class import CLEAN_MM, POUCHES_G

CORD = ReadingScatter(u_mm=0.5, dof=9)
STRAIGHT = curve_of([(1, 100), (2, 102.1), (3, 103.9), (4, 106.1), (5, 107.9), (6, 110)])
"""2 mm a newton, all but 0.1 mm of it."""
BENT = (*STRAIGHT, *(a_point(step, step + 1, mm) for step, mm in ((6, 112.2), (7, 116), (8, 121))))


def chosen(
    points: tuple[CurvePoint, ...], steps: tuple[int, int] = (0, 5), *, scale_u_mm: float = 0.0, bent: bool = True
) -> ChosenPart:
    return chosen_part(points, first_step=steps[0], last_step=steps[1], scatter=CORD, scale_u_mm=scale_u_mm, bent=bent)


def test_line_of_the_chosen_readings_by_hand() -> None:
    """Mean force 3.5, mean reading 105; sum of dF dx 34.8, of dF squared 17.5, of dx squared 69.24.

    69.24 - 34.8 x 34.8 / 17.5 = 0.0377143 mm2 are left over.
    """
    found = chosen(STRAIGHT)
    assert found.line is not None
    slope = 34.8 / 17.5
    scatter = (0.0377143 / 4) ** 0.5
    assert found.line.slope == pytest.approx(slope)
    assert found.line.intercept == pytest.approx(105 - 3.5 * slope)
    assert found.line.slope_u == pytest.approx(scatter / 17.5**0.5, rel=1e-4)
    half = student(0.975, 4) * scatter / 17.5**0.5
    stiffness = found.stiffness_n_per_mm
    assert (stiffness.low, stiffness.value, stiffness.high) == pytest.approx(
        (1 / (slope + half), 1 / slope, 1 / (slope - half)), rel=1e-6
    )
    assert (stiffness.unit, stiffness.note) == ("N/mm", FOR_THESE)
    assert (found.steps, found.from_n, found.to_n) == ((0, 1, 2, 3, 4, 5), 1, 6)
    assert sum(found.residuals_mm) == pytest.approx(0, abs=1e-9)
    assert sum(one**2 for one in found.residuals_mm) == pytest.approx(0.0377143, rel=1e-4)


def test_the_scale_sets_the_least_scatter() -> None:
    by_scale, own = chosen(STRAIGHT, scale_u_mm=0.408), chosen(STRAIGHT)
    assert by_scale.stiffness_n_per_mm.value == pytest.approx(own.stiffness_n_per_mm.value)
    assert by_scale.line is not None
    assert by_scale.line.slope_u == pytest.approx(0.408 / 17.5**0.5)


def test_three_readings_lean_on_the_scatter_of_the_whole_cord() -> None:
    found = chosen(STRAIGHT, (1, 3))
    assert found.line is not None
    assert found.line.slope == pytest.approx((106.1 - 102.1) / 2)
    assert found.line.slope_u == pytest.approx(CORD.u_mm / 2**0.5)
    half = student(0.975, 9) * CORD.u_mm / 2**0.5
    assert found.stiffness_n_per_mm.low == pytest.approx(1 / (2 + half))


def test_only_the_steps_chosen_count() -> None:
    assert chosen(BENT).stiffness_n_per_mm == chosen(STRAIGHT).stiffness_n_per_mm
    assert chosen(BENT, (0, 8)).stiffness_n_per_mm != chosen(STRAIGHT).stiffness_n_per_mm


@pytest.mark.parametrize(("steps", "why"), [((2, 3), TOO_FEW), ((5, 2), TOO_FEW), ((40, 50), TOO_FEW)])
def test_too_few_readings_say_so(steps: tuple[int, int], why: str) -> None:
    found = chosen(STRAIGHT, steps)
    assert (found.stiffness_n_per_mm.value, found.stiffness_n_per_mm.why) == (None, why)
    assert (found.line, found.acceptable.steepest, found.acceptable.why) == (None, None, why)


def test_no_line_crosses_a_gap() -> None:
    second = tuple(replace(point, section=2) for point in STRAIGHT[3:])
    assert chosen((*STRAIGHT[:3], *second)).stiffness_n_per_mm.why == ACROSS_A_GAP
    assert chosen((*STRAIGHT[:3], *second), (3, 5)).stiffness_n_per_mm.value is not None


def test_one_load_has_no_line() -> None:
    assert chosen(curve_of([(2, 100), (2, 101), (2, 102)])).stiffness_n_per_mm.why == ONE_LOAD


def test_a_cord_that_does_not_stretch_has_a_line_but_no_stiffness() -> None:
    found = chosen(curve_of([(1, 100), (2, 100), (3, 99), (4, 99)]))
    assert (found.stiffness_n_per_mm.value, found.stiffness_n_per_mm.why) == (None, NO_STRETCH)
    assert found.line is not None


@pytest.mark.parametrize("up_mm", [0.0, 0.1, 7.0, 93.3, 219.7])
def test_a_pointer_that_stood_still_gives_no_stiffness_wherever_it_stood(up_mm: float) -> None:
    still = chosen(curve_of([(0.3 + 0.98 * step, 100 + up_mm) for step in range(6)]), scale_u_mm=0.408)
    assert still.stiffness_n_per_mm.why == NO_STRETCH


def test_the_curve_leaves_the_line_where_all_later_readings_are_off_it() -> None:
    """The line goes on by 1.99 mm a step from 110: 0.2, 2.1 and 5.1 mm are over it, and 2 u_x is 1 mm."""
    found = chosen(BENT)
    assert (found.leaves_step, found.leaves_n) == (7, 8)


def test_a_reading_back_on_the_line_puts_the_leaving_off() -> None:
    back = (*BENT[:-1], a_point(8, 9, 116.0))
    assert chosen(back).leaves_step is None
    assert chosen((*back, a_point(9, 10, 122.0))).leaves_step == 9


def test_a_cord_that_is_not_bent_does_not_leave_its_line() -> None:
    assert chosen(BENT, bent=False).leaves_step is None


@pytest.mark.parametrize(("steps", "on"), [((0, 5), True), ((0, 6), True), ((0, 8), False)])
def test_readings_on_no_one_line_are_told(steps: tuple[int, int], *, on: bool) -> None:
    """A line through bars of 1 mm can't gain 1.99 mm a step at first and 5 mm at last."""
    assert chosen(BENT, steps).on_one_line is on


@pytest.mark.parametrize(("limit_n", "on"), [(None, True), (7.0, True), (6.9, False)])
def test_a_part_that_goes_on_beyond_the_end_of_the_straight_one_is_told(limit_n: float | None, *, on: bool) -> None:
    found = chosen_part(BENT, first_step=0, last_step=6, scatter=CORD, scale_u_mm=0.0, bent=True, limit_n=limit_n)
    assert found.to_n == 7
    assert found.on_one_line is on


def test_readings_after_a_gap_do_not_count_as_leaving() -> None:
    slipped = tuple(replace(point, section=2) for point in BENT[7:])
    assert chosen((*BENT[:7], *slipped)).leaves_step is None


def test_acceptable_lines_lie_on_both_sides() -> None:
    found = chosen(STRAIGHT)
    lines = found.acceptable
    assert found.line is not None
    assert lines.steepest is not None
    assert lines.shallowest is not None
    assert lines.steepest.slope_mm_per_n < found.line.slope < lines.shallowest.slope_mm_per_n
    assert lines.half_difference_n_per_mm == pytest.approx(
        (1 / lines.steepest.slope_mm_per_n - 1 / lines.shallowest.slope_mm_per_n) / 2
    )
    assert chosen(BENT, (0, 8)).acceptable.why == NOT_ALL_BARS


def test_masses_nobody_weighed_widen_the_interval() -> None:
    """Each rung of 1 N to 10 %: five independent steps of u = 0.0577 N over 5 N are 2.6 % of the stiffness."""
    u = 0.1 / 3**0.5
    rough = tuple(replace(point, force_u_n=u * i**0.5) for i, point in enumerate(STRAIGHT))
    sure, unsure = chosen(STRAIGHT).stiffness_n_per_mm, chosen(rough).stiffness_n_per_mm
    assert None not in (sure.value, sure.high, unsure.high)
    extra = 1.959964 * sure.value * u * 5**0.5 / 5
    assert unsure.high - sure.value == pytest.approx(np.hypot(sure.high - sure.value, extra), rel=1e-6)


def test_a_pointer_put_back_on_the_way_widens_the_interval() -> None:
    """Its sqrt(2) u_x moves the last three readings together: their weights in the slope sum to 4.5/17.5 per newton."""
    joined = tuple(replace(point, joins=int(point.row.step > 2)) for point in STRAIGHT)
    found, before = chosen(joined, scale_u_mm=0.4).stiffness_n_per_mm, chosen(STRAIGHT, scale_u_mm=0.4)
    assert before.line is not None
    u = np.hypot(0.4 / 17.5**0.5, 2**0.5 * 0.4 * 4.5 / 17.5)
    assert 1 / found.low == pytest.approx(before.line.slope + student(0.975, 4) * u)
    early = tuple(replace(point, joins=1) for point in STRAIGHT)
    assert chosen(early, scale_u_mm=0.4).stiffness_n_per_mm == before.stiffness_n_per_mm


CLEAN = CLEAN_MM | {
    "Cedar": "230 235 240 242 246 253 261 271 284 298 324",
    "Larch": "235 240 249 252 257 268 280 294 311 331 361 405",
}
"""Cedar's row as if no knot had slipped, Larch's in the planned order of pouches."""
N_PER_M = {"Alder": 458, "Hazel": 375, "Maple": 680, "Rowan": 505, "Birch": 289, "Cedar": 237, "Willow": 185} | {
    "Elder": 140, "Larch": 159, "Juniper": 172
}  # fmt: skip


@pytest.mark.parametrize("bench", N_PER_M)
def test_gradients_of_the_invented_lesson(bench: str) -> None:
    """The demo page of the design: least squares of the clean rows from 4 to 11 N, in N/m, worked out beforehand."""
    hung_g = np.cumsum([112 if bench == "Birch" else 86, *map(float, POUCHES_G[bench].split())])
    readings_mm = [float(one) for one in CLEAN[bench].split()]
    points = curve_of(zip((hung_g * 0.00981).tolist(), readings_mm, strict=False))
    inside = [point.row.step for point in points if 4 <= point.force_n <= 11]
    found = chosen(points, (min(inside), max(inside))).stiffness_n_per_mm.value
    assert found is not None
    assert round(1000 * found) == N_PER_M[bench]


@settings(max_examples=40)
@given(turned=st.permutations(range(9)), up=st.floats(-5000, 5000))
def test_order_and_zero_of_the_scale_do_not_matter(turned: list[int], up: float) -> None:
    moved = tuple(replace(BENT[i], stretched_mm=BENT[i].stretched_mm + up) for i in turned)
    found, plain = chosen(moved), chosen(BENT)
    assert found.stiffness_n_per_mm.value == pytest.approx(plain.stiffness_n_per_mm.value, rel=1e-9)
    assert found.residuals_mm == pytest.approx(plain.residuals_mm, abs=1e-9)
    assert (found.steps, found.leaves_step) == (plain.steps, plain.leaves_step)


def test_a_choice_made_beforehand_holds_the_truth_as_often_as_it_says() -> None:
    """Seven readings of straight cords, chosen before anything was read: 95 %, a little more by the scale's floor."""
    case = Case(readings=12)
    cords = make_cords(case, 400, seed=11)
    forces_n = case.force_n.tolist()
    curves = [curve_of(zip(forces_n, row, strict=True)) for row in cords.pointer_mm.tolist()]
    found = [chosen(curve, (1, 7), scale_u_mm=0.408).stiffness_n_per_mm for curve in curves]
    held = np.mean([one.low <= truth <= one.high for one, truth in zip(found, cords.stiffness, strict=True)])
    assert 0.93 <= held <= 0.99


@settings(max_examples=100)
@given(points=any_points(), steps=st.tuples(st.integers(0, 12), st.integers(0, 12)), u_mm=st.floats(0.01, 50))
def test_no_readings_raise_anything(points: tuple[CurvePoint, ...], steps: tuple[int, int], u_mm: float) -> None:
    found = chosen(points, steps, scale_u_mm=u_mm)
    assert (found.stiffness_n_per_mm.value is None) == (found.stiffness_n_per_mm.why is not None)
    assert len(found.steps) == len(found.residuals_mm)
