"""`ropewalk analyse FILE`: what it prints, what it refuses, and its exit status (contract.md 2 and 3)."""

import json
from pathlib import Path
from typing import Any

import pytest

from app import analyse_command
from app.mechanics.classwork import class_picture
from app.services import analysing
from app.services.files import class_csv
from app.transfer import csv_read
from tests.commands.told import Run, refused
from tests.mechanics.demo_class import demo_class

CASES = Path(__file__).parents[1] / "cases" / "report"
HEADER = "specimen,mass_g,mass_u_g,pointer_mm\n"
GOOD = HEADER + "".join(f"A,{87 + 100 * k},1,{218 + 4 * k}\n" for k in range(6))

NO_NUMBER = "is not a number: digits with a point or a comma, please, without the unit."


def a_file(tmp_path: Path, text: str) -> str:
    path = tmp_path / "readings.csv"
    path.write_text(text, encoding="utf-8", newline="")
    return str(path)


def as_json(run: Run, *arguments: str) -> dict[str, Any]:
    told = run("analyse", "--json", *arguments)
    assert told.err == ""
    assert told.out.count("\n") == 1
    found: dict[str, Any] = json.loads(told.out)
    return found


def test_a_good_file_ends_with_0_and_one_object(run: Run, tmp_path: Path) -> None:
    found = as_json(run, a_file(tmp_path, GOOD))
    assert [cord["specimen"] for cord in found["specimens"]] == ["A"]
    assert found["settings"]["gravity_m_per_s2"] == 9.80665


@pytest.mark.parametrize("depth", ["first", "second", "third"])
def test_without_json_it_prints_a_report(run: Run, depth: str) -> None:
    told = run("analyse", str(CASES / "class.csv"), "--depth", depth)
    assert (told.status, told.err) == (1, "")
    assert told.out == (CASES / f"{depth}.txt").read_text(encoding="utf-8")


def test_a_report_without_notes_ends_with_0(run: Run, tmp_path: Path) -> None:
    told = run("analyse", a_file(tmp_path, GOOD))
    assert (told.status, told.err) == (0, "")
    assert told.out.startswith("readings.csv: 1 cord, 6 readings, 0 designs\n")
    assert told.out.endswith("No look-again notes. Exit status 1 would mean some.\n")


def test_what_breaks_ends_with_3_and_a_reference(run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object) -> str:
        raise ZeroDivisionError

    monkeypatch.setattr(analyse_command, "report", broken)
    told = run("analyse", a_file(tmp_path, GOOD))
    assert (told.status, told.out) == (3, "")
    assert "its reference number in the log is" in told.err


def test_the_options_win(run: Run, tmp_path: Path) -> None:
    options = "--gravity 10 --scale up --scale-division-mm 5 --judgement-mm 1 --balance-division-g 2 --depth third"
    settings = as_json(run, a_file(tmp_path, GOOD), *options.split(), "--offset-strain-percent", "2")["settings"]
    assert settings.pop("from")["gravity_m_per_s2"] == ["option"]
    assert settings == {
        "gravity_m_per_s2": 10.0,
        "scale_division_mm": 5.0,
        "judgement_mm": 1.0,
        "scale": "up",
        "balance_division_g": 2.0,
        "offset_strain_percent": 2.0,
        "depth": "third",
        "columns_not_read": [],
    }


def test_look_again_notes_end_with_1(run: Run, tmp_path: Path) -> None:
    told = run("analyse", "--json", a_file(tmp_path, GOOD + "A,687,1,24.2\n"))
    assert told.status == 1
    assert json.loads(told.out)["specimens"][0]["look_again"]


def test_the_class_csv_of_a_lesson_can_be_analysed(run: Run, tmp_path: Path) -> None:
    picture = class_picture(demo_class())
    found = as_json(run, a_file(tmp_path, class_csv(picture)))
    assert [cord["specimen"] for cord in found["specimens"]] == [cord.name for cord in picture.specimens if cord.points]


def test_a_bad_file_ends_with_2_and_every_problem(run: Run, tmp_path: Path) -> None:
    told = run("analyse", a_file(tmp_path, HEADER + 'A,x,1,218\nA,187,1,"2\n\x1b2"\n'))
    assert (told.status, told.out) == (2, "")
    assert told.err.splitlines() == [
        f'line 2, column mass_g: "x" {NO_NUMBER}',
        f'line 3, column pointer_mm: "2\ufffd\ufffd2" {NO_NUMBER}',
        "The file was not read: 2 problems in it.",
    ]


def test_of_very_many_problems_the_first_are_told_and_how_many_more(run: Run, tmp_path: Path) -> None:
    told = run("analyse", a_file(tmp_path, HEADER + "A,x,1,218\n" * 1_500))
    lines = told.err.splitlines()
    assert len(lines) == 202
    assert lines[200:] == ["and 1,300 more", "The file was not read: 1500 problems in it."]


def test_progress_is_told_beside_the_object(run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(csv_read, "PROGRESS_ROWS", 4)
    monkeypatch.setattr(analysing, "PROGRESS_CORDS", 1)
    told = run("analyse", "--json", a_file(tmp_path, GOOD + GOOD.removeprefix(HEADER).replace("A", "B")))
    assert told.err == "4 rows read ...\n8 rows read ...\n12 rows read ...\n1 of 2 cords worked out ...\n"
    assert len(json.loads(told.out)["specimens"]) == 2


@pytest.mark.parametrize(
    ("arguments", "part"),
    [
        (["nowhere.csv"], "nowhere.csv can't be read (No such file or directory)."),
        (["."], "can't be read (Is a directory)."),
        ([], "FILE"),
        (["x.csv", "--gravity", "0"], "--gravity"),
        (["x.csv", "--gravity", "9,81"], "--gravity"),
        (["x.csv", "--gravity", "nan"], "0.1 to 30 m/s2"),
        (["x.csv", "--offset-strain-percent", "nan"], "0 to 100 %"),
        (["x.csv", "--scale", "sideways"], "--scale"),
        (["x.csv", "--depth", "fourth"], "--depth"),
        (["x.csv", "--offset-strain-percent", "0"], "--offset-strain-percent"),
    ],
)
def test_what_can_not_be_asked_is_refused_in_one_sentence(run: Run, arguments: list[str], part: str) -> None:
    refused(run("analyse", *arguments), part)


def test_a_file_that_may_not_be_opened_is_refused(run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def closed(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", closed)
    refused(run("analyse", str(tmp_path / "closed.csv")), "closed.csv can't be read (Permission denied).")
