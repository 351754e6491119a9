"""Lessons listed: the open ones and the shelf, each with what it says of itself at a glance."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from app.domain.records import LessonRecord
from app.mechanics.classwork import ClassPicture, SpecimenPicture
from app.services.class_table import class_table, count, loads_words
from app.services.picture import see
from app.store import lessons
from app.store.database import Database

NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


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

    @property
    def held_on(self) -> date | None:
        """The day of the lesson: as planned, else the day on which it ended or went on the shelf."""
        moment = self.lesson.over_at or self.lesson.shelved_at
        return self.lesson.planned_on or (moment.date() if moment else None)

    @property
    def facts(self) -> str:
        """One line: benches, designs, cords in the sums and left out."""
        counted = count(class_table(self.picture))
        parts = [
            _some(sum(bench.kind != "pilot" for bench in self.lesson.benches), "bench", "benches"),
            _some(len(self.lesson.designs), "design", "designs"),
            f"{_some(counted.counted, 'cord', 'cords')} in the sums",
        ]
        said = ", ".join(parts + ([f"{_number(counted.left_out)} left out"] if counted.left_out else []))
        return said[0].upper() + said[1:] + "."

    @property
    def careful(self) -> str:
        """What a reader has to know before this lesson is set beside another; nothing when all was weighed."""
        if not self.picture.specimens:
            return ""
        words = loads_words(self.picture)
        return words + "." if words else ""

    def says(self, words: str) -> bool:
        """Whether every one of those words is in its date, class, title, question or designs."""
        day = self.held_on
        own = [self.lesson.title, self.lesson.question, self.lesson.year_band or ""]
        own += [design.name for design in self.lesson.designs]
        own += [f"{day.day} {day:%A %B %Y} {day.isoformat()}"] if day else []
        text = " ".join(own).casefold()
        return all(word in text for word in words.casefold().split())


def _some(many: int, one: str, more: str) -> str:
    return f"{_number(many)} {one if many == 1 else more}"


def _number(many: int) -> str:
    return NUMBERS[many] if many < len(NUMBERS) else str(many)


def lesson_ids(database: Database, teacher_id: str, *, shelf: bool) -> list[str]:
    """The ids of the teacher's open lessons, or of the shelf, newest first."""
    with database.reading() as session:
        return [lesson.id for lesson in lessons.of_teacher(session, teacher_id, shelf=shelf)]


def listed(database: Database, teacher_id: str, *, shelf: bool) -> Sequence[Listed]:
    """The teacher's open lessons, or the lessons on the shelf, newest first."""
    seen = [see(database, lesson_id) for lesson_id in lesson_ids(database, teacher_id, shelf=shelf)]
    return [Listed(lesson=one.lesson, picture=one.picture, mine=one.lesson.teacher_id == teacher_id) for one in seen]
