"""Planning: strips, what a cord may hold, how far a ladder reaches, what falls."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.mechanics.planning import (
    Cut,
    expected_break,
    falling_j,
    kept_share,
    ladder_reach,
    lengths_of_strip,
    longest_cord_mm,
    sheet_strips,
    strip_for_cord_mm,
    tube_strips,
)
from app.mechanics.power import MEASURED, Power, measured_power


def test_strips_of_a_bag_welded_at_the_bottom() -> None:
    """The worked example of our design: lay-flat 380 mm, height 420 mm, no gusset, 20 mm strips."""
    cuts = tube_strips(380, 420, strip_width_mm=20)
    assert (cuts.crosswise, cuts.lengthwise) == (Cut(count=21, strip_mm=760), Cut(count=38, strip_mm=420))


def test_gussets_lengthen_the_hoop_and_welds_at_the_sides_halve_it() -> None:
    """Common practice, no published source: 2 x 300 + 4 x 50 mm round the bag; a weld at each side is cut out."""
    cuts = tube_strips(300, 405, strip_width_mm=20, gusset_mm=50)
    assert (cuts.crosswise, cuts.lengthwise) == (Cut(count=20, strip_mm=800), Cut(count=40, strip_mm=405))
    welded = tube_strips(390, 405, strip_width_mm=20, side_seams=True)
    assert (welded.crosswise, welded.lengthwise) == (Cut(count=40, strip_mm=390), Cut(count=38, strip_mm=405))


def test_strips_of_a_sheet_both_ways() -> None:
    cuts = sheet_strips(1500, 1000, strip_width_mm=25)
    assert (cuts.crosswise, cuts.lengthwise) == (Cut(count=40, strip_mm=1500), Cut(count=60, strip_mm=1000))


@pytest.mark.parametrize(("room_mm", "width_mm", "count"), [(0.3, 0.1, 3), (41.999, 21, 1), (5, 20, 0), (42, 21, 2)])
def test_a_strip_that_just_fits_is_counted(room_mm: float, width_mm: float, count: int) -> None:
    assert sheet_strips(room_mm, 1, strip_width_mm=width_mm).lengthwise.count == count


def test_a_strip_gives_as_many_whole_lengths_as_fit() -> None:
    """Plane geometry: 565 mm go twice into 1500 mm, three times into 1695 mm, not once into 564 mm."""
    assert [lengths_of_strip(strip_mm, 565) for strip_mm in (1500, 1695, 564)] == [2, 3, 0]


def test_strip_for_a_cord_and_cord_from_a_strip() -> None:
    """The worked example of our design: factor 1.15, 110 mm a knot: 565 mm for 300 mm; 420 mm allow 173 whole mm."""
    assert strip_for_cord_mm(300, take_up_factor=1.15, knot_mm=110) == pytest.approx(565, rel=1e-12)
    assert int(longest_cord_mm(420, take_up_factor=1.15, knot_mm=110)) == 173
    assert longest_cord_mm(200, take_up_factor=1.15, knot_mm=110) == 0


@given(st.floats(1, 2000), st.floats(1, 1.6), st.floats(0, 300))
def test_the_longest_cord_needs_just_that_strip(cord_mm: float, factor: float, knot_mm: float) -> None:
    strip_mm = strip_for_cord_mm(cord_mm, take_up_factor=factor, knot_mm=knot_mm)
    assert longest_cord_mm(strip_mm, take_up_factor=factor, knot_mm=knot_mm) == pytest.approx(cord_mm, rel=1e-9)


def test_an_expected_break_is_a_range() -> None:
    """The worked example of our design: thin HDPE 15 um, 25 to 60 MPa, three 20 mm strips, knots: 10 to 36 N."""
    kept = kept_share(laid_up=True, knotted=True)
    found = expected_break((25, 60), strands=3, strip_width_mm=20, thickness_mm=0.015, kept=kept)
    assert (found.low, found.high) == pytest.approx((9.5625, 35.91), rel=1e-12)
    assert found.unit == "N"


def test_what_takes_no_strength_keeps_all_of_it() -> None:
    assert kept_share(laid_up=False, knotted=False) == (1.0, 1.0)
    assert kept_share(laid_up=False, knotted=True) == (0.5, 0.7)


def test_readings_before_the_weakest_and_the_strongest_break() -> None:
    """The worked example of our design: 16 to 26 N with steps of 2 N gives 8 to 13 points."""
    reach = ladder_reach([2.0 * step for step in range(18)], low_n=16, high_n=26)
    assert (reach.readings_before_low, reach.readings_before_high, reach.top_n) == (8, 13, 34)
    assert (reach.too_few, reach.few, reach.may_outlive) == (False, True, True)


@pytest.mark.parametrize(
    ("steps", "low_n", "too_few", "few"),
    [(30, 7.0, True, False), (30, 7.5, False, True), (30, 9.0, False, True), (30, 9.5, False, False)],
)
def test_when_a_bend_can_be_looked_for(steps: int, low_n: float, too_few: bool, few: bool) -> None:
    reach = ladder_reach([float(step) for step in range(steps)], low_n=low_n, high_n=10)
    assert (reach.too_few, reach.few, reach.may_outlive) == (too_few, few, False)


@pytest.mark.parametrize(("high_n", "outlives"), [(20, False), (20.1, True)])
def test_a_ladder_reaches_half_as_far_again_as_the_strongest(high_n: float, outlives: bool) -> None:
    assert ladder_reach([1.0, 30.0], low_n=5, high_n=high_n).may_outlive == outlives


def test_what_falls() -> None:
    """The worked example of our design: 3 kg from 0.30 m bring 8.8 J."""
    assert falling_j(3000, 300, gravity_m_per_s2=9.81) == pytest.approx(8.829, rel=1e-12)


def test_power_is_looked_up_and_never_reckoned() -> None:
    row = measured_power([2, 3])
    assert row is not None
    assert (row.found, row.smallest_ratio) == ((19, 46, 85), 2.0)
    assert measured_power([4, 4, 1]) == measured_power([4, 4])
    assert measured_power([5, 5]) is None
    assert measured_power([2, 2]) is None
    assert measured_power([]) is None


@pytest.mark.parametrize(
    ("benches", "ratio"), [((4, 4), 1.5), ((4, 4, 4), 2.0), ((3, 2, 2, 2), None), ((2, 2, 2, 2, 2), None)]
)
def test_the_smallest_ratio_found_80_times_in_100(benches: tuple[int, ...], ratio: float | None) -> None:
    row = measured_power(benches)
    assert row is not None
    assert row.smallest_ratio == ratio


@pytest.mark.parametrize("row", MEASURED, ids=lambda row: "+".join(map(str, row.benches)))
def test_a_greater_ratio_is_found_more_often(row: Power) -> None:
    assert list(row.found) == sorted(row.found)
    assert row.benches == tuple(sorted(row.benches, reverse=True))
