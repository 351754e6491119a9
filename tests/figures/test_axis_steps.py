from hypothesis import given
from hypothesis import strategies as st

from app.figures.axis_steps import axis_end, ticks
from app.figures.graph_plane import PARTS

needs = st.floats(min_value=0.001, max_value=1e6)


@given(needs, needs)
def test_axis_end_is_enough_and_never_falls_when_more_is_needed(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert axis_end(low, least=0.001) <= axis_end(high, least=0.001)
    assert axis_end(high, least=0.001) >= high * (1 - 1e-6)


@given(needs)
def test_axis_end_stays_where_it_is_when_asked_for_itself(need: float) -> None:
    end = axis_end(need, least=0.001)
    assert axis_end(end, least=0.001) == end


@given(needs)
def test_ticks_begin_at_zero_end_at_the_end_and_stand_evenly(need: float) -> None:
    end = axis_end(need, least=0.001)
    found = ticks(end, parts=PARTS)
    assert found[0] == 0
    assert abs(found[-1] - end) <= end * 1e-9
    assert 3 <= len(found) <= PARTS + 1
    step = found[1]
    assert all(abs(tick - place * step) <= end * 1e-9 for place, tick in enumerate(found))


def test_the_axes_of_the_invented_class_end_at_round_numbers() -> None:
    assert axis_end(170 * 1.1, least=20) == 200
    assert ticks(200.0, parts=PARTS) == (0, 40, 80, 120, 160, 200)
    assert ticks(35.0, parts=PARTS) == (0, 5, 10, 15, 20, 25, 30, 35)
    assert ticks(0.25, parts=PARTS) == (0, 0.05, 0.1, 0.15, 0.2, 0.25)
