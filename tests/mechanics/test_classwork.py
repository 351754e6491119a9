"""The class picture against the check values of the invented demonstration lesson (all made up, computed once)."""

import pytest

from app.mechanics.classwork import Point, class_picture
from tests.mechanics.demo_class import CLEAN_MM, demo_class

PICTURE = class_picture(demo_class())
CORDS = {cord.name: cord for cord in PICTURE.specimens}
FORCES_N = {
    "Alder-1": "0.84 1.81 2.82 3.82 4.78 6.81 8.74 10.70 12.71 14.68 16.62 18.55 20.55 22.46 24.40 26.36",
    "Hazel-1": "0.84 1.81 2.82 3.84 4.83 6.85 8.82 10.80 12.76 14.69 16.64 18.61 20.62 22.56 24.54",
    "Birch-1": "1.10 2.08 3.09 4.06 5.07 7.07 9.04 10.96 12.95 14.94 16.87 18.84",
    "Larch-1": "0.84 1.80 2.80 4.66 5.66 6.64 8.66 10.63 12.62 14.55 16.63 18.58",
}
BRACKETS_N = {
    "Alder-1": (26.36, 28.36),
    "Hazel-1": (24.54, 26.52),
    "Birch-1": (18.84, 20.81),
    "Cedar-1": (16.51, 18.52),
    "Maple-1": (32.39, None),
    "Rowan-1": (30.35, 32.31),
    "Willow-1": (0.84, 1.81),
    "Willow-2": (16.58, 18.51),
    "Elder-1": (16.73, 18.65),
    "Larch-1": (18.58, 20.53),
    "Juniper-1": (18.53, 20.53),
}
MEDIANS_N = {"A": 26.4, "B": 18.7, "D": 17.6, "E": 19.5}
LAST_STRAINS = {"Cedar-1": 37, "Birch-1": 28, "Alder-1": 33, "Hazel-1": 37, "Rowan-1": 38, "Maple-1": 25} | {
    "Willow-2": 38, "Elder-1": 54, "Larch-1": 56, "Juniper-1": 49
}  # fmt: skip


def loaded(name: str) -> list[Point]:
    return [point for point in CORDS[name].counted if point.reading.phase in ("zero", "load")]


@pytest.mark.parametrize("name", FORCES_N)
def test_forces_follow_from_what_really_hung(name: str) -> None:
    assert [f"{point.force_n:.2f}" for point in loaded(name)] == FORCES_N[name].split()


@pytest.mark.parametrize("name", BRACKETS_N)
def test_breaking_forces_are_the_brackets_of_the_table(name: str) -> None:
    bracket, (low, high) = CORDS[name].break_bracket, BRACKETS_N[name]
    assert bracket.low_n == pytest.approx(low, abs=0.005)
    assert bracket.high_n == (None if high is None else pytest.approx(high, abs=0.005))


def test_hazels_joined_curve_equals_the_clean_row() -> None:
    clean = [float(text) - 224 for text in CLEAN_MM["Hazel"].split()]
    assert [point.extension_mm for point in loaded("Hazel-1")] == clean
    assert {point.section for point in CORDS["Hazel-1"].points} == {1}
    put_back = next(point for point in CORDS["Hazel-1"].points if point.reading.phase == "pointer_put_back")
    assert put_back.extension_mm == 252 - 224


def test_cedars_curve_goes_on_as_a_new_section_after_the_slip() -> None:
    assert [point.section for point in CORDS["Cedar-1"].points] == [1] * 6 + [2] * 5
    assert [(event.kind, event.extension_mm) for event in CORDS["Cedar-1"].events] == [("knot_slipped", 278 - 230)]


def test_alders_returns_hang_the_hanger_alone() -> None:
    back = [point for point in CORDS["Alder-1"].points if point.reading.phase == "return"]
    assert [(point.extension_mm, point.marks_hung, point.mass_g) for point in back] == [(2, (), 86), (13, (), 86)]
    again = next(point for point in CORDS["Alder-1"].points if point.reading.phase == "hung_again")
    assert f"{again.force_n:.2f}" == "16.62"


def test_elders_centimetres_count_once_and_stay_as_typed() -> None:
    mended = [point for point in CORDS["Elder-1"].points if point.reason == "unit"]
    assert [point.first_typed for point in mended] == ["21.7", "23.1", "24.8"]
    assert [point.reading.pointer_mm for point in loaded("Elder-1")] == [float(x) for x in CLEAN_MM["Elder"].split()]


def test_junipers_second_number_is_ruled_out_and_late_readings_are_in_order() -> None:
    points = CORDS["Juniper-1"].points
    assert [point.reading.step for point in points] == [0, 1, 2, 3, 4, 5, 6, 7, 7, 8, 9, 10, 11]
    assert [point.state for point in points if point.reading.step == 7] == ["stands", "ruled_out"]
    assert [point.reading.pointer_mm for point in loaded("Juniper-1")] == [
        float(x) for x in CLEAN_MM["Juniper"].split()
    ]


def test_willows_first_cord_is_kept_and_left_out() -> None:
    assert CORDS["Willow-1"].left_out == "nick in one strip"
    assert CORDS["Willow-1"].counted == ()
    assert CORDS["Willow-1"].points[0].extension_mm == 0


@pytest.mark.parametrize("letter", MEDIANS_N)
def test_medians_of_designs(letter: str) -> None:
    median = next(design for design in PICTURE.designs if design.letter == letter).median
    assert median.low_n is not None
    assert median.high_n is not None
    assert (median.low_n + median.high_n) / 2 == pytest.approx(MEDIANS_N[letter], abs=0.06)


def test_an_unbroken_cord_leaves_its_design_at_least() -> None:
    four = next(design for design in PICTURE.designs if design.letter == "C")
    assert (four.specimens, four.groups, four.unbroken) == (2, 2, 1)
    assert four.median.low_n == pytest.approx((30.35 + 32.39) / 2, abs=0.005)
    assert four.median.high_n is None


@pytest.mark.parametrize("name", LAST_STRAINS)
def test_last_strain_read(name: str) -> None:
    strain = loaded(name)[-1].strain
    assert strain is not None
    assert round(100 * strain) == LAST_STRAINS[name]


def test_cords_and_benches_are_counted_without_the_left_out_one() -> None:
    assert [(design.letter, design.specimens, design.groups) for design in PICTURE.designs] == [
        (letter, 2, 2) for letter in "ABCDE"
    ]
    assert PICTURE.weighed is True
    assert PICTURE.hanger_counted is True
