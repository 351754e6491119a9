"""A lesson, and a tablet that took its bench Alder."""

import pytest

from tests.browser.bench.lesson import LOST, a_lesson
from tests.browser.server import Server
from tests.browser.tablet import Tablet
from tests.browser.watching import NewTablet
from tests.make import MadeLesson


@pytest.fixture
def lesson(server: Server) -> MadeLesson:
    return a_lesson(server)


@pytest.fixture
def tablet(new_tablet: NewTablet, lesson: MadeLesson) -> Tablet:
    """A tablet that took Alder; losing the network is part of its tests."""
    return Tablet(new_tablet(allow=LOST)).joins(lesson.slips["Alder"])
