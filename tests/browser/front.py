"""The front screen as the class sees it, in sentences."""

import time
from typing import Any

from playwright.sync_api import Locator, Page, expect

from tests.make import MadeLesson


class Front:
    """One front screen; opened by its code, or by the teacher who is signed in on that page."""

    def __init__(self, page: Page, a_lesson: MadeLesson, *, by_code: bool = True) -> None:
        self.page = page
        where = f"/front/{a_lesson.front_code}" if by_code else f"/lessons/{a_lesson.lesson_id}/front"
        page.goto(where)
        expect(page.locator("body")).to_have_class("front scripted")

    def shows(self, view: str, *, within_ms: float = 5_000) -> None:
        """The screen shows that view by now, or within that time."""
        expect(self.page.locator("[data-part=front]")).to_have_attribute("data-shows", view, timeout=within_ms)

    def press(self, key: str) -> None:
        """The teacher presses that key."""
        self.page.keyboard.press(key)

    def bench(self, word: str) -> Locator:
        """The place of one bench."""
        return self.page.locator("li", has_text=word)

    @property
    def graph(self) -> Locator:
        return self.page.locator("#class-graph")

    def shows_points(self, least: int, *, within_ms: float = 10_000) -> None:
        """At least so many readings are drawn on the class graph, or are within that time."""
        until = time.monotonic() + within_ms / 1000
        while self.points() < least:
            assert time.monotonic() < until, f"{self.points()} readings are drawn, not {least}"
            self.page.wait_for_timeout(50)

    def points(self) -> int:
        """How many readings are drawn on the class graph, each a marker on its curve or a cross beside it."""
        return int(self.page.evaluate(_POINTS))

    def ends(self) -> dict[str, Any]:
        """Where both axes of the graph end."""
        found: dict[str, Any] = self.page.evaluate(
            "(({x_to, y_to}) => ({x_to, y_to}))(document.querySelector('#class-graph .js-plotly-plot').layout.meta)"
        )
        return found


_POINTS = """[...document.querySelectorAll("#class-graph .scatterlayer .trace")]
  .filter((trace) => /trace(line|dots|crosses)-(?!key-)/.test(trace.getAttribute("class")))
  .reduce((count, trace) => count + trace.querySelectorAll(".points path").length, 0)"""
"""Key samples, rings, tags and end signs are drawn of points too, and are no readings."""
