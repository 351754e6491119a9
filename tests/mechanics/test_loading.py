"""Masses and forces."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from app.mechanics.loading import load, tray, tray_of
from tests.mechanics.cords import a_bench, a_ladder, a_lesson, a_ruling, a_weighing, weighed
from tests.mechanics.demo_class import POUCHES_G

ALDER = tray(
    a_ladder(*[100.0] * 16),
    weighed(86, *(float(text) for text in POUCHES_G["Alder"].split())),
    bench_id="bench",
    tolerance_percent=10,
)


def test_alders_step_4_to_the_last_digit() -> None:
    found = load(ALDER, (1, 2, 3, 4), gravity_m_per_s2=9.81)
    assert (found.mass_g, found.mass_u_g, found.force_n) == (487, 0.6454972243679028, 4.77747)
    assert found.force_u_n == 0.6454972243679028 * 9.81 / 1000
    assert found.why is None


def test_an_unweighed_rung_has_its_printed_mass_and_a_wide_uncertainty() -> None:
    printed = tray(a_ladder(200.0), (), bench_id="bench", tolerance_percent=10)
    found = load(printed, (1,), gravity_m_per_s2=9.81)
    assert found.mass_g == 200
    assert found.mass_u_g == pytest.approx(20 / math.sqrt(3))
    assert found.hanger_counted is False
    assert printed.weighed is False


def test_a_hanger_never_weighed_is_not_counted() -> None:
    found = load(tray(a_ladder(100.0), (), bench_id="bench", tolerance_percent=10), (), gravity_m_per_s2=9.81)
    assert (found.mass_g, found.force_n, found.hanger_counted) == (0, 0, False)


def test_a_benchs_own_weighing_goes_before_every_trays_and_a_later_before_an_earlier() -> None:
    own, others = a_weighing(1, 98, bench_id="bench"), a_weighing(1, 55, bench_id="other")
    weighings = (own, a_weighing(1, 97, bench_id="bench"), a_weighing(1, 101), a_weighing(1, 102), others)
    hung = tray(a_ladder(100.0), weighings, bench_id="bench", tolerance_percent=10)
    elsewhere = tray(a_ladder(100.0), weighings, bench_id="third", tolerance_percent=10)
    assert load(hung, (1,), gravity_m_per_s2=9.81).mass_g == 97
    assert load(elsewhere, (1,), gravity_m_per_s2=9.81).mass_g == 102


def test_replaced_and_left_out_weighings_are_not_used() -> None:
    first = a_weighing(1, 980)
    second = a_weighing(1, 98, replaces=first.entry_id)
    third = a_weighing(1, 500)
    rulings = (a_ruling("left_out", third.entry_id, reason="wrong pouch"),)
    lesson = a_lesson(a_bench(), rungs=a_ladder(100.0), weighings=(second, first, third), rulings=rulings)
    assert load(tray_of(lesson, "bench"), (1,), gravity_m_per_s2=9.81).mass_g == 98


@pytest.mark.parametrize(
    ("marks", "why"), [((1, 2), "Number 2 has no mass yet."), ((1, 3), "There is no number 3 on the ladder.")]
)
def test_a_load_that_cannot_be_had_says_why(marks: tuple[int, ...], why: str) -> None:
    found = load(tray(a_ladder(100.0, None), (), bench_id="b", tolerance_percent=10), marks, gravity_m_per_s2=9.81)
    assert (found.mass_g, found.mass_u_g, found.force_n, found.force_u_n) == (None, None, None, None)
    assert found.why == why


@given(st.permutations(range(1, 17)), st.integers(0, 16))
def test_the_order_of_hanging_does_not_matter(marks: list[int], hung: int) -> None:
    straight = load(ALDER, sorted(marks[:hung]), gravity_m_per_s2=9.81)
    assert load(ALDER, marks[:hung], gravity_m_per_s2=9.81) == straight


@given(st.randoms(use_true_random=False))
def test_the_order_of_weighings_does_not_matter(chance: object) -> None:
    weighings = [*weighed(86, 99, 102), *weighed(90, 98, bench_id="bench"), *weighed(91, bench_id="other")]
    mixed = list(weighings)
    chance.shuffle(mixed)  # type: ignore[attr-defined]
    made = [tray(a_ladder(100.0, 100.0), each, bench_id="bench", tolerance_percent=10) for each in (weighings, mixed)]
    assert made[0] == made[1]


def test_uncertainty_of_a_force_agrees_with_another_library() -> None:
    """Second opinion: the uncertainties package, linear propagation of independent quantities."""
    printed = a_ladder(100.0, 200.0)
    hung = tray(printed, (a_weighing(0, 86), a_weighing(1, 99)), bench_id="bench", tolerance_percent=5)
    masses = [ufloat(86, 1 / math.sqrt(12)), ufloat(99, 1 / math.sqrt(12)), ufloat(200, 10 / math.sqrt(3))]
    other = sum(masses) * 9.81 / 1000
    found = load(hung, (1, 2), gravity_m_per_s2=9.81)
    assert found.force_n == pytest.approx(other.nominal_value, rel=1e-12)
    assert found.force_u_n == pytest.approx(other.std_dev, rel=1e-12)
