"""The bench page without a script: what is typed wrong has a sentence, stays, and breaks nothing."""

from collections.abc import Callable
from urllib.parse import urlencode

import pytest

from app.services.bench_state import BenchState
from app.store.database import Database
from tests.make import (
    JoinedBench,
    make_readings,
)
from tests.reader import Reader
from tests.web.bench.reading import pad, typed_of

NOT_NUMBERS = ["", "two", "1e999", "1,2,3", "--3", "NaN", "\U0001f9f5", "12\x00", "9" * 10_000, "0x10"]

OUTSIDE = ["10001", "-10000,5", "99999999999999999999"]


AN_ID = "3f6c2d70-6f0e-4f7e-9a9b-5a7a3d0f8c11"


@pytest.mark.parametrize("typed", NOT_NUMBERS + OUTSIDE)
def test_what_is_no_number_has_a_sentence_and_stays(
    tablet: Reader, stands: Callable[[], BenchState], typed: str
) -> None:
    page = pad(tablet).fill(pointer_typed=typed).send("Save the zero", status=422)
    form = tablet.form(page, "pad")
    assert form.wrong("pointer_typed")
    assert form["pointer_typed"] == typed[:600].replace("\x00", "")
    assert not stands().cord.points


def test_a_wrong_measure_keeps_everything_and_stores_nothing(tablet: Reader, stands: Callable[[], BenchState]) -> None:
    values = {"typed.free_length_mm": "thirty", "typed.strip_width_mm": "25", "pointer_typed": "183"}
    page = pad(tablet).fill(values).send("Save the zero", status=422)
    form = tablet.form(page, "pad")
    assert (
        form.wrong("typed.free_length_mm")
        == "Numbers only, please, without the unit. A comma or a point may stand in it."
    )
    assert (form["typed.free_length_mm"], form["pointer_typed"]) == ("thirty", "183")
    assert not stands().cord.points
    assert not stands().specimen.measures


def test_a_page_used_before_says_so_and_keeps_what_was_typed(tablet: Reader, stands: Callable[[], BenchState]) -> None:
    form = pad(tablet).fill(pointer_typed="218")
    form.send("Save the zero")
    page = form.fill(pointer_typed="219").send("Save the zero", status=409)
    assert "That page was used before" in page.words_of("notice")
    assert "219" in page.words_of("notice")
    assert typed_of(stands()) == [(0, "zero", "218")]


@pytest.mark.parametrize("kinds", [[], ["other_mass"]])
def test_an_event_that_says_too_little_is_asked_for(
    tablet: Reader, database: Database, bench: JoinedBench, kinds: list[str]
) -> None:
    make_readings(database, bench, (218, 222))
    form = pad(tablet)
    page = tablet.post("bench.enter", {**form.values, "kind": kinds, "pointer_typed": "230"}, noun="events", status=422)
    assert page.words_of("mark-why" if kinds else "kind-why")
    assert pad(tablet, page)["pointer_typed"] == "230"


@pytest.mark.parametrize("noun", ["readings", "events", "endings", "measures", "specimens", "rulings", "ticks"])
@pytest.mark.parametrize("value", ["", "\x00", "\U0001f9f5", "x" * 1_000, "1e999", "-1", "../..", AN_ID])
def test_no_form_breaks_the_server(tablet: Reader, noun: str, value: str) -> None:
    names = (
        "entry_id", "specimen_id", "step", "phase", "turn", "pointer_typed", "pointer_unit", "waited_s", "kind", "mark",
        "words", "fail_step", "place", "look", "quantity", "typed", "unit", "replaces", "reason", "about", "detail",
        "what", "on", "ticks", "same_maker", "hung", "panel", "typed.free_length_mm", "from_top_knot_mm", "remark",
    )  # fmt: skip
    token = tablet.token()
    answer = tablet.answer("POST", f"/bench/{noun}", data={"csrf_token": token, **dict.fromkeys(names, value)})
    assert answer.status_code in (303, 403, 404, 409, 422)


@pytest.mark.parametrize(
    "query",
    [
        {"show": "change", "about": "nothing"},
        {"show": "again"},
        {"show": "x"},
        {"hung": "99"},
        {"typed": "\x07\U0001f9f5"},
    ],
)
def test_an_odd_address_shows_the_page(tablet: Reader, query: dict[str, str]) -> None:
    assert tablet.get("/bench?" + urlencode(query)).h1 == "Alder"


def test_a_form_that_is_none_is_not_found(tablet: Reader) -> None:
    assert tablet.answer("POST", "/bench/nothing", data={"csrf_token": tablet.token()}).status_code == 404
