"""What axe-core finds wrong with a page; its source is evaluated in the page, which a strict CSP lets pass."""

from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from playwright.sync_api import Page


@dataclass(frozen=True)
class Violation:
    """One rule that a page breaks, and where."""

    rule: str
    words: str
    where: tuple[str, ...]

    def __str__(self) -> str:
        return f"{self.rule}: {self.words} at {'; '.join(self.where)}"


@cache
def _axe() -> str:
    return files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")


def violations(page: Page) -> list[Violation]:
    """Everything that axe-core, with its own default rules, finds on the page as it stands."""
    page.evaluate(_axe())
    found = page.evaluate("async () => (await axe.run(document)).violations")
    return [
        Violation(
            rule=one["id"],
            words=one["help"],
            where=tuple(f"{' '.join(map(str, node['target']))} ({node['failureSummary']})" for node in one["nodes"]),
        )
        for one in found
    ]


def check_accessible(page: Page) -> None:
    """Nothing is found; else a failure that says what and where."""
    found = violations(page)
    assert not found, f"{page.url}:\n" + "\n".join(map(str, found))
