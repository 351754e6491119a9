"""Look-again notes over /api/v1: asked with the answer, never a refusal; a bench's are its own and the teacher's."""

from typing import Any

from app.store.database import Database
from tests.make import join, make_readings
from tests.web.api.outside import Class, Outside, entry, reading


def _send(outside: Outside, a_class: Class, body: dict[str, Any]) -> dict[str, Any]:
    heard = outside.post(f"{a_class.bench}/readings", body, token=a_class.tablet)
    assert heard.status == 201
    return dict(heard.body)


def test_an_odd_number_is_kept_and_asked_about(outside: Outside, a_class: Class) -> None:
    for step, typed in enumerate(("218", "222")):
        assert _send(outside, a_class, reading(step, typed))["look_again"] == []
    body = reading(2, "22,6")
    heard = _send(outside, a_class, body)
    note = {
        "note": 1,
        "severity": "stop",
        "words": "Last time the pointer was at 222\u00a0mm, now at 22.6\u00a0mm. "
        "Is 22.6 in centimetres? Then it is 226\u00a0mm.",
        "likely_mm": 226.0,
        "about": body["entry_id"],
    }
    assert (heard["pointer_mm"], heard["state"], heard["look_again"]) == (22.6, "stands", [note])
    again = outside.post(f"{a_class.bench}/readings", body, token=a_class.tablet)
    assert (again.status, again.body["look_again"]) == (200, [note])
    assert outside.get(a_class.bench, token=a_class.tablet).body["look_again"] == [note]
    picture = outside.get(f"{a_class.at}/class-picture", token=a_class.teacher).body
    assert picture["specimens"][0]["look_again"] == [note]
    assert [row["look_again"] for row in picture["pace"]] == [1, 0]


def test_putting_it_right_closes_it_and_keeps_what_was_typed(outside: Outside, a_class: Class) -> None:
    for step, typed in enumerate(("218", "222")):
        _send(outside, a_class, reading(step, typed))
    odd = _send(outside, a_class, reading(2, "22,6"))["entry_id"]
    mended = reading(2, "22,6", pointer_unit="cm", replaces=odd, reason="unit")
    heard = _send(outside, a_class, mended)
    assert (heard["pointer_mm"], heard["look_again"]) == (226.0, [])
    told = outside.get(a_class.bench, token=a_class.tablet).body["readings"]
    assert [one["pointer_typed"] for one in told if one["step"] == 2] == ["22,6", "22,6"]


def test_an_answer_closes_a_note(outside: Outside, a_class: Class) -> None:
    for step, typed in enumerate(("218", "223")):
        _send(outside, a_class, reading(step, typed))
    about = _send(outside, a_class, reading(2, "223"))["look_again"][0]["about"]
    answer = entry(kind="note_answer", about=about, detail="it_is_right")
    heard = outside.post(f"{a_class.bench}/rulings", answer, token=a_class.tablet)
    assert (heard.status, heard.body["look_again"]) == (201, [])
    assert outside.get(a_class.bench, token=a_class.tablet).body["look_again"] == []


def test_what_is_for_the_teacher_goes_to_no_bench(outside: Outside, a_class: Class, database: Database) -> None:
    make_readings(database, a_class.alder, (218, 222, 227, 231, 236), every_s=2.0)
    assert outside.get(a_class.bench, token=a_class.tablet).body["look_again"] == []
    told = outside.get(a_class.bench, token=a_class.teacher).body["look_again"]
    assert [(note["note"], note["severity"]) for note in told] == [(22, "teacher")]
    pace = outside.get(f"{a_class.at}/class-picture", token=a_class.teacher).body["pace"]
    assert [row["look_again"] for row in pace] == [1, 0]


def test_nobody_else_sees_a_benchs_doubts(outside: Outside, a_class: Class, database: Database) -> None:
    hazel = join(database, a_class.lesson, bench="Hazel")
    for step, typed in enumerate(("218", "22.2")):
        _send(outside, a_class, reading(step, typed))
    outside.post(f"{a_class.at}/stage", {"graph_open": True}, token=a_class.teacher)
    for token in (hazel.token, a_class.front):
        picture = outside.get(f"{a_class.at}/class-picture", token=token).body
        assert [cord["look_again"] for cord in picture["specimens"]] == [[]]
    assert len(outside.get(a_class.bench, token=a_class.tablet).body["look_again"]) == 1
