"""What a strip of film was found to hold, and the list that the page prints; `tests/reference/film_tensile.csv`."""

import csv
from pathlib import Path

import pytest

from app.domain.quantities import STANDARD_GRAVITY_M_PER_S2
from app.domain.strengths import FILM_STRENGTHS
from app.mechanics.planning import expected_break

with (Path(__file__).parents[1] / "reference" / "film_tensile.csv").open(encoding="utf-8") as table:
    FILMS = {row["film"]: row for row in csv.DictReader(table)}
"""Article PMC4554610, table 1 (values kept as facts): stress at break along (MD) and across (TD)."""


def test_a_strip_of_ldpe_film() -> None:
    """15 mm x 40 um of the article's LDPE-I: 11.1 N along, 12.1 N across; three strips 33 N, 3.4 kg (worked out)."""
    film = FILMS["LDPE-I"]
    thickness_mm = float(film["thickness_um"]) / 1000
    along, across = (float(film[name]) for name in ("break_md_MPa", "break_td_MPa"))
    one = expected_break((along, across), strands=1, strip_width_mm=15, thickness_mm=thickness_mm, kept=(1, 1))
    assert one.low == pytest.approx(11.1, abs=0.05)
    assert one.high == pytest.approx(12.1, abs=0.05)
    three = expected_break((along, along), strands=3, strip_width_mm=15, thickness_mm=thickness_mm, kept=(1, 1))
    assert three.low == pytest.approx(33.3, abs=0.05)
    assert three.low / STANDARD_GRAVITY_M_PER_S2 == pytest.approx(3.4, abs=0.05)


def test_the_list_of_films_says_what_the_article_says() -> None:
    """Article PMC4554610, table 1: LDPE-I and LDPE-II."""
    listed = next(film for film in FILM_STRENGTHS if "PMC4554610" in film.source)
    for name, ends in (("break_md_MPa", listed.along_mpa), ("break_td_MPa", listed.across_mpa)):
        assert ends == (float(FILMS["LDPE-I"][name]), float(FILMS["LDPE-II"][name]))
