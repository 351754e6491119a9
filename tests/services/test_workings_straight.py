"""How the straight part was worked out."""

from dataclasses import replace

from app.mechanics.cord_sums import cord_sums
from app.services.workings import cord_workings
from tests.mechanics.told import a_cord, rows_of
from tests.services.workings_told import demo, sums_of, working


def test_straight_up_to_the_nearest_step() -> None:
    found = working(demo("Alder-1"), "limit_of_proportionality_N", "first")
    assert (found.name, found.said) == ("Straight up to", "about 16.6 N (step 10); between 14.4 and 17.1 N")
    assert found.numbers == "middle (14.4 N + 17.1 N) / 2 = 15.7 N; nearest step 16.6 N (step 10)"
    deeper = working(demo("Alder-1"), "limit_of_proportionality_N", "second")
    assert (deeper.name, deeper.said) == ("Limit of proportionality", "between 14.4 and 17.1 N")
    assert deeper.formula == "the force where the straight line and the bent part that fit the readings best meet"
    assert deeper.better == "Smaller steps between 14.4 and 17.1 N."


def test_no_bend_seen_says_how_far_one_would_have_shown() -> None:
    straight = sums_of(" ".join(str(200 + 5 * step) for step in range(14)))
    first = working(straight, "limit_of_proportionality_N", "first")
    assert first.said.endswith("at least: no bend seen")
    second = working(straight, "limit_of_proportionality_N", "second")
    assert second.said.startswith("at least ")
    assert "would have shown up to" in second.notes[0]
    assert second.better == "The steps of the ladder that are still to come."


def test_too_few_readings_say_so_once() -> None:
    found = working(demo("Cedar-1"), "limit_of_proportionality_N", "second")
    assert (found.said, found.notes, found.numbers) == ("Too few readings to look for a bend.", (), "")
    assert found.better == "Smaller steps: eight readings or more before it breaks."


def test_unweighed_masses_are_to_be_weighed() -> None:
    rows = [replace(row, mass_u_g=5.77 * (row.step + 1) ** 0.5) for row in rows_of("200 203 206 209 212 215 218 221")]
    sums = cord_sums(a_cord(*rows))
    assert (
        working(sums, "limit_of_proportionality_N").better
        == "Weigh every mass: a wrong one bends the line as a cord does."
    )
    assert working(sums, "stiffness_N_per_mm").better.startswith("Weigh every mass")


def test_stiffness_is_one_over_the_slope() -> None:
    found = working(demo("Alder-1"), "stiffness_N_per_mm", "second")
    assert found.said == "0.41 N/mm, from 0.39 to 0.44; by readings between 0.8 and 16.0 N"
    assert found.numbers == "1 / 2.465 mm/N = 0.4056 N/mm (10 of 16 readings, 0.844 to 15.99 N)"


def test_a_part_that_somebody_chose() -> None:
    sums = sums_of("200 203 206 209 212 215", straight_first_step=1, straight_last_step=5)
    found = working(sums, "chosen")
    assert found.name == "Stiffness of the part you chose, steps 1 to 5"
    assert found.numbers.startswith("1 / 3 mm/N = 0.3333 N/mm (5 readings); steepest ")
    assert "steepest" not in working(sums, "chosen", "second").numbers
    assert found.notes[0] == "A person chose these steps, so the interval is for them alone."
    assert "chosen" not in [one.code for one in cord_workings(demo("Alder-1"), "third")]
