"""One cord put together; its parts have their own tests."""

from dataclasses import replace

import pytest

from app.mechanics.cord_sums import cord_sums
from app.mechanics.extension import NO_ZERO_COUNTS
from app.mechanics.straight import NEEDS_FOUR
from app.mechanics.work import GAP, NO_FAILING_LOAD
from tests.mechanics.told import a_cord, a_row, rows_of

ROWS = rows_of("200 210 220 230 240 250 260 270 280 290")
CORD = a_cord(*ROWS, outcome="broke", fail_mass_g=1100.0, gauge_length_mm=300.0, strands=2, linear_density_g_per_m=1.5)


def test_a_straight_cord() -> None:
    found = cord_sums(CORD)
    assert found.straight.stiffness_n_per_mm.value == pytest.approx(0.1)
    assert found.slack_mm.value == pytest.approx(0.0)
    assert found.secant_n_per_mm.value == pytest.approx(0.1)
    assert (found.break_bracket.low_n, found.break_bracket.high_n) == (10.0, 11.0)
    assert found.load_per_strand_n.value == 10.5 / 2
    assert found.tenacity_cn_per_tex.value == pytest.approx(10.5 / 1.5 / 10)
    assert found.work_j.value == pytest.approx((1 + 10) / 2 * 90 / 1000)
    assert found.failing_work_j.value == pytest.approx(11 * 10 / 1000)


def test_a_gap_leaves_no_work_and_the_longest_section() -> None:
    slipped = replace(ROWS[3], events=("knot_slipped",))
    found = cord_sums(replace(CORD, rows=(*ROWS[:3], slipped, *ROWS[4:])))
    assert found.work_j.why == GAP
    assert found.failing_work_j.why == GAP  # the step that failed hangs on the part beyond the gap
    assert found.straight.readings == 7


def test_without_a_zero_nothing_is_said_but_why() -> None:
    out = replace(ROWS[0], left_out="misread")
    back = a_row(4, 203, phase="return")
    found = cord_sums(replace(CORD, rows=(out, *ROWS[1:5], back, *ROWS[5:])))
    said = (found.work_j, found.failing_work_j, found.loop_j, found.permanent_set_mm, found.returns[0].recovery)
    assert {each.why for each in said} == {NO_ZERO_COUNTS}
    assert found.elastic_limit.limit.why == NO_ZERO_COUNTS
    assert found.straight.stiffness_n_per_mm.value == pytest.approx(0.1)


def test_a_zero_whose_mass_nobody_told_is_a_zero_all_the_same() -> None:
    back = a_row(4, 203, phase="return")
    known = cord_sums(a_cord(*ROWS[:5], back))
    found = cord_sums(a_cord(replace(ROWS[0], mass_g=None), *ROWS[1:5], back))
    assert (known.returns[0].set_mm.value, found.returns[0].set_mm.value) == (3.0, 3.0)
    assert found.elastic_limit.limit.why


def test_a_cord_that_did_not_fail_has_no_failing_step() -> None:
    assert cord_sums(replace(CORD, outcome="stopped")).failing_work_j.why == NO_FAILING_LOAD


def test_a_pointer_put_back_joins_the_two() -> None:
    moved = replace(ROWS[4], events_after=("pointer_moved",))
    put_back = a_row(4, 140, phase="pointer_put_back")
    after = tuple(replace(row, pointer_mm=row.pointer_mm - 100) for row in ROWS[5:])
    found = cord_sums(replace(CORD, rows=(*ROWS[:4], moved, put_back, *after)))
    assert found.straight.readings == 10
    assert found.work_j.value == pytest.approx(cord_sums(CORD).work_j.value or 0)
    assert (found.work_j.standard_uncertainty or 0) > (cord_sums(CORD).work_j.standard_uncertainty or 0)
    for figure in ("stiffness_n_per_mm", "zero_force_mm", "line_at_start_mm"):
        joined, whole = getattr(found.straight, figure), getattr(cord_sums(CORD).straight, figure)
        assert joined.value == pytest.approx(whole.value)
        assert joined.standard_uncertainty > whole.standard_uncertainty


def test_creep_is_the_later_reading_less_the_first() -> None:
    found = cord_sums(replace(CORD, rows=(*ROWS[:6], a_row(5, 252, phase="later"), *ROWS[6:])))
    assert [(each.step, each.creep_mm.value) for each in found.creeps] == [(5, 2.0)]
    assert found.straight.readings == 10


def test_a_loop_is_closed_by_unloading() -> None:
    down = tuple(a_row(step, 205 + 9 * step, phase="unload") for step in range(8, -1, -1))
    assert cord_sums(replace(CORD, outcome="held", fail_mass_g=None, rows=(*ROWS, *down))).loop_j.value is not None
    assert cord_sums(CORD).loop_j.why


def test_a_chosen_part_stands_beside_the_proposal() -> None:
    chosen = cord_sums(replace(CORD, straight_first_step=2, straight_last_step=6)).chosen
    assert chosen is not None
    assert chosen.steps == (2, 3, 4, 5, 6)
    assert cord_sums(CORD).chosen is None
    assert cord_sums(replace(CORD, straight_first_step=2)).chosen is None


@pytest.mark.parametrize(("rung_u_g", "leaves"), [(0.0, 7), (100 * 0.1 / 3**0.5, None)])
def test_rungs_that_nobody_weighed_let_no_reading_leave_a_chosen_line(rung_u_g: float, leaves: int | None) -> None:
    """A wrong weight bends the line as a cord does, so nothing is said of where it bends."""
    told = rows_of("200 210 220 230 240 250 260 290 320 350")
    rows = [replace(row, mass_u_g=rung_u_g * row.step**0.5) for row in told]
    found = cord_sums(a_cord(*rows, straight_first_step=0, straight_last_step=6))
    assert found.straight.shape == "bent"
    assert found.chosen is not None
    assert found.chosen.leaves_step == leaves


@pytest.mark.parametrize("count", [0, 1, 3])
def test_a_cord_of_few_readings_says_why(count: int) -> None:
    found = cord_sums(a_cord(*ROWS[:count]))
    assert found.straight.stiffness_n_per_mm.why == NEEDS_FOUR
    assert found.break_bracket.why


def test_a_cord_left_out_keeps_its_bracket_and_has_no_figures() -> None:
    found = cord_sums(replace(CORD, rows=tuple(replace(row, left_out="nick") for row in ROWS)))
    assert (found.break_bracket.low_n, found.break_bracket.high_n) == (10.0, 11.0)
    assert found.straight.stiffness_n_per_mm.value is None
    assert found.readings[-1].extension_mm == 90


def test_the_same_cord_is_worked_out_once() -> None:
    assert cord_sums(CORD) is cord_sums(replace(CORD))
