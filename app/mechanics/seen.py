"""What was seen of one specimen and what the rulings leave of it: the ground that every sum of it stands on."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from app.domain.records import BenchRecord, Ending, Event, LessonRecord, Reading, Ruling, SpecimenRecord
from app.domain.standing import (
    STANDS,
    counted,
    ending_state,
    holding,
    left_out_reasons,
    lines,
    marks_hung,
    reading_order,
    ruling_on,
    standing,
    states,
)
from app.mechanics.breaking import TOUCHED_TRAY
from app.mechanics.loading import Load, Tray, load, tray_of


@dataclass(frozen=True, kw_only=True)
class Seen:
    """One specimen: its standing readings in order, its events that count, what is left out and why, how it ended."""

    readings: tuple[Reading, ...]
    chains: Mapping[str, tuple[Reading, ...]]
    events: tuple[Event, ...]
    state: Mapping[str, str]
    left_out: Mapping[str, str]
    specimen_left_out: str | None
    ending: Ending | None
    ending_state: str
    tray: Tray
    gravity_m_per_s2: float

    @cached_property
    def usable(self) -> frozenset[str]:
        """Entry ids of the readings that stand and are not left out, whatever is said of the specimen."""
        ids = (reading.entry_id for reading in self.readings)
        return frozenset(each for each in ids if self.state[each] == STANDS and each not in self.left_out)

    @property
    def last_read(self) -> int:
        """The last step with a load reading that is usable; 0 when there is none."""
        loads = (reading for reading in self.readings if reading.phase in ("load", "later"))
        return max((reading.step for reading in loads if reading.entry_id in self.usable), default=0)

    def marks_at(self, reading: Reading) -> tuple[int, ...]:
        """The rungs that hung when a reading was taken."""
        return () if reading.phase in ("zero", "return") else self._marks_of(reading.step)

    def load_of(self, marks: tuple[int, ...]) -> Load:
        """The load of the hanger and those rungs."""
        if marks not in self._loads:
            self._loads[marks] = load(self.tray, marks, gravity_m_per_s2=self.gravity_m_per_s2)
        return self._loads[marks]

    def load_at(self, step: int) -> Load:
        """The load of a step of loading."""
        return self.load_of(self._marks_of(step))

    def _marks_of(self, step: int) -> tuple[int, ...]:
        if step not in self._marks:
            self._marks[step] = marks_hung(self.events, step)
        return self._marks[step]

    @cached_property
    def _loads(self) -> dict[tuple[int, ...], Load]:
        """What has been worked out already: many readings hang the same."""
        return {}

    @cached_property
    def _marks(self) -> dict[int, tuple[int, ...]]:
        return {}


def seen_of(lesson: LessonRecord, bench: BenchRecord, specimen: SpecimenRecord) -> Seen:
    """What counts of one specimen of a bench, as the lesson stands.

    Parameters: lesson, bench and specimen, records that belong together.
    Returns: the readings that stand, in order, with their state and why one is left out (also "touched the tray",
        from the failing step on, unless someone put that reading back), the events that stand and are not left out,
        the ending that counts, and the masses of the bench [g].
    Raises: nothing.
    Source: our own rules for entries.
    """
    state, ending = ending_state(specimen.endings, lesson.rulings)
    readings = tuple(sorted(standing(specimen.readings), key=reading_order))
    chains = lines(specimen.readings)
    return Seen(
        readings=readings,
        chains=chains,
        events=counted(specimen.events, lesson.rulings),
        state=states(specimen.readings, lesson.rulings),
        left_out=_left_out(readings, chains, ending, rulings=lesson.rulings),
        specimen_left_out=_specimen_left_out(specimen, lesson.rulings),
        ending=ending,
        ending_state=state,
        tray=tray_of(lesson, bench.id),
        gravity_m_per_s2=lesson.gravity_m_per_s2,
    )


def _left_out(
    readings: Iterable[Reading],
    chains: Mapping[str, tuple[Reading, ...]],
    ending: Ending | None,
    *,
    rulings: Iterable[Ruling],
) -> dict[str, str]:
    ruled = tuple(rulings)
    said = holding(ruled, ("left_out", "put_back"))
    ids = {reading.entry_id: ruling_on(chains[reading.entry_id], said) for reading in readings}
    out = left_out_reasons(ruled, (entry for line in chains.values() for entry in line))
    tray_step = ending.fail_step if ending is not None and ending.kind == "touched_tray" else None
    touched = {
        reading.entry_id: TOUCHED_TRAY
        for reading in readings
        if tray_step is not None and reading.step >= tray_step and ids[reading.entry_id] is None
    }
    return {entry_id: reason for entry_id, reason in out.items() if entry_id in ids} | touched


def _specimen_left_out(specimen: SpecimenRecord, rulings: Iterable[Ruling]) -> str | None:
    """Why the cord is left out; None when it is not, or when a teacher ruled that its early break counts."""
    ruled = tuple(rulings)
    early = holding(ruled, ("sound_break",))
    ends = {entry.entry_id for entry in specimen.endings}
    if specimen.entry_id in early or not ends.isdisjoint(early):
        return None
    return left_out_reasons(ruled).get(specimen.entry_id)
