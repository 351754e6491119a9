"""Phase and step of rows that do not state them, and what contradicts itself."""

from typing import Any

import pytest

from app.transfer.moments import FileRow, moments_of, tell_twice
from app.transfer.problems import Problems


def a_row(line: int, **said: Any) -> FileRow:
    return FileRow(line=line, about=f"line {line}", said=said, sound=True)


def rows_of(**columns: list[Any]) -> list[FileRow]:
    """Rows from line 2 on; None stands for a blank cell."""
    lines = zip(*columns.values(), strict=True)
    told = [{name: cell for name, cell in zip(columns, cells, strict=True) if cell is not None} for cells in lines]
    return [a_row(line, **said) for line, said in enumerate(told, start=2)]


def found(rows: list[FileRow]) -> tuple[list[tuple[int, str, int]], list[str]]:
    problems = Problems()
    moments = moments_of(rows, problems)
    tell_twice(rows, moments, problems)
    return [(one.step, one.phase, one.turn) for one in moments], [str(one) for one in problems.found]


def test_nothing_stated_the_first_row_is_the_zero() -> None:
    assert found(rows_of(mass_g=[87, 187, 287])) == ([(0, "zero", 1), (1, "load", 1), (2, "load", 1)], [])
    assert found([]) == ([], [])


@pytest.mark.parametrize(
    ("steps", "phases", "expected"),
    [
        ([2, 0, 1], [None, None, None], ["load", "zero", "load"]),
        ([3, 1, 2], [None, None, None], ["load", "zero", "load"]),
        ([1, 2, 1], [None, None, "return"], ["zero", "load", "return"]),
        ([0, 0, 1], ["zero", None, None], ["zero", "zero", "load"]),
        ([1, 2, 3], ["load", None, None], ["load", "load", "load"]),
    ],
)
def test_where_steps_are_stated_the_least_is_the_zero_unless_it_says_otherwise(
    steps: list[int], phases: list[str | None], expected: list[str]
) -> None:
    moments, _ = found(rows_of(step=steps, phase=phases, turn=[1, 2, 3]))
    assert [phase for _, phase, _ in moments] == expected


def test_steps_are_counted_by_loads_and_unloading_goes_by_mass() -> None:
    phases = ["zero", "load", "later", "return", "hung_again", "load", "unload", "unload", "unload", "return"]
    masses = [87, 187, 187, 87, 187, 287, 287, 150, None, 87]
    moments, problems = found(rows_of(phase=phases, mass_g=masses))
    assert [step for step, _, _ in moments] == [0, 1, 1, 1, 1, 2, 2, 1, 0, 2]
    assert not problems


def test_what_contradicts_itself_is_told_with_its_line() -> None:
    _, problems = found(rows_of(step=[0, 1, None, 0], phase=["zero", "zero", "load", "load"]))
    assert problems == [
        "line 4, column step: The step is blank, but line 2 states one for the same cord.",
        "line 3, column step: The zero is step 0, and every load has a step from 1.",
        "line 5, column step: The zero is step 0, and every load has a step from 1.",
    ]


def test_two_rows_of_one_moment_are_a_problem_only_when_both_count() -> None:
    rows = rows_of(step=[1, 1, 1, 1], phase=["load"] * 4, turn=[1, 1, 2, 1], left_out=[None, "matched", None, None])
    _, problems = found(rows)
    assert len(problems) == 1
    assert problems[0].startswith("line 5: Line 2 has a reading of this moment too (step 1, load, turn 1)")
