"""What tests look at on the bench page."""

from app.services.bench_state import BenchState
from tests.page import Page
from tests.reader import Form, Reader


def pad(tablet: Reader, page: Page | None = None) -> Form:
    return tablet.form(page or tablet.get("bench.page"), "pad")


def is_shown(page: Page, element_id: str) -> bool:
    """Whether neither the element nor one around it is hidden."""
    around = [one for one in page.all() if page.one(element_id) in list(one.iter())]
    return all(one.get("hidden") is None for one in around)


def typed_of(state: BenchState) -> list[tuple[int, str, str]]:
    return [(p.reading.step, p.reading.phase, p.reading.pointer_typed) for p in state.cord.points]
