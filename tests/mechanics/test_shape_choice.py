"""Which shape is taken: the gains over simpler shapes, worked out the long way, against their thresholds."""

import pytest

from app.mechanics.shape_choice import (
    BEND_GAIN,
    BEND_PAST_TOE_GAIN,
    PARAMETERS,
    STIFFER_GAIN,
    TOE_GAIN,
    choose,
    threshold,
)
from app.mechanics.shapes import fit_shapes
from tests.cord_recipe import Case, make_cords
from tests.mechanics.slow_fit import Try, best, fits, gain
from tests.mechanics.test_shapes import U0, a_section

STEPS_N = [float(step) for step in range(12)]


def shape_of(force_n: list[float], pointer_mm: list[float]) -> str:
    return choose(fit_shapes(a_section(force_n, pointer_mm))).shape


def slow_shape(tried: list[Try], readings: int) -> str:
    """The rule of choice once more, from squares worked out the long way."""
    least = {
        "straight": best(tried, "straight"),
        "toe": best(tried, "straight", "toe"),
        "bent": best(tried, "straight", "bent"),
        "toe_bent": best(tried, "straight", "toe", "bent", "toe_bent"),
        "stiffer": best(tried, "straight", "stiffer"),
    }

    def gains(simple: str, rich: str) -> float:
        return gain(least[simple], least[rich], dof=readings - PARAMETERS[rich], u0_mm=U0)

    bent = gains("straight", "bent") > BEND_GAIN[readings]
    if bent or gains("toe", "toe_bent") > BEND_PAST_TOE_GAIN[readings]:
        return "toe_bent" if not bent or gains("bent", "toe_bent") > TOE_GAIN[readings] else "bent"
    if gains("straight", "stiffer") > STIFFER_GAIN[readings] and least["stiffer"] < least["toe"]:
        return "stiffer"
    return "toe" if gains("straight", "toe") > TOE_GAIN[readings] else "straight"


@pytest.mark.parametrize(
    "case",
    [
        Case(readings=8),
        Case(readings=8, two_stage=True, toe="toe", bend="kink", ratio=2.0),
        Case(readings=8, bend="kink", ratio=1.5),
        Case(readings=8, bend="kink", ratio=0.6),
    ],
    ids=lambda case: f"{case.toe}, {case.bend} {case.ratio:g}",
)
def test_the_shape_is_that_of_the_rule_worked_out_the_long_way(case: Case) -> None:
    cords = make_cords(case, 2, seed=8)
    for pointer in cords.pointer_mm.tolist():
        force = case.force_n.tolist()
        assert shape_of(force, pointer) == slow_shape(fits(force, pointer), case.readings)


@pytest.mark.parametrize(
    ("shape", "pointer"),
    [
        ("straight", [4 * step for step in STEPS_N]),
        ("bent", [4 * step + 6 * max(step - 7, 0) for step in STEPS_N]),
        ("toe", [4 * step - 5 * max(2 - step, 0) for step in STEPS_N]),
        ("toe_bent", [4 * step - 5 * max(2 - step, 0) + 6 * max(step - 7, 0) for step in STEPS_N]),
        ("stiffer", [4 * step - 2 * max(step - 7, 0) for step in STEPS_N]),
    ],
)
def test_exact_readings_show_their_shape_and_where_it_changes(shape: str, pointer: list[float]) -> None:
    found = choose(fit_shapes(a_section(STEPS_N, pointer)))
    assert found.shape == shape
    assert found.toe_place * 11 == pytest.approx(2 if "toe" in shape else 0)
    assert found.bend_place * 11 == pytest.approx(11 if shape in ("straight", "toe") else 7)
    assert found.rss == pytest.approx(0, abs=1e-12)


def test_a_bend_is_sought_from_eight_readings_and_a_toe_from_six() -> None:
    for readings in range(4, 9):
        bent = [4 * step + 20 * max(step - readings + 3, 0) for step in STEPS_N[:readings]]
        slack = [4 * step - 20 * max(1 - step, 0) for step in STEPS_N[:readings]]
        assert (shape_of(STEPS_N[:readings], bent) == "bent") is (readings >= 8)
        assert (shape_of(STEPS_N[:readings], slack) == "toe") is (readings >= 6)


def test_the_places_within_reach_hold_the_best_one() -> None:
    case = Case(readings=12, toe="toe", bend="kink", ratio=2.0)
    for pointer in make_cords(case, 5, seed=3).pointer_mm.tolist():
        found = choose(fit_shapes(a_section(case.force_n.tolist(), pointer)))
        pairs = set(zip(found.rival_toe.tolist(), found.rival_bend.tolist(), strict=True))
        assert (found.toe, found.bend) in pairs
        assert (found.room > 0).all()
        assert found.reach >= found.variance > 0


def test_thresholds_fall_with_the_readings_and_stay_from_eighteen_on() -> None:
    for table in (BEND_GAIN, BEND_PAST_TOE_GAIN, STIFFER_GAIN, TOE_GAIN):
        assert sorted(table.values(), reverse=True) == list(table.values())
        assert list(table) == list(range(min(table), 19))
        assert threshold(table, 40) == table[18]
    assert {min(table) for table in (BEND_GAIN, BEND_PAST_TOE_GAIN, STIFFER_GAIN)} == {8}
    assert min(TOE_GAIN) == 6
