"""The class picture: worked out once for each change of a lesson, and kept until the next."""

import threading
from collections import OrderedDict
from dataclasses import dataclass

from app.domain.errors import NotFound
from app.domain.records import LessonRecord
from app.mechanics.classwork import ClassPicture, class_picture
from app.store import feed
from app.store.database import Database
from app.store.snapshot import snapshot

_KEPT = 64


@dataclass(frozen=True, kw_only=True)
class Seen:
    """A lesson's record and the picture worked out from that very record."""

    lesson: LessonRecord
    picture: ClassPicture


class _Kept:
    """The newest pictures of this process, the least used forgotten first."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._pictures: OrderedDict[tuple[str, str], Seen] = OrderedDict()

    def get(self, database: str, lesson_id: str, head: int) -> Seen | None:
        with self._lock:
            seen = self._pictures.get((database, lesson_id))
            if seen is None or seen.lesson.head != head:
                return None
            self._pictures.move_to_end((database, lesson_id))
            return seen

    def put(self, database: str, seen: Seen) -> None:
        with self._lock:
            self._pictures[database, seen.lesson.id] = seen
            while len(self._pictures) > _KEPT:
                self._pictures.popitem(last=False)


_kept = _Kept()


def see(database: Database, lesson_id: str) -> Seen:
    """The lesson as it stands with its class picture; NotFound when it is not here or was deleted."""
    with database.reading() as session:
        head = feed.heads(session, [lesson_id]).get(lesson_id)
        kept = _kept.get(str(database.url), lesson_id, head) if head is not None else None
        lesson = snapshot(session, lesson_id) if kept is None else kept.lesson
    if lesson is None or lesson.deleted_at is not None:
        raise NotFound("There is no such lesson.")
    if kept is not None:
        return kept
    seen = Seen(lesson=lesson, picture=class_picture(lesson))
    _kept.put(str(database.url), seen)
    return seen
