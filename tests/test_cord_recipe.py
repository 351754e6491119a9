"""The truth that invented cords are told to have is the truth that they have."""

import math
from typing import Any

import numpy as np
import pytest

from tests.cord_recipe import (
    KINK_AT,
    TYPICAL_N,
    WEIBULL_SHAPES,
    Case,
    Strengths,
    log_scatter,
    make_breaks,
    make_cords,
    masses_g,
    read_again,
)

QUIET: dict[str, Any] = {"scatter_mm": 0.0, "division_mm": 1e-9}


def test_ladders_are_the_hanger_and_then_steps() -> None:
    assert masses_g(4).tolist() == [86, 286, 486, 686]
    assert masses_g(7, two_stage=True).tolist() == [86, 186, 286, 386, 486, 686, 886]
    assert Case(readings=2).force_n.tolist() == pytest.approx([0.84366, 2.80566])


def test_the_same_seed_makes_the_same_cords_and_another_makes_others() -> None:
    case = Case(readings=9, toe="toe", bend="kink", ratio=2)
    first, again, other = (make_cords(case, 5, seed=seed) for seed in (1, 1, 2))
    assert np.array_equal(first.pointer_mm, again.pointer_mm)
    assert not np.array_equal(first.pointer_mm, other.pointer_mm)


@pytest.mark.parametrize("two_stage", [False, True])
def test_a_straight_cord_read_without_scatter_has_its_stiffness_and_zero(two_stage: bool) -> None:
    cords = make_cords(Case(readings=10, two_stage=two_stage, **QUIET), 50, seed=3)
    slopes, at_zero = np.polyfit(cords.case.force_n, cords.pointer_mm.T, 1)
    assert 1 / slopes == pytest.approx(cords.stiffness)
    assert at_zero == pytest.approx(cords.zero_force_mm)
    assert cords.stiffness.min() >= 0.15
    assert cords.stiffness.max() <= 0.7


@pytest.mark.parametrize(("toe", "least", "most"), [("toe", 2, 8), ("small toe", 1, 3)])
def test_a_toe_is_slack_that_is_gone_before_the_straight_part(toe: str, least: float, most: float) -> None:
    cords = make_cords(Case(readings=18, toe=toe, **QUIET), 200, seed=4)
    slopes, at_zero = np.polyfit(cords.case.force_n[9:], cords.pointer_mm.T[9:], 1)
    assert 1 / slopes == pytest.approx(cords.stiffness, rel=1e-4)
    assert at_zero == pytest.approx(cords.zero_force_mm, abs=1e-2)
    slack_mm = at_zero + slopes * cords.case.force_n[0] - cords.pointer_mm[:, 0]
    assert least - 0.01 <= slack_mm.min() < least + 0.5
    assert most - 0.5 < slack_mm.max() <= most + 0.01


def test_a_kink_lies_where_it_is_told_and_turns_the_slope_by_its_ratio() -> None:
    case = Case(readings=12, bend="kink", ratio=2.5)
    cords = make_cords(case, 20, seed=5)
    assert case.psi_n == pytest.approx(case.force_n[0] + KINK_AT * np.ptp(case.force_n))
    places_mm = cords.exact_mm(case.psi_n + np.array([-2.0, -1.0, 0.0, 1.0, 2.0]))
    before, after = np.diff(places_mm)[:, :2], np.diff(places_mm)[:, 2:]
    assert before == pytest.approx(cords.compliance[:, None].repeat(2, 1))
    assert after == pytest.approx(2.5 * before)


def test_a_gradual_bend_reaches_its_ratio_at_the_top() -> None:
    case = Case(readings=12, bend="gradual", ratio=3)
    cords = make_cords(case, 20, seed=6)
    near_top_mm = np.diff(cords.exact_mm(case.force_n[-1] + np.array([-1e-4, 0.0])))[:, 0] / 1e-4
    assert near_top_mm / cords.compliance == pytest.approx(3, rel=1e-3)
    upper = np.full(20, case.force_n[3])
    assert cords.chord(upper) == pytest.approx(cords.stiffness, rel=0.01)
    assert np.all(cords.departed_mm(upper) < 0.1)


def test_a_cord_that_is_never_straight_starts_with_less_than_its_stiffness_and_gets_softer_all_the_way() -> None:
    case = Case(readings=12, bend="never straight", **QUIET)
    cords = make_cords(case, 20, seed=7)
    assert np.all(np.diff(cords.pointer_mm, n=2) > 0)
    chords = [cords.chord(np.full(20, upper)) for upper in case.force_n[1:]]
    assert np.all(np.diff(chords, axis=0) < 0)
    first = np.diff(cords.pointer_mm)[:, 0]
    assert chords[0] == pytest.approx((case.force_n[1] - case.force_n[0]) / first)


def test_readings_scatter_by_what_is_told_and_stand_on_the_scale() -> None:
    cords = make_cords(Case(readings=18, division_mm=5), 400, seed=8)
    assert np.array_equal(cords.pointer_mm % 5, np.zeros_like(cords.pointer_mm))
    fine = make_cords(Case(readings=18, division_mm=1e-6), 400, seed=8)
    off = (fine.pointer_mm - fine.exact_mm(fine.case.force_n)) / fine.scatter_mm[:, None]
    assert np.std(off) == pytest.approx(1, abs=0.03)
    assert np.mean(off) == pytest.approx(0, abs=0.05)
    assert 0.4 <= fine.scatter_mm.min() < fine.scatter_mm.max() <= 0.8


def test_a_place_read_again_scatters_around_itself() -> None:
    cords = make_cords(Case(readings=8), 400, seed=9)
    exact_mm = cords.exact_mm(cords.case.force_n[:1])
    off = (read_again(cords, exact_mm, seed=10) - exact_mm)[:, 0]
    assert np.std(off) == pytest.approx(math.sqrt(np.mean(cords.scatter_mm**2) + 1 / 12), rel=0.12)


def test_wrong_rungs_change_what_is_read_but_not_what_is_believed() -> None:
    case = Case(readings=12, rung_error=0.1, **QUIET)
    cords = make_cords(case, 300, seed=11)
    true_n = (cords.pointer_mm - cords.zero_force_mm[:, None]) / cords.compliance[:, None]
    wrong = np.diff(true_n) / np.diff(case.force_n) - 1
    assert true_n[:, 0] == pytest.approx(case.force_n[0])
    assert np.abs(wrong).max() == pytest.approx(0.1, abs=0.001)
    assert np.std(wrong) == pytest.approx(0.1 / math.sqrt(3), rel=0.05)


@pytest.mark.parametrize("cv", sorted(WEIBULL_SHAPES))
@pytest.mark.parametrize("law", ["normal", "weibull"])
def test_breaking_forces_have_their_median_and_their_scatter(law: str, cv: float) -> None:
    force_n = make_breaks(Strengths(medians=[1, 2], cv=cv, law=law), 20_000, seed=12).force_n
    assert np.median(force_n, axis=0) == pytest.approx([TYPICAL_N, 2 * TYPICAL_N], rel=0.01)
    assert np.std(force_n, axis=0) / np.mean(force_n, axis=0) == pytest.approx(cv, rel=0.03)


def test_one_cord_in_ten_is_spoiled() -> None:
    breaks = make_breaks(Strengths(medians=[1.0], cv=0.10, law="spoiled"), 20_000, seed=13)
    assert np.mean(breaks.force_n < 0.75 * TYPICAL_N) == pytest.approx(0.1, abs=0.01)


def test_a_bracket_holds_its_force_and_all_cords_of_a_class_climb_one_ladder() -> None:
    breaks = make_breaks(Strengths(medians=[1.0] * 6, step_n=3.0), 200, seed=14)
    assert np.all(breaks.low_n <= breaks.force_n)
    assert np.all(breaks.force_n <= breaks.high_n)
    assert breaks.high_n - breaks.low_n == pytest.approx(3.0)
    steps_apart = (breaks.low_n - breaks.low_n[:, :1]) / 3.0
    assert steps_apart == pytest.approx(np.round(steps_apart), abs=1e-9)
    assert len(np.unique(np.round(breaks.low_n[:, 0] % 3.0, 3))) > 100


@pytest.mark.parametrize("top", [0.0, 0.5, 1.0])
def test_masses_run_out_at_the_last_step_under_what_is_told(top: float) -> None:
    breaks = make_breaks(Strengths(medians=[1.0] * 4, top=top), 2000, seed=15)
    out = np.isinf(breaks.high_n)
    end_n = TYPICAL_N * math.exp(top * log_scatter(0.15))
    assert breaks.low_n[out].max() == pytest.approx(end_n, abs=0.01)
    assert breaks.low_n[out].min() == pytest.approx(end_n - 2.0, abs=0.01)
    assert np.all(breaks.force_n[out] > breaks.low_n[out])
    assert breaks.high_n[~out].max() <= end_n
    assert np.all(np.ptp(np.where(out, breaks.low_n, np.nan)[out.all(axis=1)], axis=1) == 0)
    assert [high is None for _, high in breaks.brackets(0)] == out[0].tolist()


def test_a_design_may_scatter_more_than_another() -> None:
    force_n = make_breaks(Strengths(medians=[1, 1], scatters=[1, 2]), 5000, seed=16).force_n
    one, other = np.std(np.log(force_n), axis=0)
    assert other / one == pytest.approx(2, rel=0.05)
