"""Which entries stand, and what rulings say of them."""

from collections.abc import Callable

import pytest

from app.domain.records import Event, Reading, Ruling
from app.domain.standing import (
    beside,
    counted,
    ending_state,
    event_order,
    first_of,
    left_out_reasons,
    marks_hung,
    measured,
    reading_order,
    standing,
    states,
)
from tests.mechanics.cords import a_measure, a_reading, a_ruling, an_ending, an_event, changed


def test_a_replaced_entry_no_longer_stands_and_the_chain_leads_to_the_first() -> None:
    first = a_reading(1, 217)
    second = changed(first, pointer_mm=271.0)
    third = changed(second, pointer_mm=219.0)
    assert standing((third, first, second)) == (third,)
    assert first_of(third, (first, second, third)) == first
    assert first_of(third, (second, third)) == second


def test_entries_that_replace_each_other_do_not_hang_the_search() -> None:
    one, other = a_reading(1, 1, entry_id="a", replaces="b"), a_reading(1, 2, entry_id="b", replaces="a")
    assert first_of(one, (one, other)) == other


def test_the_latest_of_left_out_and_put_back_decides_whatever_the_order_given() -> None:
    out, back = a_ruling("left_out", "r", reason="bumped"), a_ruling("put_back", "r")
    assert left_out_reasons((out,)) == {"r": "bumped"}
    assert left_out_reasons((back, out)) == {}
    assert left_out_reasons((back, out, a_ruling("left_out", "r", reason="again"))) == {"r": "again"}


def test_a_replaced_ruling_no_longer_holds() -> None:
    out = a_ruling("left_out", "r", reason="bumped")
    instead = a_ruling("note_answer", "r", replaces=out.entry_id)
    assert left_out_reasons((out, instead)) == {}


def test_a_ruling_about_a_replaced_entry_holds_for_the_one_that_stands() -> None:
    first = a_reading(1, 217)
    second = changed(first, pointer_mm=219.0)
    out = a_ruling("left_out", first.entry_id, reason="bumped")
    assert counted((first, second), (out,)) == ()
    assert counted((first, second), (out, a_ruling("put_back", second.entry_id))) == (second,)


def test_of_two_that_replace_the_same_entry_a_ruling_meets_one() -> None:
    first = a_reading(1, 217)
    one, other = changed(first, pointer_mm=219.0), changed(first, pointer_mm=220.0)
    out = a_ruling("left_out", one.entry_id, reason="not ours")
    assert counted((first, one, other), (out,)) == (other,)


def states_of(readings: list[Reading], *rulings: Ruling) -> list[str]:
    found = states(readings, rulings)
    return [found[reading.entry_id] for reading in readings if reading.entry_id in found]


def test_one_number_stands_and_the_same_again_is_matched() -> None:
    assert states_of([a_reading(1, 222), a_reading(2, 224)]) == ["stands", "stands"]
    assert states_of([a_reading(1, 222), a_reading(1, 222)]) == ["stands", "matched"]
    assert states_of([a_reading(1, 222), a_reading(1, 222, turn=2)]) == ["stands", "stands"]


def test_two_numbers_differ_until_someone_says_which_counts() -> None:
    readings = [a_reading(7, 258), a_reading(7, 259), a_reading(7, 259)]
    assert states_of(readings) == ["differs", "differs", "matched"]
    keep = a_ruling("counts", readings[0].entry_id)
    assert states_of(readings, keep) == ["stands", "ruled_out", "ruled_out"]
    other = a_ruling("counts", readings[2].entry_id)
    assert states_of(readings, keep, other) == ["ruled_out", "matched", "stands"]


def test_which_counts_may_be_said_of_an_earlier_entry_of_the_chain() -> None:
    first = a_reading(7, 25.8)
    mended = changed(first, pointer_mm=258.0)
    other = a_reading(7, 259)
    assert states_of([first, mended, other], a_ruling("counts", first.entry_id)) == ["stands", "ruled_out"]


def test_leaving_one_of_two_numbers_out_lets_the_other_stand() -> None:
    readings = [a_reading(7, 258), a_reading(7, 259)]
    assert states_of(readings, a_ruling("left_out", readings[1].entry_id, reason="misread")) == ["stands", "stands"]


def test_no_end_one_end_the_same_end_twice_and_two_ends() -> None:
    one, same, other = an_ending("broke_adding", 5), an_ending("broke_adding", 5), an_ending("knot_undone", 5)
    assert ending_state((), ()) == ("none", None)
    assert ending_state((one,), ()) == ("stands", one)
    assert ending_state((same, one), ()) == ("stands", one)
    assert ending_state((one, other), ()) == ("differs", None)
    assert ending_state((one, other), (a_ruling("counts", other.entry_id),)) == ("stands", other)
    assert ending_state((one, other), (a_ruling("left_out", one.entry_id, reason="no"),)) == ("stands", other)


def test_the_ladder_hangs_unless_another_mass_is_named_and_that_holds_from_there_on() -> None:
    swapped = (an_event("other_mass", 3, mark=5), an_event("other_mass", 5, mark=3))
    assert marks_hung((), 4) == (1, 2, 3, 4)
    assert marks_hung(swapped, 2) == (1, 2)
    assert marks_hung(swapped, 3) == (1, 2, 5)
    assert marks_hung(swapped, 6) == (1, 2, 5, 4, 3, 6)
    mended = an_event("other_mass", 3, mark=6, replaces=swapped[0].entry_id)
    assert marks_hung((*swapped, mended), 3) == (1, 2, 6)
    assert marks_hung((an_event("knot_slipped", 1, mark=9), an_event("other_mass", None, mark=9)), 1) == (1,)


def test_readings_and_events_lie_in_the_order_of_the_test() -> None:
    order: list[Reading | Event] = [
        a_reading(0, 1),
        a_reading(0, 1, turn=2),
        an_event("knot_slipped", 1),
        a_reading(1, 1),
        a_reading(1, 1, phase="later"),
        an_event("pointer_moved", 1, after_reading=True),
        a_reading(1, 1, phase="pointer_put_back"),
        a_reading(1, 1, phase="return"),
        a_reading(1, 1, phase="hung_again"),
        a_reading(2, 1),
        a_reading(2, 1, phase="unload"),
        a_reading(1, 1, phase="unload"),
    ]
    keys = [reading_order(item) if isinstance(item, Reading) else event_order(item) for item in order]
    assert keys == sorted(keys)


@pytest.mark.parametrize(
    ("step", "after", "place"),
    [
        (1, False, lambda row: (row[1], False)),
        (1, True, lambda row: (row[2], True)),
        (2, True, lambda row: (row[4], True)),
        (3, False, lambda row: (row[5], False)),
        (9, True, lambda row: (row[5], True)),
    ],
    ids=["before its reading", "after later", "before the put back one", "no such step: the next", "past the last"],
)
def test_an_event_is_told_beside_one_reading(
    step: int, after: bool, place: Callable[[list[Reading]], tuple[Reading, bool]]
) -> None:
    row = [
        a_reading(0, 1),
        a_reading(1, 1),
        a_reading(1, 1, phase="later"),
        a_reading(1, 1, phase="return"),
        a_reading(2, 1),
        a_reading(4, 1),
    ]
    event = an_event("strand_went", step, after_reading=after)
    assert beside(row, (event,)) == {event.entry_id: place(row)}
    assert beside([], (event,)) == {}
    assert beside(row, (an_event("pause", None),)) == {}


def test_a_measure_is_the_latest_of_each_place_and_their_mean() -> None:
    first = a_measure("strip_width_mm", 24.0)
    widths = (
        first,
        a_measure("strip_width_mm", 25.0, replaces=first.entry_id),
        a_measure("strip_width_mm", 26.0, place=2),
        a_measure("strip_width_mm", 27.0, place=2),
    )
    assert measured(widths, "strip_width_mm") == 26.0
    assert measured(widths, "free_length_mm") is None
