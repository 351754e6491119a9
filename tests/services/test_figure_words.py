"""How figures are said: rounded by their uncertainty, as intervals, as "more than", or why not."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.mechanics.breaking import Bracket
from app.mechanics.result import Interval, Result, from_interval, from_scatter, none
from app.services.figure_words import (
    as_percent,
    between,
    bracketed,
    decimals_of,
    figures,
    force_bracket,
    in_sum,
    measured,
    newtons,
    rounded,
    sentence,
)

FAST = "\u00a0"


def said(text: str) -> str:
    """The text with ordinary spaces, for reading."""
    return text.replace(FAST, " ")


@pytest.mark.parametrize(
    ("doubt", "decimals"),
    [(0.5, 1), (0.21, 1), (0.14, 2), (0.0965, 2), (1.0, 1), (1.9, 1), (2.0, 0), (9.6, 0), (14.0, 0), (30.0, -1)],
)
def test_one_figure_of_an_uncertainty_two_when_the_first_is_a_one(doubt: float, decimals: int) -> None:
    assert decimals_of(doubt) == decimals


def test_a_value_is_said_to_the_place_of_its_uncertainty() -> None:
    found = from_scatter(13.04, 1.05, 2.0, unit="mm")
    assert said(measured(found, "first")) == "13 mm, give or take 2 mm"
    assert said(measured(found, "second")) == "13 ± 2 mm"
    assert said(measured(found, "third")) == "13 ± 2 mm (u = 1.1 mm)"


def test_tens_are_said_as_tens() -> None:
    assert said(measured(from_scatter(458.0, 17.0, 2.0, unit="N/mm"), "second")) == "460 ± 30 N/mm"


def test_a_lopsided_interval_is_said_by_its_ends() -> None:
    found = from_interval(0.4056, 0.387, 0.444, unit="N/mm")
    assert said(measured(found, "second")) == "0.41 N/mm, from 0.39 to 0.44"


def test_an_open_end_is_said() -> None:
    assert said(measured(from_interval(11.46, None, 13.4, unit="N"), "third")) == (
        "11.5 N, at most 13.4, no lower end is known"
    )
    assert said(measured(from_interval(11.46, 9.1, None, unit="N"), "third")) == (
        "11 N, at least 9, no upper end is known"
    )


def test_no_value_is_its_reason_or_the_end_that_is_known() -> None:
    assert measured(none("needs four readings", "N/mm"), "first") == "Needs four readings."
    assert said(measured(Result(value=None, unit="N", low=31.37, why="x"), "second")) == "at least 31.4 N"
    assert said(measured(Result(value=None, unit="1", high=0.81, why="x"), "second")) == "at most 0.810"


def test_a_bound_without_uncertainty_has_three_figures() -> None:
    assert said(measured(Result(value=0.46284, unit="J"), "third")) == "0.463 J"


def test_a_figure_read_off_a_breaking_force_lies_between_two_ends() -> None:
    found = Result(value=1.8502, unit="cN/tex", standard_uncertainty=0.0505, low=1.7823, high=1.9176)
    assert said(bracketed(found, "second")) == "between 1.78 and 1.92 cN/tex"
    assert said(bracketed(found, "third")) == "between 1.78 and 1.92 cN/tex (middle 1.85, u = 0.05)"
    assert said(bracketed(Result(value=None, unit="cN/tex", low=1.5618, why="x"), "first")) == "more than 1.56 cN/tex"


def test_small_forces_keep_their_hundredths_and_no_width_is_too_wide() -> None:
    small = Result(value=6.24, unit="N", standard_uncertainty=0.28, low=5.75, high=6.73)
    assert said(bracketed(small, "first")) == "between 5.75 and 6.73 N"
    wide = Result(value=1e308, unit="cN/tex", standard_uncertainty=5e307, low=1.0, high=1.7e308)
    assert bracketed(wide, "first").startswith("between ")


def test_newtons_for_each_gram_in_a_metre_are_said_in_words() -> None:
    found = Result(value=18.5, unit="N/(g/m)", standard_uncertainty=0.5, low=17.82, high=19.18)
    assert said(bracketed(found, "first")) == "between 17.8 and 19.2 N for each gram in a metre"
    narrower = Result(value=15.1, unit="N/(g/m)", standard_uncertainty=0.3, low=14.63, high=15.59)
    assert said(bracketed(narrower, "first")) == "between 14.6 and 15.6 N for each gram in a metre"
    assert said(in_sum(17.82, "N/(g/m)")) == "17.82 N per g/m"


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (24.400, 26.359, "between 24.4 and 26.4 N"),
        (32.39, None, "more than 32.4 N"),
        (0.0, 1.81, "at most 1.81 N"),
        (18.53, 18.55, "between 18.530 and 18.550 N"),
    ],
)
def test_a_breaking_force(low: float, high: float | None, words: str) -> None:
    assert said(force_bracket(Bracket(low_n=low, high_n=high))) == words


def test_a_breaking_force_that_is_not_known() -> None:
    assert force_bracket(Bracket(low_n=None, high_n=None, why="no end counts")) == "No end counts."


def test_two_ends_of_an_interval() -> None:
    assert said(between(Interval(low=4.777, high=16.62, unit="N"))) == "between 4.8 and 16.6 N"
    assert said(between(Interval(low=None, high=4.777, unit="N", why="x"))) == "at most 4.78 N"
    assert said(between(Interval(low=24.13, high=None, unit="N", why="x"))) == "at least 24.1 N"
    assert between(Interval(low=None, high=None, unit="N", why="these can't tell")) == "These can't tell."


def test_a_share_as_a_percentage() -> None:
    share = as_percent(from_scatter(0.6829, 0.0233, 1.96, unit="1"))
    assert said(measured(share, "second")) == "68 ± 5 %"
    assert as_percent(none("x", "1")).value is None


def test_numbers_and_units_are_never_parted() -> None:
    assert measured(from_scatter(13.0, 1.0, 2.0, unit="mm"), "first") == f"13{FAST}mm, give or take 2{FAST}mm"
    assert newtons(26.36) == f"26.4{FAST}N"
    assert newtons(4.777) == f"4.78{FAST}N"


def test_a_minus_is_a_true_one_and_nothing_is_minus_nothing() -> None:
    assert rounded(-3.2, 0) == "\u22123"
    assert rounded(-0.04, 1) == "0.0"
    assert figures(0.0) == "0"


def test_a_sentence_keeps_its_own_mark() -> None:
    assert sentence("are the masses touching the tray?") == "Are the masses touching the tray?"
    assert sentence("") == ""


@given(st.floats(-1e150, 1e150), st.floats(0, 1e150))
def test_no_finite_figure_raises(value: float, u: float) -> None:
    found = Result(value=value, unit="N", standard_uncertainty=u, low=value - u, high=value + u)
    for depth in ("first", "second", "third"):
        assert measured(found, depth)
        assert bracketed(found, depth)
    assert figures(value)


@given(st.floats(0.001, 1e6), st.floats(0.0001, 0.3))
def test_what_is_said_is_the_value_to_within_its_uncertainty(value: float, share: float) -> None:
    half = value * share
    words = measured(from_interval(value, value - half, value + half, unit="1"), "second")
    told = float(words.split(" ± ")[0].split(",")[0].replace("\u202f", ""))
    assert math.isclose(told, value, abs_tol=0.5 * half * (1 + 1e-9) + 1e-12)
