"""How a sentence about two designs was worked out."""

import pytest

from app.domain.vocabulary import DEPTHS
from app.mechanics.comparison import BenchValue, Difference, compare
from app.mechanics.result import Result
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
    assert numbers(found) == "three strips: 25.53, 27.36 N; P2: 17.52, 19.83 N"


def test_deeper_the_ratio_and_its_scatter_stand_in_the_numbers() -> None:
    second = numbers(difference_working(of("R", "P2"), "second", names={}))
    assert second == "R: 25.53, 27.36 N; P2: 17.52, 19.83 N; 26.43 N / 18.63 N = 1.418"
    third = numbers(difference_working(of("R", "P2"), "third", names={}))
    assert third.startswith(second)
    assert third.endswith("ln ratio / (s √(1/2 + 1/2)) = 6.95, s = 5.026 %; more than 4.76 counts as different")


def test_a_mass_of_a_metre_that_was_stated_stands_in_the_sum() -> None:
    density = Result(value=1.5, unit="g/m", standard_uncertainty=0.03)
    sets = {"A": exact(30, 31, 32), "B": exact(20, 21, 22)}
    divided = compare("tenacity_cN_per_tex", sets, shared={"A": density}).differences[0]
    told = numbers(difference_working(divided, "third", names={}))
    assert "ln ratio / √((s √(1/3 + 1/3))² + u²) = " in told
    assert "u = 2 % of the masses of a metre that were stated" in told


def test_a_hint_counts_the_ways_to_deal() -> None:
    found = difference_working(of("P4", "R"), "first", names={})
    assert numbers(found).endswith("2 of the 6 ways to deal 4 groups into 2 and 2")
    assert found.source == "Fisher 1935"
    assert found.better == "Masses that go on until every P4 breaks."


def test_one_group_alone_needs_a_second() -> None:
    found = difference_working(pair([broke(30, 32)], [broke(20, 22), broke(21, 23)]), "third", names={})
    assert (found.source, found.better) == ("", "A second group that makes A.")
    assert found.own.startswith("Our own rule: the group is the unit")


def test_an_unbroken_weaker_side_needs_heavier_masses() -> None:
    found = difference_working(pair([broke(30, 32), broke(31, 33)], [held(20), held(21)]), "second", names={})
    assert found.better == "Masses that go on until every B breaks."
    assert "B: 20, 21 N (2 not broken)" in numbers(found)


def test_equal_designs_have_no_gap_to_divide_by() -> None:
    found = difference_working(pair(exact(10, 11, 12), exact(10, 11, 12)), "third", names={})
    assert numbers(found).endswith("= 0, s = 9.119 %")


def test_another_quantity_has_its_own_unit() -> None:
    found = difference_working(pair(exact(1, 1.1), exact(0.5, 0.6), "stiffness_N_per_mm"), "first", names={})
    assert found.name == "A and B: stiffness"
    assert numbers(found).startswith("A: 1, 1.1 N/mm; B: 0.5, 0.6 N/mm")
