"""Append-only tables: nothing of an entry changes once it is there, and none is taken away."""

import re

from app.store.database import Database
from app.store.entries import Reading, find_entry, insert_entry
from tests import make
from tests.make import MORNING
from tests.whole.source import APP

UPDATES = re.compile(r"\b(update|delete)\((Reading|Event|Ending|Measure|Weighing|Prediction|Ruling|Sentence)\b")


def row(bench: make.JoinedBench, entry_id: str, *, pointer_mm: float = 218.0) -> dict[str, object]:
    """A reading as the services hand it over."""
    return {
        "entry_id": entry_id, "specimen_id": bench.specimen_id, "step": 0, "phase": "zero", "turn": 1,
        "pointer_typed": "218", "pointer_unit": "mm", "pointer_mm": pointer_mm, "by": "bench", "age_s": 0.0,
        "received_at": MORNING, "n": 99,
    }  # fmt: skip


def test_one_that_is_here_stays_as_it_is(database: Database) -> None:
    bench, entry_id = make.make_bench(database), make.new_id()
    with database.transaction() as session:
        assert insert_entry(session, Reading, row(bench, entry_id))
        assert not insert_entry(session, Reading, row(bench, entry_id, pointer_mm=1.0))
    with database.reading() as session:
        assert find_entry(session, Reading, entry_id).pointer_mm == 218.0
        assert find_entry(session, Reading, make.new_id()) is None


def test_no_code_updates_or_deletes_an_entry() -> None:
    found = [path.name for path in APP.rglob("*.py") if UPDATES.search(path.read_text(encoding="utf-8"))]
    assert not found
