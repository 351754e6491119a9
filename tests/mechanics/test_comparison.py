"""Designs compared."""

import math
import random
from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from app.mechanics.comparison import BenchValue, Comparison, Difference, compare, p_of
from app.mechanics.difference import BOTH_ALONE, MAY_BE_STRONGER, ONE_GROUP, SCATTER_UNKNOWN, TOO_FEW
from app.mechanics.result import Result
from tests.mechanics.bench_class import INVENTED, broke, exact, held

DIFFERENT = {("R", "P2"), ("P4", "P2"), ("R", "X3"), ("P4", "X3"), ("R", "D3"), ("P4", "D3")}
NOT_TOLD = {frozenset(pair) for pair in (("P2", "X3"), ("P2", "D3"), ("D3", "X3"))}


def invented() -> Comparison:
    return compare("break_force_N", INVENTED)


def only(comparison: Comparison) -> Difference:
    (difference,) = comparison.differences
    return difference


def of(comparison: Comparison, one: str, other: str) -> Difference:
    return next(found for found in comparison.differences if {found.one, found.other} == {one, other})


def test_the_invented_lesson_says_what_its_page_says() -> None:
    found = invented()
    assert found.pooled is not None
    assert (round(100 * found.pooled.s_ln, 1), found.pooled.dof) == (5.0, 4)
    assert {round(difference.smallest_ratio or 0, 2) for difference in found.differences} == {1.27}
    told: dict[str, set[tuple[str, str]]] = {}
    for difference in found.differences:
        told.setdefault(difference.verdict, set()).add((difference.one, difference.other))
    assert told["different"] == DIFFERENT
    assert told["hint"] == {("P4", "R")}
    assert {frozenset(pair) for pair in told["cannot_tell"]} == NOT_TOLD
    assert len(found.differences) == 10


def test_the_ratio_of_the_invented_lesson_by_hand() -> None:
    """R over P2: 27.36 and 25.53 N against 19.825 and 17.515 N; four pairs of two make s with 4 degrees of freedom."""
    found = of(invented(), "R", "P2")
    spreads = ((27.36, 25.53), (19.825, 17.515), (17.545, 17.69), (19.555, 19.53))
    s = math.sqrt(sum(math.log(one / other) ** 2 / 2 for one, other in spreads) / 4)
    assert found.s_ln == pytest.approx(s, rel=1e-12)
    assert found.ratio.value == pytest.approx(math.sqrt(27.36 * 25.53 / (19.825 * 17.515)), rel=1e-12)
    assert found.smallest_ratio is not None
    assert found.ratio.low == pytest.approx(found.ratio.value / found.smallest_ratio, rel=1e-12)
    assert found.ratio.high == pytest.approx(found.ratio.value * found.smallest_ratio, rel=1e-12)
    assert found.ratio.standard_uncertainty == pytest.approx((found.ratio.high - found.ratio.low) / 3.92, rel=1e-4)


def test_an_unbroken_cord_opens_the_ratio_upwards_and_adds_no_scatter() -> None:
    found = of(invented(), "P4", "R")
    assert found.ratio.high is None
    assert found.ratio.standard_uncertainty is None
    assert found.ratio.low is not None
    assert (found.chance_one_in, found.pairs, found.overlap, found.unbroken_one) == (3, 10, False, 1)
    broken = INVENTED | {"P4": [broke(32.39, 34.4, "Maple"), broke(30.35, 32.31, "Rowan")]}
    assert compare("break_force_N", broken).pooled != invented().pooled


def test_two_pairs_that_differ_lean_on_the_others() -> None:
    assert all(found.leans == (found.verdict == "different") for found in invented().differences)
    alone = only(compare("any", {"A": exact(30, 31, 32), "B": exact(20, 21, 20.5)}))
    assert (alone.verdict, alone.leans) == ("different", False)


def test_two_against_two_is_never_called_different() -> None:
    apart = only(compare("any", {"A": exact(100, 100.1), "B": exact(1, 1.001)}))
    assert (apart.verdict, apart.chance_one_in) == ("hint", 3)
    assert (apart.smallest_ratio, apart.smallest_why, p_of(apart)) == (None, TOO_FEW, None)
    assert apart.ratio.low is not None, "two degrees of freedom make an interval, though no verdict"
    assert only(compare("any", {"A": exact(1, 3), "B": exact(2, 1)})).verdict == "cannot_tell"


@pytest.mark.parametrize("low", [22.0, 22 * (1 - 1e-15), math.exp(math.log(22) - 1e-12)])
def test_brackets_that_touch_do_not_overlap(low: float) -> None:
    """22 N as the mean of several cords ends in digits that mean nothing."""
    found = only(compare("any", {"A": [broke(low, 24)] * 2, "B": [broke(20, 22)] * 2}))
    assert (found.verdict, found.overlap) == ("hint", False)


def test_one_degree_of_freedom_makes_no_interval() -> None:
    found = only(compare("any", {"A": [held(30), broke(28, 29)], "B": exact(20, 21)}))
    assert (found.verdict, found.ratio.low, found.ratio.high) == ("hint", None, None)
    assert found.ratio.value is not None
    assert found.ratio.note is not None


def test_one_group_alone_is_not_compared() -> None:
    found = compare("any", {"A": exact(30, 31, 32), "B": exact(20), "C": exact(10), "D": []})
    by_pair = {(one.one, one.other): one for one in found.differences}
    assert set(by_pair) == {("A", "B"), ("A", "C"), ("B", "C")}
    assert {one.verdict for one in found.differences} == {"one_group"}
    assert by_pair["A", "B"].ratio.why == by_pair["A", "B"].smallest_why == ONE_GROUP.format("B")
    assert by_pair["B", "C"].ratio.why == BOTH_ALONE.format("B", "C")
    assert all(p_of(one) is None and one.chance_one_in is None for one in found.differences)


def test_a_weaker_design_that_held_may_be_the_stronger() -> None:
    found = only(compare("any", {"A": [broke(30, 31), broke(32, 33)], "B": [held(20), broke(18, 19)]}))
    assert (found.one, found.other, found.verdict) == ("A", "B", "weaker_unbroken")
    assert (found.ratio.low, found.ratio.high, found.smallest_why) == (None, None, MAY_BE_STRONGER.format("B"))
    assert found.ratio.value is not None
    both = only(compare("any", {"A": [held(30), broke(32, 33)], "B": [held(20), broke(18, 19)]}))
    assert (both.verdict, both.ratio.value) == ("weaker_unbroken", None)


def test_values_that_do_not_scatter_make_no_verdict() -> None:
    found = only(compare("any", {"A": exact(3, 3, 3), "B": exact(2, 2, 2)}))
    assert (found.verdict, found.smallest_ratio, found.smallest_why) == ("hint", None, SCATTER_UNKNOWN)
    assert found.ratio.note == SCATTER_UNKNOWN


def test_equal_brackets_scatter_as_their_steps_do() -> None:
    """Six cords, the step 2 N wide about 20 N and 30 N: relative width 0.1 and 0.0667, rectangular."""
    found = compare("any", {"A": [broke(19, 21)] * 3, "B": [broke(29, 31)] * 3})
    assert found.pooled is not None
    assert found.pooled.s_ln == pytest.approx(math.sqrt((0.1**2 + (2 / 30) ** 2) / 24), rel=1e-12)


def test_values_with_their_own_uncertainty_scatter_at_least_so() -> None:
    sure = [replace(value, relative_u=0.03) for value in exact(10, 10, 10)]
    found = compare("any", {"A": sure, "B": [replace(value, value=11.0) for value in sure]})
    assert found.pooled is not None
    assert found.pooled.s_ln == pytest.approx(0.03, rel=1e-12)


def test_what_no_ratio_can_have_is_passed_over_by_name() -> None:
    nothing = BenchValue(group="Yew", value=0.0, low=0.0, high=0.0)
    found = compare("any", {"A": [nothing, *exact(1, 2)], "B": exact(1, 2)})
    assert found.passed_over == ("Yew",)
    assert found.designs[0].ln_values == compare("any", {"A": exact(1, 2)}).designs[0].ln_values


def test_the_scatter_of_each_design_is_told() -> None:
    found = {design.design: design.s_ln for design in invented().designs}
    assert found["P4"] is None
    assert found["R"] == pytest.approx(math.log(27.36 / 25.53) / math.sqrt(2), rel=1e-12)


def test_p_agrees_with_the_verdict() -> None:
    for difference in invented().differences:
        p = p_of(difference)
        assert p is not None
        assert (p < 0.04) == (difference.verdict == "different")


def test_extreme_values_raise_nothing() -> None:
    wild = compare(
        "any", {"A": exact(1e-300, 1e300, 1.0, 1e-300), "B": exact(1e-308, 5e-324), "C": exact(1e300, 1e308)}
    )
    assert all(math.isfinite(found.ratio.value or 0) for found in wild.differences)
    assert all(math.isfinite(found.ratio.high or 0) for found in wild.differences)


bench_values = st.builds(
    lambda low, width, unbroken: held(low / 4) if unbroken else broke(low / 4, (low + width) / 4),
    st.integers(20, 160),
    st.sampled_from([1, 4, 8]),
    st.sampled_from([False, False, False, True]),
)
classes = st.lists(st.lists(bench_values, min_size=1, max_size=4), min_size=2, max_size=4)


SOME = settings(max_examples=60, deadline=None)
"""The first quantile of each number of designs and degrees of freedom takes a tenth of a second."""


def lettered(sets: Sequence[Sequence[BenchValue]]) -> dict[str, Sequence[BenchValue]]:
    return dict(zip("ABCDEF", sets, strict=False))


def by_pair(comparison: Comparison) -> dict[frozenset[str], Difference]:
    return {frozenset((found.one, found.other)): found for found in comparison.differences}


def is_close_run(found: Difference) -> bool:
    """Means or verdict hang on a last digit."""
    ratio, smallest = found.ratio.value, found.smallest_ratio
    return ratio is not None and any(abs(ratio / at - 1) < 1e-9 for at in (1.0, smallest) if at)


def figures_of(found: Difference) -> list[float]:
    """Ratio, its ends and the smallest ratio; 0, which none of them can be, where there is none."""
    ratio = found.ratio
    return [figure or 0.0 for figure in (ratio.value, ratio.low, ratio.high, found.smallest_ratio)]


@SOME
@given(classes, st.floats(0.01, 100))
def test_another_unit_changes_no_verdict_and_no_ratio(sets: list[list[BenchValue]], factor: float) -> None:
    def scaled(value: BenchValue) -> BenchValue:
        high = None if value.high is None else value.high * factor
        return replace(value, value=value.value * factor, low=(value.low or 0) * factor, high=high)

    before = by_pair(compare("any", lettered(sets)))
    after = by_pair(compare("any", lettered([[scaled(value) for value in values] for values in sets])))
    assume(not any(is_close_run(found) for found in before.values()))
    for pair, found in before.items():
        assert (found.verdict, found.leans) == (after[pair].verdict, after[pair].leans)
        assert figures_of(found) == pytest.approx(figures_of(after[pair]), rel=1e-9)


@SOME
@given(classes, st.integers(0, 2**32))
def test_the_order_of_designs_and_benches_changes_only_the_order(sets: list[list[BenchValue]], seed: int) -> None:
    designs = lettered(sets)
    letters, chance = list(designs), random.Random(seed)
    chance.shuffle(letters)
    mixed = {letter: chance.sample(list(designs[letter]), len(designs[letter])) for letter in letters}
    before, after = by_pair(compare("any", designs)), by_pair(compare("any", mixed))
    assert before.keys() == after.keys()
    for pair, found in before.items():
        assert found.verdict == after[pair].verdict or found.ratio.value == 1.0
        if found.ratio.value != 1.0 and found.one == after[pair].one:
            assert (found.ratio, found.smallest_ratio) == (after[pair].ratio, after[pair].smallest_ratio)


@SOME
@given(classes)
def test_the_greater_comes_first_and_every_pair_once(sets: list[list[BenchValue]]) -> None:
    found = compare("any", lettered(sets)).differences
    assert len(found) == math.comb(len(sets), 2) == len({frozenset((one.one, one.other)) for one in found})
    assert all(one.ratio.value is None or one.ratio.value >= 1 for one in found)
    assert all(one.ratio.low is None or one.ratio.low > 1 for one in found if one.verdict == "different")


@SOME
@given(classes, st.integers(0, 3), st.integers(0, 3), st.floats(0.1, 10))
def test_holding_more_never_makes_another_design_the_stronger(
    sets: list[list[BenchValue]], which: int, bench: int, more: float
) -> None:
    """An unbroken cord at what it held can only hide a lead of its design: held on, no other gains on it."""
    designs = lettered(sets)
    letter = list(designs)[which % len(designs)]
    values = list(designs[letter])
    place = bench % len(values)
    low = values[place].low or 0
    values[place] = held(low)
    before = by_pair(compare("any", designs | {letter: tuple(values)}))
    values[place] = held(low + more)
    after = by_pair(compare("any", designs | {letter: tuple(values)}))
    for pair, found in before.items():
        if letter in pair and found.one != letter and found.verdict != "one_group":
            assert found.verdict == "weaker_unbroken"
            assert after[pair].one == letter or after[pair].verdict == "weaker_unbroken"


def test_what_a_design_was_divided_by_adds_its_own_doubt_to_the_ratio() -> None:
    """2 % of one and 1.5 % of the other make 2.5 % beside the standard error of the scatter."""
    one, other = (Result(value=value, unit="g/m", standard_uncertainty=u) for value, u in ((2.0, 0.04), (1.0, 0.015)))
    sets = {"A": exact(30, 31, 32), "B": exact(20, 21, 22)}
    alone, divided = only(compare("any", sets)), only(compare("any", sets, shared={"A": one, "B": other}))
    assert alone.gap is not None
    assert divided.gap is not None
    assert alone.s_ln is not None
    error = alone.s_ln * math.sqrt(2 / 3)
    assert divided.gap / alone.gap == pytest.approx(error / math.hypot(error, 0.025))
    assert math.log(divided.smallest_ratio or 0) == pytest.approx(
        math.log(alone.smallest_ratio or 0) * math.hypot(error, 0.025) / error
    )
    assert divided.s_ln == alone.s_ln


def test_what_both_were_divided_by_cancels() -> None:
    density = Result(value=1.5, unit="g/m", standard_uncertainty=0.03)
    sets = {"A": exact(30, 31, 32), "B": exact(20, 21, 22)}
    assert compare("any", sets, shared={"A": density, "B": density}) == compare("any", sets)
    assert compare("any", sets, shared={"A": density}) != compare("any", sets)
