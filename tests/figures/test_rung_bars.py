"""The ladder as the lesson sheet draws it."""

import pytest

from app.figures.rung_bars import FOOT, WIDTH, rung_bars


def test_bars_are_as_tall_as_their_mass_and_stay_in_the_drawing() -> None:
    bars = rung_bars([100.0] * 4 + [200.0] * 14)
    assert bars[0].height == pytest.approx(bars[4].height / 2)
    assert all(bar.y + bar.height == pytest.approx(FOOT) for bar in bars)
    assert bars[-1].x + bars[-1].width <= WIDTH + 0.5
    assert [bar.mark for bar in bars if bar.mark] == ["1", "4", "5", "18"]
    assert [bar.heavy for bar in bars] == [False] * 4 + [True] * 14


def test_a_ladder_of_many_changes_is_marked_at_its_ends() -> None:
    bars = rung_bars([100.0, 200.0] * 5)
    assert [bar.mark for bar in bars if bar.mark] == ["1", "10"]


def test_few_rungs_are_no_planks_and_none_are_no_bars() -> None:
    assert rung_bars([100.0])[0].width == 60.0
    assert rung_bars([]) == ()
    assert rung_bars([None])[0].height > 0
