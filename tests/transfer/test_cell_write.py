"""How cells of the class CSV are written."""

from datetime import UTC, datetime, timedelta, timezone

import pytest

from app.transfer.cell_write import codes, moment, number, typed, words


@pytest.mark.parametrize(
    ("said", "cell"),
    [
        ("nick in one strip", "nick in one strip"),
        ("=1+1", "'=1+1"),
        ("+1", "'+1"),
        ("-1", "'-1"),
        ("@sum", "'@sum"),
        ("\tx", "'\tx"),
        ("\rx", "'\rx"),
        ("'=1+1", "''=1+1"),
        ("'tis", "'tis"),
        ("", ""),
    ],
)
def test_words_never_start_a_formula(said: str, cell: str) -> None:
    assert words(said) == cell


@pytest.mark.parametrize(("text", "cell"), [("-5", "-5"), ("+5,5", "+5,5"), ("21.7", "21.7"), ("-1+cmd", "'-1+cmd")])
def test_a_number_that_was_typed_stays_as_it_was_typed(text: str, cell: str) -> None:
    assert typed(text) == cell


@pytest.mark.parametrize(
    ("value", "cell"), [(487.0, "487"), (0.5, "0.5"), (-3.0, "-3"), (2, "2"), (1 / 3, repr(1 / 3))]
)
def test_numbers_are_written_shortest_and_exact(value: float, cell: str) -> None:
    assert number(value) == cell
    assert float(cell) == value


def test_times_are_utc_to_the_second() -> None:
    assert moment(datetime(2026, 3, 12, 9, 41, 20, 900_000, tzinfo=UTC)) == "2026-03-12T09:41:20Z"
    assert moment(datetime(2026, 3, 12, 10, 41, 20, tzinfo=timezone(timedelta(hours=1)))) == "2026-03-12T09:41:20Z"


def test_codes_have_a_space_between() -> None:
    assert codes((1, 2, 5)) == "1 2 5"
    assert codes(()) == ""


@pytest.mark.parametrize("write", [number, codes, moment])
def test_a_value_of_the_wrong_kind_is_an_error_of_ours(write: object) -> None:
    with pytest.raises(TypeError):
        write("x")  # type: ignore[operator]
