"""What is heard of an entry: the same answer for the same entry, however often it is sent."""

from typing import Any

from flask import Response

from app.domain.standing import ending_states
from app.services.bench_state import BenchState, state_of
from app.services.readings import Answer
from app.services.recording import Recorded, Target
from app.web.api import answers
from app.web.api.asking import answered
from app.web.api.look_again import open_notes
from app.web.api.tell_bench import REPLACED, figures, figures_of_replaced, interval, next_step
from app.web.current import database


def heard(answer: Answer, model: type[answers.EntryAnswer] = answers.EntryAnswer, **more: Any) -> Response:
    """The answer of an entry about a cord: 201 the first time, 200 when it was here before."""
    said = _said(answer.entry, answer.state) | {"state": answer.word, "same_step": list(answer.same_step)}
    return _sent_back(answer.entry, model(**said, **more))


def heard_reading(answer: Answer) -> Response:
    """As `heard`, with what follows from the reading; nothing does when its correction came before it."""
    if answer.point is not None:
        return heard(answer, answers.ReadingAnswer, **figures(answer.point))
    readings = (reading for cord in answer.state.bench.specimens for reading in cord.readings)
    mine = next(reading for reading in readings if reading.entry_id == answer.entry.entry_id)
    said = _said(answer.entry, answer.state) | {"state": REPLACED}
    return _sent_back(answer.entry, answers.ReadingAnswer(**said, **figures_of_replaced(mine.pointer_mm)))


def heard_ending(answer: Answer, specimen_id: str | None) -> Response:
    """As `heard`, with the breaking force of its cord; the other ending of the same cord stands in `same_step`."""
    named = {cord.specimen_id: cord for cord in answer.state.cords}
    cord = named.get(specimen_id or "", answer.state.cord)
    specimen = next(one for one in answer.state.bench.specimens if one.entry_id == cord.specimen_id)
    states = ending_states(specimen.endings, answer.state.lesson.rulings)
    mine = answer.entry.entry_id
    said = _said(answer.entry, answer.state) | {
        "state": states.get(mine, REPLACED),
        "same_step": [entry_id for entry_id in states if entry_id != mine],
    }
    return _sent_back(answer.entry, answers.EndingAnswer(**said, break_force_n=interval(cord.break_bracket)))


def heard_word(entry: Recorded, target: Target) -> Response:
    """The answer of what people say: a ruling, a prediction, a sentence, a weighing."""
    state = state_of(database(), target.lesson_id, target.bench_id, up_to=entry.n) if target.bench_id else None
    return _sent_back(entry, answers.EntryAnswer(**_said(entry, state)))


def _said(entry: Recorded, state: BenchState | None) -> dict[str, Any]:
    return {
        "entry_id": entry.entry_id,
        "n": entry.n,
        "state": "stands",
        "same_step": [],
        "look_again": open_notes(state) if state else [],
        "next": next_step(state.next) if state else None,
    }


def _sent_back(entry: Recorded, answer: answers.EntryAnswer) -> Response:
    return answered(answer, 201 if entry.new else 200)
