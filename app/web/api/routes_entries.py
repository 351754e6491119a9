"""A bench's entries over /api/v1: each is stored once, under the id that was made where it was typed."""

from flask import Blueprint, Response

from app.domain.errors import NotThisBench
from app.services import readings, rulings
from app.services.readings import EndingSeen, EventSeen, MeasureSeen, ReadingSeen
from app.services.recording import Sender, Target
from app.web.access import for_some
from app.web.api import bodies
from app.web.api.answers import EndingAnswer, EntryAnswer, ReadingAnswer, SpecimenAnswer
from app.web.api.asking import asked
from app.web.api.described import Answers, described
from app.web.api.routes_bench import BENCH
from app.web.api.tell_entry import heard, heard_ending, heard_reading, heard_word
from app.web.current import bench_target, database, now, own_door, tablet_here, who

bp = Blueprint("api_entries", __name__, url_prefix="/api/v1")

ONCE: Answers = {200: EntryAnswer, 201: EntryAnswer}


@bp.post(f"{BENCH}/specimens")
@for_some("bench", "teacher")
@described(
    "A fresh cord; its id is the entry's.",
    body=bodies.SpecimenBody,
    answers={200: SpecimenAnswer, 201: SpecimenAnswer},
)
def fresh_cord(lesson_id: str, bench: str) -> Response:
    """The bench has a new cord under test."""
    target, sender = bench_target(lesson_id, bench)
    body = asked(bodies.SpecimenBody)
    answer = readings.fresh_cord(
        database(),
        target,
        same_maker=body.same_maker,
        reason=body.reason,
        sent=body.sent,
        sender=sender,
        at=now(),
    )
    cords = answer.state.bench.specimens
    number = next(cord.specimen_no for cord in cords if cord.entry_id == body.entry_id)
    return heard(answer, SpecimenAnswer, specimen_id=body.entry_id, specimen_no=number)


@bp.post(f"{BENCH}/measures")
@for_some("bench", "teacher")
@described("A measure of a cord, or of the bench.", body=bodies.MeasureBody, answers=ONCE)
def take_measure(lesson_id: str, bench: str) -> Response:
    """The measure is stored as it was typed."""
    target, sender = bench_target(lesson_id, bench)
    body = asked(bodies.MeasureBody)
    measure = MeasureSeen(
        specimen_id=body.specimen_id, quantity=body.quantity, typed=body.typed, unit=body.unit, place=body.place
    )
    return heard(readings.take_measure(database(), target, measure, sent=body.sent, sender=sender, at=now()))


@bp.post(f"{BENCH}/readings")
@for_some("bench", "teacher")
@described(
    "A pointer reading as it was typed.",
    body=bodies.ReadingBody,
    answers={200: ReadingAnswer, 201: ReadingAnswer},
)
def post_reading(lesson_id: str, bench: str) -> Response:
    """The reading is stored once, and what it means is answered."""
    target, sender = bench_target(lesson_id, bench)
    body = asked(bodies.ReadingBody)
    reading = ReadingSeen(
        specimen_id=body.specimen_id,
        step=body.step,
        phase=body.phase,
        turn=body.turn,
        pointer_typed=body.pointer_typed,
        pointer_unit=body.pointer_unit,
        waited_s=body.waited_s,
    )
    return heard_reading(readings.take_reading(database(), target, reading, sent=body.sent, sender=sender, at=now()))


@bp.post(f"{BENCH}/events")
@for_some("bench", "teacher")
@described("Something that happened.", body=bodies.EventBody, answers=ONCE)
def tell_event(lesson_id: str, bench: str) -> Response:
    """What happened is on the curve, at its step."""
    target, sender = bench_target(lesson_id, bench)
    body = asked(bodies.EventBody)
    event = EventSeen(
        specimen_id=body.specimen_id,
        step=body.step,
        kind=body.kind,
        after_reading=body.after_reading,
        mark=body.mark,
        words=body.words,
    )
    return heard(readings.tell_event(database(), target, event, sent=body.sent, sender=sender, at=now()))


@bp.post(f"{BENCH}/endings")
@for_some("bench", "teacher")
@described("How a cord ended.", body=bodies.EndingBody, answers={200: EndingAnswer, 201: EndingAnswer})
def tell_ending(lesson_id: str, bench: str) -> Response:
    """How the cord ended is stored, and its breaking force answered."""
    target, sender = bench_target(lesson_id, bench)
    body = asked(bodies.EndingBody)
    ending = EndingSeen(
        specimen_id=body.specimen_id,
        kind=body.kind,
        fail_step=body.fail_step,
        hung_s=body.hung_s,
        place=body.place,
        look=body.look,
        from_top_knot_mm=body.from_top_knot_mm,
        remark=body.remark,
    )
    answer = readings.tell_ending(database(), target, ending, sent=body.sent, sender=sender, at=now())
    return heard_ending(answer, body.specimen_id)


@bp.post(f"{BENCH}/predictions")
@for_some("bench", "teacher")
@described("What the bench expects, sealed before step 1 is read.", body=bodies.PredictionBody, answers=ONCE)
def predict(lesson_id: str, bench: str) -> Response:
    """The bench's guess is sealed."""
    target, sender = bench_target(lesson_id, bench)
    body = asked(bodies.PredictionBody)
    guess = rulings.predict(
        database(),
        target,
        break_force_n=body.break_force_n,
        best_design=body.best_design,
        shape=body.shape,
        sent=body.sent,
        sender=sender,
        at=now(),
    )
    return heard_word(guess, target)


@bp.post(f"{BENCH}/rulings")
@for_some("bench", "teacher")
@described("Someone's word on an entry or a cord.", body=bodies.RulingBody, answers=ONCE)
def rule(lesson_id: str, bench: str) -> Response:
    """The ruling holds from now on."""
    target, sender = bench_target(lesson_id, bench)
    body = asked(bodies.RulingBody)
    ruling = rulings.rule(
        database(),
        target,
        kind=body.kind,
        about=body.about,
        detail=body.detail_kept,
        sent=body.sent,
        sender=sender,
        at=now(),
    )
    return heard_word(ruling, target)


@bp.post(f"{BENCH}/sentences")
@for_some("bench", "teacher")
@described("A sentence of the bench's own.", body=bodies.SentenceBody, answers=ONCE)
def say(lesson_id: str, bench: str) -> Response:
    """The bench's sentence is kept, where the lesson takes free text."""
    target, sender = bench_target(lesson_id, bench)
    body = asked(bodies.SentenceBody)
    sentence = rulings.say(
        database(), target, topic=body.topic, words=body.words, sent=body.sent, sender=sender, at=now()
    )
    return heard_word(sentence, target)


@bp.post("/lessons/<lesson_id>/weighings")
@for_some("teacher", "bench")
@described("What the balance said; a bench weighs its own tray.", body=bodies.WeighingBody, answers=ONCE)
def weigh(lesson_id: str) -> Response:
    """The balance mass counts from now on."""
    body = asked(bodies.WeighingBody)
    target, sender = _tray(lesson_id, body.bench)
    weighing = rulings.weigh(
        database(),
        target,
        mark=body.mark,
        mass_g=body.mass_g,
        balance_division_g=body.balance_division_g,
        sent=body.sent,
        sender=sender,
        at=now(),
    )
    return heard_word(weighing, target)


def _tray(lesson_id: str, bench: str | None) -> tuple[Target, Sender]:
    """Whose tray it is: the bench's, or every one when a teacher names none."""
    if bench is not None:
        return bench_target(lesson_id, bench)
    if who().teacher is None:
        raise NotThisBench(f"Name your own bench, {tablet_here().bench.capitalize()}: a bench weighs its own tray.")
    own_door(lesson_id)
    return Target(lesson_id=lesson_id), Sender(by="teacher")
