"""In which table an entry stands, of those that a ruling may be about."""

from typing import Any

from sqlalchemy import ColumnElement, or_, select
from sqlalchemy.orm import Session

from app.store.benches import Bench
from app.store.designs import Weighing
from app.store.entries import Ending, Event, Prediction, Reading, Sentence
from app.store.specimens import Measure, Specimen


def table_of(session: Session, entry_id: str, *, lesson_id: str, bench_id: str | None) -> str | None:
    """The name of the table that holds that entry of the bench, or of the lesson when none is named; None: not here."""
    benches = select(Bench.id).where(Bench.lesson_id == lesson_id)
    if bench_id is not None:
        benches = benches.where(Bench.id == bench_id)
    cords = select(Specimen.entry_id).where(Specimen.bench_id.in_(benches))
    whole_lesson = bench_id is None
    owned: dict[Any, ColumnElement[bool]] = {
        Specimen: Specimen.bench_id.in_(benches),
        Reading: Reading.specimen_id.in_(cords),
        Event: Event.bench_id.in_(benches),
        Ending: Ending.specimen_id.in_(cords),
        Measure: Measure.bench_id.in_(benches),
        Prediction: Prediction.bench_id.in_(benches),
        Sentence: Sentence.bench_id.in_(benches),
        Weighing: (Weighing.lesson_id == lesson_id)
        & or_(Weighing.bench_id.in_(benches), Weighing.bench_id.is_(None) & whole_lesson),
    }
    for model, ours in owned.items():
        if session.scalar(select(model.entry_id).where(model.entry_id == entry_id, ours)) is not None:
            return str(model.__tablename__)
    return None
