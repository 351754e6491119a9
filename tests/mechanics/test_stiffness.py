"""Secant, chord and Young's modulus; published ones are in `tests/published/test_units.py`."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.mechanics.material import NO_FREE_LENGTH, NO_STRANDS, NO_THICKNESS, NO_WIDTH, OF_MATERIAL
from app.mechanics.result import NORMAL_975, ReadingScatter, Result, from_interval, none
from app.mechanics.stiffness import (
    NO_STRETCH,
    NO_ZERO_THERE,
    NOT_READ_THERE,
    ONE_LOAD,
    chord_stiffness,
    secant_stiffness,
    turned_round,
    youngs_modulus,
)
from tests.cord_recipe import Case, make_cords
from tests.mechanics.curves import FORCES, a_point, any_points, curve_of
from tests.mechanics.told import a_cord

CURVE = curve_of([(1, 100), (2, 102), (3, 105), (5, 113)])
READ = ReadingScatter(u_mm=0.5, dof=8)
BY_SCALE = ReadingScatter(u_mm=0.4)


def ends(result: Result) -> tuple[float | None, float | None, float | None]:
    return result.low, result.value, result.high


def test_secant_runs_from_the_settling_load_by_hand() -> None:
    """From (1 N, 100 mm) to (3 N, 105 mm): 2 N over 5 mm, and 2 x sqrt(2) x 0.4 mm about the 5."""
    half = 2 * 2**0.5 * 0.4
    found = secant_stiffness(CURVE, 3, BY_SCALE)
    assert ends(found) == pytest.approx((2 / (5 + half), 0.4, 2 / (5 - half)))
    assert found.unit == "N/mm"
    assert found.standard_uncertainty == pytest.approx((found.high - found.low) / 2 / NORMAL_975)


def test_chord_meets_the_readings_joined_by_straight_lines() -> None:
    """At 2.5 N the joined readings lie at 103.5 mm, at 4 N at 109 mm; t of 8 degrees of freedom is 2.306."""
    half = 2.306004 * 2**0.5 * 0.5
    assert ends(chord_stiffness(CURVE, (2.5, 4), READ)) == pytest.approx(
        (1.5 / (5.5 + half), 1.5 / 5.5, 1.5 / (5.5 - half)), rel=1e-6
    )
    assert chord_stiffness(CURVE, (4, 2.5), READ) == chord_stiffness(CURVE, (2.5, 4), READ)


def test_readings_under_one_load_are_met_at_their_mean() -> None:
    again = (*CURVE, a_point(2, 3, 107))
    assert secant_stiffness(again, 3, READ).value == pytest.approx(2 / 6)


def test_a_short_chord_has_an_open_end() -> None:
    found = chord_stiffness(CURVE, (1, 1.5), READ)
    assert (found.value, found.high, found.standard_uncertainty) == (0.5, None, None)
    assert found.low is not None


@pytest.mark.parametrize(
    ("between", "why"), [((0.5, 2), NOT_READ_THERE), ((2, 5.1), NOT_READ_THERE), ((2, 2), ONE_LOAD)]
)
def test_no_chord_without_readings_on_both_sides(between: tuple[float, float], why: str) -> None:
    assert chord_stiffness(CURVE, between, READ).why == why


def test_no_zero_no_secant() -> None:
    assert secant_stiffness((), 3, READ).why == NO_ZERO_THERE
    assert secant_stiffness(CURVE[1:], 3, READ).why == NO_ZERO_THERE
    assert secant_stiffness(CURVE, 1, READ).why == ONE_LOAD


@pytest.mark.parametrize("at_end", [100, 99])
def test_no_stretch_no_stiffness(at_end: float) -> None:
    found = secant_stiffness(curve_of([(1, 100), (2, at_end)]), 2, READ)
    assert (found.value, found.why) == (None, NO_STRETCH)


def test_a_pointer_put_back_in_between_adds_its_own_doubt() -> None:
    joined = tuple(replace(point, joins=int(point.row.step > 1)) for point in CURVE)
    found = chord_stiffness(joined, (1, 3), BY_SCALE)
    assert found.low == pytest.approx(2 / (5 + 2 * 2 * 0.4))
    assert chord_stiffness(joined, (3, 5), BY_SCALE) == chord_stiffness(CURVE, (3, 5), BY_SCALE)


def test_masses_in_both_loads_do_not_count_twice() -> None:
    """The load at 1 N is good to 0.3 N, that at 3 N to 0.5 N: what was added is 2 N good to 0.4 N."""
    u_n = {1: 0.3, 2: 0.4, 3: 0.5, 5: 0.6}
    unsure = tuple(replace(point, force_u_n=u_n[int(point.force_n)]) for point in CURVE)
    exact = ReadingScatter(u_mm=0.0)
    assert chord_stiffness(unsure, (1, 3), exact).standard_uncertainty == pytest.approx(0.4 * 0.2)


@given(between=st.tuples(st.floats(1, 5), st.floats(1, 5)), up=st.floats(-1e4, 1e4))
@settings(max_examples=50)
def test_the_zero_of_the_scale_changes_no_stiffness(between: tuple[float, float], up: float) -> None:
    moved = tuple(replace(point, stretched_mm=point.stretched_mm + up) for point in CURVE)
    one, other = (chord_stiffness(curve, between, READ) for curve in (CURVE, moved))
    assert one.why == other.why or abs(between[0] - between[1]) < 1e-9
    if one.value and other.value and abs(between[0] - between[1]) > 1e-3:
        assert other.value == pytest.approx(one.value, rel=1e-6)


def test_turned_round_swaps_the_ends() -> None:
    assert ends(turned_round(4, 2, 5)) == (0.2, 0.25, 0.5)
    assert ends(turned_round(4, -1, 5)) == (0.2, 0.25, None)
    assert turned_round(0, -1, 1).why == NO_STRETCH


def test_a_secant_holds_the_truth_as_often_as_it_says() -> None:
    """Straight cords, the fit's own scatter: t sqrt(2) u_x holds a difference of two readings 95 to 97 %."""
    case = Case(readings=12)
    cords, forces_n = make_cords(case, 400, seed=5), case.force_n.tolist()
    held = []
    for row, truth in zip(cords.pointer_mm.tolist(), cords.stiffness, strict=True):
        left = np.array(row) - np.polyval(np.polyfit(forces_n, row, 1), forces_n)
        scatter = ReadingScatter(u_mm=max(float(np.sqrt(left @ left / 10)), 0.408), dof=10)
        found = secant_stiffness(curve_of(zip(forces_n, row, strict=True)), forces_n[7], scatter)
        held.append(found.low <= truth <= found.high)
    assert 0.93 <= np.mean(held) <= 0.99


STRIP = {"gauge_length_mm": 300.0, "strands": 1, "strip_width_mm": 20.0, "film_thickness_um": 25.0}
K = from_interval(0.5, 0.48, 0.53, unit="N/mm")


def strip(**more: Any) -> Any:
    return a_cord(**(STRIP | more))


def test_youngs_modulus_by_hand() -> None:
    """0.5 N/mm x 300 mm over 20 mm x 25 um = 0.5 mm2: 300 MPa; u of length 0.48 %, width 2.17 %, thickness 2.31 %."""
    found = youngs_modulus(K, strip())
    relative = np.sqrt((2.5 / 300) ** 2 + (0.75 / 20) ** 2 + 0.04**2) / 3**0.5
    assert found.value == pytest.approx(300)
    assert found.high == pytest.approx(300 + np.hypot(18, 300 * NORMAL_975 * relative))
    assert found.low == pytest.approx(300 - np.hypot(12, 300 * NORMAL_975 * relative))
    assert (found.unit, found.note) == ("MPa", None)


def test_several_strips_have_the_modulus_of_the_material() -> None:
    found = youngs_modulus(K, strip(strands=3))
    assert found.value == pytest.approx(100)
    assert found.note == OF_MATERIAL


def test_an_open_stiffness_leaves_an_open_modulus() -> None:
    found = youngs_modulus(from_interval(0.5, 0.48, None, unit="N/mm"), strip())
    assert (found.high, found.standard_uncertainty) == (None, None)
    assert found.low is not None


@pytest.mark.parametrize(
    ("missing", "why"),
    [
        ("gauge_length_mm", NO_FREE_LENGTH),
        ("strands", NO_STRANDS),
        ("strip_width_mm", NO_WIDTH),
        ("film_thickness_um", NO_THICKNESS),
    ],
)
def test_what_is_missing_is_said(missing: str, why: str) -> None:
    found = youngs_modulus(K, strip(**{missing: None}))
    assert (found.value, found.why) == (None, why)


def test_no_stiffness_no_modulus() -> None:
    assert youngs_modulus(none("needs four readings", "N/mm"), strip()).why == "needs four readings"


@settings(max_examples=100)
@given(points=any_points(), between=st.tuples(FORCES, FORCES))
def test_no_readings_raise_anything(points: Any, between: tuple[float, float]) -> None:
    for found in (chord_stiffness(points, between, READ), secant_stiffness(points, between[0], READ)):
        assert (found.value is None) == (found.why is not None)
        assert found.low is None or found.low <= found.value
