"""What tells whether a mark in a number parts thousands or begins its decimals."""

import pytest

from app.transfer.decimal_signs import DecimalSigns
from app.transfer.problems import Problems

READ, DOUBT, PROBLEM = "read", "doubt", "problem"


def verdict(delimiter: str, text: str, others: tuple[str, ...]) -> str:
    signs, problems = DecimalSigns(delimiter), Problems()
    for other in others:
        assert not signs.notice(other)
    if not signs.notice(text):
        return READ
    signs.unsure.append((2, "mass_g", text))
    signs.tell(problems)
    assert not (problems.found and signs.doubts())
    return PROBLEM if problems.found else DOUBT if signs.doubts() else READ


@pytest.mark.parametrize("text", ["0.645", "1.47", "1.4795", "1234.567", "12", "1.234e2", ".125", "87"])
@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_most_numbers_can_be_read_in_one_way_only(delimiter: str, text: str) -> None:
    assert verdict(delimiter, text, ()) == READ
    assert verdict(delimiter, text.replace(".", ","), ()) == READ


@pytest.mark.parametrize(
    ("delimiter", "text", "others", "expected"),
    [
        (",", "1.479", (), READ),
        (",", "1.479", ("9.81",), READ),
        (",", "1.479", ("9,81",), PROBLEM),
        (",", "1.479", ("9.81", "9,81"), READ),
        (",", "1,479", (), PROBLEM),
        (",", "1,479", ("9.81",), PROBLEM),
        (",", "1,479", ("9,81",), READ),
        (",", "1,479", ("9.81", "9,81"), PROBLEM),
        (";", "1,479", (), READ),
        (";", "1,479", ("9.81",), PROBLEM),
        (";", "1.479", (), DOUBT),
        (";", "1.479", ("9.81",), READ),
        (";", "1.479", ("9,81",), PROBLEM),
        ("\t", "1.479", (), DOUBT),
        ("\t", "1,479", (), DOUBT),
        ("\t", "1,479", ("9,81",), READ),
        ("\t", "1,479", ("9.81",), PROBLEM),
        ("\t", "1,479", ("9.81", "9,81"), PROBLEM),
    ],
)
def test_the_rest_of_the_file_tells(delimiter: str, text: str, others: tuple[str, ...], expected: str) -> None:
    assert verdict(delimiter, text, others) == expected
