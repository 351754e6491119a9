"""What the class CSV tells comes back exactly, however a program rewrites it; and no bytes at all do any harm."""

import codecs
import csv
import io
from collections.abc import Iterable
from dataclasses import replace

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from app.domain import tested
from app.domain.errors import Problem, UnreadableFile
from app.transfer.columns import COLUMNS
from app.transfer.reading_options import ReadingOptions
from app.transfer.readings_file import ReadingsFile, read_readings
from tests.transfer.told_cords import CLASSES, CORDS, csv_of

NUMBERS = {column.name for column in COLUMNS if column.unit or column.name == "level"}
PLAIN = (
    b"specimen,mass_g,pointer_mm,step,phase,left_out\r\nAlder-1,87,218,0,zero,\r\nAlder-1,187,222.5,1,load,swung\r\n"
)


def read(data: bytes) -> ReadingsFile:
    return read_readings(data, ReadingOptions())


@settings(max_examples=30)
@given(CLASSES)
def test_the_class_csv_comes_back_to_the_last_digit(cords: list[tested.TestedCord]) -> None:
    found = read(csv_of(cords).encode())
    assert found.cords == tuple(cords)
    assert not found.unknown


def written(rows: Iterable[Iterable[str]], *, delimiter: str = ",", line_end: str = "\n") -> bytes:
    """The rows as another program saves them."""
    made = io.StringIO()
    csv.writer(made, delimiter=delimiter, lineterminator=line_end, quoting=csv.QUOTE_ALL).writerows(rows)
    return made.getvalue().encode()


def cells_of(cords: Iterable[tested.TestedCord]) -> list[list[str]]:
    """The header and the rows of the class CSV."""
    return list(csv.reader(io.StringIO(csv_of(cords), newline="")))


def with_decimal_commas(rows: list[list[str]]) -> list[list[str]]:
    header = rows[0]
    return [
        [cell.replace(".", ",") if name in NUMBERS else cell for name, cell in zip(header, row, strict=True)]
        for row in rows
    ]


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
@pytest.mark.parametrize("comma", [False, True])
@settings(max_examples=10)
@given(cords=CLASSES, line_end=st.sampled_from(["\n", "\r\n", "\r"]), mark=st.booleans())
def test_a_file_that_another_program_saved_again_tells_the_same(
    delimiter: str, comma: bool, cords: list[tested.TestedCord], line_end: str, mark: bool
) -> None:
    sure = [replace(cord, gravity_m_per_s2=9.81) for cord in cords]  # a number that shows the decimal sign
    rows = with_decimal_commas(cells_of(sure)) if comma else cells_of(sure)
    data = written(rows, delimiter=delimiter, line_end=line_end)
    assert read(codecs.BOM_UTF8 * mark + data).cords == tuple(sure)


@settings(max_examples=30)
@given(st.data(), CORDS)
def test_the_order_of_rows_means_nothing_where_steps_are_told(data: st.DataObject, cord: tested.TestedCord) -> None:
    moments = {tested.row_order(row): row for row in cord.rows}
    alone = replace(cord, rows=tuple(moments.values()))
    header, *rows = cells_of([alone])
    assert read(written([header, *data.draw(st.permutations(rows))])).cords == (alone,)


def is_read_or_refused(data: bytes) -> None:
    """The file is read, or refused with a line and a sentence for each problem."""
    problems = problems_of(data)
    lines = [problem.line for problem in problems]
    assert all(problem.words for problem in problems)
    assert lines == sorted(lines)
    assert all(line > 0 for line in lines)


def problems_of(data: bytes) -> tuple[Problem, ...]:
    """What the file is refused for, which is something; nothing when it is read."""
    try:
        read(data)
    except UnreadableFile as refusal:
        return refusal.problems or (Problem(0, None, "a refusal without a reason"),)
    return ()


@given(st.binary(max_size=200))
@example(b"\xff\xfe\x00\x00s\x00\x00\x00")
@example(b"\xfe\xff\xd8\x00")
@example(b"\xef\xbb\xbf")
@example(b'"' + b"a" * 140_000)
def test_any_bytes_are_refused_in_words(data: bytes) -> None:
    is_read_or_refused(data)


@given(st.text(max_size=200))
def test_any_text_under_a_good_header_is_read_or_refused_in_words(text: str) -> None:
    is_read_or_refused(PLAIN.splitlines(keepends=True)[0] + text.encode("utf-8", "surrogatepass"))


@given(st.integers(0, len(PLAIN)), st.integers(0, 9), st.binary(max_size=4))
def test_a_damaged_file_is_read_or_refused_in_words(place: int, lost: int, put: bytes) -> None:
    is_read_or_refused(PLAIN[:place] + put + PLAIN[place + lost :])


CELLS = [
    "",
    "0",
    "1",
    "61",
    "-1",
    "1,5",
    "1.234",
    "1e3",
    "zero",
    "load",
    "return",
    "unload",
    "A",
    "x",
    "9" * 30,
    "'=1",
    "\x00",
]


@given(st.data())
def test_any_cells_under_any_columns_are_read_or_refused_in_words(data: st.DataObject) -> None:
    names = data.draw(st.lists(st.sampled_from([column.name for column in COLUMNS]), min_size=1, max_size=6))
    header = ["specimen", "mass_g", "pointer_mm", *names]
    width = st.lists(st.sampled_from(CELLS), min_size=len(header), max_size=len(header))
    rows = data.draw(st.lists(width, max_size=6))
    is_read_or_refused("\n".join(";".join(row) for row in [header, *rows]).encode())
