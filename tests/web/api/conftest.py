"""A class on the test's database, and the outside that asks about it."""

import pytest
from flask import Flask

from app.store.database import Database
from tests.make import join, make_lesson
from tests.web.api.outside import Class, Outside


@pytest.fixture
def outside(app: Flask) -> Outside:
    """A program that talks to /api/v1."""
    return Outside(app)


@pytest.fixture
def a_class(database: Database, outside: Outside) -> Class:
    """A lesson with the benches Alder, taken, and Hazel, free; its rungs are 102, 102, 204, 204 and 204 g."""
    lesson = make_lesson(database)
    return Class(lesson=lesson, alder=join(database, lesson), teacher=outside.token_of(lesson.teacher))
