"""How it was worked out what the plait took of its strips."""

from app.mechanics.material import LONGER_THAN_STRIPS
from app.services.workings import cord_workings
from tests.services.workings_told import holds, sums_of, working


def test_take_up_in_hundredths_of_the_strip() -> None:
    """1 − 260/300 = 13.3 %; each length to 2.5/sqrt(3) mm, 1.96 of both together 1.2 %."""
    sums = sums_of("200 203", strip_length_mm=300.0, cord_length_mm=260.0)
    found = working(sums, "take_up", "second")
    assert (found.said, found.numbers) == ("13.3 ± 1.2 %", "1 − 260 mm / 300 mm")
    holds(cord_workings(sums, "third"))
    assert "take_up" not in [one.code for one in cord_workings(sums, "first")]


def test_what_is_missing_or_wrong_is_said() -> None:
    longer = working(sums_of("200 203", strip_length_mm=300.0, cord_length_mm=310.0), "take_up")
    assert (longer.said, longer.numbers, longer.better) == (LONGER_THAN_STRIPS, "", "Measure both lengths once more.")
    alone = working(sums_of("200 203", strip_length_mm=300.0), "take_up")
    assert alone.better == "Measure a strip before plaiting and the cord made of it."
    assert "take_up" not in [one.code for one in cord_workings(sums_of("200 203", cord_length_mm=260.0), "third")]
