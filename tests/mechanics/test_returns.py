"""What each return to the hanger says."""

from dataclasses import replace

from app.mechanics.cord_sums import cord_sums
from app.mechanics.recovery import NO_RETURN
from app.mechanics.returns import OVER_A_GAP
from tests.mechanics.told import a_cord, a_row, rows_of

LOADED = rows_of("200 210 220 230 240 250 260 270 280")


def back(step: int, pointer_mm: float) -> object:
    return a_row(step, pointer_mm, phase="return")


def test_a_return_belongs_to_the_load_of_its_step() -> None:
    found = cord_sums(a_cord(*LOADED, back(4, 203), back(8, 210)))
    assert [(each.step, each.force_n, each.set_mm.value) for each in found.returns] == [(4, 5.0, 3.0), (8, 9.0, 10.0)]
    assert [each.recovery.value for each in found.returns] == [(40 - 3) / 40, (80 - 10) / 80]
    assert found.permanent_set_mm == found.returns[1].set_mm


def test_a_return_of_a_step_that_was_not_read_loaded_says_nothing() -> None:
    assert cord_sums(a_cord(*LOADED, back(9, 203))).returns == ()


def test_no_return_says_why() -> None:
    found = cord_sums(a_cord(*LOADED))
    assert (found.permanent_set_mm.value, found.permanent_set_mm.why) == (None, NO_RETURN)
    assert found.elastic_limit.limit.why == NO_RETURN


def test_over_a_gap_no_set_is_said() -> None:
    slipped = replace(LOADED[5], events=("knot_slipped",))
    found = cord_sums(a_cord(*LOADED[:5], slipped, *LOADED[6:], back(8, 210)))
    assert found.permanent_set_mm.why == OVER_A_GAP


def test_the_last_set_is_that_of_the_heaviest_load_in_whatever_order_it_was_told() -> None:
    found = cord_sums(a_cord(*LOADED, back(8, 210), back(4, 203)))
    assert found.permanent_set_mm.value == 10.0
