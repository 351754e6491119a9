"""Designs as a table: a row each, its pair with the yardstick cord, where its cords broke."""

from dataclasses import replace
from functools import lru_cache

from app.domain.vocabulary import PLACES
from app.mechanics.classwork import ClassPicture, class_picture
from app.services.design_table import SURE_FIRST, alike, design_rows, held_against_others, told_in_order
from tests.mechanics.demo_class import demo_class


@lru_cache
def invented() -> ClassPicture:
    """The invented class, design A its yardstick cord."""
    lesson = demo_class()
    designs = [replace(design, is_yardstick=design.letter == "A") for design in lesson.designs]
    return class_picture(replace(lesson, designs=tuple(designs)))


def test_each_design_stands_beside_the_yardstick_cord() -> None:
    """The verdicts are those of mechanics.md's table of check values."""
    rows = design_rows(invented(), with_knots=False)
    assert [row.letter for row in rows] == ["A", "B", "C", "D", "E"]
    assert [row.beside.verdict if row.beside else "" for row in rows] == [
        "",
        "different",
        "hint",
        "different",
        "different",
    ]
    assert [row.beside.one if row.beside else "" for row in rows] == ["", "A", "C", "A", "A"]
    assert rows[0].is_yardstick


def test_the_brackets_and_where_they_broke() -> None:
    rows = design_rows(invented(), with_knots=False)
    told = {one.cord.group: (bracket.low_n, bracket.high_n) for row in rows for one, bracket in row.brackets}
    assert told["Maple"][1] is None
    ended = [one.cord for one, _ in rows[2].brackets]
    broke = [cord.place for cord in ended if cord.outcome == "broke"]
    assert (len(ended), len(broke)) == (2, 1)
    assert rows[2].places == ((PLACES[broke[0] or ""], 1),)
    assert sum(count for _, count in rows[0].places) == 2


def test_what_can_be_said_comes_first() -> None:
    verdicts = [found.verdict for found in told_in_order(invented().sums.comparisons[0])]
    assert verdicts == sorted(verdicts, key=SURE_FIRST.index)
    assert verdicts.count("different") == 6
    assert alike(invented().sums.comparisons[0]).startswith("All designs together: p = 0.0")


def test_nobody_is_held_against_others_among_few() -> None:
    design = invented().sums.design("A")
    assert design is not None
    assert held_against_others(design.agreement) == ()
