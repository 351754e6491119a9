"""Straight part and bend against outside data; `tests/reference/straight.json`."""

import csv
import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from scipy.optimize import minimize_scalar

from app.mechanics.section import section_of
from app.mechanics.shapes import bend_columns, bend_places, fit_shapes, straight_line
from app.mechanics.straight import READINGS_WANDER, StraightPart, straight_part

REFERENCE = Path(__file__).parents[1] / "reference"
PUBLISHED: dict[str, Any] = json.loads((REFERENCE / "straight.json").read_text(encoding="utf-8"))
U0_MM = 0.408
"""Of a scale in millimetres read to half a millimetre."""


def columns_of(name: str) -> tuple[list[float], list[float]]:
    """The two columns of the file that an entry names."""
    with (REFERENCE / PUBLISHED[name]["file"]).open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))[1:]
    first, second = zip(*((float(one), float(other)) for one, other in rows), strict=True)
    return list(first), list(second)


class SharpBend:
    """One bend without a toe, sharp, of either sign, sought between the grid's places by the product's closed form."""

    def __init__(self, force: list[float], pointer: list[float]) -> None:
        section = section_of(force, pointer, u0_mm=0.0)
        assert section is not None
        self.section, self.line, self.grid = section, straight_line(section), fit_shapes(section)

    def on_grid(self) -> float:
        """The best place of the grid."""
        sharp = self.grid.bend.power == 1.0
        best = int(np.argmin(np.where(sharp, self.grid.free_bend_rss, np.inf)))
        return self.section.force_n(self.grid.bend.place[best])

    def rss(self, place: float) -> float:
        """Least squares of a bend there, in the section's own units."""
        columns = bend_columns(self.section, self.line, np.array([place]), np.array([1.0]))
        return self.line.rss - float(columns.pull[1]) ** 2

    def refined(self) -> float:
        """The best place between the grid's neighbours of its best one."""
        places = bend_places(self.section)
        near = int(np.abs(self.section.first_n + self.section.span_n * places - self.on_grid()).argmin())
        between = (places[near - 1], places[near + 1])
        found = minimize_scalar(self.rss, bounds=between, method="bounded", options={"xatol": 1e-10})
        return self.section.force_n(found.x)

    def slopes(self, force: float) -> tuple[float, float]:
        """Slope before and beyond a bend at that force."""
        place = (force - self.section.first_n) / self.section.span_n
        columns = bend_columns(self.section, self.line, np.array([place]), np.array([1.0]))
        slope, pull = self.line.slope(), columns.pull[1]
        before = float(slope @ self.line.shares - slope @ columns.lean[:, 1] * pull)
        to_given = self.section.unit_mm / self.section.span_n
        return before * to_given, (before + float(pull / columns.length[1])) * to_given


def test_two_lines_meet_where_three_tools_agree() -> None:
    """Bacon & Watts (1971), Biometrika 58, 525-534; agreed by three tools, the published estimate not seen."""
    case = PUBLISHED["stagnant_band"]
    bend = SharpBend(*columns_of("stagnant_band"))
    assert bend.on_grid() == pytest.approx(case["break_of_grid"], abs=5e-7)
    assert bend.refined() == pytest.approx(case["break"], abs=5e-7)
    assert bend.slopes(bend.refined()) == pytest.approx(case["slopes"], abs=5e-7)
    place = (bend.refined() - bend.section.first_n) / bend.section.span_n
    assert bend.rss(place) * bend.section.unit_mm**2 == pytest.approx(case["rss"], abs=5e-8)


def test_a_wire_bends_where_two_lines_meet() -> None:
    """OpenStax, University Physics Volume 1, section 12.4: wire, pan and pointer, without the row of the bare pan."""
    case, (force, scale) = PUBLISHED["wire"], columns_of("wire")
    bend = SharpBend(force[1:], scale[1:])
    assert bend.on_grid() == pytest.approx(case["break_of_grid_n"])
    assert bend.refined() == pytest.approx(case["break_n"], abs=5e-4)


def test_an_exact_kink_is_found_exactly() -> None:
    """Closed form: slopes 2 and 0.5 kinked at 6."""
    force = [float(step) + 0.25 for step in range(13)]
    pointer = [2 * min(one, 6) + 0.5 * max(one - 6, 0) for one in force]
    bend = SharpBend(force, pointer)
    assert bend.refined() == pytest.approx(6, abs=5e-7)
    assert bend.slopes(bend.refined()) == pytest.approx((2, 0.5), abs=1e-6)


def test_the_line_goes_back_to_the_pointer_without_any_load() -> None:
    """Closed form: readings d0 + F/k give d0 and k again."""
    force = [0.84, 2.8, 4.77, 6.73, 8.69, 10.65, 12.62, 14.58]
    part = fitted(force, [218.5 + one / 0.45 for one in force])
    assert part.zero_force_mm.value == pytest.approx(218.5, abs=1e-9)
    assert part.stiffness_n_per_mm.value == pytest.approx(0.45, rel=1e-9)


def test_the_row_of_the_bare_pan_lies_on_the_line_at_the_pan_s_own_weight() -> None:
    """OpenStax, University Physics Volume 1, section 12.4: line 15 to 55 N reads 4.000 cm at 4.97 N, not at 0 N."""
    case, rows = PUBLISHED["wire"], list(zip(*columns_of("wire"), strict=True))
    within = [row for row in rows if case["line_from_n"] <= row[0] <= case["line_to_n"]]
    line = fitted(*(list(side) for side in zip(*within, strict=True))).line
    assert line is not None
    assert line.slope_mm_per_n == pytest.approx(case["slope_cm_per_n"], abs=5e-6)
    assert line.intercept_mm == pytest.approx(case["intercept_cm"], abs=5e-6)
    lies_at_n = (case["zero_row_cm"] - line.intercept_mm) / line.slope_mm_per_n
    assert lies_at_n == pytest.approx(case["zero_row_lies_at_n"], abs=5e-4)


def test_rubber_has_no_one_straight_part() -> None:
    """Treloar (1944), Trans. Faraday Soc. 40, 59-70: an S-shaped curve, ten times its stretch as mm on stress as N."""
    case, (stretch, stress) = PUBLISHED["rubber"], columns_of("rubber")
    part = fitted(stress, [10 * one for one in stretch])
    assert part.shape == "stiffer"
    assert part.bend_at_n == pytest.approx(case["stiffer_beyond"], abs=0.05)
    assert part.limit_n.low == pytest.approx(case["low"], abs=0.05)
    assert part.limit_n.high == pytest.approx(case["high"], abs=0.05)
    assert part.scatter_warning == READINGS_WANDER


def fitted(force: list[float], pointer: list[float]) -> StraightPart:
    return straight_part(force, pointer, force_u_n=None, u0_mm=U0_MM)
