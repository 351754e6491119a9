"""The balance check: printed beside balance mass, and what is not weighed yet."""

import pytest

from app.services.balance import BalanceLine, balance_lines, not_weighed, save_weighings, weighed
from app.store.database import Database
from tests.make import MORNING, make_lesson, new_id, record_of


def test_the_difference_is_told_in_grams_and_per_cent() -> None:
    """A 400 g tin that weighs 455 g: +55 g, +14 % (trade.md, W5)."""
    line = BalanceLine(mark=1, name="tin", printed_mass_g=400.0, balance_mass_g=455.0)
    assert line.difference_g == 55.0
    assert line.difference_percent == pytest.approx(13.75)
    assert line.apart


def test_within_two_per_cent_nothing_is_pointed_out() -> None:
    assert not BalanceLine(mark=1, name="tin", printed_mass_g=100.0, balance_mass_g=102.0).apart
    assert not BalanceLine(mark=1, name="tin", printed_mass_g=None, balance_mass_g=102.0).apart


def test_weighed_for_every_tray_or_in_each(database: Database) -> None:
    made = make_lesson(database, rungs_g=(100.0, 200.0))
    lesson = record_of(database, made)
    assert not_weighed(lesson) == ["hanger", "1", "2"]
    save_weighings(database, lesson, {0: 86.0}, bench_id=None, division_g=1.0, entry_id=new_id(), at=MORNING)
    for bench in lesson.benches:
        assert not_weighed(record_of(database, made)) == ["1", "2"]
        save_weighings(database, lesson, {1: 99.0}, bench_id=bench.id, division_g=1.0, entry_id=new_id(), at=MORNING)
    assert not_weighed(record_of(database, made)) == ["2"]


def test_the_same_again_is_not_weighed_again_but_another_division_is(database: Database) -> None:
    made = make_lesson(database)
    for division_g, expected in ((1.0, [0]), (1.0, []), (0.1, [0])):
        lesson = record_of(database, made)
        marks = save_weighings(
            database, lesson, {0: 86.0}, bench_id=None, division_g=division_g, entry_id=new_id(), at=MORNING
        )
        assert marks == expected
    assert weighed(record_of(database, made))[0].balance_division_g == 0.1
    assert balance_lines(record_of(database, made))[0].balance_mass_g == 86.0
