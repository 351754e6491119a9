"""Figures in the cells of the report's tables: rounded as on the pages, without their unit."""

import pytest

from app.mechanics.breaking import Bracket
from app.mechanics.result import Result, from_interval, none
from app.services.report_cells import NOTHING, bracket_cell, force_cell, measured_cell


@pytest.mark.parametrize(
    ("low_n", "high_n", "cell"),
    [
        (26.36, 28.36, "26.4 to 28.4"),
        (5.75, 6.73, "5.75 to 6.73"),
        (32.39, None, "more than 32.4"),
        (0.0, 1.812, "at most 1.81"),
        (None, None, NOTHING),
    ],
)
def test_a_breaking_force(low_n: float | None, high_n: float | None, cell: str) -> None:
    assert force_cell(Bracket(low_n=low_n, high_n=high_n)) == cell


def test_what_is_read_off_a_breaking_force() -> None:
    assert bracket_cell(from_interval(18.5, 17.82, 19.17, unit="N/(g/m)")) == "17.8 to 19.2"
    assert bracket_cell(Result(value=None, unit="N/(g/m)", low=15.63, why="It held.")) == "more than 15.6"
    assert bracket_cell(none("No mass of a metre.", "N/(g/m)")) == NOTHING


@pytest.mark.parametrize(
    ("result", "cell"),
    [
        (from_interval(98.0, 95.7, 100.3, unit="mm"), "98 ± 2"),
        (from_interval(0.41, 0.39, 0.44, unit="N/mm"), "0.39 to 0.44"),
        (from_interval(0.7, 0.31, None, unit="N/mm"), "at least 0.3"),
        (from_interval(11.5, None, 13.4, unit="N/mm"), "at most 13.4"),
        (from_interval(-1.0, -6.7, 7.0, unit="mm"), "\u22127 to 7"),
        (Result(value=2.0, unit="mm"), "2.00"),
        (none("It was not read.", "mm"), NOTHING),
    ],
)
def test_a_measured_figure(result: Result, cell: str) -> None:
    assert measured_cell(result) == cell
