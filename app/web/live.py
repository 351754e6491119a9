"""Ask and wait: a page asks "anything after n?", and the server may hold the question until there is."""

import threading
import time
from collections.abc import Callable, Mapping, Sequence

TICK_S = 0.1
HeadsOf = Callable[[Sequence[str]], Mapping[str, int]]


class Watch:
    """The held questions of one process: one thread looks for all of them, and only while someone waits.

    `alive` turns false when the process is told to stop: then everyone is let go at once, so that stopping is quick.
    """

    def __init__(self, heads_of: HeadsOf, *, places: int, alive: Callable[[], bool] = lambda: True) -> None:
        self._heads_of = heads_of
        self._places = places
        self._alive = alive
        self._news = threading.Condition()
        self._waiting: dict[str, int] = {}
        self._heads: dict[str, int] = {}
        self._looking = False

    def wait_for_news(self, lesson_id: str, after: int, hold_s: float) -> bool:
        """Whether the question could be held; it returns at once when the lesson's head is past `after`.

        Blocks until then, or for `hold_s` seconds; false means that every place was taken.
        """
        until = time.monotonic() + hold_s
        with self._news:
            if sum(self._waiting.values()) >= self._places:
                return False
            self._waiting[lesson_id] = self._waiting.get(lesson_id, 0) + 1
            self._start_looking()
            try:
                while self._alive() and self._heads.get(lesson_id, after) <= after:
                    left = until - time.monotonic()
                    if left <= 0:
                        break
                    self._news.wait(min(left, 1.0))
            finally:
                self._leave(lesson_id)
        return True

    def _leave(self, lesson_id: str) -> None:
        self._waiting[lesson_id] -= 1
        if not self._waiting[lesson_id]:
            del self._waiting[lesson_id]
            self._heads.pop(lesson_id, None)

    def _start_looking(self) -> None:
        if not self._looking:
            self._looking = True
            threading.Thread(target=self._look, name="ropewalk-watch", daemon=True).start()

    def _look(self) -> None:
        while True:
            with self._news:
                wanted = list(self._waiting)
                if not wanted:
                    self._looking = False
                    return
            self._tell(self._found(wanted))
            time.sleep(TICK_S)

    def _found(self, wanted: Sequence[str]) -> Mapping[str, int]:
        try:
            return self._heads_of(wanted)
        except Exception:
            return {}

    def _tell(self, heads: Mapping[str, int]) -> None:
        with self._news:
            changed = any(self._heads.get(lesson_id) != head for lesson_id, head in heads.items())
            self._heads.update({one: head for one, head in heads.items() if one in self._waiting})
            if changed or not self._alive():
                self._news.notify_all()
