"""The one table of columns, against the outside contract's own list and against what a sum starts from."""

from dataclasses import fields

from app.domain import tested
from app.transfer.cell_read import Needed
from app.transfer.columns import COLUMNS

CONTRACT = """
    specimen design group repeat step phase turn mass_g mass_u_g pointer_mm events events_after waited_s left_out
    bench_kind gauge_length_mm strands layers strip_width_mm strip_length_mm film_thickness_um cord_mass_g
    cord_length_mm linear_density_g_per_m level outcome fail_mass_g straight_first_step straight_last_step
    gravity_m_per_s2 scale scale_division_mm judgement_mm remark
    | ending place look marks_hung taken_at s_since_zero pointer_typed first_typed reason entry_id
    | force_N extension_mm strain
"""
READ, KEPT, WORKED_OUT = (part.split() for part in CONTRACT.split("|"))


def test_the_columns_stand_in_the_order_that_was_promised() -> None:
    """Source: contract.md 9, the table of the class CSV."""
    assert [column.name for column in COLUMNS] == [*READ, *KEPT, *WORKED_OUT]


def test_what_is_to_be_read_is_read_and_nothing_else_but_the_place() -> None:
    """Source: contract.md 9; the place of a break is kept, and sums of knots need it."""
    assert [column.name for column in COLUMNS if column.read is not None] == [*READ, "place"]


def test_all_that_a_sum_starts_from_is_a_column_that_is_read() -> None:
    held = {each.name for kind in (tested.Row, tested.TestedCord) for each in fields(kind)} - {"rows"}
    assert held == {*READ, "place"} - {"remark"}


def test_every_column_has_a_meaning() -> None:
    assert all(column.meaning for column in COLUMNS)


def test_every_column_that_is_read_takes_a_blank_cell_for_nothing_but_the_two_that_are_needed() -> None:
    readers = {column.name: column.read for column in COLUMNS if column.read is not None}
    needed = {name for name, read in readers.items() if isinstance(read, Needed)}
    assert needed == {"specimen", "pointer_mm"}
    assert all(read("") is None and read(" ") is None for name, read in readers.items() if name not in needed)
