"""The class CSV of /api/v1, fed to `analyse`, tells what the class picture of /api/v1 tells, field for field."""

from datetime import UTC, datetime
from typing import Any

from app.services import seeding, teachers
from app.services.analysing import analyse, as_json
from app.store import teachers as teacher_rows
from app.store.database import Database
from app.transfer.reading_options import ReadingOptions
from tests.web.api.outside import Outside

AT = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)
WHOLE = ("differences", "repeatability", "shares_kept", "common_force_N", "trend")
WORDS_OF_A_FILE = {"points", "look_again", "repeat"}
"""What a file tells in other words: where a point stands in it, a note by its step, and which cord of its bench."""


def _by(name: str, told: list[dict[str, Any]]) -> dict[str, dict[str, Any]]:
    return {each[name]: each for each in told}


def _teacher(database: Database, outside: Outside) -> str:
    with database.reading() as session:
        row = teacher_rows.by_name(session, teachers.FIRST_NAME)
    assert row is not None
    found = teachers.still_in(database, row.id, teachers.token_hash("")[:16])
    assert found is not None
    return outside.token_of(found)


def test_the_finished_demo_lesson_is_told_alike(database: Database, outside: Outside) -> None:
    teachers.add_teacher(database, teachers.FIRST_NAME, password=None, at=AT)
    seeding.load_demo(database, at=AT)
    lesson, token = f"/lessons/{seeding.FINISHED}", _teacher(database, outside)
    picture = outside.get(f"{lesson}/class-picture", token=token).body
    text = outside.get(f"{lesson}/class.csv", token=token).raw.get_data()
    told = as_json(analyse(text, ReadingOptions(), depth="first"))
    assert {name: told[name] for name in WHOLE} == {name: picture[name] for name in WHOLE}
    shown = _by("specimen", picture["specimens"])
    for name, cord in _by("specimen", told["specimens"]).items():
        alike = cord.keys() - WORDS_OF_A_FILE
        assert {key: cord[key] for key in alike} == {key: shown[name][key] for key in alike}
        assert cord["repeat"] == shown[name]["specimen_no"]
        in_file, on_page = ({point["pointer_mm"]: point for point in each["points"]} for each in (cord, shown[name]))
        assert {mm: point["extension_u_mm"] for mm, point in in_file.items()} == {
            mm: point["extension_u_mm"] for mm, point in on_page.items()
        }
    designs = _by("design", picture["designs"])
    for letter, design in _by("design", told["designs"]).items():
        assert design == {key: designs[letter][key] for key in design}
    assert len(told["specimens"]) == 11
