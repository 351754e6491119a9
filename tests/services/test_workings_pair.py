"""How a sentence about two designs was worked out."""

import math
import re
from dataclasses import replace

import pytest

from app.domain.vocabulary import DEPTHS
from app.mechanics.comparison import BenchValue, Difference, compare
from app.mechanics.result import Result
from app.services.remedies import TO_BREAK_ALL
from app.services.verdict_words import verdict_words
from app.services.workings import Working, difference_working
from tests.mechanics.bench_class import INVENTED, broke, exact, held
from tests.services.workings_told import holds

ALL = compare("break_force_N", INVENTED).differences


def of(one: str, other: str) -> Difference:
    return next(found for found in ALL if (found.one, found.other) == (one, other))


def pair(a: list[BenchValue], b: list[BenchValue], quantity: str = "break_force_N") -> Difference:
    return compare(quantity, {"A": a, "B": b}).differences[0]


def numbers(found: Working) -> str:
    return found.numbers.replace("\u00a0", " ")


@pytest.mark.parametrize("depth", DEPTHS)
@pytest.mark.parametrize("place", range(len(ALL)))
def test_the_sentence_is_the_one_of_the_page(place: int, depth: str) -> None:
    found = difference_working(ALL[place], depth, names={"R": "yardstick"})
    holds((found,))
    assert found.said == verdict_words(ALL[place], depth, names={"R": "yardstick"})
    assert found.code == "break_force_N"


def test_the_names_of_the_designs_are_said() -> None:
    found = difference_working(of("R", "P2"), "first", names={"R": "three strips"})
    assert found.name == "three strips and P2: breaking force"
    assert numbers(found).startswith("three strips: 25.53, 27.36 N; P2: 17.52, 19.83 N. ")


@pytest.mark.parametrize(
    ("one", "other", "held"), [("R", "P2", "1.42"), ("P2", "X3", "1.06"), ("P4", "R", "at least 1.21")]
)
def test_at_the_first_depth_the_ratio_stands_beside_the_one_that_it_takes(one: str, other: str, held: str) -> None:
    found = difference_working(of(one, other), "first", names={})
    assert "one number for each group, the middle between what its cord held and what it broke on" in found.formula
    assert ("of a cord that did not break what it held" in found.formula) is (one == "P4")
    assert numbers(found).endswith(
        f"{one} held {held} times as much as {other}. "
        "With these cords, one design would have had to hold 1.27 times as much for us to say so."
    )


def test_a_ratio_that_two_decimals_do_not_tell_from_what_it_takes_has_more() -> None:
    found = of("R", "P2")
    close = replace(found, ratio=replace(found.ratio, value=1.2712))
    told = numbers(difference_working(close, "first", names={}))
    assert "held 1.2712 times" in told
    assert "hold 1.27 times" in told


def test_at_the_first_depth_why_no_ratio_would_do() -> None:
    told = numbers(difference_working(pair(exact(3, 1), exact(2, 1)), "first", names={}))
    assert told == "A: 1, 3 N; B: 1, 2 N. With so few cords, no ratio could have been called different."


def calculated(told: str, *, u: float = 0.0) -> tuple[float, ...]:
    """Low and high end of the interval from the numbers printed: s, q, the ratio, and how many groups there are."""
    s, q = (float(found) for found in re.findall(r"\b[sq] = ([\d.]+)", told)[:2])
    ratio = float(re.findall(r" / .*? = ([\d.]+);", told)[0])
    n_one, n_other = (int(n) for n in re.findall(r"√\(1/(\d+) \+ 1/(\d+)\)", told)[0])
    factor = math.exp(q * math.hypot(s * math.sqrt(1 / n_one + 1 / n_other), u) / math.sqrt(2))
    return ratio / factor, ratio * factor


@pytest.mark.parametrize("depth", ["second", "third"])
@pytest.mark.parametrize("found", [found for found in ALL if found.ratio.high is not None])
def test_the_printed_interval_comes_out_of_the_printed_numbers(found: Difference, depth: str) -> None:
    """By pencil from s, q and the ratio as printed: the ends that the sentence says."""
    working = difference_working(found, depth, names={})
    low, high = calculated(numbers(working))
    assert (found.ratio.low, found.ratio.high) == pytest.approx((low, high), rel=1e-5)
    assert f"= {low:.2f}; " in working.numbers
    assert f"= {high:.2f}" in working.numbers
    assert "all pairs of designs together are right 96 times in 100" in working.formula
    if found.verdict != "hint":
        assert f"from {low:.2f} to {high:.2f}" in working.said


def test_the_middles_come_out_of_the_printed_numbers() -> None:
    """By pencil: the root of 17.515 times 19.825 is 18.6342, the ratio of the middles 1.41831."""
    told = numbers(difference_working(of("R", "P2"), "second", names={}))
    assert f"{math.sqrt(25.53 * 27.36):.4f} N / {math.sqrt(17.515 * 19.825):.4f} N = 1.41831" in told


def test_deeper_the_ratio_and_its_scatter_stand_in_the_numbers() -> None:
    second = numbers(difference_working(of("R", "P2"), "second", names={}))
    assert second.startswith("R: 25.53, 27.36 N; P2: 17.515, 19.825 N; 26.4292 N / 18.6342 N = 1.41831; s = 0.0502614")
    third = numbers(difference_working(of("R", "P2"), "third", names={}))
    assert third.startswith(second)
    assert third.endswith(
        "t = ln 1.41831 / (0.0502614 × √(1/2 + 1/2)) = 6.953; more than q / √2 = 4.7555 counts as different"
    )


def test_a_mass_of_a_metre_that_was_stated_stands_in_the_sum() -> None:
    density = Result(value=1.5, unit="g/m", standard_uncertainty=0.03)
    sets = {"A": exact(30, 31, 32), "B": exact(20, 21, 22)}
    divided = compare("tenacity_cN_per_tex", sets, shared={"A": density}).differences[0]
    told = numbers(difference_working(divided, "third", names={}))
    assert "u = 0.02 of the masses of a metre that were stated" in told
    assert "× √(1/3 + 1/3))² + 0.02²) / √2)" in told
    assert (divided.ratio.low, divided.ratio.high) == pytest.approx(calculated(told, u=0.02), rel=1e-5)


@pytest.mark.parametrize(
    ("depth", "name", "values"),
    [
        ("first", "strength for each gram in a metre", "A: 20, 21 N per g/m"),
        ("second", "strength for the mass of a metre", "A: 20, 21 N per g/m"),
        ("third", "strength for the mass of a metre", "A: 2, 2.1 cN/tex"),
    ],
)
def test_tenacity_stands_in_the_unit_of_the_depth(depth: str, name: str, values: str) -> None:
    """1 cN/tex is 0.01 N over 0.001 g/m: 10 N for each gram in a metre."""
    found = difference_working(pair(exact(2, 2.1), exact(1, 1.1), "tenacity_cN_per_tex"), depth, names={})
    assert found.name == f"A and B: {name}"
    assert numbers(found).startswith(values)


def test_a_hint_counts_the_ways_to_deal() -> None:
    found = difference_working(of("P4", "R"), "first", names={})
    assert "2 of the 6 ways to deal 4 groups into 2 and 2" in numbers(found)
    assert found.source == "Fisher 1935"
    assert found.better == f"For P4: {TO_BREAK_ALL}"


def test_one_group_alone_needs_a_second() -> None:
    found = difference_working(pair([broke(30, 32)], [broke(20, 22), broke(21, 23)]), "third", names={})
    assert (found.source, found.better) == ("", "A second group that makes A.")
    assert found.own.startswith("Our own rule: the group is the unit")


def test_an_unbroken_weaker_side_needs_a_ladder_planned_higher() -> None:
    found = difference_working(pair([broke(30, 32), broke(31, 33)], [held(20), held(21)]), "second", names={})
    assert found.better == f"For B: {TO_BREAK_ALL}"
    assert "B: 20, 21 N (2 not broken)" in numbers(found)


def test_equal_designs_have_no_gap_to_divide_by() -> None:
    found = difference_working(pair(exact(10, 11, 12), exact(10, 11, 12)), "third", names={})
    assert "t = ln 1 / (0.0911923 × √(1/3 + 1/3)) = 0" in numbers(found)


def test_another_quantity_has_its_own_unit() -> None:
    found = difference_working(pair(exact(1, 1.1), exact(0.5, 0.6), "stiffness_N_per_mm"), "first", names={})
    assert found.name == "A and B: stiffness"
    assert numbers(found).startswith("A: 1, 1.1 N/mm; B: 0.5, 0.6 N/mm")
