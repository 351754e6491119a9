"""Text for a terminal: never wider than 80 signs, no trailing spaces, nothing in it that steers a screen."""

from unicodedata import category

from hypothesis import given
from hypothesis import strategies as st

from app.services.report_layout import WIDTH, heading, page, pairs, paragraph, table

ANY_TEXT = st.text(st.characters(exclude_categories=()), max_size=90)


def test_a_page_ends_with_a_newline_and_no_line_with_spaces() -> None:
    assert page(["one  ", "", "two"]) == "one\n\ntwo\n"


def test_what_steers_a_terminal_is_marked() -> None:
    assert page(["a\x1b[31mb\r\n\x9b\u202e\u2028\ud800c"]) == "a\ufffd[31mb\ufffd\ufffd\ufffd\ufffd\ufffd\ufffdc\n"


def test_spaces_that_held_a_line_together_become_plain() -> None:
    assert page(["1\u202f234\u00a0N"]) == "1 234 N\n"


def test_a_heading_is_underlined() -> None:
    assert heading("Cords") == ["", "Cords", "-----"]


def test_a_paragraph_goes_on_under_its_first_word() -> None:
    lines = paragraph("- " + "word " * 30, further="  ")
    assert [line[:6] for line in lines] == ["- word", "  word"]
    assert max(map(len, lines)) <= WIDTH


def test_a_figure_and_its_uncertainty_stay_in_one_line() -> None:
    (first, second) = pairs([("x" * 20, "y " * 27 + "82 ± 18")])
    assert (first.endswith("y"), second.strip()) == (True, "82\u00a0±\u00a018")


def test_pairs_stand_beside_each_other_and_long_names_go_on() -> None:
    told = pairs([("short", "one"), ("a name that is longer than the left side may be", "two")])
    assert told == [
        "short                               one",
        "a name that is longer than the      two",
        "left side may be",
    ]


def test_a_table_has_words_at_the_left_and_figures_at_the_right() -> None:
    assert table(["Cord", "Held, N"], [("Alder-1", "2.5"), ("Elm-1", "12.5")], words=["Cord"]) == [
        "Cord     Held, N",
        "-------  -------",
        "Alder-1      2.5",
        "Elm-1       12.5",
    ]


def test_a_table_too_wide_wraps_where_fewest_cells_wrap() -> None:
    rows = [("a" * 18, "b" * 20, "12.5 to 14.5", "more than 12.5", "12.5 to 14.5")] * 2
    rows.append((*rows[0][:3], "12.5", "12.5 to 14.5"))
    lines = table(["A", "B", "C", "D", "E"], rows, words=["A", "B"])
    assert lines[2] == "  ".join(["a" * 18, "b" * 20, "12.5 to 14.5", " more than", "12.5 to 14.5"])
    assert lines[3].strip() == "12.5"


@given(st.lists(st.tuples(ANY_TEXT, ANY_TEXT, ANY_TEXT), max_size=4), ANY_TEXT)
def test_nothing_is_wider_than_a_terminal_whatever_it_says(rows: list[tuple[str, str, str]], text: str) -> None:
    lines = [
        *table(["Cord", "Design", "Held, N"], rows, words=["Cord"]),
        *pairs([row[:2] for row in rows], indent="  "),
        *paragraph(text, further="    "),
    ]
    told = page(lines)
    assert told.count("\n") == len(lines)
    for line in told.splitlines():
        assert len(line) <= WIDTH
        assert not line.endswith(" ")
        assert not any(category(sign) in ("Cc", "Cf", "Cs", "Zl", "Zp") for sign in line)
