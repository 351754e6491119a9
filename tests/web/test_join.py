"""A tablet takes a bench without a script: by its slip, by the lesson key, on a second tablet; and every wrong code."""

from collections.abc import Callable

import pytest

from app.domain.limits import WRONG_CODES_PER_MINUTE
from app.services.running import put_on_shelf
from app.store.database import Database
from tests.conftest import Clock
from tests.make import MadeLesson, join, make_lesson
from tests.reader import Reader

NewReader = Callable[[], Reader]


@pytest.fixture
def lesson(database: Database) -> MadeLesson:
    """A lesson with the benches Alder and Hazel."""
    return make_lesson(database)


def test_the_slip_code_on_the_first_page_takes_its_bench(reader: Reader, lesson: MadeLesson) -> None:
    form = reader.form(reader.get("public.home"), "Take this bench")
    assert form.fill(code=lesson.slips["Alder"]).send().h1 == "Alder"


@pytest.mark.parametrize("written", [str.lower, lambda code: f" {code[:3]} {code[3:]} "], ids=["small", "spaced"])
def test_a_code_is_taken_in_any_case_and_with_spaces(
    reader: Reader, lesson: MadeLesson, written: Callable[[str], str]
) -> None:
    form = reader.form(reader.get("public.join"), "slip-form")
    assert form.fill(code=written(lesson.slips["Hazel"])).send().h1 == "Hazel"


def test_the_qr_asks_before_it_takes(reader: Reader, lesson: MadeLesson) -> None:
    page = reader.get("public.slip", code=lesson.slips["Alder"])
    assert page.h1 == "Alder"
    assert reader.form(page, "Take this bench").send().h1 == "Alder"


def test_the_lesson_key_shows_the_free_benches_and_takes_one(
    reader: Reader, lesson: MadeLesson, database: Database
) -> None:
    join(database, lesson, bench="Hazel")
    page = reader.form(reader.get("public.join"), "key-form").fill(code=lesson.lesson_key).send()
    assert "Hazel taken" in page.text
    assert reader.form(page, "bench-form").fill(bench="alder").send().h1 == "Alder"


def test_a_bench_taken_meanwhile_is_told_beside_the_benches(
    reader: Reader, lesson: MadeLesson, database: Database
) -> None:
    page = reader.form(reader.get("public.join"), "key-form").fill(code=lesson.lesson_key).send()
    join(database, lesson, bench="Alder")
    page = reader.form(page, "bench-form").fill(bench="alder").send(status=422)
    assert page.words_of("bench-wrong") == "Alder is taken. Type the code on its slip to carry on here."
    assert "Alder taken" in page.text


def test_the_same_slip_on_another_tablet_carries_on_there(new_reader: NewReader, lesson: MadeLesson) -> None:
    first, second = new_reader(), new_reader()
    first.form(first.get("public.slip", code=lesson.slips["Alder"]), "Take this bench").send()
    page = second.get("public.slip", code=lesson.slips["Alder"])
    assert "Another tablet is at this bench." in page.text
    second.form(page, "Carry on here").send()
    assert first.get("bench.page").words_of("next-step") == "Another tablet writes for Alder."
    assert "Hang" in second.get("bench.page").words_of("next-step")
    first.form(first.get("bench.page"), "carry-on").send()
    assert second.get("bench.page").words_of("next-step") == "Another tablet writes for Alder."


def test_a_second_press_takes_no_second_place(reader: Reader, lesson: MadeLesson, database: Database) -> None:
    for _ in range(6):
        reader.form(reader.get("public.join"), "slip-form").fill(code=lesson.slips["Alder"]).send()
    with database.reading() as session:
        from_the_bench = session.connection().exec_driver_sql("SELECT count(*) FROM tablet").scalar()
    assert from_the_bench == 1


@pytest.mark.parametrize(
    "code", ["", "ABC DE", "0000000", "A" * 10_000, "\u2603\U0001f9f5", "ABC\x00DE", "<b>", "%", "ZZZZZZ"]
)
def test_a_wrong_code_has_its_sentence_and_is_kept(reader: Reader, lesson: MadeLesson, code: str) -> None:
    page = reader.post("public.take_by_code", {"code": code}, status=422)
    assert reader.form(page, "slip-form").wrong("code")
    assert page.one("code").get("value", "")[:6] == code[:6].replace("\x00", "")


def test_a_wrong_slip_address_shows_the_join_page(reader: Reader, lesson: MadeLesson) -> None:
    page = reader.get("public.slip", code="ZZZZZZ", status=422)
    assert "No bench or lesson has that code" in page.words_of("code-wrong")


def test_the_code_of_a_lesson_that_is_over_says_so(
    reader: Reader, lesson: MadeLesson, database: Database, clock: Clock
) -> None:
    put_on_shelf(database, lesson.lesson_id, on_shelf=True, own=None, at=clock())
    page = reader.form(reader.get("public.join"), "slip-form").fill(code=lesson.slips["Alder"]).send(status=422)
    assert page.words_of("code-wrong").startswith("That lesson is over.")


def test_too_many_wrong_codes_have_to_wait(reader: Reader, lesson: MadeLesson, clock: Clock) -> None:
    for _ in range(WRONG_CODES_PER_MINUTE):
        reader.post("public.take_by_code", {"code": "ZZZZZZ"}, status=422)
    assert "Too many tries" in reader.post("public.take_by_code", {"code": lesson.slips["Alder"]}, status=429).text
    clock.forward(61)
    reader.post("public.take_by_code", {"code": lesson.slips["Alder"]})


def test_a_tablet_that_holds_a_bench_goes_on_there(reader: Reader, lesson: MadeLesson, database: Database) -> None:
    reader.hold(join(database, lesson).token)
    assert reader.get("public.home").links()["Go on at Alder"] == "/bench"


def test_the_bench_page_sends_a_stranger_to_the_join_page(reader: Reader) -> None:
    assert reader.redirected("bench.page") == "/join"
