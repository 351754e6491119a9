"""The bench slips: word, design, code and a QR code that opens this very slip."""

import pytest

from app.store.database import Database
from app.web.qr import qr_path
from tests.make import MadeLesson, make_lesson
from tests.reader import Reader

WORDS = ["Alder", "Hazel", "Birch", "Cedar", "Maple", "Rowan", "Willow", "Elder", "Larch", "Juniper", "Aspen"]


@pytest.fixture
def database_kind() -> str:
    """The pages are the same on each kind of database."""
    return "sqlite"


@pytest.fixture
def made(database: Database, reader: Reader) -> MadeLesson:
    """A lesson of eleven benches."""
    lesson = make_lesson(database, benches=WORDS)
    reader.sign_in(lesson.teacher)
    return lesson


def test_every_bench_has_its_slip(reader: Reader, made: MadeLesson) -> None:
    page = reader.get("prints.paper", lesson_id=made.lesson_id, name="bench-slips")
    slips = ["".join(item.itertext()) for item in page.all("li")]
    assert len(slips) == len(WORDS)
    for slip, word in zip(slips, WORDS, strict=True):
        code = made.slips[word]
        assert word in slip
        assert f"{code[:3]} {code[3:]}" in slip


def test_ten_slips_are_a_page(reader: Reader, made: MadeLesson) -> None:
    page = reader.get("prints.paper", lesson_id=made.lesson_id, name="bench-slips")
    lists = [sum(item.tag == "li" for item in one) for one in page.all("ul")]
    assert lists == [10, 1]


def test_the_qr_opens_the_slip_where_tablets_find_the_server(
    reader: Reader, made: MadeLesson, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("app.web.nearby.network_address", lambda: "192.168.1.20")
    page = reader.get("prints.paper", lesson_id=made.lesson_id, name="bench-slips")
    assert "Scan it, or open http://192.168.1.20" in page.text
    assert all(qr_path(f"http://192.168.1.20/slip/{made.slips[word]}").d in page.html for word in WORDS)


def test_papers_that_are_not_there_are_not_found(reader: Reader, made: MadeLesson) -> None:
    reader.get("prints.paper", lesson_id=made.lesson_id, name="no-such-paper", status=404)


def test_a_qr_path_draws_every_dark_module() -> None:
    """Counted against segno's own matrix, and the three corners that ISO/IEC 18004 asks for are there."""
    drawn = qr_path("http://192.0.2.10:8000/slip/HQ7K3M")
    cells = {
        (int(x) + step, int(y))
        for run in drawn.d.split("M")[1:]
        for x, y, width in [run.replace("h", " ", 1).split("v")[0].split()]
        for step in range(int(width))
    }
    corner = {(x, y) for x in range(7) for y in range(7) if x in (0, 6) or y in (0, 6)}
    last = drawn.size - 7
    assert corner <= cells
    assert {(x + last, y) for x, y in corner} <= cells
    assert {(x, y + last) for x, y in corner} <= cells
    assert not {(7, y) for y in range(8)} & cells
