"""Slack at the zero."""

import math

import pytest

from app.mechanics.result import NORMAL_975, ReadingScatter, from_interval, none
from app.mechanics.slack import NO_ZERO_THERE, slack

SCATTER = ReadingScatter(u_mm=0.5, dof=10)
LINE = from_interval(210.0, 208.0, 213.0, unit="mm")


def test_the_line_carried_back_less_the_mean_zero() -> None:
    found = slack(LINE, (200.0, 202.0), SCATTER)
    zero_half = SCATTER.factor * 0.5 / math.sqrt(2)
    assert found.value == 9.0
    assert found.low == pytest.approx(9.0 - math.hypot(2.0, zero_half))
    assert found.high == pytest.approx(9.0 + math.hypot(3.0, zero_half))
    assert found.standard_uncertainty == pytest.approx(((found.high or 0) - (found.low or 0)) / 2 / NORMAL_975)


def test_an_open_end_stays_open() -> None:
    found = slack(from_interval(210.0, None, 213.0, unit="mm"), (200.0,), SCATTER)
    assert (found.value, found.low, found.standard_uncertainty) == (10.0, None, None)


def test_no_line_or_no_zero_says_why() -> None:
    assert slack(none("needs four readings", "mm"), (200.0,), SCATTER).why == "needs four readings"
    assert slack(LINE, (), SCATTER).why == NO_ZERO_THERE
