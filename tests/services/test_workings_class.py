"""How the figures of a design were worked out, what it kept of its strips, and what is said of agreement."""

from dataclasses import replace
from functools import lru_cache
from typing import Any

import pytest

from app.domain import tested
from app.domain.vocabulary import DEPTHS
from app.mechanics.class_sums import ClassSums, class_sums, no_cords
from app.mechanics.classwork import class_picture
from app.mechanics.design_break import FEW_BROKEN
from app.services.remedies import KNOTS_THAT_HOLD, PLANNED_TO_END
from app.services.workings import Working, agreement_workings, design_workings
from tests.mechanics.demo_class import demo_class
from tests.mechanics.told import a_cord, rows_of
from tests.services.workings_told import holds

BENCHES = ("Alder", "Birch", "Cedar", "Elder", "Hazel", "Juniper", "Larch", "Maple")


@lru_cache
def invented() -> ClassSums:
    return class_picture(demo_class()).sums


def cord(group: str, steps: int, **more: Any) -> tested.TestedCord:
    """A cord that held so many steps of a newton and broke on the next."""
    facts = {"outcome": "broke", "fail_mass_g": 100.0 * (steps + 2), "specimen": f"{group}-{more.get('repeat', 1)}"}
    pointers = " ".join(str(200 + 5 * step) for step in range(steps + 1))
    return a_cord(*rows_of(pointers), **({"group": group} | facts | more))


def a_class(*steps: int) -> ClassSums:
    return class_sums([cord(group, held) for group, held in zip(BENCHES, steps, strict=False)])


def made(sums: ClassSums, letter: str = "A", depth: str = "third") -> dict[str, Working]:
    """The workings of one design by code, with ordinary spaces."""
    design = sums.design(letter)
    assert design is not None
    return _plain(design_workings(design, depth, name=f"design {letter}", kept=sums.kept))


def _plain(workings: tuple[Working, ...]) -> dict[str, Working]:
    def plain(text: str) -> str:
        return text.replace("\u00a0", " ")

    return {
        one.code: replace(one, said=plain(one.said), numbers=plain(one.numbers), better=plain(one.better))
        for one in workings
    }


@pytest.mark.parametrize("depth", DEPTHS)
@pytest.mark.parametrize("letter", ["A", "B", "C", "D", "E"])
def test_every_figure_of_the_invented_designs_is_answered(letter: str, depth: str) -> None:
    design = invented().design(letter)
    assert design is not None
    holds(design_workings(design, depth, name=letter), but=("unbroken",))


def test_which_figures_at_which_depth() -> None:
    first, second, third = (list(made(invented(), "A", depth)) for depth in DEPTHS)
    assert first == ["brackets_N", "unbroken", "median_break_N", "spread_N"]
    assert second == [*first, "typical_break_force_N"]
    assert third == [*second, "weibull_break_force_N"]


def test_the_brackets_by_their_groups() -> None:
    found = made(invented())["brackets_N"]
    assert found.said == "Alder between 26.4 and 28.4 N; Hazel between 24.5 and 26.5 N"
    assert found.numbers == "2 cords by 2 groups"
    assert found.better == "Smaller steps near the break: they are wider than the groups differ (1.8 N)."
    assert made(invented(), "B")["brackets_N"].better == (
        "More groups that make this design: their cords differ by 2.3 N, more than the steps."
    )


def test_several_cords_of_a_group_have_their_numbers() -> None:
    sums = class_sums([cord("Alder", 3), cord("Alder", 4, repeat=2)])
    assert made(sums)["brackets_N"].said == "Alder 1 between 4.0 and 5.0 N; Alder 2 between 5.0 and 6.0 N"
    assert made(sums)["brackets_N"].numbers == "2 cords by 1 group"
    assert made(sums)["brackets_N"].better == "A second group that makes this design."


def test_the_median_bracket() -> None:
    found = made(invented())["median_break_N"]
    assert found.said == "between 25.5 and 27.4 N"
    assert found.numbers == "held: 24.5 N, 26.4 N; broke on: 26.5 N, 28.4 N"
    assert found.notes == ("No knot came undone, so the cord with its knots has the same figures.",)
    unbroken = made(invented(), "C")["median_break_N"]
    assert (unbroken.said, unbroken.numbers) == ("more than 31.4 N", "held: 30.4 N, 32.4 N; broke on: 32.3 N, more")


def test_who_was_not_broken() -> None:
    found = made(invented(), "C")["unbroken"]
    assert (found.said, found.numbers) == ("1 of 2", "Maple")
    assert found.better == "A ladder planned higher, with the teacher, would tell more."


@pytest.mark.parametrize(
    ("groups", "chance"),
    [(2, "half"), (3, "3 in 4"), (4, "7 in 8"), (5, "15 in 16"), (8, "99 in 100")],
)
def test_how_often_the_spread_holds_the_true_median(groups: int, chance: str) -> None:
    found = made(a_class(*[3, 4, 5, 6, 5, 4, 5, 6][:groups]), depth="first")["spread_N"]
    assert found.said.endswith(f"N, in at least {chance} of such lessons")
    assert found.numbers == (
        f"{groups} groups: {groups} coins all fall alike 2 times in {2**groups}, and then the true middle lies outside"
    )


def test_a_deeper_depth_says_the_chance_by_its_formula() -> None:
    found = made(a_class(3, 4, 5), depth="second")["spread_N"]
    assert found.said.endswith("N, at least 3 times in 4")
    assert (found.name, found.numbers) == ("Where the true median of design A may lie", "1 − 2/8 = 0.75, n = 3")


def test_the_first_depth_has_no_word_of_statistics() -> None:
    for one in made(invented(), depth="first").values():
        told = f"{one.name} {one.said} {one.formula} {one.numbers} {one.own}"
        assert not any(word in told for word in ("edian", "ⁿ", "n =", "chance")), told


def test_one_group_alone_has_no_chance_to_say() -> None:
    assert made(a_class(3))["spread_N"].said == (
        "between 4.0 and 5.0 N: one group alone can't say how often that holds it"
    )


def test_one_group_alone_at_the_first_depth_needs_no_coin() -> None:
    assert made(a_class(3), depth="first")["spread_N"].numbers.startswith("one group: its cord lies on one side")


def test_a_design_whose_failing_mass_is_not_known_wants_that_first() -> None:
    found = made(class_sums([cord("Alder", 3), cord("Birch", 4, fail_mass_g=None)]))["brackets_N"]
    assert found.better == "Tell which mass was on, or going on, when it broke."


def test_the_typical_force_of_two_groups_leans_on_all_designs() -> None:
    found = made(invented())["typical_break_force_N"]
    assert found.said == "26 N, from 24 to 29 (u = 1.3 N)"
    assert found.numbers == "√(27.3601 N × 25.5305 N) = 26.43 N, times or divided by 1.1"
    assert found.source == "NIST 7.4.3.3"
    assert found.notes == ("How far cords scatter is taken from all designs of the class.",)


def test_the_typical_force_of_three_groups_is_the_likeliest() -> None:
    found = made(a_class(3, 4, 5))["typical_break_force_N"]
    assert found.numbers == ("n = 3: between 4.0 and 5.0 N, between 5.0 and 6.0 N, between 6.0 and 7.0 N; q(3) = 6.98")
    assert found.source == "Nelson 1982"


def test_too_few_broken_give_no_more_than_at_least() -> None:
    found = made(invented(), "C")["typical_break_force_N"]
    assert found.said == "median of what was held 31.4 N; how much more is typical can't be said"
    assert found.numbers == "held: 30.4 N, 32.4 N"
    assert found.notes == (FEW_BROKEN,)
    assert found.better == "A ladder planned higher, with the teacher, would tell more."


def test_a_design_is_advised_by_how_its_cords_ended() -> None:
    outcomes = {"Alder": "slipped", "Birch": "stopped", "Cedar": "stopped"}
    found = made(class_sums([cord(group, 3, outcome=how, fail_mass_g=None) for group, how in outcomes.items()]))
    knots, planned = KNOTS_THAT_HOLD, PLANNED_TO_END
    for code in ("brackets_N", "unbroken", "median_break_N", "typical_break_force_N"):
        assert found[code].better == f"{knots} {planned}"


def test_eight_groups_have_another_shape_and_shares() -> None:
    found = made(a_class(3, 4, 5, 6, 5, 4, 5, 6))
    assert found["weibull_break_force_N"].numbers == "n = 8; q(8) = 4.70"
    assert found["shares"].said.count(" % ") > 1
    assert found["shares"].source == "Turnbull 1976"
    assert "shares" not in made(a_class(3, 4, 5))


def test_a_knot_that_came_undone_gives_both_views() -> None:
    sums = class_sums([cord("Alder", 3, outcome="slipped"), cord("Hazel", 4)])
    found = made(sums, depth="first")
    assert found["median_break_N"].said == "more than 4.50 N"
    assert found["median_break_N"].notes == ()
    knots = found["with_knots.median_break_N"]
    assert (knots.name, knots.said) == ("Middle of the groups of design A with its knots", "between 4.5 and 5.5 N")


def test_what_plaiting_cost() -> None:
    plaited = [cord(group, held, strands=3) for group, held in zip(BENCHES, (11, 12, 13), strict=False)]
    singles = [cord(group, held, strands=1, design="B") for group, held in zip(BENCHES[3:], (4, 5, 6), strict=False)]
    sums = class_sums([*plaited, *singles])
    found = made(sums)["shares_kept"]
    assert found.name == "What design A keeps of 3 single strips (design B)"
    share = sums.kept[0].cord.value
    assert share is not None
    assert found.numbers.startswith("13.48 N / (3 × ")
    assert found.numbers.endswith(f" = {100 * share:.4g} %")
    assert "shares_kept" not in made(sums, depth="first")


def test_a_design_of_which_no_cord_counts_says_why() -> None:
    found = _plain(design_workings(no_cords("A"), "third", name="A"))
    assert found["brackets_N"].said == "No cord of this design counts yet."
    assert found["median_break_N"].said == "No breaking force of this design is known yet."
    assert found["typical_break_force_N"].better == "More groups that make this design."
    holds(tuple(found.values()), but=("unbroken",))


def test_agreement_is_for_the_third_depth() -> None:
    design = invented().design("A")
    assert design is not None
    assert agreement_workings(design, "second") == ()
    assert [one.code for one in agreement_workings(design, "third")] == ["repeatability", "reproducibility"]


def test_agreement_within_and_between_groups() -> None:
    twice = [
        cord(group, held + more, repeat=1 + more)
        for group, held in zip(BENCHES, (3, 5, 7), strict=False)
        for more in (0, 1)
    ]
    design = class_sums(twice).design("A")
    assert design is not None
    found = _plain(agreement_workings(design, "third"))
    holds(tuple(found.values()))
    assert found["repeatability"].numbers == "√((1 × 0.707107² + 1 × 0.707107² + 1 × 0.707107²) / 3) = 0.7071 N"
    assert found["reproducibility"].numbers == "√(1.93649² + 0.707107²) = 2.062 N"
    assert found["groups"].said == "Alder h −1.00, k 1.00; Birch h 0.00, k 1.00; Cedar h 1.00, k 1.00"
