"""Looks over a browser's shoulder: what it asked of strangers, and what its scripts complained about."""

import re
from collections.abc import Callable
from urllib.parse import urlsplit

from playwright.sync_api import BrowserContext, ConsoleMessage, Page, Request

HARMLESS_SCHEMES = ("data", "blob", "about")


class Watch:
    """Every request and complaint of one browser context."""

    def __init__(self, context: BrowserContext, address: str) -> None:
        self._own = urlsplit(address).netloc
        self._allowed: list[re.Pattern[str]] = []
        self.outside: list[str] = []
        self.complaints: list[str] = []
        context.on("request", self._asked)
        context.on("page", self._opened)

    def allow(self, pattern: str) -> None:
        """Complaints that fit are part of the test, as of a network that the test takes away."""
        self._allowed.append(re.compile(pattern))

    def check(self) -> None:
        """Nothing was asked of a stranger, and no script complained."""
        assert not self.outside, f"asked of strangers: {self.outside}"
        bad = [said for said in self.complaints if not any(pattern.search(said) for pattern in self._allowed)]
        assert not bad, f"the browser complained: {bad}"

    def _asked(self, request: Request) -> None:
        parts = urlsplit(request.url)
        if parts.scheme not in HARMLESS_SCHEMES and parts.netloc != self._own:
            self.outside.append(request.url)

    def _opened(self, page: Page) -> None:
        page.on("console", self._said)
        page.on("pageerror", lambda error: self.complaints.append(f"{page.url}: {error}"))

    def _said(self, message: ConsoleMessage) -> None:
        if message.type in ("error", "warning"):
            self.complaints.append(f"{message.text} ({message.location.get('url', '')})")


NewTablet = Callable[..., Page]
"""Opens a page in a context of its own; see the fixture `new_tablet`."""
