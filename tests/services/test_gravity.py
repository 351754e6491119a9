"""What a lesson takes g to be; the published values are in `tests/published/test_units.py`."""

from typing import Any

import pytest

from app.domain.errors import InvalidEntry
from app.services.gravity import NAMED, called_by_name, gravity_asked, gravity_words, latitude_of, where_from
from tests.mechanics.cords import a_lesson

LONDON: dict[str, Any] = {"gravity_m_per_s2": 9.81203, "gravity_from": "latitude 51.5°"}
SCHOOL: dict[str, Any] = {"gravity_m_per_s2": 9.81, "gravity_from": "9.81, as schools use it"}


@pytest.mark.parametrize(
    ("g", "how", "words"),
    [
        (9.80665, None, "g = 9.80665\u00a0N/kg, standard gravity"),
        (9.81, "9.81, as the club always does", "g = 9.81\u00a0N/kg, as the club always does"),
        (10.0, None, "g = 10\u00a0N/kg, as schools use it"),
        (9.81203, "latitude 51.5°", "g = 9.81203\u00a0N/kg, latitude 51.5°"),
        (1.62, None, "g = 1.62\u00a0N/kg"),
    ],
)
def test_g_is_said_with_where_it_came_from(g: float, how: str | None, words: str) -> None:
    assert gravity_words(g, how) == words


@pytest.mark.parametrize(
    ("how", "latitude_deg"),
    [
        ("latitude 51.5°", 51.5),
        ("latitude −33.9°", -33.9),
        ("latitude 0°", 0.0),
        ("standard gravity", None),
        (None, None),
    ],
)
def test_a_latitude_is_known_again(how: str | None, latitude_deg: float | None) -> None:
    assert latitude_of(how) == latitude_deg


@pytest.mark.parametrize(
    ("before", "g", "latitude_deg", "after"),
    [
        (SCHOOL, 9.81, None, {}),
        (LONDON, 9.81203, 51.5, {}),
        (SCHOOL, 9.81, 51.5, LONDON),
        (SCHOOL, None, 51.5, LONDON),
        (LONDON, None, 51.5, {}),
        (LONDON, 9.81203, -0.0, {"gravity_m_per_s2": 9.78033, "gravity_from": "latitude 0°"}),
        (LONDON, 9.81, 51.5, SCHOOL),
        (LONDON, 9.81, None, SCHOOL),
        (LONDON, 9.81203, None, {"gravity_m_per_s2": 9.81203, "gravity_from": None}),
        (SCHOOL, 9.80665, None, {"gravity_m_per_s2": 9.80665, "gravity_from": "standard gravity"}),
        ({"gravity_m_per_s2": 9.81, "gravity_from": "the club's own"}, 9.81, None, {}),
    ],
)
def test_what_is_new_of_the_two_counts(
    before: dict[str, Any], g: float | None, latitude_deg: float | None, after: dict[str, Any]
) -> None:
    """By WGS 84 (`tests/reference/wgs84_normal_gravity.csv`): 9.78033 on the equator, 9.81203 at 51.5°."""
    assert gravity_asked(a_lesson(**before), gravity_m_per_s2=g, latitude_deg=latitude_deg) == after


@pytest.mark.parametrize(
    ("g", "latitude_deg", "words"), [(9.8, 51.5, "one way only"), (9.81, 91.0, "between −90 and 90")]
)
def test_two_ways_at_once_or_a_place_beyond_a_pole_are_refused(g: float, latitude_deg: float, words: str) -> None:
    with pytest.raises(InvalidEntry, match=words) as refused:
        gravity_asked(a_lesson(**SCHOOL), gravity_m_per_s2=g, latitude_deg=latitude_deg)
    assert refused.value.faults[0].field == "latitude_deg"


def test_neither_g_nor_a_latitude_is_refused_beside_g() -> None:
    with pytest.raises(InvalidEntry, match="Type g here, or a latitude") as refused:
        gravity_asked(a_lesson(**LONDON), gravity_m_per_s2=None, latitude_deg=None)
    assert refused.value.faults[0].field == "gravity_m_per_s2"


def test_a_new_g_never_keeps_where_the_old_one_came_from() -> None:
    lesson = a_lesson(**LONDON)
    assert where_from(lesson, {"gravity_m_per_s2": 9.81}) == SCHOOL
    assert where_from(lesson, {"gravity_m_per_s2": 9.7}) == {"gravity_m_per_s2": 9.7, "gravity_from": None}
    for kept in ({}, {"title": "T"}, {"gravity_m_per_s2": 9.81203}, {"gravity_m_per_s2": 9.7, "gravity_from": "us"}):
        assert where_from(lesson, kept) == kept


@pytest.mark.parametrize(
    ("g", "said", "kept"),
    [
        (9.80665, None, "standard gravity"),
        (9.81, "", "9.81, as schools use it"),
        (9.81, "ours", "ours"),
        (9.7, None, None),
    ],
)
def test_a_new_lesson_calls_its_g_by_name(g: float, said: str | None, kept: str | None) -> None:
    columns = {"title": "T", "gravity_m_per_s2": g, "gravity_from": said}
    assert called_by_name(columns) == {**columns, "gravity_from": kept}


def test_every_convention_is_typed_as_it_is_kept() -> None:
    assert NAMED[0] == ("9.80665", "standard gravity")
    assert [float(typed) for typed, _ in NAMED] == [9.80665, 9.81, 9.8, 10.0]
