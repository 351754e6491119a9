"""What each bench is at, for the lead bench and the front screen."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from app.domain.records import BenchRecord, LessonRecord
from app.mechanics.classwork import ClassPicture, Point, SpecimenPicture
from app.services.bench_state import BenchState, bench_state


@dataclass(frozen=True, kw_only=True)
class Pace:
    """One bench's row: where it is, what it sent last, when it was heard, and what waits on its tablets."""

    bench: BenchRecord
    state: BenchState
    design: str
    last: Point | None
    last_reading_at: datetime | None
    differing: int

    @property
    def needs_help(self) -> int:
        """0 for those who may need the teacher first; absent benches come last."""
        if self.differing or self.state.cord.ending_state == "differs":
            return 0
        return 2 if self.state.stage == "free" else 1


def pace(lesson: LessonRecord) -> Sequence[Pace]:
    """One row a bench, in the order of the slips."""
    return [_row(lesson, bench) for bench in lesson.benches]


def who_needs_help_first(rows: Sequence[Pace]) -> Sequence[Pace]:
    """The rows sorted for the lead bench: who may need the teacher comes first, absent benches last."""
    return sorted(rows, key=lambda row: (row.needs_help, row.bench.place))


def _row(lesson: LessonRecord, bench: BenchRecord) -> Pace:
    state = bench_state(lesson, bench)
    points = state.cord.points
    last = max(points, key=lambda point: (point.reading.taken_at, point.reading.n), default=None)
    return Pace(
        bench=bench,
        state=state,
        design=lesson.design(bench.design_id).letter,
        last=last,
        last_reading_at=last.reading.taken_at if last else None,
        differing=sum(point.state == "differs" for point in points),
    )


def cords_of(picture: ClassPicture, bench_id: str) -> Sequence[SpecimenPicture]:
    """The cords of one bench in the class picture."""
    return [cord for cord in picture.specimens if cord.bench_id == bench_id]
