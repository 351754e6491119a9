"""What a bench is at, and what it does next; told to its tablets, its answers and the lead bench alike."""

from dataclasses import dataclass, replace
from datetime import datetime

from app.domain.errors import NotFound
from app.domain.records import BenchRecord, LessonRecord, SpecimenRecord
from app.domain.standing import counted, marks_hung
from app.mechanics.classwork import SpecimenPicture, specimen_picture
from app.mechanics.loading import HANGER, Tray, load, tray_of
from app.store import feed
from app.store.database import Database
from app.store.snapshot import snapshot

_TOLD_OF_WHAT_HANGS = ("other_mass", "still_moving")
"""Events of a step that could not be told before its mass hung; a knot may slip at any time."""


@dataclass(frozen=True, kw_only=True)
class Next:
    """What to do next: `do` is measure, zero, hang, read, end or nothing; the rest says what will hang then."""

    do: str
    step: int | None = None
    phase: str | None = None
    mark: int | None = None
    mass_g: float | None = None
    total_mass_g: float | None = None
    force_n: float | None = None


@dataclass(frozen=True, kw_only=True)
class BenchState:
    """One bench as it stands at change `head`: its records, its cords worked out, where it is and what comes next."""

    lesson: LessonRecord
    bench: BenchRecord
    cords: tuple[SpecimenPicture, ...]
    stage: str
    step: int
    next: Next

    @property
    def specimen(self) -> SpecimenRecord:
        """The cord under test: the bench's newest."""
        return self.bench.specimens[-1]

    @property
    def cord(self) -> SpecimenPicture:
        """The cord under test, worked out."""
        return self.cords[-1]

    @property
    def tray(self) -> Tray:
        """The masses that the bench hangs, by what the balance or else the label says."""
        return tray_of(self.lesson, self.bench.id)

    @property
    def closed(self) -> bool:
        """Whether readings are closed: masses are down, and the teacher has not opened this bench again."""
        return self.lesson.masses_down_at is not None and not self.bench.open_again


def state_of(database: Database, lesson_id: str, bench_id: str, *, up_to: int | None = None) -> BenchState:
    """The bench as it stands; or its cords as they stood after change `up_to`, for the answer of an entry."""
    with database.reading() as session:
        lesson = snapshot(session, lesson_id, bench_id=bench_id, up_to=up_to, cords_only=up_to is not None)
        if lesson is not None and up_to is not None and (lesson.masses_down_at or lesson.over):
            lesson = _as_at(lesson, feed.moment_of(session, lesson_id, up_to))
    if lesson is None or lesson.deleted_at is not None or not lesson.benches:
        raise NotFound("There is no such bench.")
    return bench_state(lesson, lesson.benches[0])


def _as_at(lesson: LessonRecord, moment: datetime) -> LessonRecord:
    """The lesson without what closed it after that moment, so that an entry sent again hears its first answer."""

    def then(closed_at: datetime | None) -> datetime | None:
        return None if closed_at is not None and closed_at > moment else closed_at

    open_then = lesson.stage == "over" and then(lesson.over_at) is None
    return replace(
        lesson,
        masses_down_at=then(lesson.masses_down_at),
        shelved_at=then(lesson.shelved_at),
        stage="testing" if open_then else lesson.stage,
    )


def bench_state(lesson: LessonRecord, bench: BenchRecord) -> BenchState:
    """The state of one bench of a lesson's record."""
    cords = tuple(specimen_picture(lesson, bench, specimen) for specimen in bench.specimens)
    step = _step_read(cords[-1])
    coming = next_of(lesson, bench, cords[-1])
    return BenchState(
        lesson=lesson, bench=bench, cords=cords, stage=_stage(bench, cords[-1], step), step=step, next=coming
    )


def _step_read(cord: SpecimenPicture) -> int:
    return max((point.reading.step for point in cord.points if point.reading.phase in ("load", "unload")), default=0)


def _has_zero(cord: SpecimenPicture) -> bool:
    return any(point.reading.phase == "zero" for point in cord.points)


def _stage(bench: BenchRecord, cord: SpecimenPicture, step: int) -> str:
    """joined, making, zeroed, step or ended; free when nobody came yet and nothing was sent."""
    if cord.ending_state != "none":
        return "ended"
    if step:
        return "step"
    if _has_zero(cord):
        return "zeroed"
    if bench.specimens[-1].measures or len(bench.specimens) > 1:
        return "making"
    return "joined" if bench.here else "free"


def next_of(lesson: LessonRecord, bench: BenchRecord, cord: SpecimenPicture) -> Next:
    """What the bench does next with the cord under test."""
    specimen = bench.specimens[-1]
    if lesson.over or cord.ending_state != "none":
        return Next(do="nothing")
    if lesson.masses_down_at is not None and not bench.open_again:
        return Next(do="end")
    if not _has_zero(cord):
        begun = specimen.measures or cord.points
        return _hanging(lesson, bench, specimen, do="zero" if begun else "measure", step=0)
    step = _step_read(cord) + 1
    if step > len(lesson.rungs):
        return Next(do="end")
    told = any(
        event.step == step and event.kind in _TOLD_OF_WHAT_HANGS for event in counted(specimen.events, lesson.rulings)
    )
    return _hanging(lesson, bench, specimen, do="read" if told else "hang", step=step)


def _hanging(lesson: LessonRecord, bench: BenchRecord, specimen: SpecimenRecord, *, do: str, step: int) -> Next:
    tray = tray_of(lesson, bench.id)
    marks = marks_hung(counted(specimen.events, lesson.rulings), step)
    whole = load(tray, marks, gravity_m_per_s2=lesson.gravity_m_per_s2)
    mark = marks[-1] if marks else HANGER
    one = tray.rungs.get(mark) if marks else tray.hanger
    return Next(
        do=do,
        step=step,
        phase="load" if step else "zero",
        mark=mark,
        mass_g=one.mass_g if one else None,
        total_mass_g=whole.mass_g,
        force_n=whole.force_n,
    )
