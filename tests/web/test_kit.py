"""What the lesson sheet leads to: benches by hand, the ladder rung by rung, the balance check."""

import pytest

from app.services.lessons import slip_codes
from app.store.database import Database
from tests.make import MadeLesson, join, make_lesson, make_reading, record_of
from tests.page import Page
from tests.reader import Form, Reader


@pytest.fixture
def database_kind() -> str:
    """The pages are the same on each kind of database; the verbs below them are tested on both."""
    return "sqlite"


@pytest.fixture
def made(database: Database, reader: Reader) -> MadeLesson:
    """A lesson of the teacher who reads: two designs, two benches, five rungs."""
    lesson = make_lesson(database)
    reader.sign_in(lesson.teacher)
    return lesson


BUTTONS = {
    "sheet.benches": "Save the benches",
    "sheet.ladder": "Save the ladder",
    "sheet.weigh": "Save what was weighed",
}


def opened(reader: Reader, made: MadeLesson, place: str, page: Page | None = None) -> Form:
    return reader.form(page or reader.get(place, lesson_id=made.lesson_id), BUTTONS[place])


def test_two_benches_swap_words_and_keep_their_slips(database: Database, reader: Reader, made: MadeLesson) -> None:
    before = slip_codes(database, made.lesson_id)
    form = opened(reader, made, "sheet.benches")
    form.fill({"Word of bench 1": "Hazel", "Word of bench 2": "Alder"}).send()
    lesson = record_of(database, made)
    assert [bench.word for bench in lesson.benches] == ["Hazel", "Alder"]
    assert slip_codes(database, made.lesson_id) == before


def test_a_bench_gets_another_design_and_its_cord_goes_along(
    database: Database, reader: Reader, made: MadeLesson
) -> None:
    make_reading(database, join(database, made))
    form = opened(reader, made, "sheet.benches")
    form.fill({"Design of bench 1": "B", "Kind of bench 1": "catch-up"}).send()
    lesson = record_of(database, made)
    bench = lesson.benches[0]
    assert (lesson.design(bench.design_id).letter, bench.kind) == ("B", "catch_up")
    assert lesson.design(bench.specimens[0].design_id).letter == "B"


@pytest.mark.parametrize("word", ["", "two words", "Hazel", "hazel", "w" * 21, "a\x00b", "3rd", "🪢", "../x"])
def test_a_word_that_can_t_be_is_told_beside_it(reader: Reader, made: MadeLesson, word: str) -> None:
    form = opened(reader, made, "sheet.benches").fill({"Word of bench 1": word, "Kind of bench 2": "pilot"})
    page = form.send(status=422)
    again = opened(reader, made, "sheet.benches", page)
    assert again.wrong("Word of bench 1")
    assert again["benches-1-kind"] == "pilot"


def test_a_rung_more_with_a_mass_of_its_own(database: Database, reader: Reader, made: MadeLesson) -> None:
    page = opened(reader, made, "sheet.ladder").send("One rung more")
    form = opened(reader, made, "sheet.ladder", page)
    form.fill({"Name of number 6": "tin", "Printed mass of number 6, g": "412,5", "rungs-5-printed_kind": "net"})
    form.send("Save the ladder")
    rung = record_of(database, made).rungs[5]
    assert (rung.mark, rung.name, rung.printed_mass_g, rung.printed_kind) == (6, "tin", 412.5, "net")


@pytest.mark.parametrize("typed", ["abc", "-5", "0", "60000", "1e999", "🪢", "9" * 10_000, "1\x00"])
def test_a_bad_printed_mass_loses_nothing(database: Database, reader: Reader, made: MadeLesson, typed: str) -> None:
    form = opened(reader, made, "sheet.ladder").fill({"Name of number 1": "tin", "rungs-0-printed_mass_g": typed})
    again = opened(reader, made, "sheet.ladder", form.send("Save the ladder", status=422))
    assert again.wrong("rungs-0-printed_mass_g")
    assert again["rungs-0-name"] == "tin"
    assert record_of(database, made).rungs[0].name == "pouch 1"


def weigh(form: Form, *masses: str) -> Form:
    return form.fill({f"masses-{place}": mass for place, mass in enumerate(masses)})


def test_the_balance_says_what_counts(database: Database, reader: Reader, made: MadeLesson) -> None:
    form = weigh(opened(reader, made, "sheet.weigh"), "86", "99", "106,5")
    page = form.fill(balance_division_g="0,5").send()
    lines = [row[:3] + row[4:] for row in _rows(page)]
    assert lines[0] == ["–", "hanger", "", "", ""]
    assert lines[1] == ["1", "pouch 1", "102", "−3.0", "−2.9 look"]
    assert lines[2] == ["2", "pouch 2", "102", "+4.5", "+4.4 look"]
    assert "Not weighed yet, so counted by label: numbers 3 to 5." in page.text
    weighings = record_of(database, made).weighings
    assert [(one.mark, one.mass_g, one.balance_division_g) for one in weighings] == [
        (0, 86.0, 0.5),
        (1, 99.0, 0.5),
        (2, 106.5, 0.5),
    ]


def _rows(page: Page) -> list[list[str]]:
    return [
        [" ".join("".join(cell.itertext()).split()) for cell in row if cell.tag in ("td", "th")]
        for body in page.all("tbody")
        for row in body
    ]


def test_the_same_submit_twice_weighs_once(database: Database, reader: Reader, made: MadeLesson) -> None:
    form = weigh(opened(reader, made, "sheet.weigh"), "86", "99")
    form.send()
    form.send()
    assert len(record_of(database, made).weighings) == 2


def test_only_what_changed_is_weighed_again(database: Database, reader: Reader, made: MadeLesson) -> None:
    weigh(opened(reader, made, "sheet.weigh"), "86", "99").send()
    weigh(opened(reader, made, "sheet.weigh"), "86", "98").send()
    assert [(one.mark, one.mass_g) for one in record_of(database, made).weighings] == [(0, 86), (1, 99), (1, 98)]


def test_a_bench_s_own_tray(database: Database, reader: Reader, made: MadeLesson) -> None:
    page = reader.get(reader.address("sheet.weigh", lesson_id=made.lesson_id, tray="hazel"))
    weigh(opened(reader, made, "sheet.weigh", page), "112").send()
    lesson = record_of(database, made)
    hazel = lesson.bench("hazel")
    assert hazel is not None
    assert [(one.bench_id, one.mass_g) for one in lesson.weighings] == [(hazel.id, 112.0)]


@pytest.mark.parametrize("typed", ["abc", "-5", "0", "60000", "1e999", "🪢", "9" * 10_000, "1\x00", "1.2.3"])
def test_a_bad_mass_loses_nothing(database: Database, reader: Reader, made: MadeLesson, typed: str) -> None:
    form = weigh(opened(reader, made, "sheet.weigh"), "86", typed, "100")
    again = opened(reader, made, "sheet.weigh", form.send(status=422))
    assert again.wrong("masses-1")
    assert (again["masses-0"], again["masses-2"]) == ("86", "100")
    assert not record_of(database, made).weighings


def test_what_was_weighed_is_not_wiped_out(database: Database, reader: Reader, made: MadeLesson) -> None:
    weigh(opened(reader, made, "sheet.weigh"), "86").send()
    page = weigh(opened(reader, made, "sheet.weigh"), "").send(status=422)
    assert "It was weighed before: 86 g." in opened(reader, made, "sheet.weigh", page).wrong("masses-0")


def test_a_tray_shows_what_was_weighed_for_every_bench(database: Database, reader: Reader, made: MadeLesson) -> None:
    weigh(opened(reader, made, "sheet.weigh"), "86", "99", "101", "205", "203").send()
    page = reader.get(reader.address("sheet.weigh", lesson_id=made.lesson_id, tray="hazel"))
    form = opened(reader, made, "sheet.weigh", page)
    assert "Not weighed yet for this tray, so counted by label: number 5." in page.text
    assert form["masses-1"] == ""
    assert page.one("masses-1").get("placeholder") == "99"
