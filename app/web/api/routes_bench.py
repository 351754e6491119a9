"""One bench over /api/v1: its state, and what changes it besides entries."""

from flask import Blueprint, Response

from app.services import joining, rulings, running
from app.services.bench_state import state_of
from app.services.recording import Target
from app.web.access import for_bench, for_some, for_teacher
from app.web.api.answers import BenchAnswer, TickAnswer, WritesAnswer
from app.web.api.asking import answered, asked
from app.web.api.bodies import BenchBody, TickBody
from app.web.api.described import described
from app.web.api.tell_bench import bench_answer
from app.web.current import bench_target, database, now, own_lesson, tablet_here, who

bp = Blueprint("api_bench", __name__, url_prefix="/api/v1")

BENCH = "/lessons/<lesson_id>/benches/<bench>"


@bp.get("/bench")
@for_bench
@described("The bench that the token holds.", answers={200: BenchAnswer})
def own_bench() -> Response:
    """As GET of the token's own bench."""
    tablet = tablet_here()
    return _bench(Target(lesson_id=tablet.lesson_id, bench_id=tablet.bench_id))


@bp.get(BENCH)
@for_some("bench", "teacher")
@described("One bench whole.", answers={200: BenchAnswer})
def one_bench(lesson_id: str, bench: str) -> Response:
    """The bench for its own tablets, and for the lesson's teacher."""
    target, _ = bench_target(lesson_id, bench)
    return _bench(target)


def _bench(target: Target) -> Response:
    tablet = who().tablet
    state = state_of(database(), target.lesson_id, target.bench_id or "")
    return answered(bench_answer(state, writes=tablet is not None and tablet.writes))


@bp.patch(BENCH)
@for_teacher
@described("The teacher changes a bench.", body=BenchBody, answers={200: BenchAnswer})
def change_bench(lesson_id: str, bench: str) -> Response:
    """The bench has the design, scale, kind or opening that was asked."""
    target, _ = bench_target(lesson_id, bench)
    body = asked(BenchBody)
    lesson = own_lesson(lesson_id)
    here = next(one for one in lesson.benches if one.id == target.bench_id)
    running.change_bench(database(), lesson, here, body.model_dump(exclude_unset=True), at=now())
    return _bench(target)


@bp.post(f"{BENCH}/carry-on")
@for_bench
@described("This tablet of the bench offers the pad from now on.", answers={200: WritesAnswer})
def carry_on(lesson_id: str, bench: str) -> Response:
    """The bench's other tablets only look."""
    bench_target(lesson_id, bench)
    joining.carry_on(database(), tablet_here(), at=now())
    return answered(WritesAnswer(writes=True))


@bp.post(f"{BENCH}/ticks")
@for_some("bench", "teacher")
@described("A line of the set-up or tidy list is ticked, or not any more.", body=TickBody, answers={200: TickAnswer})
def tick(lesson_id: str, bench: str) -> Response:
    """The line is as asked; ticking it twice is one tick."""
    target, sender = bench_target(lesson_id, bench)
    body = asked(TickBody)
    head = rulings.tick(database(), target, what=body.what, on=body.on, by=sender.by, at=now())
    return answered(TickAnswer(what=body.what, on=body.on, head=head))
