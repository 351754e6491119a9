"""A CSV text as records: quotation marks, lines and delimiters."""

import pytest

from app.domain.errors import UnreadableFile
from app.transfer.csv_read import read_header, read_rows, records
from app.transfer.problems import Problems

NAMES = ("specimen", "mass_g", "pointer_mm", "force_N")


def told(text: str) -> tuple[list[tuple[int, list[str]]], list[str]]:
    problems = Problems()
    return list(records(text, ",", problems)), [str(one) for one in problems.found]


@pytest.mark.parametrize(
    ("text", "cells"),
    [
        ("aaa,bbb,ccc\r\n", ["aaa", "bbb", "ccc"]),
        ('"aaa","bbb","ccc"\r\n', ["aaa", "bbb", "ccc"]),
        ('"aaa","b\r\nbb","ccc"', ["aaa", "b\r\nbb", "ccc"]),
        ('"aaa","b""bb","ccc"', ["aaa", 'b"bb', "ccc"]),
    ],
)
def test_records_are_read_as_the_standard_says(text: str, cells: list[str]) -> None:
    """Source: RFC 4180, section 2, the examples of rules 1, 5, 6 and 7 (from memory)."""
    assert told(text) == ([(1, cells)], [])


def test_a_record_is_known_by_the_line_where_it_begins() -> None:
    found, problems = told('a,"1\n2"\n\n"b"x,1\nc,"d\re",f\rg,h\n')
    assert [line for line, _ in found] == [1, 5, 7]
    assert [problem.split(":")[0] for problem in problems] == ["line 4"]


def header(text: str) -> tuple[str, dict[str, int], tuple[str, ...], tuple[str, ...], tuple[int, ...]]:
    found = read_header(text, NAMES, Problems())
    return found.delimiter, found.known, found.labels, found.unknown, found.unnamed


def test_a_header_is_found_by_the_names_in_it() -> None:
    text = 'Mass G;"specimen";a,b,c,d,e;;FORCE_n\n1;2;3;;4\n'
    labels = ("Mass G", "specimen", "a,b,c,d,e", "4", "FORCE_n")
    assert header(text) == (";", {"mass_g": 0, "specimen": 1, "force_N": 4}, labels, ("a,b,c,d,e",), (3,))


def test_a_header_of_no_known_name_is_cut_where_it_makes_most_columns() -> None:
    assert header("a,b;c;d\n")[0] == ";"
    assert header("a\n")[0] == ","


@pytest.mark.parametrize("text", ["", "\n \n", '"a'])
def test_no_header_is_no_file(text: str) -> None:
    with pytest.raises(UnreadableFile):
        read_header(text, NAMES, Problems())


def test_something_under_no_name_is_told_once_a_column() -> None:
    text, problems = "specimen,,\nA,,\nA,1,\nA,2,3\n", Problems()
    rows = list(read_rows(text, read_header(text, NAMES, problems), problems))
    assert [line for line, _ in rows] == [2, 3, 4]
    assert [(one.line, one.column) for one in problems.found] == [(3, "2"), (4, "3")]
