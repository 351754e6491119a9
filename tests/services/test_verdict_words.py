"""The words about two designs at three depths."""

import re
from dataclasses import replace

import pytest

from app.domain.vocabulary import DEPTHS
from app.mechanics.comparison import BenchValue, Difference, compare
from app.services.verdict_words import MORE, alike_words, verdict_words, what_of
from tests.mechanics.bench_class import INVENTED, broke, exact, held

LEANING = "How far cords of one design differ is taken from the other designs too."


def of(one: str, other: str) -> Difference:
    found = compare("break_force_N", INVENTED).differences
    return next(difference for difference in found if (difference.one, difference.other) == (one, other))


def pair(a: list[BenchValue], b: list[BenchValue], quantity: str = "break_force_N") -> Difference:
    return compare(quantity, {"A": a, "B": b}).differences[0]


def said(difference: Difference) -> list[str]:
    return [verdict_words(difference, depth, names={}) for depth in DEPTHS]


def test_different() -> None:
    assert said(of("R", "P2")) == [
        f"R held more than P2, by more than luck explains. {LEANING}",
        f"R held more than P2, by more than its uncertainty: ratio 1.42, from 1.12 to 1.80. {LEANING}",
        "R held more than P2: ratio 1.42, from 1.12 to 1.80; p = 0.010 (under 0.04 counts as different), "
        f"s = 5.0\u00a0%, 4 degrees of freedom. {LEANING}",
    ]


def test_different_though_the_stronger_was_not_all_broken() -> None:
    first, second, third = said(of("P4", "P2"))
    assert first == f"P4 held more than P2, by more than luck explains. {LEANING}"
    assert second == f"P4 held more than P2, by more than its uncertainty: ratio at least 1.35. {LEANING}"
    assert third.startswith(
        "P4 held more than P2: ratio at least 1.35; p at most 0.002 (under 0.04 counts as different)"
    )


def test_different_on_the_whole_when_brackets_overlap() -> None:
    strong = [broke(30, 32), broke(31, 33), broke(32, 34), broke(25, 27)]
    weak = [broke(20, 22), broke(21, 23), broke(22, 24), broke(24, 26)]
    found = pair(strong, weak)
    assert (found.verdict, found.overlap, found.leans) == ("different", True, False)
    first, second, third = said(found)
    assert first == "On the whole A held more than B, by more than luck explains."
    assert second.startswith("On the whole A held more than B, by more than its uncertainty: ratio 1.3")
    assert third.startswith("On the whole A held more than B: ratio 1.3")


def test_a_hint_says_how_often_luck_does_that_and_how_many_pairs_there_are() -> None:
    every = "Every P4 held more than every R. With so few, luck does that 1 time in 3, and 10 pairs were compared."
    smallest = "The smallest ratio that this class could have shown is 1.27."
    assert said(of("P4", "R")) == [
        every,
        f"{every} {smallest}",
        f"{every} {smallest} For this pair alone, exactly p = 0.333.",
    ]


def test_a_hint_of_a_single_pair_that_no_ratio_could_have_passed() -> None:
    every = "Every A held more than every B. With so few, luck does that 1 time in 3."
    more = f"{every} With so few cords, no ratio could have been called different."
    exactly = f"{more} For this pair alone, exactly p = 0.333."
    assert said(pair(exact(100, 101), exact(1, 1.1))) == [every, more, exactly]


def test_can_not_tell() -> None:
    smallest = "The smallest ratio that this class could have shown is 1.27."
    inside = (
        "The difference in breaking force between P2 and X3 lies inside its uncertainty: ratio 1.06, from 0.83 to 1.34"
    )
    assert said(of("P2", "X3")) == [
        "From lowest to highest, the cords of P2 and X3 overlap in breaking force. More cords would be needed.",
        f"{inside}. {smallest}",
        f"{inside}; p = 0.793 (under 0.04 counts as different), s = 5.0\u00a0%, 4 degrees of freedom. {smallest}",
    ]


def test_can_not_tell_where_nothing_could_have_been_told() -> None:
    first = "From lowest to highest, the cords of A and B overlap in breaking force. More cords would be needed."
    more = f"{first} With so few cords, no ratio could have been called different."
    assert said(pair(exact(3, 1), exact(2, 1))) == [first, more, more]


def fitted(*values: float, u: float) -> list[BenchValue]:
    """Values each with its 95 % interval, that many of their unit wide to either side."""
    return [
        BenchValue(group=f"group {place}", value=value, low=value - u, high=value + u, relative_u=u / value)
        for place, value in enumerate(values)
    ]


@pytest.mark.parametrize("depth", ["first", "second"])
def test_fitted_figures_that_mix_are_not_said_to_overlap(depth: str) -> None:
    """Of 0.40, 0.25 and 0.30, 0.28 the greater design has the least: its cords aren't all the stiffer ones."""
    found = pair(fitted(0.40, 0.25, u=0.01), fitted(0.30, 0.28, u=0.01), "stiffness_N_per_mm")
    assert (found.verdict, found.overlap) == ("cannot_tell", True)
    words = "Not every A was stiffer than every B. More cords would be needed."
    assert verdict_words(found, depth, names={}).startswith(words)


def test_fitted_figures_that_do_not_mix_are_too_close_for_how_sure_they_are() -> None:
    found = pair(fitted(0.40, 0.41, u=0.05), fitted(0.36, 0.35, u=0.05), "stiffness_N_per_mm")
    assert (found.verdict, found.overlap) == ("cannot_tell", True)
    assert said(found)[0] == "A and B lie too close together in stiffness for how sure each figure is."


@pytest.mark.parametrize("depth", DEPTHS)
@pytest.mark.parametrize("quantity", MORE)
def test_sentences_of_two_pairs_with_one_design_in_common_differ(quantity: str, depth: str) -> None:
    """A, B and an unbroken C, and a D that one group made: no sentence stands twice, in whatever quantity."""
    sets = {"A": exact(30, 31), "B": exact(25, 26), "C": [held(20), held(21)], "D": exact(10)}
    found = compare(quantity, sets).differences
    told = [verdict_words(difference, depth, names={}) for difference in found]
    assert {difference.verdict for difference in found} >= {"weaker_unbroken", "one_group"}
    assert len(set(told)) == len(found) == 6
    for difference, words in zip(found, told, strict=True):
        assert {difference.one, difference.other} <= set(re.findall(r"\b[A-D]\b", words))
        assert what_of(quantity, depth) in words or MORE[quantity] in words


@pytest.mark.parametrize(
    ("a", "b", "words"),
    [
        (exact(1, 2), exact(3), "B and A, breaking force: only one group has a result for B."),
        (exact(1), exact(2, 3), "B and A, breaking force: only one group has a result for A."),
        (exact(1), exact(3), "B and A, breaking force: only one group has a result for B, and only one for A."),
    ],
)
def test_one_group_only(a: list[BenchValue], b: list[BenchValue], words: str) -> None:
    assert said(pair(a, b)) == [words] * 3


def test_unbroken_on_the_weaker_side() -> None:
    strong = [broke(30, 32), broke(31, 33)]
    words = "A and B, breaking force: B wasn't broken, so B may be the stronger."
    found = said(pair(strong, [held(20), held(21)]))
    assert found[:2] == [words, words]
    assert found[2] == f"{words} From these cords: ratio at most 1.54, without an interval."
    some = said(pair([held(30), broke(31, 33)], [held(20), broke(20, 21)]))
    assert some[0] == "A and B, breaking force: not every B was broken, so B may be the stronger."
    assert some[2] == f"{some[0]} From these cords: no ratio is known."


@pytest.mark.parametrize("quantity", [*MORE, "another"])
def test_each_quantity_has_its_verb(quantity: str) -> None:
    more = MORE.get(quantity, "had more than")
    first = said(pair(exact(30, 31, 32), exact(20, 21, 20.5), quantity))[0]
    assert first == f"A {more} B, by more than luck explains."
    hint = said(pair(exact(30, 31), exact(20, 21), quantity))[0]
    assert hint.startswith(f"Every A {more} every B.")


def test_designs_are_called_by_their_names() -> None:
    found = verdict_words(of("R", "X3"), "first", names={"R": "three along", "X3": "three across"})
    assert found == f"three along held more than three across, by more than luck explains. {LEANING}"


def test_a_ratio_close_to_one_keeps_the_side_it_lies_on() -> None:
    found = of("R", "P2")
    close = replace(found, ratio=replace(found.ratio, low=1.004))
    assert "from 1.004 to 1.80" in verdict_words(close, "second", names={})


def test_a_chance_too_small_for_three_decimals() -> None:
    assert "p < 0.001" in said(pair(exact(30, 31, 32, 31), exact(10, 11, 10.5, 10)))[2]


def test_all_designs_together() -> None:
    assert alike_words(0.0123) == (
        "All designs together: p = 0.012 if they were all alike. No shape of scatter is assumed here."
    )
