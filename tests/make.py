"""Makes what tests need, through the product's own verbs: keyword-only, with defaults that make sense together.

Every name and figure is invented. `a_lesson` in a call is what `make_lesson` returned, `a_bench` what `join` did.
"""

import uuid
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

from app.domain.plan import BenchPlan, LessonPlan
from app.domain.records import DesignRecord, LessonRecord, RungRecord
from app.services import joining, lessons, readings, rulings, teachers
from app.services.readings import Answer, EndingSeen, EventSeen, MeasureSeen, ReadingSeen
from app.services.recording import Recorded, Sender, Sent, Target
from app.services.teachers import SignedIn
from app.store import teachers as teacher_rows
from app.store.database import Database

MORNING = datetime(2026, 3, 12, 9, 40, tzinfo=UTC)
PASSWORD = "four score knots"
POINTERS = (218, 222, 224, 227, 229)  # a zero and four loads


@dataclass(frozen=True, kw_only=True)
class MadeLesson:
    """A lesson that was made, with what opens it and each bench's slip code by its word."""

    teacher: SignedIn
    lesson_id: str
    lesson_key: str
    front_code: str
    slips: dict[str, str]

    @property
    def target(self) -> Target:
        """The lesson as a whole."""
        return Target(lesson_id=self.lesson_id)


@dataclass(frozen=True, kw_only=True)
class JoinedBench:
    """A bench that a tablet took."""

    word: str
    lesson_id: str
    bench_id: str
    specimen_id: str
    token: str
    tablet_id: str

    @property
    def target(self) -> Target:
        """Where entries of the bench go."""
        return Target(lesson_id=self.lesson_id, bench_id=self.bench_id)

    @property
    def sender(self) -> Sender:
        """Who sends its entries: its tablet."""
        return Sender(by="bench", tablet_id=self.tablet_id)


def new_id() -> str:
    """An id as a tablet makes it."""
    return str(uuid.uuid4())


def make_teacher(
    database: Database, *, name: str = "moss", password: str | None = None, at: datetime = MORNING
) -> SignedIn:
    """A teacher who is in. Without `password` none was set yet, which spares a slow hash; signing in needs one."""
    teachers.add_teacher(database, name, password=password, at=at)
    if password is not None:
        return sign_in(database, name=name, password=password, at=at)
    with database.reading() as session:
        row = teacher_rows.by_name(session, name)
    assert row is not None
    found = teachers.still_in(database, row.id, teachers.token_hash("")[:16])
    assert found is not None
    return found


def sign_in(database: Database, *, name: str = "moss", password: str = PASSWORD, at: datetime = MORNING) -> SignedIn:
    """The teacher of that name, who has set that passphrase."""
    return teachers.sign_in(database, name, password, from_hash=teachers.token_hash(name), at=at)


def make_plan(
    *,
    designs: str = "AB",
    rungs_g: Sequence[float | None] = (102.0, 102.0, 204.0, 204.0, 204.0),
    benches: Sequence[str] = ("Alder", "Hazel"),
    **columns: Any,
) -> LessonPlan:
    """A plan: one design a letter (the first is the yardstick cord), given to the benches in turn."""
    return LessonPlan(
        lesson={"title": "Three strands or two", "question": "Does a strand more carry a strand more?", **columns},
        designs=[
            DesignRecord(
                id=new_id(),
                letter=letter,
                name=f"{place + 2} strands",
                strands=place + 2,
                is_yardstick=place == 0,
                free_length_mm=300.0,
            )
            for place, letter in enumerate(designs)
        ],
        rungs=[
            RungRecord(mark=mark, name=f"pouch {mark}", printed_mass_g=mass_g)
            for mark, mass_g in enumerate(rungs_g, start=1)
        ],
        benches=[BenchPlan(word=word, design=designs[place % len(designs)]) for place, word in enumerate(benches)],
    )


def make_lesson(
    database: Database,
    *,
    teacher: SignedIn | None = None,
    plan: LessonPlan | None = None,
    at: datetime = MORNING,
    seed: int = 1,
    **plan_said: Any,
) -> MadeLesson:
    """A lesson of that teacher (a new one if none is given), by that plan or by `make_plan(**plan_said)`."""
    owner = teacher or make_teacher(database, at=at)
    made = lessons.make_lesson(database, owner.teacher_id, plan or make_plan(**plan_said), at=at, seed=seed)
    record = lessons.lesson_record(database, made.lesson_id)
    codes = lessons.slip_codes(database, made.lesson_id)
    return MadeLesson(
        teacher=owner,
        lesson_id=made.lesson_id,
        lesson_key=made.lesson_key,
        front_code=made.front_code,
        slips={bench.word: codes[bench.id] for bench in record.benches},
    )


def record_of(database: Database, a_lesson: MadeLesson) -> LessonRecord:
    """The lesson as it stands."""
    return lessons.lesson_record(database, a_lesson.lesson_id)


def join(database: Database, a_lesson: MadeLesson, *, bench: str = "Alder", at: datetime = MORNING) -> JoinedBench:
    """A tablet took that bench with its slip."""
    joined = joining.take_bench(database, a_lesson.slips[bench], bench=None, at=at)
    found = record_of(database, a_lesson).bench(bench)
    assert found is not None
    return JoinedBench(
        word=found.word,
        lesson_id=joined.lesson_id,
        bench_id=joined.bench_id,
        specimen_id=found.specimens[-1].entry_id,
        token=joined.token,
        tablet_id=joined.tablet_id,
    )


def make_bench(database: Database, **plan_said: Any) -> JoinedBench:
    """The bench Alder of a new lesson, taken by a tablet: for a test that wants nothing but a bench."""
    return join(database, make_lesson(database, **plan_said))


def sent(
    *, entry_id: str | None = None, replaces: str | None = None, reason: str | None = None, age_s: float = 0.0
) -> Sent:
    """What an entry carries; a fresh id when none is said, and a reason when it replaces another."""
    why = "typed_wrong" if replaces and reason is None else reason
    return Sent(entry_id=entry_id or new_id(), replaces=replaces, reason=why, age_s=age_s)


def make_reading(
    database: Database,
    a_bench: JoinedBench,
    *,
    step: int = 0,
    pointer: str | float = "218",
    phase: str | None = None,
    entry: Sent | None = None,
    sender: Sender | None = None,
    at: datetime = MORNING,
    **seen: Any,
) -> Answer:
    """One reading of the bench's cord under test; the phase follows from the step when it is not said."""
    said = ReadingSeen(
        **{"specimen_id": None, "step": step, "phase": phase or ("load" if step else "zero")} | seen,
        pointer_typed=str(pointer),
    )
    whose = sender or a_bench.sender
    return readings.take_reading(database, a_bench.target, said, sent=entry or sent(), sender=whose, at=at)


def make_readings(
    database: Database,
    a_bench: JoinedBench,
    pointers: Sequence[str | float] = POINTERS,
    *,
    first_step: int = 0,
    every_s: float = 45.0,
    at: datetime = MORNING,
) -> list[Answer]:
    """A reading at each step from `first_step` on, so many seconds apart."""
    return [
        make_reading(
            database, a_bench, step=first_step + place, pointer=pointer, at=at + timedelta(seconds=every_s * place)
        )
        for place, pointer in enumerate(pointers)
    ]


def make_event(
    database: Database,
    a_bench: JoinedBench,
    *,
    kind: str = "knot_slipped",
    step: int | None = 1,
    entry: Sent | None = None,
    sender: Sender | None = None,
    at: datetime = MORNING,
    **seen: Any,
) -> Answer:
    """Something that happened at a step of the cord under test."""
    said = EventSeen(**{"specimen_id": None} | seen, kind=kind, step=step)
    whose = sender or a_bench.sender
    return readings.tell_event(database, a_bench.target, said, sent=entry or sent(), sender=whose, at=at)


def make_ending(
    database: Database,
    a_bench: JoinedBench,
    *,
    kind: str = "broke_adding",
    entry: Sent | None = None,
    sender: Sender | None = None,
    at: datetime = MORNING,
    **seen: Any,
) -> Answer:
    """How the cord under test ended; `fail_step`, `place`, `look`, `remark` may be said."""
    said = EndingSeen(**{"specimen_id": None} | seen, kind=kind)
    whose = sender or a_bench.sender
    return readings.tell_ending(database, a_bench.target, said, sent=entry or sent(), sender=whose, at=at)


def make_measure(
    database: Database,
    a_bench: JoinedBench,
    *,
    quantity: str = "free_length_mm",
    typed: str | float = "300",
    unit: str = "mm",
    entry: Sent | None = None,
    at: datetime = MORNING,
    **seen: Any,
) -> Answer:
    """What was measured of the first cord, unless another `specimen_id` is said."""
    said = MeasureSeen(**{"specimen_id": a_bench.specimen_id} | seen, quantity=quantity, typed=str(typed), unit=unit)
    whose = a_bench.sender
    return readings.take_measure(database, a_bench.target, said, sent=entry or sent(), sender=whose, at=at)


def make_fresh_cord(
    database: Database,
    a_bench: JoinedBench,
    *,
    reason: str | None = "the first was cut",
    same_maker: bool | None = True,
    entry: Sent | None = None,
    at: datetime = MORNING,
) -> Answer:
    """The bench has a new cord under test; its specimen id is the entry's."""
    whose = a_bench.sender
    return readings.fresh_cord(
        database, a_bench.target, same_maker=same_maker, reason=reason, sent=entry or sent(), sender=whose, at=at
    )


def make_ruling(
    database: Database,
    target: Target,
    *,
    about: str,
    kind: str = "left_out",
    reason: str | None = "it slipped",
    detail: Any = None,
    by: str = "teacher",
    at: datetime = MORNING,
) -> Recorded:
    """A ruling on an entry or a cord."""
    said: dict[str, Any] = {"detail": detail, "sent": sent(reason=reason), "sender": Sender(by=by), "at": at}
    return rulings.rule(database, target, kind=kind, about=about, **said)


def make_weighing(
    database: Database, target: Target, *, mark: int = 0, mass_g: float = 55.0, at: datetime = MORNING
) -> Recorded:
    """What the balance said of a rung, or of the hanger (mark 0), to the gram."""
    said: dict[str, Any] = {"balance_division_g": 1.0, "sent": sent(), "sender": Sender(by="teacher"), "at": at}
    return rulings.weigh(database, target, mark=mark, mass_g=mass_g, **said)
