"""What is said beside every force."""

from dataclasses import replace

from app.mechanics.cord_sums import cord_sums
from app.services.load_words import NO_HANGER, load_notes
from tests.mechanics.told import a_cord, a_row, rows_of
from tests.services.workings_told import demo, working


def test_weighed_masses_and_a_weighed_hanger_need_no_word() -> None:
    assert load_notes(demo("Alder-1").cord) == ()


def test_masses_by_label_say_how_far_each_force_may_be_off() -> None:
    """A hanger of 100 g that was weighed and two rungs of 100 g, each good to 10 %: 10/200 and 14.1/300."""
    rows = [replace(row, mass_u_g=10 / 3**0.5 * row.step**0.5) for row in rows_of("200 203 206")]
    cord = a_cord(*rows, outcome="broke", fail_mass_g=400.0, strands=3)
    said = "The masses were not weighed: each force may be off by some 4.7 to 5.0 %."
    assert [note.replace("\u00a0", " ") for note in load_notes(cord)] == [said]
    for code in ("break_force_N", "break_force_per_strand_N", "limit_of_proportionality_N", "stiffness_N_per_mm"):
        assert said in working(cord_sums(cord), code).notes


def test_a_hanger_of_no_mass_is_not_counted() -> None:
    cord = a_cord(a_row(0, 200.0, mass_g=0.0), a_row(1, 203.0))
    assert load_notes(cord) == (NO_HANGER,)


def test_no_force_is_off_by_more_than_all_of_it() -> None:
    cord = a_cord(a_row(0, 200.0), a_row(1, 203.0, mass_g=1e-300, mass_u_g=1e9))
    assert [note.replace("\u00a0", " ") for note in load_notes(cord)] == [
        "The masses were not weighed: each force may be off by some 100 %."
    ]
