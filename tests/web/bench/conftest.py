"""A lesson with a bench that a tablet took."""

from collections.abc import Callable

import pytest

from app.services.bench_state import BenchState, state_of
from app.store.database import Database
from tests.make import (
    JoinedBench,
    MadeLesson,
    join,
    make_lesson,
    make_weighing,
)
from tests.reader import Reader


@pytest.fixture
def lesson(database: Database) -> MadeLesson:
    """A lesson of five rungs, its hanger weighed."""
    made = make_lesson(database, planning={"hanger_name": "bucket"}, gravity_m_per_s2=9.81)
    make_weighing(database, made.target, mark=0, mass_g=86)
    return made


@pytest.fixture
def bench(database: Database, lesson: MadeLesson) -> JoinedBench:
    """The bench Alder, taken."""
    return join(database, lesson)


@pytest.fixture
def tablet(reader: Reader, bench: JoinedBench) -> Reader:
    """A browser that holds Alder."""
    reader.hold(bench.token)
    return reader


@pytest.fixture
def stands(database: Database, bench: JoinedBench) -> Callable[[], BenchState]:
    """The bench as it stands."""
    return lambda: state_of(database, bench.lesson_id, bench.bench_id)
