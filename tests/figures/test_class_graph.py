import json
from itertools import combinations
from typing import Any

import plotly.graph_objects as go
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.domain.errors import InvalidEntry
from app.figures.class_graph import class_graph
from app.figures.graph_curves import UP, curves_of, ends_needed
from app.figures.graph_ends import end_signs
from app.figures.graph_labels import Lettering, write_labels
from app.figures.graph_plane import Plane
from app.figures.look import DRAWINGS
from app.mechanics.classwork import Bracket, ClassPicture
from tests.figures.demo_rows import a_picture, a_point, a_specimen, an_ending, demo_class

FIGURE = dict[str, Any]


def traces(figure: FIGURE, uid: str) -> list[FIGURE]:
    return [trace for trace in figure["data"] if trace["uid"].startswith(uid)]


def lines_of(figure: FIGURE, bench: str) -> list[FIGURE]:
    return [trace for trace in figure["data"] if trace.get("name") == bench and trace["mode"] == "lines+markers"]


def lettering(picture: ClassPicture, drawing: str) -> tuple[Lettering, Plane]:
    curves, _ = curves_of(picture, "extension", "load", lifted_bench=None)
    x_to, y_to = ends_needed(curves, "extension", "load", previous=None)
    plane = Plane(drawing=DRAWINGS[drawing], x_to=x_to, y_to=y_to)
    designs = [(design.letter, design.name) for design in picture.designs]
    return write_labels(curves, plane, end_signs(curves, plane), designs=designs, name=UP["load"]), plane


def check_clear(picture: ClassPicture, drawing: str) -> Lettering:
    """No label covers another, none is outside, and every bench has one."""
    pen, plane = lettering(picture, drawing)
    boxes = [box for _, box in pen.boxes]
    assert not any(one.meets(other) for one, other in combinations(boxes, 2))
    assert all(box.within(plane.box) for box in boxes)
    assert pen.unplaced == []
    curves, _ = curves_of(picture, "extension", "load", lifted_bench=None)
    last = [plane.px(curve.end.x, curve.end.y) for curve in curves]
    assert not any(box.left < x < box.right and box.top < y < box.bottom for box in boxes for x, y in last)
    return pen


@pytest.mark.parametrize("drawing", DRAWINGS)
def test_labels_of_the_invented_class_are_clear_of_each_other_and_of_every_end(drawing: str) -> None:
    picture = demo_class()
    pen = check_clear(picture, drawing)
    assert {specimen.bench for specimen in picture.specimens} <= {name for name, _ in pen.boxes}
    curves, _ = curves_of(picture, "extension", "load", lifted_bench=None)
    x_to, y_to = ends_needed(curves, "extension", "load", previous=None)
    signs = end_signs(curves, Plane(drawing=DRAWINGS[drawing], x_to=x_to, y_to=y_to))
    assert not any(box.meets(sign.box) for _, box in pen.boxes for sign in signs.values())
    assert not any(one.box.meets(other.box) for one, other in combinations(signs.values(), 2))


ends = st.tuples(st.floats(1, 300), st.floats(1, 40), st.booleans())


@settings(max_examples=40, deadline=None)
@given(st.lists(ends, min_size=1, max_size=16), st.sampled_from(sorted(DRAWINGS)))
def test_labels_are_clear_wherever_the_cords_end(found: list[tuple[float, float, bool]], drawing: str) -> None:
    specimens = []
    for place, (extension, force, ended) in enumerate(found):
        points = (a_point(0, 0.5, 0.0), a_point(1, force / 2, extension / 2), a_point(2, force, extension))
        more: dict[str, object] = {}
        if ended:
            bracket = Bracket(low_n=force, high_n=force + 2 if place % 3 else None)
            more = {"ending": an_ending("broke_adding"), "break_bracket": bracket}
        specimens.append(a_specimen(f"Hawthorn{place}", "ABCDE"[place % 5], points, **more))
    check_clear(a_picture(tuple(specimens)), drawing)


def test_forty_benches_that_end_at_one_place_have_clear_labels() -> None:
    points = (a_point(0, 0.8, 0.0), a_point(1, 10.0, 50.0))
    benches = tuple(a_specimen(f"Bench{place}", "ABCDEF"[place % 6], points) for place in range(40))
    check_clear(a_picture(benches), "squarish")


@pytest.mark.parametrize("drawing", DRAWINGS)
@pytest.mark.parametrize("theme", ["light", "dark", "projector"])
@pytest.mark.parametrize("bench", [None, "rowan"])
def test_the_figure_is_plain_and_plotly_takes_it(drawing: str, theme: str, bench: str | None) -> None:
    view = "one_bench" if bench else "benches"
    figure = class_graph(demo_class(), view=view, bench=bench, theme=theme, drawing=drawing)
    assert json.loads(json.dumps(figure, allow_nan=False)) == figure
    go.Figure(figure)


def test_text_is_no_smaller_than_the_drawing_asks() -> None:
    for drawing, least in (("squarish", 24), ("wide", 34)):
        figure = class_graph(demo_class(), drawing=drawing)
        sizes = [figure["layout"]["font"]["size"], figure["layout"]["xaxis"]["tickfont"]["size"]]
        sizes += [trace["textfont"]["size"] for trace in traces(figure, "words") + traces(figure, "letters")]
        assert min(sizes) >= least


def test_every_reading_of_the_invented_class_is_on_its_line() -> None:
    picture = demo_class()
    figure = class_graph(picture)
    for specimen in picture.specimens:
        drawn = [
            pair for trace in lines_of(figure, specimen.bench) for pair in zip(trace["x"], trace["y"], strict=True)
        ]
        assert drawn == [(point.extension_mm, point.force_n) for point in specimen.points]


def test_after_a_slip_there_is_a_gap_and_the_line_goes_on_lighter() -> None:
    before, after = lines_of(class_graph(demo_class()), "Cedar")
    assert before["x"][-1] < after["x"][0]
    assert after["line"]["width"] == pytest.approx(0.55 * before["line"]["width"])
    assert after["line"]["color"] == before["line"]["color"]


def test_a_lifted_bench_is_heavier_cased_in_paper_drawn_last_and_underlined() -> None:
    figure = class_graph(demo_class(), view="one_bench", bench="rowan", drawing="squarish")
    (line,) = lines_of(figure, "Rowan")
    (casing,) = traces(figure, "casing-")
    assert line["line"]["width"] == 7
    assert casing["line"]["width"] > 7
    assert casing["line"]["color"] == figure["layout"]["plot_bgcolor"]
    assert [trace for trace in figure["data"] if trace["mode"] == "lines+markers" and "name" in trace][-1] == line
    (words,) = traces(figure, "words")
    under = [text for text, how in zip(words["text"], words["textfont"]["lineposition"], strict=True) if how == "under"]
    assert under == ["Rowan"]
    assert "one strand broke" in words["text"]
    assert figure["layout"]["meta"]["words"]["lead"] == "Rowan, design C:"
    assert "30.35" in figure["layout"]["meta"]["words"]["rest"]
    assert "32.31" in figure["layout"]["meta"]["words"]["rest"]


def test_a_break_stands_from_what_it_held_to_what_it_broke_on_and_more_than_is_open_above() -> None:
    curves, _ = curves_of(demo_class(), "extension", "load", lifted_bench=None)
    plane = Plane(drawing=DRAWINGS["wide"], x_to=200, y_to=35)
    signs = end_signs(curves, plane)
    alder, maple = signs["id-Alder"], signs["id-Maple"]
    assert (alder.foot, alder.top) == (plane.px(0, 26.36)[1], plane.px(0, 28.36)[1])
    assert alder.broke
    assert maple.foot == plane.px(0, 32.39)[1]
    assert not maple.broke


def test_what_does_not_count_is_a_cross_and_still_moving_is_hollow() -> None:
    points = (
        a_point(0, 0.8, 0.0),
        a_point(1, 2.0, 5.0, events=("still_moving",)),
        a_point(2, 3.0, 12.0, counts=False, state="differs"),
        a_point(3, 4.0, 14.0),
    )
    figure = class_graph(a_picture((a_specimen("Elm", "B", points),)), theme="light")
    (line,) = lines_of(figure, "Elm")
    assert line["x"] == [0.0, 5.0, 14.0]
    assert line["marker"]["color"] == ["#0072B2", "#FFFFFF", "#0072B2"]
    (crosses,) = traces(figure, "crosses-")
    assert (crosses["x"], crosses["marker"]["symbol"]) == ([12.0], "x-open")
    (words,) = traces(figure, "words")
    assert {"not counted", "still moving"} <= set(words["text"])


def test_a_bench_without_the_measure_is_named_and_a_cord_left_out_is_not_drawn() -> None:
    points = (a_point(0, 0.8, 0.0), a_point(1, 2.0, 5.0))
    picture = a_picture(
        (
            a_specimen("Elm", "A", points),
            a_specimen("Oak", "B", points, linear_density_g_per_m=None),
            a_specimen("Yew", "C", points, left_out="nick in a strip"),
        )
    )
    figure = class_graph(picture, y="load_per_linear_density")
    assert lines_of(figure, "Elm")
    assert not lines_of(figure, "Oak")
    assert not lines_of(figure, "Yew")
    rest = figure["layout"]["meta"]["words"]["rest"]
    assert "Not drawn, no linear density: Oak." in rest
    assert "Left out: Yew-1." in rest


def test_measures_divide_the_force_and_turn_extension_into_per_cent() -> None:
    points = (a_point(0, 0.6, 0.0), a_point(1, 3.0, 30.0))
    picture = a_picture((a_specimen("Elm", "A", points, strands=3, linear_density_g_per_m=1.5),))
    (line,) = lines_of(class_graph(picture, x="strain", y="load_per_strand"), "Elm")
    assert (line["x"], line["y"]) == ([0.0, 10.0], pytest.approx([0.2, 1.0]))
    (line,) = lines_of(class_graph(picture, y="load_per_linear_density"), "Elm")
    assert line["y"] == pytest.approx([0.4, 2.0])


def test_axes_never_shrink_and_the_reading_that_would_squeeze_them_stands_off_the_graph() -> None:
    small = class_graph(a_picture((a_specimen("Elm", "A", (a_point(0, 0.8, 0.0),)),)), previous=(200.0, 35.0))
    assert (small["layout"]["meta"]["x_to"], small["layout"]["meta"]["y_to"]) == (200, 35)
    points = (a_point(0, 0.8, 0.0), a_point(1, 2.0, 30.0), a_point(2, 3.0, 2262.0), a_point(3, 4.0, 60.0))
    figure = class_graph(a_picture((a_specimen("Elm", "A", points),)))
    assert figure["layout"]["meta"]["x_to"] == 80
    assert [trace["x"] for trace in lines_of(figure, "Elm")] == [[0.0, 30.0], [60.0]]
    (words,) = traces(figure, "words")
    assert "→ Elm: off the graph" in words["text"]


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.floats(0, 500), st.floats(0, 60)), min_size=1, max_size=18), st.integers(1, 18))
def test_an_axis_that_is_given_its_own_end_never_falls(found: list[tuple[float, float]], upto: int) -> None:
    points = tuple(a_point(step, force, extension) for step, (extension, force) in enumerate(found))
    first = class_graph(a_picture((a_specimen("Elm", "A", points[:upto]),)))["layout"]["meta"]
    before = (first["x_to"], first["y_to"])
    then = class_graph(a_picture((a_specimen("Elm", "A", points),)), previous=before)["layout"]["meta"]
    assert (then["x_to"], then["y_to"]) >= before
    assert then["y_to"] >= before[1]


@pytest.mark.parametrize(
    ("field", "asked"),
    [
        ("view", {"view": "designs"}),
        ("upright", {"upright": "extension"}),
        ("x", {"x": "wear"}),
        ("y", {"y": "stress"}),
        ("theme", {"theme": "pink"}),
        ("drawing", {"drawing": "round"}),
        ("bench", {"view": "one_bench", "bench": "nobody"}),
        ("bench", {"view": "one_bench"}),
    ],
)
def test_what_cannot_be_drawn_is_refused_by_its_field(field: str, asked: dict[str, str]) -> None:
    with pytest.raises(InvalidEntry) as refused:
        class_graph(demo_class(), **asked)  # type: ignore[arg-type]
    assert [fault.field for fault in refused.value.faults] == [field]


def test_a_lesson_without_readings_is_an_empty_graph_with_words() -> None:
    figure = class_graph(a_picture(()))
    go.Figure(figure)
    assert figure["layout"]["meta"]["words"] == {"lead": "Nothing to draw yet.", "rest": ""}


def test_a_name_with_signs_of_markup_is_shown_as_it_is_written() -> None:
    picture = a_picture((a_specimen("<b>Elm", "A", (a_point(0, 0.8, 0.0),)),))
    (words,) = traces(class_graph(picture), "words")
    assert "&lt;b&gt;Elm" in words["text"]
