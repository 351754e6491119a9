"""One value a group."""

import math
from dataclasses import replace

import pytest

from app.mechanics.bench_values import bench_value, design_values, least_variance
from tests.mechanics.bench_class import broke, exact, held


def test_two_cords_by_one_group_make_one_value() -> None:
    """Middles 10 and 40: their geometric mean is 20, of the ends 9 and 36 it is 18, of 11 and 44 it is 22."""
    found = bench_value("Alder", [broke(9, 11), broke(36, 44)])
    assert (found.value, found.low, found.high) == pytest.approx((20, 18, 22), rel=1e-12)
    assert (found.group, found.at_least, found.relative_u) == ("Alder", False, None)


def test_one_unbroken_cord_makes_it_at_least() -> None:
    found = bench_value("Alder", [broke(9, 11), held(40)])
    assert (found.value, found.at_least, found.high) == (pytest.approx(20, rel=1e-12), True, None)


def test_a_cord_that_held_nothing_leaves_the_low_end_at_nothing() -> None:
    assert bench_value("Alder", [broke(0, 2), broke(9, 11)]).low == 0


def test_uncertainties_of_cords_are_averaged_in_quadrature() -> None:
    cords = [replace(broke(9, 11), relative_u=0.03), replace(broke(9, 11), relative_u=0.04)]
    assert bench_value("Alder", cords).relative_u == pytest.approx(0.025, rel=1e-12)
    assert bench_value("Alder", [cords[0], broke(9, 11)]).relative_u is None


def test_the_ends_of_a_design_span_its_groups() -> None:
    found = design_values("A", [broke(9, 11), broke(12, 14), broke(8, 10)])
    assert (found.low, found.high, found.unbroken) == (8, 14, 0)
    assert design_values("A", [broke(9, 11), held(12)]).high is None
    assert design_values("A", [broke(9, 11), replace(held(7), low=None)]).low == 7
    assert (design_values("A", exact(3, 2)).low, design_values("A", exact(3, 2)).high) == (2, 3)


def test_an_open_end_of_an_interval_stays_open() -> None:
    found = design_values("A", [replace(broke(9, 11), high=None), *exact(3)])
    assert (found.low, found.high) == (3, None)


def test_the_least_variance_is_that_of_the_steps_or_of_what_is_known() -> None:
    """Relative widths 0.2 and 0.1, rectangular; a standard uncertainty of 5 % in the place of either."""
    assert least_variance([broke(9, 11), broke(19, 21), held(30)]) == pytest.approx((0.04 + 0.01) / 24, rel=1e-12)
    assert least_variance([replace(broke(9, 11), relative_u=0.05)]) == pytest.approx(0.0025, rel=1e-12)
    assert least_variance([held(30), *exact(1, 2)]) == 0


def test_a_design_tells_its_scatter() -> None:
    assert design_values("A", exact(1, math.e)).s_ln == pytest.approx(math.sqrt(0.5), rel=1e-12)
    assert design_values("A", exact(1)).s_ln is None
    assert design_values("A", [held(1), broke(1, 2)]).s_ln is None
