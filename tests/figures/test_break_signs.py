"""Break signs lying down, on one axis."""

import re

from hypothesis import given
from hypothesis import strategies as st

from app.figures.break_signs import LEFT, RIGHT, WIDTH, Broke, break_signs, shared_axis

FORCE = st.floats(0.01, 900.0)


@given(st.lists(st.tuples(FORCE, st.none() | st.floats(0.0, 50.0)), min_size=1, max_size=12))
def test_every_sign_lies_on_the_drawing(cords: list[tuple[float, float | None]]) -> None:
    broke = [Broke(name="Alder", held_n=held, broke_n=None if more is None else held + more) for held, more in cords]
    axis = shared_axis(broke)
    assert 2 <= len(axis.ticks_n) <= 6
    assert axis.low_n >= 0
    for one in broke:
        assert LEFT <= axis.px(one.held_n) <= WIDTH - RIGHT
        assert one.broke_n is None or axis.px(one.broke_n) <= WIDTH - RIGHT


def test_lessons_share_an_axis_in_order_of_force() -> None:
    alder, hazel = Broke(name="Alder", held_n=26.36, broke_n=28.36), Broke(name="Hazel", held_n=24.54, broke_n=26.52)
    axis = shared_axis([alder, hazel])
    signs = break_signs([alder, hazel], axis).signs
    feet = [float(re.match(r"M([\d.]+) ", sign.path)[1]) for sign in signs]  # type: ignore[index]
    assert feet == [axis.px(26.36), axis.px(24.54)]
    assert feet[0] > feet[1]


def test_more_than_is_an_arrow_and_is_said() -> None:
    maple = Broke(name="Maple", held_n=32.39, broke_n=None)
    drawn = break_signs([maple], shared_axis([maple]))
    assert drawn.words == "Maple: more than 32.4 N"


def test_nothing_to_draw_has_an_axis_all_the_same() -> None:
    assert shared_axis([]).high_n > shared_axis([]).low_n
