"""Pictures of every page, made by one command: `python -m tests.browser.pictures FOLDER [NAME ...]`.

Every page at 360 x 740, 600 x 960, 1024 x 768 and 1280 x 800, light and dark; the front screen at 1024 x 768 and
1920 x 1080. NAME limits it to pages whose name begins so.
"""

import os
import shutil
import sys
from collections.abc import Iterable
from pathlib import Path
from tempfile import TemporaryDirectory

from playwright.sync_api import Browser, sync_playwright

from tests.browser.conftest import CHROMIUMS, FLAGS
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
from tests.browser.server import serving

SIZES = ((360, 740), (600, 960), (1024, 768), (1280, 800))
FRONT_SIZES = ((1024, 768), (1920, 1080))
MOST_TALL = 2400


def main() -> None:
    """The pictures lie in the folder that was named."""
    folder, wanted = Path(sys.argv[1]), tuple(sys.argv[2:])
    folder.mkdir(parents=True, exist_ok=True)
    found = os.environ.get("ROPEWALK_CHROMIUM") or next(filter(None, map(shutil.which, CHROMIUMS)))
    with TemporaryDirectory() as data, serving(Path(data)) as server, sync_playwright() as playwright:
        demo = load(server.database)
        browser = playwright.chromium.launch(executable_path=found, args=FLAGS)
        for theme in ("light", "dark"):
            for size in SIZES:
                _round(browser, server.address, demo, folder, wanted, size=size, theme=theme)
        for size in FRONT_SIZES:
            _visit(browser, server.address, for_front(demo), folder, wanted, size=size, theme="light", teacher=False)
        browser.close()


def _round(
    browser: Browser,
    address: str,
    demo: Demo,
    folder: Path,
    wanted: tuple[str, ...],
    *,
    size: tuple[int, int],
    theme: str,
) -> None:
    free_tablets(demo)
    for stops, teacher in ((for_anyone(demo), False), (for_teacher(demo), True), (for_bench(demo), False)):
        _visit(browser, address, stops, folder, wanted, size=size, theme=theme, teacher=teacher)


def _visit(
    browser: Browser,
    address: str,
    stops: Iterable[Stop],
    folder: Path,
    wanted: tuple[str, ...],
    *,
    size: tuple[int, int],
    theme: str,
    teacher: bool,
) -> None:
    width, height = size
    look = {"viewport": {"width": width, "height": height}, "color_scheme": theme, "reduced_motion": "reduce"}
    context = browser.new_context(base_url=address, **look)
    page = context.new_page()
    page.set_default_timeout(10_000)
    if teacher:
        sign_in(page)
    for stop in stops:
        if wanted and not stop.name.startswith(wanted):
            continue
        stop.go(page)
        page.wait_for_timeout(150)
        tall = page.evaluate("document.documentElement.scrollHeight")
        whole = height < tall <= MOST_TALL and not stop.name.startswith("bench")
        page.screenshot(path=folder / f"{stop.name}-{width}x{height}-{theme}.png", full_page=whole)
        print(stop.name, width, height, theme, "scrolls" if tall > height else "fits")
    context.close()


if __name__ == "__main__":
    main()
