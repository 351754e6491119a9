"""The straight part of a cord, as the rest of the product asks for it."""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.mechanics.bend import CURVED_EARLY, IT_GETS_STIFFER, TOO_FEW_FOR_BEND
from app.mechanics.result import Interval, ReadingScatter, Result, none
from app.mechanics.shapes import READINGS_FOR_BEND, READINGS_FOR_TOE
from app.mechanics.stiffness import NO_STRETCH
from app.mechanics.straight import (
    NEEDS_FOUR,
    NOT_LOOKED_FOR,
    ONE_FORCE,
    READINGS_FOR_FIT,
    READINGS_WANDER,
    StraightPart,
    straight_part,
)
from tests.cord_recipe import Case, make_cords
from tests.mechanics.slow_fit import best, fits, interval

U0 = 0.408
EXAMPLES = 12
STEPS_N = [0.8 + 2 * step for step in range(12)]
RIVALS = {
    "straight": ("straight", "toe"),
    "toe": ("straight", "toe"),
    "bent": ("bent", "toe_bent"),
    "toe_bent": ("bent", "toe_bent"),
    "stiffer": ("stiffer",),
}
PARAMETERS = {"straight": 2, "toe": 4, "bent": 4, "toe_bent": 6, "stiffer": 4}


def found(
    force_n: Sequence[float],
    pointer_mm: Sequence[float],
    *,
    u0_mm: float = U0,
    force_u_n: Sequence[float] | None = None,
) -> StraightPart:
    return straight_part(force_n, pointer_mm, force_u_n=force_u_n, u0_mm=u0_mm)


def a_cord(case: Case, seed: int) -> tuple[list[float], list[float]]:
    return case.force_n.tolist(), make_cords(case, 1, seed=seed).pointer_mm[0].tolist()


def ends(result: Result) -> tuple[float | None, float | None]:
    return result.low, result.high


@pytest.mark.parametrize(
    ("case", "shape"),
    [
        (Case(readings=6), "straight"),
        (Case(readings=8, toe="toe"), "toe"),
        (Case(readings=8, bend="kink", ratio=2.0), "bent"),
        (Case(readings=8, toe="toe", bend="kink", ratio=3.0), "toe_bent"),
        (Case(readings=8, bend="kink", ratio=0.5), "stiffer"),
    ],
    ids=lambda one: one if isinstance(one, str) else "",
)
def test_every_figure_is_that_of_the_rules_worked_out_the_long_way(case: Case, shape: str) -> None:
    force, pointer = a_cord(case, 21)
    part, tried = found(force, pointer), fits(force, pointer)
    assert part.shape == shape
    dof = len(force) - PARAMETERS[shape]
    low, high, psi = interval(tried, shape, rivals=RIVALS[shape], dof=dof, u0_mm=U0)
    chosen = next(one for one in tried if one.shape == shape and one.rss == best(tried, shape))
    slope, without_load, start = chosen.value
    assert part.stiffness_n_per_mm.value == pytest.approx(1 / slope)
    assert part.stiffness_n_per_mm.low == pytest.approx(1 / high[0])
    assert part.stiffness_n_per_mm.high == (pytest.approx(1 / low[0]) if low[0] > 0 else None)
    assert part.zero_force_mm.value == pytest.approx(without_load)
    assert ends(part.zero_force_mm) == (pytest.approx(low[1]), pytest.approx(high[1]))
    assert part.line_at_start_mm.value == pytest.approx(start)
    assert ends(part.line_at_start_mm) == (pytest.approx(low[2]), pytest.approx(high[2]))
    assert part.scatter == ReadingScatter(u_mm=pytest.approx(max(math.sqrt(chosen.rss / dof), U0)), dof=dof)
    assert (part.from_n, part.to_n) == (
        pytest.approx(chosen.toe_n or force[0]),
        pytest.approx(chosen.bend_n or force[-1]),
    )
    if psi and shape != "toe":
        step = np.diff(force).max() / 40
        assert (part.limit_n.low, part.limit_n.high) == (
            pytest.approx(min(psi) - step),
            pytest.approx(max(psi) + step),
        )
        assert part.bend_at_n == pytest.approx(chosen.bend_n)


def test_stiffness_is_the_pointer_regressed_on_force_turned_round() -> None:
    """Force regressed on the pointer would give 1 / 1.018 of this."""
    force, pointer = [1.0, 2.0, 3.0, 4.0], [10.0, 12.4, 13.6, 16.0]
    slope = np.polyfit(force, pointer, 1)[0]
    assert found(force, pointer).stiffness_n_per_mm.value == pytest.approx(1 / slope)
    assert np.polyfit(pointer, force, 1)[0] < 1 / slope * 0.99


def test_its_uncertainty_is_half_the_width_of_its_interval() -> None:
    result = found(*a_cord(Case(readings=10), 2)).stiffness_n_per_mm
    assert result.low is not None
    assert result.high is not None
    assert result.standard_uncertainty == pytest.approx((result.high - result.low) / 2 / 1.959963984540054)
    assert result.unit == "N/mm"


def test_under_four_readings_nothing_is_fitted() -> None:
    for readings in range(4):
        part = found(STEPS_N[:readings], STEPS_N[:readings])
        assert part.stiffness_n_per_mm == none(NEEDS_FOUR, "N/mm")
        assert part.zero_force_mm == part.line_at_start_mm == none(NEEDS_FOUR, "mm")
        assert part.limit_n == Interval(low=None, high=None, unit="N", why=NEEDS_FOUR)
        assert part.scatter == ReadingScatter(u_mm=U0)
        assert (part.shape, part.line, part.fitted_mm, part.readings) == (None, None, (), readings)


@pytest.mark.parametrize("readings", [4, 5, 6, 7, 8])
def test_what_few_readings_leave_out_is_said(readings: int) -> None:
    part = found(STEPS_N[:readings], [4 * force for force in STEPS_N[:readings]])
    assert part.notes == {4: (NOT_LOOKED_FOR,), 5: (NOT_LOOKED_FOR,), 8: ()}.get(readings, (TOO_FEW_FOR_BEND,))
    assert (part.limit_n.why == TOO_FEW_FOR_BEND) is (readings < 8)
    assert part.scatter.dof == readings - 2


def test_a_scale_too_coarse_for_the_cord_leaves_the_stiffness_open_upwards() -> None:
    result = found(STEPS_N[:4], [100, 100, 100, 101]).stiffness_n_per_mm
    assert result.value is not None
    assert result.low is not None
    assert (result.high, result.standard_uncertainty) == (None, None)


@pytest.mark.parametrize("pointer", [[100.0] * 12, [100.0 - force for force in STEPS_N]])
def test_readings_that_do_not_grow_give_no_stiffness(pointer: list[float]) -> None:
    part = found(STEPS_N, pointer)
    assert part.stiffness_n_per_mm == none(NO_STRETCH, "N/mm")
    assert part.zero_force_mm.value is not None


def test_readings_under_one_force_give_no_line() -> None:
    part = found([5.0] * 9, list(range(9)))
    assert part.stiffness_n_per_mm == none(ONE_FORCE, "N/mm")
    assert part.limit_n.why == ONE_FORCE


def test_what_gets_stiffer_asks_about_the_tray() -> None:
    part = found(STEPS_N, [4 * force - 3 * max(force - 15, 0) for force in STEPS_N])
    assert part.shape == "stiffer"
    assert part.notes == (IT_GETS_STIFFER,)


def test_a_curve_that_is_never_straight_is_called_curved_from_early_on() -> None:
    part = found(*a_cord(Case(readings=12, bend="never straight"), 1))
    assert part.curved_early
    assert CURVED_EARLY in part.notes


def test_readings_that_wander_are_spoken_of_and_the_figures_stay() -> None:
    rng = np.random.default_rng(5)
    pointer = [4 * force + 5 * error for force, error in zip(STEPS_N, rng.standard_normal(12), strict=True)]
    part = found(STEPS_N, pointer)
    assert part.scatter_warning == READINGS_WANDER
    assert part.stiffness_n_per_mm.value is not None
    assert found(STEPS_N, pointer, u0_mm=8).scatter_warning is None


def test_the_curve_and_what_is_left_of_each_reading_come_in_the_order_given() -> None:
    force, pointer = a_cord(Case(readings=12, bend="kink", ratio=2.0), 6)
    part = found(force, pointer)
    assert part.line is not None
    assert [curve + rest for curve, rest in zip(part.fitted_mm, part.residuals_mm, strict=True)] == pytest.approx(
        pointer
    )
    assert part.fitted_mm[1] == pytest.approx(part.line.at(force[1]))
    turned = found(force[::-1], pointer[::-1])
    assert turned.fitted_mm == part.fitted_mm[::-1]


cords = st.builds(
    lambda readings, toe, bend, seed: a_cord(Case(readings=readings, toe=toe, bend=bend, ratio=2.0), seed),
    st.integers(4, 14),
    st.sampled_from(["none", "toe"]),
    st.sampled_from(["straight", "kink"]),
    st.integers(0, 999),
)


def figures(part: StraightPart) -> list[float | None]:
    """All that a change of units or of the zero must not change."""
    return [
        part.stiffness_n_per_mm.value,
        *ends(part.stiffness_n_per_mm),
        part.limit_n.low,
        part.limit_n.high,
        part.to_n,
    ]


@settings(max_examples=EXAMPLES, deadline=None)
@given(cord=cords, force_by=st.sampled_from([1 / 9.81, 0.5, 1e-3, 7.3]), length_by=st.sampled_from([0.1, 2.0, 25.4]))
def test_units_change_nothing_but_factors(
    cord: tuple[list[float], list[float]], force_by: float, length_by: float
) -> None:
    part = found(*cord)
    other = found([one * force_by for one in cord[0]], [one * length_by for one in cord[1]], u0_mm=U0 * length_by)
    by = [force_by / length_by] * 3 + [force_by] * 3
    expected = [
        None if one is None else pytest.approx(one * k, rel=1e-6) for one, k in zip(figures(part), by, strict=True)
    ]
    assert other.shape == part.shape
    assert figures(other) == expected
    assert other.zero_force_mm.value == pytest.approx((part.zero_force_mm.value or 0) * length_by)


@settings(max_examples=EXAMPLES, deadline=None)
@given(cord=cords, constant=st.integers(-5000, 5000))
def test_a_constant_added_to_all_pointers_moves_the_zero_alone(
    cord: tuple[list[float], list[float]], constant: int
) -> None:
    part, moved = found(*cord), found(cord[0], [one + constant for one in cord[1]])
    assert figures(moved) == [None if one is None else pytest.approx(one, rel=1e-6) for one in figures(part)]
    assert moved.zero_force_mm.value == pytest.approx((part.zero_force_mm.value or 0) + constant, abs=1e-6)


@settings(max_examples=EXAMPLES, deadline=None)
@given(cord=cords, random=st.randoms(use_true_random=False))
def test_the_order_of_readings_changes_no_figure(cord: tuple[list[float], list[float]], random: object) -> None:
    pairs = list(zip(*cord, strict=True))
    random.shuffle(pairs)  # type: ignore[attr-defined]
    part, shuffled = found(*cord), found(*(list(side) for side in zip(*pairs, strict=True)))
    assert replace(shuffled, fitted_mm=(), residuals_mm=()) == replace(part, fitted_mm=(), residuals_mm=())


@settings(max_examples=EXAMPLES, deadline=None)
@given(
    readings=st.lists(
        st.tuples(
            st.one_of(st.sampled_from([0.0, 1.0, 1.0 + 1e-13, 2.0, 3.0, 1e-3, 4.0, 2000.0]), st.floats(0, 2000)),
            st.one_of(st.sampled_from([0.0, 250.0, 1e4]), st.floats(-1e4, 1e4)),
        ),
        min_size=1,
        max_size=14,
    ),
    u0=st.sampled_from([0.0, 0.3, 30.0]),
    doubt=st.sampled_from([None, 0.0, 0.05, 2.0]),
)
def test_no_readings_raise_anything(readings: list[tuple[float, float]], u0: float, doubt: float | None) -> None:
    force, pointer = zip(*readings, strict=True)
    u = None if doubt is None else [doubt * one for one in force]
    part = found(force, pointer, u0_mm=u0, force_u_n=u)
    for result in (part.stiffness_n_per_mm, part.zero_force_mm, part.line_at_start_mm):
        assert (result.value is None) is (result.why is not None)
        told = [one for one in (result.low, result.value, result.high) if one is not None]
        assert all(map(math.isfinite, told))
        assert told == sorted(told)
    assert (part.limit_n.low is None) <= (part.limit_n.why is not None)
    assert part.scatter.dof is None or part.scatter.dof >= 2


def test_no_shape_leaves_fewer_than_two_degrees_of_freedom() -> None:
    """Each shape with as few readings as it may have; `PARAMETERS` are the columns it takes."""
    least = {"straight": READINGS_FOR_FIT, "toe": READINGS_FOR_TOE} | dict.fromkeys(
        ("bent", "toe_bent", "stiffer"), READINGS_FOR_BEND
    )
    assert min(least[shape] - taken for shape, taken in PARAMETERS.items()) == 2
    for readings in range(READINGS_FOR_FIT, 10):
        curves = [a_cord(Case(readings=readings, toe=toe, bend=bend, ratio=3.0), 21) for toe in ("none", "toe")
                  for bend in ("straight", "kink")]  # fmt: skip
        for part in (found(*curve) for curve in curves):
            assert part.scatter.dof is not None
            assert part.scatter.dof >= 2


BENDS = [4 * force + 2 * max(force - 15, 0) for force in STEPS_N]


@pytest.mark.parametrize("size", [1e-10, 1e12, 1e100])
def test_forces_far_from_any_cord_s_are_borne(size: float) -> None:
    part = found([one * size for one in STEPS_N], BENDS)
    assert part.stiffness_n_per_mm.value == pytest.approx(size / 4, rel=1e-3)


@pytest.mark.parametrize("size", [1e-100, 1e-12, 1e12, 1e100])
def test_pointers_far_from_any_cord_s_are_borne(size: float) -> None:
    part = found(STEPS_N, [one * size for one in BENDS], u0_mm=0)
    assert part.stiffness_n_per_mm.value == pytest.approx(0.25 / size, rel=1e-3)


@pytest.mark.parametrize("size", [5e-324, 1e-310, 1e-100, 1e-12])
def test_forces_that_differ_by_next_to_nothing_are_one_force(size: float) -> None:
    assert found([one * size for one in STEPS_N], BENDS).stiffness_n_per_mm == none(ONE_FORCE, "N/mm")
