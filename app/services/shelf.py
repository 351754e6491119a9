"""Lessons listed: the open ones and the shelf, each with what it says of itself at a glance."""

from collections.abc import Sequence
from dataclasses import dataclass

from app.domain.records import LessonRecord
from app.mechanics.classwork import ClassPicture, SpecimenPicture
from app.services.picture import see
from app.store import lessons
from app.store.database import Database


@dataclass(frozen=True, kw_only=True)
class Listed:
    """One lesson in a list, with its picture."""

    lesson: LessonRecord
    picture: ClassPicture
    mine: bool

    @property
    def yardstick(self) -> Sequence[SpecimenPicture]:
        """The cords of the yardstick design that have ended and are not left out."""
        letters = {design.letter for design in self.picture.designs if design.is_yardstick}
        return [
            cord
            for cord in self.picture.specimens
            if cord.design in letters and cord.ending is not None and cord.left_out is None
        ]


def lesson_ids(database: Database, teacher_id: str, *, shelf: bool) -> list[str]:
    """The ids of the teacher's open lessons, or of the shelf, newest first."""
    with database.reading() as session:
        return [lesson.id for lesson in lessons.of_teacher(session, teacher_id, shelf=shelf)]


def listed(database: Database, teacher_id: str, *, shelf: bool) -> Sequence[Listed]:
    """The teacher's open lessons, or the lessons on the shelf, newest first."""
    seen = [see(database, lesson_id) for lesson_id in lesson_ids(database, teacher_id, shelf=shelf)]
    return [Listed(lesson=one.lesson, picture=one.picture, mine=one.lesson.teacher_id == teacher_id) for one in seen]
