"""From a tablet's POST to the pixel on the front screen: `.venv/bin/python -m tests.speed.pixel` prints a table.

Twelve benches, a front screen of 1920 x 1080 in a real Chromium, which finds the server by name as in a school. Every
bench has a curve already; then one reading after another is posted and waited for until the graph was drawn with it
and the frame after that began. `answered` and `heard` (the page knows that there is news) are the floors on the way.
Once as the machine is, once with the page's processor slowed four times, on each kind of database.
"""

import random
import statistics
import tempfile
import time
import urllib.request
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from app.services import running
from tests import make
from tests.browser.conftest import FLAGS, chromium
from tests.browser.server import Server, serving
from tests.databases import KINDS, a_server, an_empty_one
from tests.speed.posting import body_of
from tests.speed.readings import teacher_token

BENCHES = 12
BEFORE = 4
POSTS = 40
SLOWED = (1, 4)
LONGEST_MS = 15_000

# Notes when news was heard, and when a frame with the wanted point in it was on its way to the screen.
WATCH = """() => {
  const drawing = document.querySelector("#class-graph .js-plotly-plot");
  const shows = (wanted) => drawing.data.some((trace) => trace.x.some((x) => Math.abs(x - wanted) < 1e-6));
  window.seen = { wanted: null, heard: 0, drawn: 0 };
  document.addEventListener("ropewalk:news", () => { window.seen.heard = Date.now(); });
  drawing.on("plotly_afterplot", () => {
    if (!window.seen.drawn && window.seen.wanted !== null && shows(window.seen.wanted)) {
      requestAnimationFrame(() => setTimeout(() => { window.seen.drawn = Date.now(); }));
    }
  });
}"""
WANT = "(wanted) => { window.seen = { wanted, heard: 0, drawn: 0 }; }"
DRAWN = """(longest) => new Promise((resolve) => {
  const until = Date.now() + longest;
  const look = () => (window.seen.drawn || Date.now() > until ? resolve(window.seen) : setTimeout(look, 20));
  look();
})"""


@dataclass(frozen=True)
class Way:
    """One reading's way [ms after the POST was sent]."""

    answered: float
    heard: float
    drawn: float


def main() -> None:
    """The table is printed."""
    print(f"{BENCHES} benches, {POSTS} posts a row, ms after the POST was sent: p50 / p95")
    print("| database   | page's processor | answered | heard | on the screen |")
    print("|---|---|---:|---:|---:|")
    for kind in KINDS:
        with _served(kind) as server, sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=chromium(), args=FLAGS)
            for slowed in SLOWED:
                _print(
                    kind, slowed, _measured(server, browser.new_page(viewport={"width": 1920, "height": 1080}), slowed)
                )
            browser.close()


@contextmanager
def _served(kind: str) -> Iterator[Server]:
    with ExitStack() as stack:
        folder = Path(stack.enter_context(tempfile.TemporaryDirectory()))
        url = stack.enter_context(an_empty_one(stack.enter_context(a_server()))) if kind == "postgresql" else None
        server = stack.enter_context(serving(folder, url=url))
        make.make_teacher(server.database, password=make.PASSWORD)
        yield server


def _measured(server: Server, page: Page, slowed: int) -> list[Way]:
    teacher = make.sign_in(server.database)
    words = [f"Bench{letter}" for letter in "abcdefghijkl"]
    rungs_g = [100.0] * (BEFORE + POSTS // BENCHES + 1)
    lesson = make.make_lesson(server.database, teacher=teacher, benches=words, rungs_g=rungs_g)
    benches = [make.join(server.database, lesson, bench=word) for word in words]
    for place, bench in enumerate(benches):
        make.make_readings(server.database, bench, [pointer_mm(place, step) for step in range(BEFORE)])
    running.set_stage(server.database, lesson.lesson_id, {"front_view": "class_graph"}, at=make.MORNING)
    page.goto(f"{server.address}/front/{lesson.front_code}")
    page.wait_for_selector("#class-graph .js-plotly-plot .trace")
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slowed})
    page.evaluate(WATCH)
    time.sleep(1)
    token = teacher_token(server)
    order = [(step, place) for step in range(BEFORE, len(rungs_g)) for place in range(BENCHES)][:POSTS]
    return [_way(server, page, benches[place], place=place, step=step, token=token) for step, place in order]


def pointer_mm(place: int, step: int) -> float:
    """A reading like no other: each bench's cord stretches by a little more than the one before."""
    return round(200 + place + (4 + place / 16) * step, 4)


def _way(server: Server, page: Page, bench: make.JoinedBench, *, place: int, step: int, token: str) -> Way:
    address = f"{server.loopback}/api/v1/lessons/{bench.lesson_id}/benches/{bench.word.lower()}/readings"
    head = {"Content-Type": "application/json", "Authorization": f"Bearer {token}"}
    sent = urllib.request.Request(address, data=body_of(bench.specimen_id, step, pointer_mm(place, step)), headers=head)
    page.evaluate(WANT, pointer_mm(place, step) - pointer_mm(place, 0))
    begun = 1000 * time.time()
    with urllib.request.urlopen(sent) as answer:
        answer.read()
    answered = 1000 * time.time()
    seen = page.evaluate(DRAWN, LONGEST_MS)
    assert seen["drawn"], f"not drawn within {LONGEST_MS / 1000:g} s: {seen}\n{server.output[-2000:]}"
    time.sleep(random.uniform(0.1, 0.4))
    return Way(answered - begun, seen["heard"] - begun, seen["drawn"] - begun)


def _print(kind: str, slowed: int, ways: list[Way]) -> None:
    cells = []
    for what in ("answered", "heard", "drawn"):
        parts = statistics.quantiles([getattr(way, what) for way in ways], n=20)
        cells.append(f"{parts[9]:.0f} / {parts[18]:.0f}")
    processor = "as it is" if slowed == 1 else f"slowed {slowed}x"
    print(f"| {kind:10} | {processor} | {' | '.join(cells)} |")


if __name__ == "__main__":
    main()
