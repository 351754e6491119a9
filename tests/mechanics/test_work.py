"""Work: areas, their weights, what a loop keeps, and what nobody read."""

import math
from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from uncertainties import ufloat

from app.mechanics.result import ReadingScatter
from app.mechanics.work import (
    GAP,
    IF_IT_WENT_ON,
    NO_FAILING_LOAD,
    NO_LAST_SLOPE,
    NO_UNLOADING,
    NOT_HEAVIER,
    ONE_READING,
    OPEN_LOOP,
    failing_step_work,
    loop_work,
    work_to_break,
)

FORCES_N = (0.84, 1.81, 2.82, 3.82, 4.78, 6.81, 8.74, 10.70)
POINTERS_MM = (218.0, 222.0, 224.0, 227.0, 229.0, 234.0, 238.0, 242.0)
SCATTER = ReadingScatter(u_mm=0.6, dof=6)


def trapezia(forces: Sequence[Any], pointers: Sequence[Any]) -> Any:
    """The area as it is taught: one trapezium after another."""
    strips = [
        (force + heavier) / 2 * (further - pointer)
        for (force, heavier), (pointer, further) in zip(pairwise(forces), pairwise(pointers), strict=True)
    ]
    return sum(strips) / 1000


def nested(mass_u_n: float) -> list[Any]:
    """Loads as `uncertainties` follows them: each heavier one holds all the masses of the lighter ones."""
    return list(accumulate(ufloat(heavier - force, mass_u_n) for force, heavier in pairwise((0.0, *FORCES_N))))


@pytest.mark.parametrize("mass_u_n", [1e-9, 0.003, 0.06])
def test_work_beside_another_calculator(mass_u_n: float) -> None:
    """Second opinion: the package `uncertainties`, which follows shared masses and readings by itself."""
    other = trapezia(nested(mass_u_n), [ufloat(x, 0.6) for x in POINTERS_MM])
    totals_u_n = [math.sqrt(place + 1) * mass_u_n for place in range(len(FORCES_N))]
    ours = work_to_break(FORCES_N, POINTERS_MM, SCATTER, gap=False, force_u_n=totals_u_n)
    half = stats.t.ppf(0.975, 6) * other.std_dev
    value = other.nominal_value
    assert (ours.value, ours.low, ours.high) == pytest.approx((value, value - half, value + half), rel=1e-9)
    assert ours.unit == "J"


def test_a_pointer_put_back_adds_two_readings_of_uncertainty() -> None:
    """Second opinion: `uncertainties`, with an offset of u = sqrt(2) u_x on every reading after the join."""
    offset_mm = ufloat(0, 0.6 * math.sqrt(2))
    joined = [ufloat(x, 0.6) + (offset_mm if place >= 5 else 0) for place, x in enumerate(POINTERS_MM)]
    other = trapezia(FORCES_N, joined)
    ours = work_to_break(FORCES_N, POINTERS_MM, SCATTER, gap=False, joined_at=(5,))
    assert ours.high == pytest.approx(other.nominal_value + stats.t.ppf(0.975, 6) * other.std_dev, rel=1e-9)


def test_no_work_across_a_gap_or_of_one_reading() -> None:
    assert work_to_break(FORCES_N, POINTERS_MM, SCATTER, gap=True).why == GAP
    assert work_to_break(FORCES_N[:1], POINTERS_MM[:1], SCATTER, gap=False).why == ONE_READING
    assert work_to_break((), (), SCATTER, gap=False).why == ONE_READING
    assert loop_work(FORCES_N, POINTERS_MM, SCATTER, gap=True).why == GAP


def test_a_load_for_each_pointer() -> None:
    with pytest.raises(ValueError, match="a load for each"):
        work_to_break(FORCES_N, POINTERS_MM[1:], SCATTER, gap=False)


def test_what_the_failing_step_may_have_added() -> None:
    """2 mm a newton in the last step, 3 N more to the load it failed under: 13 N x 6 mm at most."""
    found = failing_step_work((1, 8, 10), (0, 10, 14), gap=False, fail_n=13)
    assert (found.value, found.unit, found.note) == (pytest.approx(0.078), "J", IF_IT_WENT_ON)
    assert (found.standard_uncertainty, found.low, found.high) == (None, None, None)


@pytest.mark.parametrize(
    ("forces_n", "pointers_mm", "fail_n", "why"),
    [
        ((1, 8, 10), (0, 10, 14), None, NO_FAILING_LOAD),
        ((1,), (0,), 13, ONE_READING),
        ((1, 8, 10), (0, 10, 14), 10, NOT_HEAVIER),
        ((1, 8, 10), (0, 14, 14), 13, NO_LAST_SLOPE),
        ((1, 8, 8), (0, 10, 14), 13, NO_LAST_SLOPE),
        ((0, 1e-300, 2e-300), (0, 10, 14), 13, NO_LAST_SLOPE),
    ],
)
def test_no_failing_step_to_carry_on(
    forces_n: tuple[float, ...], pointers_mm: tuple[float, ...], fail_n: float | None, why: str
) -> None:
    assert failing_step_work(forces_n, pointers_mm, gap=False, fail_n=fail_n).why == why


UP_N, UP_MM = (1.0, 2.0, 3.0), (0.0, 10.0, 30.0)
DOWN_N, DOWN_MM = (2.0, 1.0), (24.0, 8.0)


def test_a_loop_keeps_the_difference_of_its_two_areas() -> None:
    """Up 1.5 x 10 + 2.5 x 20 = 65 N mm; back 2.5 x 6 + 1.5 x 16 = 39 N mm; 26 N mm were not given back."""
    found = loop_work(UP_N + DOWN_N, UP_MM + DOWN_MM, SCATTER, gap=False)
    assert found.value == pytest.approx(0.026, rel=1e-12)
    up = work_to_break(UP_N, UP_MM, SCATTER, gap=False).value
    back = work_to_break((3.0, *DOWN_N), (30.0, *DOWN_MM), SCATTER, gap=False).value
    assert up is not None
    assert back is not None
    assert up + back == pytest.approx(0.026, rel=1e-12)


def test_a_loop_s_uncertainty_beside_another_calculator() -> None:
    """Second opinion: `uncertainties`; the masses on the way down are those of the way up."""
    hanger, first, second = ufloat(1, 0.02), ufloat(1, 0.05), ufloat(1, 0.05)
    loads = (hanger, hanger + first, hanger + first + second, hanger + first, hanger)
    other = trapezia(loads, [ufloat(x, 0.6) for x in UP_MM + DOWN_MM])
    ours = loop_work(
        UP_N + DOWN_N,
        UP_MM + DOWN_MM,
        SCATTER,
        gap=False,
        force_u_n=[one.std_dev for one in loads],
    )
    half = stats.t.ppf(0.975, 6) * other.std_dev
    assert ours.high == pytest.approx(0.026 + half, rel=1e-9)


@pytest.mark.parametrize(
    ("forces_n", "why"), [((1, 2, 3, 4), NO_UNLOADING), ((1, 2), NO_UNLOADING), ((1, 2, 3, 2), OPEN_LOOP)]
)
def test_no_loop(forces_n: tuple[float, ...], why: str) -> None:
    assert loop_work(forces_n, range(len(forces_n)), SCATTER, gap=False).why == why


def test_a_springy_cord_keeps_nothing() -> None:
    forces_n, pointers_mm = UP_N + UP_N[-2::-1], UP_MM + UP_MM[-2::-1]
    assert loop_work(forces_n, pointers_mm, SCATTER, gap=False).value == pytest.approx(0, abs=1e-12)


steps = st.lists(st.tuples(st.floats(0.1, 5), st.floats(-3, 40), st.floats(0, 0.1)), min_size=2, max_size=20)


@given(steps, st.integers(-5000, 5000), st.floats(0.2, 5))
def test_the_place_of_the_scale_changes_nothing_and_its_unit_a_factor(
    rows: list[tuple[float, float, float]], more_mm: int, times: float
) -> None:
    forces_n = [math.fsum(row[0] for row in rows[: place + 1]) for place in range(len(rows))]
    pointers_mm = [math.fsum(row[1] for row in rows[: place + 1]) for place in range(len(rows))]
    u_n = [math.sqrt(math.fsum(row[2] ** 2 for row in rows[: place + 1])) for place in range(len(rows))]
    found = work_to_break(forces_n, pointers_mm, SCATTER, gap=False, force_u_n=u_n)
    moved = work_to_break(forces_n, [x + more_mm for x in pointers_mm], SCATTER, gap=False, force_u_n=u_n)
    wider = ReadingScatter(u_mm=SCATTER.u_mm * times, dof=SCATTER.dof)
    scaled = work_to_break(forces_n, [x * times for x in pointers_mm], wider, gap=False, force_u_n=u_n)
    ends = [(one.value, one.low, one.high) for one in (found, moved, scaled)]
    assert ends[1] == pytest.approx(ends[0], rel=1e-9, abs=1e-9)
    assert ends[2] == pytest.approx([end * times for end in ends[0] if end is not None], rel=1e-9, abs=1e-9)
    assert found.value == pytest.approx(trapezia(forces_n, pointers_mm), rel=1e-9, abs=1e-9)
