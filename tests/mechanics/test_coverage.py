"""The sums are as honest as their design measured them to be: 400 invented cords or classes a case, fixed seeds.

A short version of `tests/speed/coverage.py`, which prints every line. A figure agrees within three of its own
standard errors. Source of the figures: our own simulation, on cords of the recipe in `tests/cord_recipe.py`.
"""

import pytest

from tests.speed.claims import Claim, Figure, about, percent, table
from tests.speed.coverage import PARTS

RUNS = 400
CORDS = (
    "straight, 8",
    "straight, 8 two-stage",
    "straight, 12",
    "straight, 18",
    "straight, 5 mm scale, 12",
    "straight, scatter 0.8 mm, 12",
    "straight, toe, 12",
    "straight, small toe, 18",
    "kink r = 1.5, 8 two-stage",
    "kink r = 2, 12",
    "kink r = 2, toe, 8",
    "kink r = 2, k = 1.5, 12",
    "gradual r = 3, 12",
    "never straight, 12",
    "straight, k = 0.5, 12",
    "straight, 5",
    "straight, rungs +-10 %, 12",
)
CLASSES = (
    "3+2, CV 15 %, steps 2 N",
    "3+3, spoiled, CV 10 %, steps 2 N",
    "3+3+3, CV 15 %, steps 2 N",
    "3+3+3, CV 15 %, steps 2 N, masses end 1 s over the median",
    "2+2+2+2, CV 15 %, steps 2 N",
    "2+2+2+2+2, weibull, CV 15 %, steps 2 N",
)
LIKELIHOODS = (
    "3, CV 15 %, steps 2 N",
    "5, CV 15 %, steps 2 N, masses end 1 s over the median",
    "4, weibull, CV 15 %, steps 2 N",
    "6, CV 15 %, steps 2 N, masses end 0 s over the median",
)
AGREEMENT = ("5 benches, 2 cords each", "5 benches, 2 cords each, benches differ by 1 s")


def _of(*cases: str) -> list[Figure]:
    """The figures of those cases, but those that differ from the design for a reason that is told beside them."""
    found = [figure for figures in PARTS.values() for figure in figures if figure.case in cases and not figure.remark]
    assert {figure.case for figure in found} == set(cases), "a case is not tried any more"
    return found


@pytest.mark.parametrize("figure", _of(*CORDS, *CLASSES), ids=lambda figure: figure.name)
def test_what_was_measured_of_cords_and_classes_is_found_again(figure: Figure) -> None:
    claim = figure.claim(RUNS)
    assert claim.agrees, claim


@pytest.mark.parametrize("figure", _of(*LIKELIHOODS, *AGREEMENT), ids=lambda figure: figure.name)
def test_what_was_measured_of_breaking_forces_and_agreement_is_found_again(figure: Figure) -> None:
    claim = figure.claim(RUNS // 2)
    assert claim.agrees, claim


def _claim(hits: list[bool], low: float, high: float, *, remark: str = "") -> Claim:
    return Figure(what="hits", found=lambda runs: hits[:runs], design=percent(low, high), remark=remark).claim(1000)


def test_a_share_agrees_within_three_standard_errors_of_the_range_and_half_a_digit() -> None:
    claim = _claim([True] * 90 + [False] * 10, 95, 97)
    assert (claim.runs, claim.measured) == (100, 90)
    assert claim.least == pytest.approx(94.5 - 3 * 100 * (0.945 * 0.055 / 100) ** 0.5)
    assert claim.agrees
    assert not _claim([True] * 80 + [False] * 20, 95, 97).agrees
    assert not _claim([], 95, 97).agrees


def test_the_middle_of_sizes_agrees_within_three_standard_errors_found_from_parts() -> None:
    sizes = [float(size) for size in range(200)] * 2
    figure = Figure(what="size", found=lambda runs: sizes[:runs], design=about(99, 99, 0.5), middle=max)
    assert figure.claim(400).measured == 199
    assert not figure.claim(400).agrees


def test_a_table_says_where_a_figure_differs_and_why_it_may() -> None:
    claims = [_claim([True] * 100, 95, 100), _claim([False] * 100, 95, 97), _claim([False], 95, 97, remark="known")]
    told = table(claims)
    assert [row.rsplit("|", 2)[1].strip() for row in told.splitlines()[2:]] == ["yes", "**no**", "no: known"]
    assert "95 to 97" in told
