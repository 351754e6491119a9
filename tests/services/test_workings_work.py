"""How the work was worked out."""

from tests.mechanics.told import a_row
from tests.services.workings_told import demo, sums_of, working


def test_work_by_trapezia_is_a_lower_bound() -> None:
    found = working(sums_of("200 210 230", outcome="broke", fail_mass_g=400.0), "work_J")
    assert found.said.startswith("0.065 ± ")
    assert found.notes == ("The step that it ended in is not in it, so the work to break is at least this.",)
    assert found.numbers == "(1 + 2)/2 × (210 − 200) + (2 + 3)/2 × (230 − 210) = 65 N mm = 0.065 J (2 steps)"
    failing = working(sums_of("200 210 230", outcome="broke", fail_mass_g=400.0), "failing_step_work_J")
    assert failing.said == "up to 0.080 J"
    assert failing.numbers == "4 N × 20 mm/N × (4 − 3 N) / 1000 = 0.08 J"


def test_no_work_over_a_gap() -> None:
    found = working(demo("Cedar-1"), "work_J")
    assert found.said == "The curve has a gap, and no work can be counted across a gap."
    assert "read it before and after" in found.better


def test_a_loop() -> None:
    down = [a_row(1, 218, phase="unload"), a_row(0, 206, phase="unload")]
    found = working(sums_of("200 210 230", *down), "loop_J")
    assert found.numbers.startswith("(1 + 2)/2 × (210 − 200) + … + (2 + 1)/2 × (206 − 218) = ")
