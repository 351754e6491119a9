import pytest

from app.figures.cord_curve import cord_curve
from tests.figures.demo_rows import a_point, a_specimen, demo_class

PICTURES = {specimen.bench: specimen for specimen in demo_class().specimens}


def test_points_lie_where_their_values_say() -> None:
    curve = cord_curve(PICTURES["Elder"])
    assert curve is not None
    (section,) = curve.sections
    x_to, y_to = float(curve.x_ticks[-1].words), float(curve.y_ticks[-1].words)
    for mark, point in zip(section.marks, PICTURES["Elder"].points, strict=True):
        assert point.extension_mm is not None
        assert point.force_n is not None
        assert (mark.x - curve.left) / (curve.right - curve.left) * x_to == pytest.approx(point.extension_mm, abs=0.1)
        assert (curve.bottom - mark.y) / (curve.bottom - curve.top) * y_to == pytest.approx(point.force_n, abs=0.01)
    assert section.points.split()[0] == f"{section.marks[0].x:g},{section.marks[0].y:g}"


def test_the_next_force_is_on_the_graph() -> None:
    points = (a_point(0, 0.8, 0.0), a_point(1, 2.0, 10.0), a_point(2, 10.8, 65.0))
    curve = cord_curve(a_specimen("Elder", "D", points), next_force_n=12.77)
    assert curve is not None
    assert curve.next_y is not None
    assert curve.top < curve.next_y < curve.bottom
    assert [tick.words for tick in curve.y_ticks] == ["0", "4", "8", "12", "16"]
    assert curve.end is None


def test_a_slip_parts_the_curve_and_rings_the_event() -> None:
    curve = cord_curve(PICTURES["Cedar"])
    assert curve is not None
    assert [section.after_slip for section in curve.sections] == [False, True]
    assert len(curve.rings) == 1


@pytest.mark.parametrize(("bench", "word"), [("Alder", "broke"), ("Maple", "more than 32.4")])
def test_an_end_is_drawn_inside_with_its_word(bench: str, word: str) -> None:
    curve = cord_curve(PICTURES[bench], width=440, height=262)
    assert curve is not None
    assert curve.end is not None
    assert curve.end.word == word
    assert curve.end.path.startswith("M")
    assert 0 < curve.end.x < curve.width
    assert 0 < curve.end.y < curve.bottom


def test_narrow_drawings_have_larger_letters_and_room_for_them() -> None:
    wide, narrow = cord_curve(PICTURES["Elder"]), cord_curve(PICTURES["Elder"], narrow=True)
    assert wide is not None
    assert narrow is not None
    assert narrow.text > wide.text
    assert narrow.left > wide.left


def test_there_is_no_curve_before_the_first_reading() -> None:
    assert cord_curve(a_specimen("Elder", "D", ())) is None
