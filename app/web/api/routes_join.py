"""Sign in and join over /api/v1."""

from datetime import timedelta

from flask import Blueprint, Response, jsonify

from app.domain.errors import UnknownCode
from app.domain.limits import TEACHER_TOKEN_HOURS
from app.services import joining, teachers
from app.services.bench_state import state_of
from app.services.joining import Joined, Offer
from app.web.access import for_anyone
from app.web.api.answers import FreeBench, FreeBenches, JoinAnswer, SignInAnswer
from app.web.api.asking import answered, asked
from app.web.api.bodies import JoinBody, SignInBody
from app.web.api.described import described
from app.web.api.openapi import document
from app.web.api.tell_bench import letter_of, next_step
from app.web.current import address_hash, database, from_hash, now, teacher_token

bp = Blueprint("api_join", __name__, url_prefix="/api/v1")


@bp.get("/openapi.json")
@for_anyone
@described("This document.", answers={200: "application/json"})
def description() -> Response:
    """The OpenAPI 3.1 document of /api/v1."""
    return jsonify(document())


@bp.post("/sign-in")
@for_anyone
@described("A teacher signs in for twelve hours.", body=SignInBody, answers={200: SignInAnswer})
def sign_in() -> Response:
    """A token that opens the teacher's own lessons."""
    body = asked(SignInBody)
    at = now()
    who = teachers.sign_in(database(), body.sign_in_name, body.password, from_hash=from_hash(body.sign_in_name), at=at)
    return answered(SignInAnswer(teacher_token=teacher_token(who), until=at + timedelta(hours=TEACHER_TOKEN_HOURS)))


@bp.post("/join")
@for_anyone
@described(
    "A tablet takes a bench by its slip code, or by the lesson key and a bench word; the key alone names free benches.",
    body=JoinBody,
    answers={200: FreeBenches, 201: JoinAnswer},
)
def join() -> Response:
    """The bench is taken, or the free ones are named; wrong codes are counted by where they come from."""
    body = asked(JoinBody)
    teachers.check_tries(database(), teachers.CODES, address_hash(), at=now())
    try:
        offer = joining.what_opens(database(), body.code)
    except UnknownCode:
        teachers.note_failure(database(), teachers.CODES, address_hash(), at=now())
        raise
    if offer.bench is None and not (body.bench or "").strip():
        return answered(_free(offer))
    joined = joining.take_bench(database(), body.code, bench=(body.bench or "").strip(), at=now())
    return answered(_joined(joined), 201)


def _free(offer: Offer) -> FreeBenches:
    return FreeBenches(
        free_benches=[
            FreeBench(bench=bench.address, word=bench.word, design=letter_of(offer.lesson, bench))
            for bench in offer.free
        ]
    )


def _joined(joined: Joined) -> JoinAnswer:
    state = state_of(database(), joined.lesson_id, joined.bench_id)
    return JoinAnswer(
        bench_token=joined.token,
        lesson_id=joined.lesson_id,
        bench=state.bench.address,
        word=state.bench.word,
        design=letter_of(state.lesson, state.bench),
        specimen_id=state.specimen.entry_id,
        writes=joined.writes,
        next=next_step(state.next),
    )
