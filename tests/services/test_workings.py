"""How each figure of a cord was worked out: which figures at which depth, and what is true of each."""

from typing import Any

import pytest
from hypothesis import given, settings

from app.domain.vocabulary import DEPTHS
from app.mechanics.cord_sums import cord_sums
from app.services.workings import cord_workings
from tests.services.workings_told import demo, holds
from tests.transfer.told_cords import CORDS

FIRST = (
    "break_force_N extension_mm permanent_set_mm limit_of_proportionality_N break_force_per_strand_N "
    "break_force_per_linear_density"
)
SECOND = f"{FIRST} strain recovery elastic_limit_N stiffness_N_per_mm creep"
THIRD = (
    f"{SECOND} tenacity_cN_per_tex breaking_length_km stress_at_break_MPa youngs_modulus_MPa toe_mm "
    "zero_force_pointer_mm secant_N_per_mm offset_yield_N work_J failing_step_work_J loop_J reading_u_mm"
)
"""The figures of each depth, by code."""


@pytest.mark.parametrize("depth", DEPTHS)
@pytest.mark.parametrize("bench", ["Alder", "Hazel", "Cedar", "Maple", "Rowan", "Willow", "Larch"])
def test_every_figure_of_the_invented_cords_is_answered(bench: str, depth: str) -> None:
    holds(cord_workings(demo(f"{bench}-1"), depth))


@settings(max_examples=60, deadline=None)
@given(CORDS)
def test_any_cord_is_answered_at_every_depth(cord: Any) -> None:
    for depth in DEPTHS:
        holds(cord_workings(cord_sums(cord), depth))


def test_a_deeper_depth_shows_all_of_the_shallower_ones() -> None:
    first, second, third = ([one.code for one in cord_workings(demo("Alder-1"), depth)] for depth in DEPTHS)
    assert first == FIRST.split()
    assert sorted(second) == sorted(SECOND.split())
    assert sorted(third) == sorted(THIRD.split())
    assert [code for code in third if code in second] == second


def test_no_fit_is_spoken_of_at_the_first_depth() -> None:
    words = " ".join(
        f"{one.name} {one.said} {one.formula} {one.numbers}" for one in cord_workings(demo("Alder-1"), "first")
    )
    assert not any(word in words for word in ("slope", "stiffness", "strain", "proportionality", "N/mm", "±"))
