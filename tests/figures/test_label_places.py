from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from app.figures.label_places import Box, Field, crosses

FIELD = Box(58, 10, 940, 624)
wanted = st.builds(
    Box,
    st.floats(58, 800),
    st.floats(10, 600),
    st.floats(40, 190),
    st.just(28.8),
)


def no_leader(_: Box) -> None:
    return None


@settings(max_examples=60, deadline=None)
@given(st.lists(wanted, min_size=2, max_size=40))
def test_places_never_meet_and_never_leave_the_field(boxes: list[Box]) -> None:
    field = Field(FIELD, [])
    found = [place for box in boxes if (place := field.near(box, no_leader, gap=5))]
    assert len(found) == len(boxes)
    assert all(box.within(FIELD) for box in found)
    assert not any(one.meets(other) for one, other in combinations(found, 2))


def test_a_place_that_is_free_and_covers_nothing_is_taken_as_it_is() -> None:
    assert Field(FIELD, []).near(Box(100, 100, 80, 30), no_leader, gap=5) == Box(100, 100, 80, 30)


def test_a_line_is_not_covered_when_there_is_room_beside_it() -> None:
    line = [(60.0, 110.0), (990.0, 110.0)]
    box = Field(FIELD, [line]).near(Box(400, 100, 80, 28.8), no_leader, gap=5)
    assert box is not None
    assert box.bottom <= 112 or box.top >= 104


def test_a_full_field_gives_no_place() -> None:
    field = Field(Box(0, 0, 100, 50), [])
    assert field.near(Box(0, 0, 90, 40), no_leader, gap=0)
    assert field.near(Box(0, 0, 90, 40), no_leader, gap=0) is None


def test_crosses_sees_a_line_through_a_box_and_none_beside_it() -> None:
    box = Box(10, 10, 20, 20)
    assert crosses(((0, 0), (40, 40)), box)
    assert crosses(((15, 15), (20, 20)), box)
    assert not crosses(((0, 31), (40, 31)), box)
    assert not crosses(((0, 0), (9, 9)), box)
