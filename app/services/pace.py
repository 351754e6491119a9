"""What each bench is at, for the lead bench and the front screen; and what waits there for someone's word."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from app.domain import vocabulary
from app.domain.quantities import trimmed, with_unit
from app.domain.records import BenchRecord, Ending, LessonRecord
from app.domain.standing import counted
from app.mechanics.classwork import Point, SpecimenPicture
from app.services.bench_state import BenchState, bench_state

SILENT_AFTER = timedelta(minutes=1)
"""A bench that was not heard for so long is shown so: its tablet asks every few seconds."""


@dataclass(frozen=True, kw_only=True)
class Choice:
    """One of two sayings that do not agree: the entry, and what it says."""

    entry_id: str
    says: str


@dataclass(frozen=True, kw_only=True)
class Question:
    """What only a ruling can settle: two numbers for one step, or two ways in which one cord ended."""

    bench: BenchRecord
    head: str
    asks: str
    choices: tuple[Choice, ...]


@dataclass(frozen=True, kw_only=True)
class Pace:
    """One bench's row: where it is, what it sent last, when it was heard, and what waits on its tablets."""

    bench: BenchRecord
    state: BenchState
    design: str
    last: Point | None
    last_reading_at: datetime | None
    differing: int
    questions: tuple[Question, ...]

    @property
    def needs_help(self) -> int:
        """0 for those who may need the teacher first; absent benches come last."""
        if self.questions:
            return 0
        return 2 if self.absent else 1

    @property
    def absent(self) -> bool:
        """Whether nobody came to the bench yet and nothing was sent for it."""
        return self.state.stage == "free"

    @property
    def open_ticks(self) -> int:
        """How many set-up lines the bench has still to tick; none is asked for once it hangs masses."""
        if self.state.stage not in ("joined", "making", "zeroed"):
            return 0
        return sum(not self.bench.ticks.get(what) for what in vocabulary.SET_UP_TICKS)

    @property
    def where(self) -> str:
        """Where the bench is, in words; a step by its number alone says nothing of how well it goes."""
        stage = self.state.stage
        if stage == "free":
            return "comes later" if self.bench.kind == "catch_up" else "not here"
        if stage == "making":
            return "making a fresh cord" if len(self.bench.specimens) > 1 else "making the cord"
        if stage == "step":
            return f"step {self.state.step}"
        return {"joined": "here", "zeroed": "zero taken", "ended": "ended"}[stage]

    def silent(self, at: datetime) -> bool:
        """Whether the bench has tablets and none of them was heard lately."""
        heard = self.bench.last_heard_at
        return self.bench.here and (heard is None or at - heard > SILENT_AFTER)


def pace(lesson: LessonRecord) -> Sequence[Pace]:
    """One row a bench, in the order of the slips."""
    return [_row(lesson, bench) for bench in lesson.benches]


def who_needs_help_first(rows: Sequence[Pace]) -> Sequence[Pace]:
    """The rows sorted for the lead bench: who may need the teacher comes first, absent benches last."""
    return sorted(rows, key=lambda row: (row.needs_help, row.bench.place))


def _row(lesson: LessonRecord, bench: BenchRecord) -> Pace:
    state = bench_state(lesson, bench)
    points = state.cord.points
    told = (point for point in points if point.state not in ("ruled_out", "matched"))
    last = max(told, key=lambda point: (point.reading.taken_at, point.reading.n), default=None)
    return Pace(
        bench=bench,
        state=state,
        design=lesson.design(bench.design_id).letter,
        last=last,
        last_reading_at=last.reading.taken_at if last else None,
        differing=sum(point.state == "differs" for point in points),
        questions=tuple(question for cord in state.cords for question in _questions(lesson, bench, cord)),
    )


def _questions(lesson: LessonRecord, bench: BenchRecord, cord: SpecimenPicture) -> list[Question]:
    if cord.left_out is not None:
        return []
    name = bench.word if cord.specimen_no == 1 else cord.name
    asked = [_two_numbers(bench, name, points) for points in differing_readings(cord)]
    endings = differing_endings(lesson, bench, cord)
    return [*asked, _two_endings(bench, name, endings)] if endings else asked


def differing_readings(cord: SpecimenPicture) -> list[tuple[Point, ...]]:
    """The readings of a cord that do not agree and are not ruled on, step by step."""
    steps: dict[tuple[int, str, int], list[Point]] = {}
    for point in cord.points:
        if point.state == "differs":
            reading = point.reading
            steps.setdefault((reading.step, reading.phase, reading.turn), []).append(point)
    return [tuple(points) for points in steps.values()]


def differing_endings(lesson: LessonRecord, bench: BenchRecord, cord: SpecimenPicture) -> tuple[Ending, ...]:
    """The endings told of a cord that do not agree and are not ruled on."""
    if cord.ending_state != "differs":
        return ()
    specimen = next(one for one in bench.specimens if one.entry_id == cord.specimen_id)
    return counted(specimen.endings, lesson.rulings)


def _two_numbers(bench: BenchRecord, name: str, points: Sequence[Point]) -> Question:
    reading = points[0].reading
    step = "the zero" if reading.phase == "zero" else f"step {reading.step}"
    phase = "" if reading.phase in ("zero", "load") else f" ({vocabulary.PHASES[reading.phase]})"
    return Question(
        bench=bench,
        head=f"{name}, {step}{phase}",
        asks=f"Two numbers for {step}{phase}. Which one counts? Both are kept.",
        choices=tuple(
            Choice(
                entry_id=point.reading.entry_id,
                says=with_unit(trimmed(point.reading.pointer_mm, 1), "mm") + " counts",
            )
            for point in points
        ),
    )


def _two_endings(bench: BenchRecord, name: str, endings: Sequence[Ending]) -> Question:
    return Question(
        bench=bench,
        head=f"{name}, how it ended",
        asks="Two tablets say it ended in two ways. Which one counts? Both are kept.",
        choices=tuple(
            Choice(entry_id=entry_id, says=f"{says} counts")
            for says, entry_id in {ending_words(one): one.entry_id for one in reversed(endings)}.items()
        ),
    )


def ending_words(ending: Ending) -> str:
    """How a cord ended, with its step, and nothing of the force."""
    step = "" if ending.fail_step is None else f" at step {ending.fail_step}"
    return vocabulary.ENDINGS[ending.kind] + step
