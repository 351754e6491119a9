"""Whole readings files: every oddity of tests/cases/csv, what was said beside the file, and what rows are called."""

import json
from pathlib import Path
from typing import Any

import pytest

from app.domain.errors import UnreadableFile
from app.transfer import csv_read
from app.transfer.reading_options import ReadingOptions
from app.transfer.readings_file import ReadingsFile, read_readings

CASES = Path(__file__).parents[1] / "cases" / "csv"
EXPECTED: dict[str, Any] = json.loads((CASES / "expected.json").read_text(encoding="utf-8"))
HEADER = "specimen,mass_g,pointer_mm"


def read(text: str, **options: Any) -> ReadingsFile:
    return read_readings(text.encode(), ReadingOptions(**options))


def test_every_file_of_the_folder_has_its_expectation() -> None:
    assert {path.name for path in CASES.glob("*.csv")} == {*EXPECTED["read"], *EXPECTED["refused"]}


@pytest.mark.parametrize("name", EXPECTED["read"])
def test_an_odd_file_is_read(name: str) -> None:
    expected = EXPECTED["read"][name]
    found = read_readings((CASES / name).read_bytes(), ReadingOptions())
    rows = {
        cord.specimen: [[row.step, row.phase, row.mass_g, row.pointer_mm] for row in cord.rows] for cord in found.cords
    }
    assert list(rows.items()) == list(expected["cords"].items()), expected["why"]
    assert len(found.doubts) == len(expected["doubts"]), found.doubts
    assert all(part in doubt for part, doubt in zip(expected["doubts"], found.doubts, strict=True)), found.doubts
    assert found.unknown == tuple(expected.get("unknown", ()))


@pytest.mark.parametrize("name", EXPECTED["refused"])
def test_a_bad_file_is_refused_with_everything_that_is_wrong(name: str) -> None:
    expected = EXPECTED["refused"][name]
    with pytest.raises(UnreadableFile) as refusal:
        read_readings((CASES / name).read_bytes(), ReadingOptions())
    problems = refusal.value.problems
    assert [[one.line, one.column] for one in problems] == [one[:2] for one in expected["problems"]], [
        *map(str, problems)
    ]
    for problem, (_, _, part) in zip(problems, expected["problems"], strict=True):
        assert part in problem.words, expected["why"]


@pytest.mark.parametrize(
    ("header", "said"),
    [
        ("cord,mass_g,pointer_mm", ["specimen"]),
        ("cord;load in g;pointer_mm", ["specimen", "mass_g"]),
    ],
)
def test_a_header_that_lacks_columns_is_told_with_the_names_that_it_has(header: str, said: list[str]) -> None:
    """The names are told once, beside the first column that is lacking."""
    with pytest.raises(UnreadableFile) as refusal:
        read(f"{header}\n")
    first, *others = refusal.value.problems
    names = header.replace(";", ",").replace(",", ", ")
    assert first.words == f"There is no column of this name in the header. It has: {names}."
    assert [one.words for one in others] == ["There is no column of this name in the header."] * (len(said) - 1)
    assert [one.column for one in refusal.value.problems] == said


def test_of_a_wide_header_the_first_names_are_told() -> None:
    with pytest.raises(UnreadableFile) as refusal:
        read(",".join(f"c{place}" for place in range(25)) + "\n")
    assert refusal.value.problems[0].words.endswith("c18, c19 and 5 more.")


def test_a_file_too_large_is_refused_before_it_is_read() -> None:
    with pytest.raises(UnreadableFile, match="1 problem") as refusal:
        read_readings(b"a" * (10 * 1024 * 1024 + 1), ReadingOptions())
    assert [str(one) for one in refusal.value.problems] == ["line 1: The file is larger than 10 MB."]


def test_one_row_too_many_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(csv_read, "FILE_ROWS", 2)
    text = f"{HEADER}\nA,87,218\nA,187,222\n\nA,287,226\nA,387,x\n"
    with pytest.raises(UnreadableFile) as refusal:
        read(text)
    assert [str(one) for one in refusal.value.problems] == ["line 5: There are more than 2 rows. Split the file."]


def test_reading_stops_where_a_file_has_nothing_but_problems() -> None:
    with pytest.raises(UnreadableFile) as refusal:
        read(f"{HEADER}\n" + "A,x,y\n" * 6_000)
    problems = refusal.value.problems
    assert len(problems) == 10_001
    assert str(problems[-1]) == "line 5002: There are more problems than these; reading stopped here."


def test_progress_is_told_now_and_then(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(csv_read, "PROGRESS_ROWS", 50)
    text = f"{HEADER}\n" + "".join(f"c{k},87,218\n" for k in range(120))
    told: list[int] = []
    found = read_readings(text.encode(), ReadingOptions(), told.append)
    assert told == [50, 100]
    assert len(found.cords) == 120


def test_what_was_said_beside_the_file_wins_over_its_columns_and_they_over_defaults() -> None:
    text = f"{HEADER},gravity_m_per_s2,scale,judgement_mm\nA,87,218,9.8,up,\nB,87,218,9.8,,0.25\n"
    plain = {one.name: one for one in read(text).settings}
    assert plain["gravity_m_per_s2"].used == ((9.8, "file"),)
    assert plain["scale"].used == (("up", "file"), ("down", "default"))
    assert plain["scale"].value is None
    assert plain["judgement_mm"].used == ((0.5, "default"), (0.25, "file"))
    assert plain["scale_division_mm"].used == ((1.0, "default"),)
    assert plain["balance_division_g"].used == ((None, "default"),)
    found = read(text, gravity_m_per_s2=10.0, scale="down", scale_division_mm=5.0, judgement_mm=1.0)
    assert {(one.gravity_m_per_s2, one.scale, one.scale_division_mm, one.judgement_mm) for one in found.cords} == {
        (10.0, "down", 5.0, 1.0)
    }
    assert all(one.used[0][1] == "option" for one in found.settings if one.name != "balance_division_g")


def test_gravity_of_no_file_and_no_option_is_standard() -> None:
    """Source: standard gravity, 3rd General Conference on Weights and Measures, 1901."""
    assert read(f"{HEADER}\nA,87,218\n").cords[0].gravity_m_per_s2 == 9.80665


def test_a_row_is_called_by_its_entry_or_its_line_in_the_order_of_the_test() -> None:
    text = f"{HEADER},step,entry_id\nA,187,222,1,\nB,87,218,0,\nA,87,218,0,6f1d4c1e-0b7a-4c55-9d0e-3a1f5b8c2e77\n"
    assert read(text).about == (("6f1d4c1e-0b7a-4c55-9d0e-3a1f5b8c2e77", "line 2"), ("line 3",))
