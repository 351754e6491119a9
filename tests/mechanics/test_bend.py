"""The limit of proportionality, and what is said of a bend."""

import numpy as np
import pytest
from scipy import stats

from app.mechanics.bend import (
    CANT_TELL,
    TOO_FEW_FOR_BEND,
    how_it_bends,
    is_curved_early,
    limit_of_proportionality,
)
from app.mechanics.result import Interval
from app.mechanics.shape_choice import Choice, choose
from app.mechanics.shapes import fit_shapes
from tests.cord_recipe import Case, make_cords
from tests.mechanics.slow_fit import between
from tests.mechanics.test_shapes import U0, a_section

STEPS_N = [1.0 + 2 * step for step in range(14)]


def a_choice(force_n: list[float], pointer_mm: list[float]) -> Choice:
    return choose(fit_shapes(a_section(force_n, pointer_mm)))


def curve(*, change: float = 0.0, at: float = 15.0, power: int = 1) -> list[float]:
    return [200 + 4 * force + change * max(force - at, 0) ** power for force in STEPS_N]


def doubling_bound(force_n: list[float], pointer_mm: list[float]) -> float | None:
    """The bound worked out the long way, place by place, with covariances from the normal equations."""
    force, pointer, bound = np.array(force_n), np.array(pointer_mm), None
    for place in between(force, 40):
        if (force <= place).sum() < 3 or (force > place).sum() < 2:
            continue
        design = np.column_stack([np.ones_like(force), force, np.maximum(force - place, 0)])
        found, rss, *_ = np.linalg.lstsq(design, pointer, rcond=None)
        covariance = np.linalg.inv(design.T @ design) * max(rss[0] / (len(force) - 4), U0**2)
        of = np.array([0.0, -1.0, 1.0])
        if of @ found + stats.t.ppf(0.975, len(force) - 4) * np.sqrt(of @ covariance @ of) >= 0:
            break
        bound = place
    return bound


@pytest.mark.parametrize(("change", "power", "word"), [(6, 1, "sharply"), (0.7, 2, "gradually"), (0.5, 1, None)])
def test_how_it_bends_is_said_where_the_readings_tell(change: float, power: int, word: str | None) -> None:
    choice = a_choice(STEPS_N, curve(change=change, power=power))
    assert choice.is_bent
    assert how_it_bends(choice) == word
    limit = limit_of_proportionality(choice)
    assert limit.low is not None
    assert limit.high is not None
    assert limit.low < 15 < limit.high


def test_an_exact_kink_is_known_to_one_place_each_way() -> None:
    section = a_section(STEPS_N, curve(change=400))
    limit = limit_of_proportionality(choose(fit_shapes(section)))
    assert (limit.low, limit.high) == (pytest.approx(14.95), pytest.approx(15.05))


@pytest.mark.parametrize("case", [Case(readings=8), Case(readings=10, toe="toe"), Case(readings=9, stiffness=2.0)])
def test_where_no_bend_is_seen_the_bound_is_where_doubling_would_have_shown(case: Case) -> None:
    force = case.force_n.tolist()
    bounds = []
    for pointer in make_cords(case, 6, seed=4).pointer_mm.tolist():
        choice = a_choice(force, pointer)
        if choice.is_bent or choice.shape == "stiffer":
            continue
        limit = limit_of_proportionality(choice)
        assert limit.high is None
        assert limit.low == (None if (slow := doubling_bound(force, pointer)) is None else pytest.approx(slow))
        assert limit.why is not None
        assert (limit.why == CANT_TELL) is (limit.low is None)
        bounds.append(limit.low)
    assert len(bounds) >= 4


def test_the_sentence_names_the_bound() -> None:
    limit = limit_of_proportionality(a_choice([force + 0.02 for force in STEPS_N], curve()))
    assert limit.low == pytest.approx(24.97)
    assert limit.why == (
        "no bend seen; one that doubled the stretch per newton would have shown up to 25.0\N{NO-BREAK SPACE}N"
    )


def test_what_gets_stiffer_has_a_limit_too() -> None:
    choice = a_choice(STEPS_N, curve(change=-3))
    limit = limit_of_proportionality(choice)
    assert choice.shape == "stiffer"
    assert limit.low is not None
    assert limit.high is not None
    assert limit.low < 15 < limit.high
    assert how_it_bends(choice) is None


def test_too_few_readings_give_no_limit() -> None:
    limit = limit_of_proportionality(a_choice(STEPS_N[:7], curve()[:7]))
    assert (limit.low, limit.high, limit.why) == (None, None, TOO_FEW_FOR_BEND)


def test_curved_from_early_on_is_a_bend_that_is_not_sharp_and_may_lie_low() -> None:
    low, high = (Interval(low=value, high=20.0, unit="N") for value in (0.39 * 27, 0.41 * 27))
    gradual, sharp = (a_choice(STEPS_N, curve(change=change, power=p)) for change, p in ((0.7, 2), (6, 1)))
    assert is_curved_early(gradual, low)
    assert not is_curved_early(gradual, high)
    assert not is_curved_early(sharp, low)
    assert not is_curved_early(a_choice(STEPS_N, curve()), low)
