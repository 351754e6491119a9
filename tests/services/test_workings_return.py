"""How it was worked out what stayed, came back, went on."""

from app.mechanics.cord_sums import cord_sums
from tests.mechanics.told import a_cord, a_row, rows_of
from tests.services.workings_told import demo, working


def test_what_stayed_and_what_came_back() -> None:
    stayed = working(demo("Alder-1"), "permanent_set_mm", "first")
    assert stayed.said == "13 mm, give or take 2 mm"
    assert stayed.numbers == (
        "it was 41 mm longer under 16.6 N (step 10); back at the hanger 231 mm − 218 mm = 13 mm, so 28 mm came back"
    )
    back = working(demo("Alder-1"), "recovery", "second")
    assert back.said == "from 4.78 N: 82 ± 18 %; from 16.6 N: 68 ± 5 %"
    assert back.numbers.endswith("step 10: (41 mm − 13 mm) / 41 mm = 68.29 %")
    never = working(demo("Maple-1"), "permanent_set_mm", "first")
    assert never.said == "The masses were never taken off again while the cord held."
    assert never.better.startswith("Take the masses off once")


def test_the_elastic_limit_says_what_could_have_been_seen() -> None:
    found = working(demo("Alder-1"), "elastic_limit_N", "second")
    assert found.said == "between 4.8 and 16.6 N"
    assert found.numbers == "it came back from 4.78 N; not from 16.6 N"
    assert found.notes == ("Came back means to within 2.1 mm: less could not have been seen.",)


def test_creep_from_two_readings_of_one_step() -> None:
    sums = cord_sums(a_cord(*rows_of("200 203 206"), a_row(2, 208, phase="later")))
    found = working(sums, "creep", "second")
    assert found.said.startswith("under 3.00 N: 2.0 ± ")
    assert found.numbers == "step 2: 208 mm − 206 mm = 2 mm"
    assert working(demo("Alder-1"), "creep").said == "No step was read twice, so nothing is known of creep."
