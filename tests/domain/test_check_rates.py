"""How often the look-again rules ask, on a few hundred invented cords; `tests/speed/look_again.py` has the whole table.

The figures are those that the thresholds were set with (400 to 6,000 cords a case); the bounds are three standard
errors of so few runs around them.
"""

import pytest

from tests.speed.claims import Figure
from tests.speed.look_again import CAUGHT, FALSE, raised

RUNS = 4


@pytest.mark.parametrize("figure", CAUGHT, ids=[figure.what for figure in CAUGHT])
def test_blunders_are_asked_about_as_often_as_found(figure: Figure) -> None:
    claim = figure.claim(RUNS)
    assert not claim.is_open, str(claim)
    assert claim.measured >= claim.design.low - 12, "whatever the mix of cords"


@pytest.mark.parametrize("figure", FALSE, ids=[figure.what for figure in FALSE])
def test_good_readings_raise_as_few_questions_as_found(figure: Figure) -> None:
    claim = figure.claim(RUNS)
    assert claim.agrees, str(claim)


def test_good_readings_raise_about_one_question_in_thirty() -> None:
    questions = raised(0)(RUNS)
    error = questions.std(ddof=1) / len(questions) ** 0.5
    assert questions.mean() < 1.0 + 2 * error, "the whole table finds 0.97"
