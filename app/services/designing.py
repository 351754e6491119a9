"""Designs come and go while the lesson is planned, and the benches are shared out over them."""

import secrets
import uuid
from dataclasses import replace
from datetime import datetime

from app.domain.errors import InUse, fault
from app.domain.limits import DESIGNS_MOST
from app.domain.plan import LessonPlan, seated
from app.domain.records import BenchRecord, DesignRecord, LessonRecord
from app.domain.star import yardstick_of
from app.services.lessons import SEED_MOST, plan_of
from app.services.planning import PlanChanges, mend_plan, share_benches_out, used
from app.store.database import Database

LETTERS = "ABCDEFGHIJKL"


def in_use(bench: BenchRecord) -> bool:
    """Whether a tablet has the bench, or anything was sent for it."""
    return bench.here or used(bench)


def shared_by_seed(lesson: LessonRecord) -> bool:
    """Whether the benches have the designs that the stated seed gives, nothing swapped by hand."""
    plan = plan_of(lesson)
    opened = [replace(bench, design=None) for bench in plan.benches]
    seats = seated(replace(plan, benches=opened), lesson.allocation_seed or 0)
    return [bench.design for bench in seats] == [bench.design for bench in plan.benches]


def new_seed() -> int:
    """A seed that has not been thought of, to be stated."""
    return secrets.randbelow(SEED_MOST) + 1


def add_design(database: Database, lesson: LessonRecord, *, at: datetime) -> str:
    """One more design, made as the yardstick cord until its cells are changed; its letter is returned.

    Benches that no one has touched are shared out again by the stated seed, unless someone swapped them by hand.
    """
    letters = [design.letter for design in lesson.designs]
    if len(letters) >= DESIGNS_MOST:
        raise fault("designs", f"A lesson has at most {DESIGNS_MOST} designs.")
    letter = next(one for one in LETTERS if one not in letters)
    like = yardstick_of(lesson.designs)
    base = like or DesignRecord(id="", letter=letter, name="")
    fresh = replace(base, id=str(uuid.uuid4()), letter=letter, is_yardstick=like is None, linear_density_g_per_m=None)
    mend_plan(database, lesson.id, PlanChanges(lesson={}, designs=[*lesson.designs, fresh]), at=at)
    if shared_by_seed(lesson) and lesson.allocation_seed and not any(in_use(bench) for bench in lesson.benches):
        share_benches_out(database, lesson.id, seed=lesson.allocation_seed, at=at)
    return letter


def take_design_away(database: Database, lesson: LessonRecord, letter: str, *, at: datetime) -> None:
    """The design is gone and its benches are shared out over the others; InUse when one of them has entries."""
    gone = next((design for design in lesson.designs if design.letter == letter), None)
    if gone is None:
        return
    if gone.is_yardstick:
        raise InUse(f"Design {letter} is the yardstick cord: the others are compared with it.")
    if any(in_use(bench) for bench in lesson.benches if bench.design_id == gone.id):
        raise InUse(f"A bench makes design {letter} already: it can be changed, not taken away.")
    rest = [design for design in lesson.designs if design.id != gone.id]
    plan = plan_of(lesson)
    opened = [replace(bench, design=None) if bench.design == letter else bench for bench in plan.benches]
    others = LessonPlan(lesson={}, designs=rest, rungs=plan.rungs, benches=opened)
    seats = seated(others, lesson.allocation_seed or 0)
    mend_plan(database, lesson.id, PlanChanges(lesson={}, benches=seats), at=at)
    mend_plan(database, lesson.id, PlanChanges(lesson={}, designs=rest), at=at)
