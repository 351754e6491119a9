"""The balance check: beside each printed mass what the balance says, and how far the two lie apart."""

import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from app.domain.records import LessonRecord, Weighing
from app.domain.standing import counted
from app.mechanics.loading import HANGER
from app.services.recording import Sender, Sent, Target
from app.services.rulings import weigh
from app.store.database import Database

LOOK_PERCENT = 2.0
"""A rung further from its printed mass than this is pointed out: mechanics.md, section 1."""


@dataclass(frozen=True, kw_only=True)
class BalanceLine:
    """One thing to weigh; masses [g], None while not printed or not weighed."""

    mark: int
    name: str
    printed_mass_g: float | None
    balance_mass_g: float | None

    @property
    def difference_g(self) -> float | None:
        """Balance mass less printed mass [g]."""
        if self.printed_mass_g is None or self.balance_mass_g is None:
            return None
        return self.balance_mass_g - self.printed_mass_g

    @property
    def difference_percent(self) -> float | None:
        """The difference as a share of the printed mass [%]."""
        difference = self.difference_g
        return None if difference is None or not self.printed_mass_g else 100 * difference / self.printed_mass_g

    @property
    def apart(self) -> bool:
        """Whether the two lie so far apart that it is worth a look."""
        return abs(self.difference_percent or 0.0) > LOOK_PERCENT


def balance_lines(lesson: LessonRecord, bench_id: str | None = None) -> list[BalanceLine]:
    """The hanger and every rung, with what was weighed for that bench's tray, or for every tray."""
    found = weighed(lesson, bench_id)
    hanger = str(lesson.planning.get("hanger_name") or "hanger")
    things = [(HANGER, hanger, None)]
    things += [(rung.mark, rung.name, rung.printed_mass_g) for rung in lesson.rungs]  # type: ignore[misc]
    return [
        BalanceLine(
            mark=mark,
            name=name,
            printed_mass_g=printed,
            balance_mass_g=found[mark].mass_g if mark in found else None,
        )
        for mark, name, printed in things
    ]


def weighed(lesson: LessonRecord, bench_id: str | None = None) -> dict[int, Weighing]:
    """By mark, the weighing that counts among those made for exactly that tray (None: for every tray)."""
    ours = [one for one in counted(lesson.weighings, lesson.rulings) if one.bench_id == bench_id]
    return {one.mark: one for one in sorted(ours, key=lambda one: one.n)}


def not_weighed(lesson: LessonRecord) -> list[str]:
    """What some bench hangs that no balance has weighed: the hanger's name, then the marks."""
    every = weighed(lesson)
    own = [weighed(lesson, bench.id) for bench in lesson.benches]
    return [
        line.name if line.mark == HANGER else str(line.mark)
        for line in balance_lines(lesson)
        if line.mark not in every and not (own and all(line.mark in tray for tray in own))
    ]


def save_weighings(
    database: Database,
    lesson: LessonRecord,
    masses_g: Mapping[int, float],
    *,
    bench_id: str | None,
    division_g: float,
    entry_id: str,
    at: datetime,
) -> Sequence[int]:
    """Each mass that is new counts from now on; the marks weighed are returned. The same submit twice weighs once."""
    before = weighed(lesson, bench_id)
    fresh = {
        mark: mass_g
        for mark, mass_g in masses_g.items()
        if mark not in before or (before[mark].mass_g, before[mark].balance_division_g) != (mass_g, division_g)
    }
    for mark, mass_g in fresh.items():
        weigh(
            database,
            Target(lesson_id=lesson.id, bench_id=bench_id),
            mark=mark,
            mass_g=mass_g,
            balance_division_g=division_g,
            sent=Sent(entry_id=str(uuid.uuid5(uuid.UUID(entry_id), str(mark)))),
            sender=Sender(by="teacher"),
            at=at,
        )
    return list(fresh)
