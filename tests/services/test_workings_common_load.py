"""How far cords were stretched at the load that all of them were read at."""

from functools import lru_cache

from app.mechanics.class_sums import ClassSums, no_cords
from app.mechanics.classwork import class_picture
from app.mechanics.comparison import Comparison
from app.mechanics.stretch_at import stretch_at
from app.services.working import Working
from app.services.workings_common_load import AT_COMMON_LOAD, common_stretch
from tests.mechanics.demo_class import demo_class
from tests.services.workings_told import holds


@lru_cache
def invented() -> ClassSums:
    return class_picture(demo_class()).sums


def comparison() -> Comparison:
    return next(one for one in invented().comparisons if one.quantity == AT_COMMON_LOAD)


def of_design_a(depth: str) -> Working:
    sums = invented()
    design = sums.design("A")
    assert design is not None
    found = common_stretch(comparison(), design, sums.common_force_n, name="A (3 plaited)", depth=depth)
    assert found is not None
    return found


def test_the_mean_of_the_groups_and_how_well_each_cord_is_known() -> None:
    found, sums = of_design_a("second"), invented()
    design = sums.design("A")
    assert design is not None
    known = [stretch_at(one, sums.common_force_n) for one in design.cords]
    widest = max((one.high or 0.0) - (one.low or 0.0) for one in known) / 2
    assert f"{len(known)} cords, each to within {widest:.0f}" in found.said
    assert found.numbers.count("±") == len(known)
    assert "Alder-1 " in found.numbers
    holds((found,))


def test_the_first_depth_says_give_or_take() -> None:
    assert "give or take" in of_design_a("first").numbers
    assert "±" not in of_design_a("first").numbers


def test_the_first_depth_says_how_to_take_the_mean_and_not_what_it_is_called() -> None:
    assert "geometric" not in of_design_a("first").formula
    assert "nth root" in of_design_a("first").formula
    assert "geometric mean" in of_design_a("second").formula


def test_no_common_load_or_no_cord_has_none() -> None:
    design = invented().design("A")
    assert design is not None
    assert common_stretch(comparison(), no_cords("F"), 6.72, name="F", depth="first") is None
    assert common_stretch(comparison(), design, None, name="A", depth="first") is None
