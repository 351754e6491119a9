"""What holds of every class, whatever was read: units, scale direction, order, and what one reading may change."""

import random
from collections.abc import Sequence
from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.domain import tested
from app.domain.errors import UnreadableFile
from app.mechanics.breaking import bracket_of, bracket_with_knots
from app.mechanics.class_sums import ClassSums, class_sums
from app.mechanics.classwork import class_picture
from app.mechanics.cord_sums import cord_sums
from app.services.analysing import analyse, as_json
from app.transfer.reading_options import ReadingOptions
from tests.mechanics.any_cords import POWERS, STEP_G, any_class, any_cord, mirrored, moved, numbers, same, scaled
from tests.speed.whole_classes import a_class, with_another_reading
from tests.transfer.told_cords import CLASSES, csv_of

many = settings(deadline=None)
few = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
"""A class takes its time."""

FACTORS = st.sampled_from((0.25, 0.5, 2.0, 8.0))
SOUGHT = 1e-6
"""Ends of an interval that is sought step by step agree to so many parts."""
SHIFTED = ("zero_force_mm", "line_at_start_mm", "intercept_mm", "fitted_mm", "stretched_mm", ".at_mm")
"""Figures that are places of the pointer, not ways that it went."""


def assert_same(one: object, other: object, *, rel: float = 1e-9, but: Sequence[str] = ()) -> None:
    """Every number and code of both agrees, but those whose name holds one of some words."""
    for (name, _, left), (_, _, right) in zip(numbers(one), numbers(other), strict=True):
        assert any(word in name for word in but) or same(left, right, rel=rel), (name, left, right)


def of_designs(sums: ClassSums) -> tuple[object, ...]:
    """What is said of designs and of pairs of them, without the cords that they are made of."""
    breaking = tuple(
        (one.letter, one.unbroken, one.breaking.typical_break_force_n, one.breaking.median, one.breaking.spread)
        for one in sums.designs
    )
    pairs = tuple(
        (pair.quantity, pair.one, pair.other, pair.verdict, pair.ratio, pair.smallest_ratio)
        for comparison in sums.comparisons
        for pair in comparison.differences
    )
    return breaking, pairs, sums.trend.slope, sums.common_force_n


@many
@given(any_cord())
def test_which_way_the_scale_grows_changes_no_figure(cord: tested.TestedCord) -> None:
    assert_same(cord_sums(cord), cord_sums(mirrored(cord)))


@many
@given(any_cord(), FACTORS, FACTORS)
def test_units_of_length_and_mass_change_nothing_but_factors(
    cord: tested.TestedCord, length: float, mass: float
) -> None:
    there, back = cord_sums(cord), cord_sums(scaled(cord, length=length, mass=mass))
    for (name, unit, left), (_, _, right) in zip(numbers(there), numbers(back), strict=True):
        of_length, of_mass = POWERS[unit]
        assert same(left, right, factor=length**of_length * mass**of_mass), (name, unit, left, right)


@few
@given(any_class(), FACTORS)
def test_what_is_said_of_designs_does_not_know_units(cords: Sequence[tested.TestedCord], factor: float) -> None:
    there = class_sums(cords)
    back = class_sums([scaled(cord, length=factor, mass=factor) for cord in cords])
    for one, other in zip(there.comparisons, back.comparisons, strict=True):
        for left, right in zip(one.differences, other.differences, strict=True):
            assert (left.one, left.other, left.verdict) == (right.one, right.other, right.verdict)
            assert_same(left.ratio, right.ratio, rel=SOUGHT)
    for here, yonder in zip(there.designs, back.designs, strict=True):
        typical, other_typical = here.breaking.typical_break_force_n, yonder.breaking.typical_break_force_n
        for (name, _, left_n), (_, _, right_n) in zip(numbers(typical), numbers(other_typical), strict=True):
            assert same(left_n, right_n, factor=factor, rel=SOUGHT), (name, left_n, right_n)


@many
@given(any_cord(), st.integers(-5000, 5000))
def test_a_constant_added_to_all_pointers_changes_no_extension(cord: tested.TestedCord, by_mm: int) -> None:
    there, back = cord_sums(cord), cord_sums(moved(cord, by_mm))
    assert [one.extension_mm for one in there.readings] == [one.extension_mm for one in back.readings]
    assert_same(there, back, rel=1e-6, but=SHIFTED)


@few
@given(any_class(), st.randoms(use_true_random=False))
def test_the_order_of_cords_does_not_matter(cords: Sequence[tested.TestedCord], order: random.Random) -> None:
    mixed = list(cords)
    order.shuffle(mixed)
    there, back = class_sums(cords), class_sums(mixed)
    assert {one.cord.specimen: one for one in there.cords} == {one.cord.specimen: one for one in back.cords}
    assert of_designs(there) == of_designs(back)


@few
@given(any_class(), st.randoms(use_true_random=False))
def test_the_order_of_rows_in_a_file_does_not_matter(cords: Sequence[tested.TestedCord], order: random.Random) -> None:
    head, *rows = csv_of(cords).splitlines(keepends=True)
    mixed = list(rows)
    order.shuffle(mixed)
    there, back = (
        analyse("".join([head, *some]).encode(), ReadingOptions(), depth="third").sums for some in (rows, mixed)
    )
    assert {one.cord.specimen: one for one in there.cords} == {one.cord.specimen: one for one in back.cords}
    assert of_designs(there) == of_designs(back)


@few
@given(any_class(), st.data())
def test_a_reading_left_out_changes_only_its_own_cord(cords: Sequence[tested.TestedCord], data: st.DataObject) -> None:
    place = data.draw(st.integers(0, len(cords) - 1))
    cord = cords[place]
    out = data.draw(st.integers(0, len(cord.rows) - 1))
    rows = tuple(replace(row, left_out="read_wrong") if at == out else row for at, row in enumerate(cord.rows))
    there = class_sums(cords)
    back = class_sums([*cords[:place], replace(cord, rows=rows), *cords[place + 1 :]])
    for at, (one, other) in enumerate(zip(there.cords, back.cords, strict=True)):
        assert at == place or one == other
    for design, same_design in zip(there.designs, back.designs, strict=True):
        if design.letter != cord.design:
            assert (design.breaking.benches, design.breaking.median) == (
                same_design.breaking.benches,
                same_design.breaking.median,
            )
            assert (design.agreement, design.unbroken) == (same_design.agreement, same_design.unbroken)


def with_a_load_more(cord: tested.TestedCord, more_g: int) -> tested.TestedCord:
    """The cord after one mass more was hung, held and read, 20 mm on."""
    last = max((row for row in cord.rows if row.phase != "return"), key=lambda row: row.step)
    way = 1 if cord.scale == "down" else -1
    more = tested.Row(
        step=last.step + 1,
        phase="load",
        mass_g=(last.mass_g or 0.0) + more_g,
        mass_u_g=0.0,
        pointer_mm=last.pointer_mm + 20 * way,
    )
    return replace(cord, rows=(*cord.rows, more))


@many
@given(any_cord(), STEP_G)
def test_more_masses_held_never_lower_a_lower_bound(cord: tested.TestedCord, more_g: int) -> None:
    fell = None if cord.fail_mass_g is None else cord.fail_mass_g + more_g
    longer = replace(with_a_load_more(cord, more_g), fail_mass_g=fell)
    for of in (bracket_of, bracket_with_knots):
        there_n, back_n = of(cord).low_n, of(longer).low_n
        assert there_n is None or (back_n is not None and back_n >= there_n)
    there, back = cord_sums(cord).work_j.value, cord_sums(longer).work_j.value
    assert there is None or back is None or back >= there


@few
@given(any_class(), STEP_G)
def test_a_cord_that_holds_more_never_lowers_what_its_design_holds_at_least(
    cords: Sequence[tested.TestedCord], more_g: int
) -> None:
    unbroken = [replace(cord, outcome="held", fail_mass_g=None) for cord in cords]
    longer = [with_a_load_more(unbroken[0], more_g), *unbroken[1:]]
    there, back = (class_sums(each).designs[0].breaking.typical_break_force_n for each in (unbroken, longer))
    assert there.value is None
    assert there.low is not None
    assert back.low is not None
    assert back.low >= there.low


@few
@given(CLASSES)
def test_no_class_that_may_be_told_raises_anything(cords: list[tested.TestedCord]) -> None:
    class_sums(cords)


@few
@given(any_class())
def test_no_class_that_was_loaded_raises_anything(cords: Sequence[tested.TestedCord]) -> None:
    class_sums(cords)


@few
@given(CLASSES, st.sampled_from(("first", "second", "third")))
def test_a_file_is_worked_out_or_refused_by_name(cords: list[tested.TestedCord], depth: str) -> None:
    try:
        found = analyse(csv_of(cords).encode(), ReadingOptions(), depth=depth)
    except UnreadableFile:
        return
    assert len(as_json(found)["specimens"]) == len(cords)


def test_one_reading_more_works_out_one_cord_and_not_the_class() -> None:
    lesson = a_class(2)
    before = class_picture(lesson)
    worked_out = cord_sums.cache_info().misses
    after = class_picture(with_another_reading(lesson))
    assert cord_sums.cache_info().misses == worked_out + 1
    assert [one.sums == other.sums for one, other in zip(before.specimens, after.specimens, strict=True)] == [
        False,
        *[True] * 5,
    ]
