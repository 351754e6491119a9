"""What is sent wrong over /api/v1: a problem with a plain sentence for each field, never a 500."""

import json
import re
from typing import Any

from app.domain.limits import BODY_BYTES
from tests.make import new_id
from tests.web.api.outside import Class, Heard, Outside, entry, reading

JARGON = re.compile(r"pydantic|input should|validation|\bnull\b|\bstr\b|\bint\b|ctx|literal|dict|json_|_type", re.I)

READINGS: list[tuple[str, Any]] = [
    ("pointer_typed", ""),
    ("pointer_typed", "twelve"),
    ("pointer_typed", "1e999"),
    ("pointer_typed", "12 345 678 901 234 567 890"),
    ("pointer_typed", "x" * 10_000),
    ("pointer_typed", "218\x00"),
    ("pointer_typed", "🪢"),
    ("pointer_typed", "-10000,1"),
    ("pointer_typed", 218),
    ("pointer_typed", None),
    ("pointer_typed", ["218"]),
    ("pointer_unit", "inch"),
    ("step", -1),
    ("step", 61),
    ("step", 1.5),
    ("step", "1"),
    ("step", True),
    ("step", 10**400),
    ("step", None),
    ("phase", "loading"),
    ("phase", 7),
    ("turn", 0),
    ("turn", 10),
    ("waited_s", -1),
    ("waited_s", 3_601),
    ("waited_s", "20"),
    ("age_s", -0.1),
    ("age_s", 30 * 86_400 + 1),
    ("tablet_time", "yesterday"),
    ("tablet_time", "2026-03-12T09:41:20"),
    ("tablet_time", "0001-01-01T00:00:00+05:00"),
    ("tablet_time", "9999-12-31T23:59:59-05:00"),
    ("tablet_time", 1_700_000_000),
    ("entry_id", "1"),
    ("entry_id", new_id().upper()),
    ("entry_id", new_id() + "\n"),
    ("specimen_id", "1"),
    ("replaces", 5),
    ("reason", "x" * 81),
    ("reason", "a\x00b"),
    ("pointer_mm", 218.0),
    ("__class__", "x"),
]


def _refused(heard: Heard, field: str, sent: Any) -> None:
    """Nothing, when what was sent is refused with a plain sentence for that field."""
    assert heard.problem == "invalid-entry", f"{field} as {str(sent)[:80]!r}: {heard.body}"
    assert field in heard.faults, f"{field} as {str(sent)[:80]!r}: {heard.faults}"
    words = heard.faults[field]
    assert words.endswith((".", "?"))
    assert words[0].isupper()
    assert not JARGON.search(words), words


def test_a_wrong_reading_is_a_sentence_beside_its_field(outside: Outside, a_class: Class) -> None:
    for field, value in READINGS:
        heard = outside.post(f"{a_class.bench}/readings", {**reading(1, "222"), field: value}, token=a_class.tablet)
        _refused(heard, field, value)
    assert outside.get(a_class.bench, token=a_class.tablet).body["readings"] == []


ENTRIES: list[tuple[str, dict[str, Any], str]] = [
    ("specimens", entry(reason="x" * 81), "reason"),
    ("specimens", entry(same_maker="yes"), "same_maker"),
    ("specimens", entry(replaces=new_id()), "replaces"),
    ("measures", entry(quantity="weight", typed="3"), "quantity"),
    ("measures", entry(quantity="strands", typed="0"), "typed"),
    ("measures", entry(quantity="strands", typed="3", unit="mm"), "unit"),
    ("measures", entry(quantity="room_c", typed="80", unit="C"), "typed"),
    ("events", entry(kind="sneezed"), "kind"),
    ("events", entry(kind="other_mass", step=3), "mark"),
    ("events", entry(kind="pause", words="x" * 81), "words"),
    ("endings", entry(kind="broke"), "kind"),
    ("endings", entry(kind="broke_adding", place="above"), "place"),
    ("endings", entry(kind="broke_adding", remark="x" * 121), "remark"),
    ("endings", entry(kind="broke_adding", hung_s=-1), "hung_s"),
    ("predictions", entry(break_force_N=-1.0), "break_force_N"),
    ("predictions", entry(break_force_n=5.0), "break_force_n"),
    ("predictions", entry(best_design="Z"), "best_design"),
    ("predictions", entry(shape="round"), "shape"),
    ("rulings", entry(kind="left_out", about=new_id()), "reason"),
    ("rulings", entry(kind="counts", about="x"), "about"),
    ("rulings", entry(kind="note_answer", about=new_id(), detail="perhaps"), "detail"),
    ("rulings", entry(kind="straight_part", about=new_id(), detail={"first_step": 1}), "detail.last_step"),
    ("ticks", {"what": "hat", "on": True}, "what"),
    ("ticks", {"what": "tray", "on": 1}, "on"),
]


def test_a_wrong_entry_is_a_sentence_beside_its_field(outside: Outside, a_class: Class) -> None:
    for noun, body, field in ENTRIES:
        _refused(outside.post(f"{a_class.bench}/{noun}", body, token=a_class.tablet), field, body)


def test_every_fault_is_told_at_once(outside: Outside, a_class: Class) -> None:
    heard = outside.post(f"{a_class.bench}/readings", {"step": "x", "phase": "y"}, token=a_class.tablet)
    assert set(heard.faults) == {"entry_id", "step", "phase", "pointer_typed"}


def test_a_number_without_end_is_refused(outside: Outside, a_class: Class) -> None:
    for number in ("1e999", "-1e999", "NaN", "Infinity", "-Infinity", "1" + "0" * 400):
        field = "waited_s"
        body = json.dumps({**reading(0, "218"), field: 0}).replace(f'"{field}": 0', f'"{field}": {number}')
        sent = {"data": body, "content_type": "application/json"}
        _refused(outside.post(f"{a_class.bench}/readings", token=a_class.tablet, **sent), field, number)


NOT_JSON = [
    b"",
    b"{",
    b"step=1",
    b"\xff\xfe",
    b'{"step": 1,}',
    b'{"words": "\\ud800"}',
    b"[" * 5_000,
    b"\xef\xbb\xbf{}",
]


def test_what_is_not_json_is_said_so(outside: Outside, a_class: Class) -> None:
    for data in NOT_JSON:
        sent = {"data": data, "content_type": "application/json"}
        heard = outside.post(f"{a_class.bench}/readings", token=a_class.tablet, **sent)
        assert heard.problem == "not-json", data[:20]


def test_json_that_is_no_object_is_refused(outside: Outside, a_class: Class) -> None:
    for data in ("[]", '"x"', "5", "null", "true"):
        sent = {"data": data, "content_type": "application/json"}
        _refused(outside.post(f"{a_class.bench}/readings", token=a_class.tablet, **sent), "", data)


def test_the_wrong_kind_of_content_is_said_so(outside: Outside, a_class: Class) -> None:
    for kind in ("text/plain", "application/x-www-form-urlencoded", "", "text/json"):
        sent = {"data": json.dumps(reading(0, "218")), "content_type": kind}
        assert outside.post(f"{a_class.bench}/readings", token=a_class.tablet, **sent).problem == "wrong-kind", kind


def test_a_charset_may_be_said(outside: Outside, a_class: Class) -> None:
    sent = {"data": json.dumps(reading(0, "218")), "content_type": "application/json; charset=utf-8"}
    assert outside.post(f"{a_class.bench}/readings", token=a_class.tablet, **sent).status == 201


def test_too_much_at_once_is_refused(outside: Outside, a_class: Class) -> None:
    heard = outside.post(f"{a_class.bench}/readings", {"step": "x" * BODY_BYTES}, token=a_class.tablet)
    assert heard.problem == "too-large"


def test_what_there_is_not_is_said_in_one_shape(outside: Outside, a_class: Class) -> None:
    assert outside.get("/nothing").problem == "not-found"
    assert outside.ask("DELETE", "/join").problem == "wrong-method"
    for lesson in ("x", "%00", "%ff", "é" * 300, new_id()):
        assert outside.get(f"/lessons/{lesson}", token=a_class.teacher).problem == "not-found"
        assert outside.get(f"/lessons/{lesson}/class-picture", token=a_class.front).problem == "not-found"
    assert outside.get(f"{a_class.at}/benches/%00", token=a_class.teacher).problem == "not-found"
    assert outside.get(f"{a_class.at}/changes?front=%00").problem == "not-found"


QUESTIONS = [
    ("changes?after=-1", "after"),
    ("changes?after=x", "after"),
    ("changes?after=99999999999999999999", "after"),
    ("changes?wait_s=1e999", "wait_s"),
    ("changes?wait_s=nan", "wait_s"),
    ("changes?unsent=-1", "unsent"),
    ("class-graph?view=pie", "view"),
    ("class-graph?view=one_bench", "bench"),
    ("class-graph?x=time", "x"),
    ("class-graph?theme=pink", "theme"),
    ("class-graph?x_to=0", "x_to"),
]


def test_a_wrong_question_is_a_sentence_beside_its_field(outside: Outside, a_class: Class) -> None:
    for query, field in QUESTIONS:
        _refused(outside.get(f"{a_class.at}/{query}", token=a_class.teacher), field, query)
