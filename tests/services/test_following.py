"""What follows from a plan: plain sums, checked by hand."""

import pytest

from app.services.balance import save_weighings
from app.services.following import following
from app.store.database import Database
from tests.make import MORNING, make_lesson, new_id, record_of


def test_time_mass_and_force(database: Database) -> None:
    """13 steps x (20 + 25) s = 9 min 45 s (trade.md, P8); 13 x 100 g x 10 m/s2 = 13 N."""
    made = make_lesson(database, rungs_g=[100.0] * 13, gravity_m_per_s2=10.0, wait_s=20)
    follows = following(record_of(database, made))
    assert (follows.steps, follows.step_s, follows.test_s) == (13, 45, 585)
    assert follows.tray_kg == pytest.approx(1.3)
    assert follows.class_kg == pytest.approx(2.6)
    assert follows.top_n == pytest.approx(13.0)
    assert follows.settling_n is None


def test_balance_masses_count_and_a_rung_without_mass_leaves_no_total(database: Database) -> None:
    made = make_lesson(database, rungs_g=[100.0, None], gravity_m_per_s2=10.0)
    assert following(record_of(database, made)).tray_kg is None
    save_weighings(
        database,
        record_of(database, made),
        {0: 86.0, 2: 250.0},
        bench_id=None,
        division_g=1.0,
        entry_id=new_id(),
        at=MORNING,
    )
    follows = following(record_of(database, made))
    assert follows.tray_kg == pytest.approx(0.436)
    assert follows.settling_n == pytest.approx((0.86, 0.86))
    assert follows.not_weighed == ("1",)


def test_what_the_scale_alone_is_good_to(database: Database) -> None:
    """d = 1 mm: u0 = 0.408 mm (mechanics.md, section 2); twice that, and twice sqrt(2) of it for an extension."""
    follows = following(record_of(database, make_lesson(database)))
    assert follows.reading_mm == pytest.approx(0.816, abs=0.001)
    assert follows.extension_mm == pytest.approx(1.155, abs=0.001)


def test_designs_beside_the_yardstick_cord(database: Database) -> None:
    made = make_lesson(database, designs="ABC", benches=["Alder", "Hazel", "Birch", "Cedar"])
    follows = following(record_of(database, made))
    assert [one.things for one in follows.designs] == [(), ("strips",), ("strips",)]
    assert follows.comparable == (("B", "C"),)
    assert (follows.fewest, follows.most, follows.lone) == (1, 2, ("B", "C"))


def test_hangers_weighed_bench_by_bench(database: Database) -> None:
    """86 g and 112 g (demo.md: the bucket, and Birch's) at 10 m/s2."""
    made = make_lesson(database, gravity_m_per_s2=10.0)
    for bench, mass_g in zip(record_of(database, made).benches, (86.0, 112.0), strict=True):
        assert following(record_of(database, made)).settling_n is None
        lesson = record_of(database, made)
        save_weighings(database, lesson, {0: mass_g}, bench_id=bench.id, division_g=1.0, entry_id=new_id(), at=MORNING)
    assert following(record_of(database, made)).settling_n == pytest.approx((0.86, 1.12))
