"""What tests of the teacher's pages begin with; a module that wants another lesson says so itself."""

import pytest

from app.store.database import Database
from tests import make
from tests.make import JoinedBench, MadeLesson
from tests.reader import Reader


@pytest.fixture
def a_lesson(database: Database, reader: Reader) -> MadeLesson:
    """A lesson whose teacher reads."""
    made = make.make_lesson(database)
    reader.sign_in(made.teacher)
    return made


@pytest.fixture
def alder(database: Database, a_lesson: MadeLesson) -> JoinedBench:
    """Alder with a zero and four loads."""
    bench = make.join(database, a_lesson)
    make.make_readings(database, bench)
    return bench
