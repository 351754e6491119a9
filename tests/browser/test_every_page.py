"""Every page, in the states that a class sees: axe-core finds nothing, and nothing runs out of the window sideways."""

from collections.abc import Iterable, Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from tests.browser.accessibility import violations
from tests.browser.every_page import (
    Demo,
    Stop,
    for_anyone,
    for_bench,
    for_front,
    for_teacher,
    free_tablets,
    load,
    sign_in,
)
from tests.browser.server import Server, serving

LOOKS = [(360, 740, "light"), (600, 960, "dark"), (1024, 768, "dark"), (1280, 800, "light")]


@pytest.fixture(scope="module")
def shown(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Server, Demo]]:
    """A server of its own with the demo lessons."""
    with serving(tmp_path_factory.mktemp("every-page")) as server:
        yield server, load(server.database)


def _context(browser: Browser, address: str, width: int, height: int, theme: str) -> BrowserContext:
    look = {"viewport": {"width": width, "height": height}, "color_scheme": theme, "reduced_motion": "reduce"}
    context = browser.new_context(base_url=address, **look)
    context.set_default_timeout(10_000)
    return context


def _faults(page: Page, stops: Iterable[Stop]) -> list[str]:
    faults = []
    for stop in stops:
        stop.go(page)
        faults += [f"{stop.name}: {one}" for one in violations(page)]
        wide = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
        faults += [f"{stop.name}: {wide} px wider than the window"] if wide > 0 else []
    return faults


@pytest.mark.parametrize(("width", "height", "theme"), LOOKS)
def test_pages_are_accessible_and_fit(
    browser: Browser, shown: tuple[Server, Demo], *, width: int, height: int, theme: str
) -> None:
    server, demo = shown
    free_tablets(demo)
    faults = []
    for stops, teacher in ((for_anyone(demo), False), (for_teacher(demo), True), (for_bench(demo), False)):
        context = _context(browser, server.address, width, height, theme)
        page = context.new_page()
        if teacher:
            sign_in(page)
        faults += _faults(page, stops)
        context.close()
    assert not faults, "\n".join(faults)


@pytest.mark.parametrize(("width", "height"), [(1024, 768), (1920, 1080)])
def test_front_screen_is_accessible_and_fits(
    browser: Browser, shown: tuple[Server, Demo], *, width: int, height: int
) -> None:
    server, demo = shown
    context = _context(browser, server.address, width, height, "light")
    faults = _faults(context.new_page(), for_front(demo))
    context.close()
    assert not faults, "\n".join(faults)
