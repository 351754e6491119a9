"""A real server and a real Chromium: one of each a session, a browser context of its own for each tablet."""

import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright
from sqlalchemy import URL

from tests.browser.server import NAME, Server, serving
from tests.browser.watching import NewTablet, Watch
from tests.databases import KINDS, an_empty_one

WAIT_MS = 10_000
CHROMIUMS = ("chromium", "chromium-browser", "google-chrome")
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    f"--host-resolver-rules=MAP {NAME} 127.0.0.1",
]


def chromium() -> str:
    """Where the Chromium of this computer is; fails with a sentence when there is none."""
    named = os.environ.get("ROPEWALK_CHROMIUM") or next(filter(None, map(shutil.which, CHROMIUMS)), None)
    assert named, "No Chromium was found: install the package chromium, or set ROPEWALK_CHROMIUM to where one is."
    return shutil.which(named) or named


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Chromium, started once."""
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=chromium(), args=FLAGS)
        yield started
        started.close()


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """A server on SQLite for the whole session: each test makes a teacher and lessons of its own."""
    with serving(tmp_path_factory.mktemp("served") / "data") as running:
        yield running


@pytest.fixture(params=KINDS)
def each_server(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Server]:
    """A fresh server on each kind of database: for whole journeys."""
    with ExitStack() as stack:
        url: URL | None = None
        if request.param == "postgresql":
            url = stack.enter_context(an_empty_one(request.getfixturevalue("postgres_server")))
        yield stack.enter_context(serving(tmp_path / "data", url=url))


@pytest.fixture
def open_context(browser: Browser) -> Iterator[Callable[..., tuple[BrowserContext, Watch]]]:
    """Opens contexts on a server's address, each watched until the test ends; then nothing bad may have been seen."""
    opened: list[tuple[BrowserContext, Watch]] = []

    def open_one(
        address: str,
        *,
        width: int = 800,
        height: int = 1280,
        touch: bool = True,
        scripts: bool = True,
        dark: bool = False,
    ) -> tuple[BrowserContext, Watch]:
        context = browser.new_context(
            base_url=address,
            viewport={"width": width, "height": height},
            has_touch=touch,
            java_script_enabled=scripts,
            color_scheme="dark" if dark else "light",
            reduced_motion="reduce",
            service_workers="block",
        )
        context.set_default_timeout(WAIT_MS)
        opened.append((context, Watch(context, address)))
        return opened[-1]

    yield open_one
    for context, _ in opened:
        context.close()
    for _, watch in opened:
        watch.check()


@pytest.fixture
def new_tablet(open_context: Callable[..., tuple[BrowserContext, Watch]], server: Server) -> NewTablet:
    """Opens a page in a context of its own on the session's server; the keywords are those of `open_context`.

    `allow` (a pattern) names complaints that are part of the test.
    """

    def open_page(*, allow: str | None = None, **looks: int | bool) -> Page:
        context, watch = open_context(server.address, **looks)
        if allow:
            watch.allow(allow)
        return context.new_page()

    return open_page
