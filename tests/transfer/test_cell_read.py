"""How cells of a readings file are read."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import InvalidEntry
from app.transfer.cell_read import Codes, FreeWords, IfKnown, Needed, Number, OneOf, Whole, Words, quoted, shown
from app.transfer.cell_write import number, words

ANY = Number(bounds=(-math.inf, math.inf))
TEXT = st.text(st.sampled_from("'=+-@\t\r\n,;\" a") | st.characters(exclude_categories=["Cs"]), max_size=9)


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_a_number_comes_back_to_the_last_digit(value: float) -> None:
    assert ANY(number(value)) == value
    assert ANY(number(value).replace(".", ",")) == value


@pytest.mark.parametrize(
    ("text", "value"),
    [("229", 229.0), (" 229,5\u00a0", 229.5), ("\u22125", -5.0), ("+5.", 5.0), (".5", 0.5), ("1E-5", 1e-5), ("", None)],
)
def test_numbers_are_read_as_people_and_programs_write_them(text: str, value: float | None) -> None:
    assert ANY(text) == value


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("1 234", "thousands"),
        ("1\u202f234", "thousands"),
        ("1.234,5", "thousands"),
        ("1,234,567", "thousands"),
        ("1'234", "thousands"),
        ("NaN", "not a number"),
        ("inf", "not a number"),
        ("1_000", "not a number"),
        ("0x1F", "not a number"),
        ("12 mm", "not a number"),
        ("1e", "not a number"),
        ("\u0663", "not a number"),
        ("9" * 41, "not a number"),
        ("'5", "not a number"),
        ("1e999", "outside"),
        ("-1e999", "outside"),
        ("11", "outside"),
    ],
)
def test_what_is_no_number_is_refused_with_a_sentence(text: str, part: str) -> None:
    with pytest.raises(InvalidEntry, match=part):
        Number(bounds=(-10.0, 10.0), unit="mm")(text)


def test_a_whole_number_may_be_written_with_a_point() -> None:
    read = Whole(bounds=(1, 9))
    assert [read(text) for text in ("3", "3.0", "3,", "")] == [3, 3, 3, None]
    assert isinstance(read("3.0"), int)
    with pytest.raises(InvalidEntry, match="not a whole number"):
        read("2.5")


@given(TEXT)
def test_a_sentence_comes_back_as_it_was_typed(said: str) -> None:
    assert FreeWords()(words(said)) == (said if said.strip() else None)


@given(TEXT)
def test_words_come_back_without_outer_spaces_or_are_refused(said: str) -> None:
    try:
        assert Words()(words(said)) == (said.strip() or None)
    except InvalidEntry:
        assert any(ord(sign) < 32 or 127 <= ord(sign) < 160 for sign in said)


@pytest.mark.parametrize("read", [Words(most=5), FreeWords(most=5)])
def test_words_have_a_length(read: Words | FreeWords) -> None:
    assert read("abcde") == "abcde"
    with pytest.raises(InvalidEntry, match="at most 5"):
        read("abcdef")


def test_codes_are_of_their_list() -> None:
    known = ("pause", "resume")
    assert OneOf(known=known)(" Pause ") == "pause"
    assert OneOf(known=known)("") is None
    assert Codes(known=known)("PAUSE  resume pause") == ("pause", "resume", "pause")
    assert Codes(known=known)(" ") is None
    assert [IfKnown(known=known)(text) for text in ("pause", "lunch", "")] == ["pause", None, None]
    for read in (OneOf(known=known), Codes(known=known)):
        with pytest.raises(InvalidEntry, match='"lunch" is none of pause, resume'):
            read("lunch")


def test_a_cell_that_is_needed_may_not_be_blank() -> None:
    read = Needed(read=Words())
    assert read("a") == "a"
    with pytest.raises(InvalidEntry, match="blank"):
        read(" ")


def test_what_is_shown_is_short_and_harmless() -> None:
    assert quoted("a\x1b[2J\n") == '"a\ufffd[2J\ufffd"'
    assert quoted("a" * 25) == f'"{"a" * 24}..."'
    assert shown("abc", 3) == "abc"
    assert quoted("1\u202f234\u00a0") == '"1\u202f234\u00a0"'
