"""The plan that a first lesson begins with can be made as it is."""

from dataclasses import replace

from app.domain.first_plan import first_plan
from app.domain.plan import check_plan, seated


def test_with_a_title_it_has_no_fault() -> None:
    plan = first_plan()
    check_plan(replace(plan, lesson={**plan.lesson, "title": "Fleece cords"}))
    assert len(seated(plan, 1)) == 10


def test_its_ladder_is_that_of_the_demo() -> None:
    """demo.md: masses 1-4 nominal 100 g, 5-18 nominal 200 g."""
    assert [rung.printed_mass_g for rung in first_plan().rungs] == [100.0] * 4 + [200.0] * 14
