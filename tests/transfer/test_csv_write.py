"""The class CSV as text."""

import csv
import io

from hypothesis import given
from hypothesis import strategies as st

from app.transfer.cell_read import FreeWords
from app.transfer.columns import COLUMNS
from app.transfer.csv_write import write_rows

HEADER = ",".join(column.name for column in COLUMNS)
CELL = st.text(st.sampled_from("'=+-@\t\r\n,;\" a") | st.characters(exclude_categories=["Cs"]), max_size=9)


def test_the_header_comes_first_and_lines_end_in_cr_lf() -> None:
    assert write_rows([]) == f"{HEADER}\r\n"
    assert write_rows([{"specimen": "Alder-1", "strain": None}]) == f"{HEADER}\r\nAlder-1{',' * (len(COLUMNS) - 1)}\r\n"


def test_commas_quotes_and_line_ends_are_quoted() -> None:
    text = write_rows([{"specimen": 'a "b", c\nd'}])
    assert text.split("\r\n", 1)[1].startswith('"a ""b"", c\nd",')


@given(st.lists(CELL, min_size=1, max_size=5))
def test_any_words_come_back_cell_for_cell(remarks: list[str]) -> None:
    text = write_rows({"specimen": "Alder-1", "remark": remark} for remark in remarks)
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    read = FreeWords()
    assert [read(row["remark"]) or "" for row in rows] == [remark if remark.strip() else "" for remark in remarks]
    assert not any(row["remark"].startswith(("=", "+", "-", "@", "\t", "\r")) for row in rows)
