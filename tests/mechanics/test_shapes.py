"""The family of shapes: its closed forms against every fit done the long way, and what may stand."""

import numpy as np
import pytest

from app.mechanics.section import Section, section_of
from app.mechanics.shapes import Grid, bend_columns, bend_places, fit_shapes, grid_places, straight_line
from tests.cord_recipe import Case, make_cords
from tests.mechanics.slow_fit import Try, fits, stiffer_fits

U0 = 0.408
STEPS_N = [1.0, 3.0, 5.0, 7.0, 9.0, 11.0, 13.0, 15.0]
CASES = {
    "toe and kink": Case(readings=8, toe="toe", bend="kink", ratio=2.0),
    "straight, two-stage": Case(readings=8, two_stage=True),
    "gradual": Case(readings=8, bend="gradual", ratio=3.0),
}


def a_section(force_n: list[float], pointer_mm: list[float]) -> Section:
    found = section_of(force_n, pointer_mm, u0_mm=U0)
    assert found is not None
    return found


def readings_of(case: Case, seed: int) -> tuple[list[float], list[float]]:
    """The forces and readings of one cord of a case."""
    cords = make_cords(case, 1, seed=seed)
    return case.force_n.tolist(), cords.pointer_mm[0].tolist()


def with_repeats(case: Case, seed: int) -> tuple[list[float], list[float]]:
    """The same with its third and last step read twice."""
    force, pointer = readings_of(case, seed)
    return [*force, force[2], force[-1]], [*pointer, pointer[2] + 1.0, pointer[-1] - 1.0]


def places_of(grid: Grid) -> dict[tuple[float, ...], tuple[int, int]]:
    """Where in the grid each pair stands, by toe, power, bend, power [N]."""
    section, told = grid.section, {}
    for toe, bend in zip(*np.nonzero(np.isfinite(grid.rss)), strict=True):
        toe_n = section.force_n(grid.toe.place[toe]) if toe else -1.0
        bend_n = section.force_n(grid.bend.place[bend]) if bend else -1.0
        told[round(toe_n, 6), grid.toe.power[toe], round(bend_n, 6), grid.bend.power[bend]] = (int(toe), int(bend))
    return told


def key_of(one: Try) -> tuple[float, ...]:
    toe, bend = (-1.0 if place is None else round(place, 6) for place in (one.toe_n, one.bend_n))
    return toe, one.toe_power, bend, one.bend_power


@pytest.mark.parametrize(
    ("case", "make"), [*((case, readings_of) for case in CASES.values()), (CASES["toe and kink"], with_repeats)]
)
def test_every_place_has_the_squares_and_figures_of_its_own_least_squares(case: Case, make: object) -> None:
    force, pointer = make(case, 5)  # type: ignore[operator]
    grid, section = fit_shapes(a_section(force, pointer)), a_section(force, pointer)
    slow = {key_of(one): one for one in fits(force, pointer) if one.shape != "stiffer"}
    places = places_of(grid)
    differing = {key: one for key, one in slow.items() if key not in places}
    assert not set(places) - set(slow)
    assert all(abs(one.rss - grid.line.rss * section.unit_mm**2) < 1e-6 * one.rss for one in differing.values())
    toe, bend = np.array([places[key] for key in slow if key in places]).T
    of = np.array([grid.line.slope(), grid.line.value_at(section.no_force), grid.line.value_at(0.0)])
    value, variance = grid.figures(toe, bend, of=of)
    to_mm = np.array([[section.unit_mm / section.span_n], [section.unit_mm], [section.unit_mm]])
    value = value * to_mm + np.array([[0.0], [section.mean_mm], [section.mean_mm]])
    variance = variance * (to_mm / section.unit_mm) ** 2
    both = [one for key, one in slow.items() if key in places]
    assert grid.rss[toe, bend] * section.unit_mm**2 == pytest.approx([one.rss for one in both], rel=1e-7)
    assert value == pytest.approx(np.array([one.value for one in both]).T, rel=1e-7)
    assert variance == pytest.approx(np.array([one.variance for one in both]).T, rel=1e-6)


def test_what_gets_stiffer_is_looked_for_where_enough_readings_lie_before_and_beyond() -> None:
    force = [float(step) for step in range(12)]
    pointer = [step * 4.0 - 2.0 * max(step - 7, 0) for step in force]
    grid = fit_shapes(a_section(force, pointer))
    may = np.isfinite(grid.stiffer_rss)
    slow = stiffer_fits(force, pointer)
    assert grid.section.first_n + grid.bend.place[may] * grid.section.span_n == pytest.approx(
        [one.bend_n for one in slow]
    )
    assert grid.stiffer_rss[may] * grid.section.unit_mm**2 == pytest.approx([one.rss for one in slow], abs=1e-9)
    assert grid.bend.place[int(np.argmin(grid.stiffer_rss))] == pytest.approx(7 / 11)


def test_the_curve_of_a_place_runs_through_exact_readings() -> None:
    pointer = [10 + 4 * force + 6 * max(force - 9, 0) for force in STEPS_N]
    grid = fit_shapes(a_section(STEPS_N, pointer))
    toe, bend = divmod(int(np.argmin(grid.rss)), grid.rss.shape[1])
    section = grid.section
    assert section.force_n(grid.bend.place[bend]) == pytest.approx(9)
    assert section.mean_mm + section.unit_mm * grid.fitted(toe, bend) == pytest.approx(pointer)


def test_places_lie_evenly_between_two_forces() -> None:
    assert grid_places(np.array([0.0, 1.0, 5.0]), 4).tolist() == [0, 0.25, 0.5, 0.75, 1, 2, 3, 4, 5]
    assert len(bend_places(a_section(STEPS_N, STEPS_N))) == 7 * 40 + 1


@pytest.mark.parametrize(("readings", "toes", "bends"), [(4, 1, 1), (5, 1, 1), (6, 9, 1), (7, 15, 1)])
def test_few_readings_leave_few_shapes(readings: int, toes: int, bends: int) -> None:
    grid = fit_shapes(a_section(STEPS_N[:readings], STEPS_N[:readings]))
    assert grid.rss.shape == (toes, bends)


def test_bends_at_any_place_may_be_asked_for() -> None:
    section = a_section(STEPS_N, [force * 2 for force in STEPS_N])
    columns = bend_columns(section, straight_line(section), np.array([0.31, 0.62]), np.array([1.0, 2.0]))
    assert columns.place.tolist() == [np.inf, 0.31, 0.62]
    assert np.linalg.norm(columns.unit, axis=0) == pytest.approx([0, 1, 1])
    assert columns.unit.T @ section.force == pytest.approx([0, 0, 0], abs=1e-12)


def test_a_very_long_ladder_keeps_its_work_bounded() -> None:
    forces = [float(step) for step in range(300)]
    grid = fit_shapes(a_section(forces, forces))
    assert len(bend_places(grid.section)) == 299 * 8 + 1
    assert grid.rss.size < 1_500_000
