"""A readings file of any origin as tested cords: the class CSV, another school's, a paper typed into any program."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache, partial

from app.domain.errors import Refusal
from app.domain.tested import TestedCord
from app.transfer.cell_read import Reader, shown
from app.transfer.columns import COLUMNS
from app.transfer.csv_read import Header, Progress, read_header, read_rows
from app.transfer.decimal_signs import DecimalSigns
from app.transfer.file_cord import FileCord, file_cord, tested_cord
from app.transfer.file_doubts import doubts_of
from app.transfer.file_text import text_of
from app.transfer.moments import FileRow
from app.transfer.problems import Problems
from app.transfer.reading_options import ReadingOptions, Setting, settings_of

NEEDED = ("specimen", "mass_g", "pointer_mm")
"""Columns that no readings file can do without."""

NAMES_SHOWN = 20
"""So many names of a header are told beside a column that it lacks."""


@dataclass(frozen=True, kw_only=True)
class ReadingsFile:
    """What a file tells: its cords in order of first appearance, and how it was read.

    `about` has for each cord, and for each of its rows, the entry that the row shows, else its line; `settings` the
    values used and where they came from; `unknown` the names of columns that were kept and not read.
    """

    cords: tuple[TestedCord, ...]
    about: tuple[tuple[str, ...], ...]
    settings: tuple[Setting, ...]
    doubts: tuple[str, ...]
    unknown: tuple[str, ...]


def read_readings(data: bytes, options: ReadingOptions, progress: Progress | None = None) -> ReadingsFile:
    """The cords of a file; UnreadableFile, with everything that is wrong with it, when anything is.

    `progress` is told now and then how many rows have been read.
    """
    problems = Problems()
    text = text_of(data)
    header = read_header(text, [column.name for column in COLUMNS], problems)
    signs = DecimalSigns(header.delimiter)
    _tell_missing(header, problems)
    rows = list(_rows(text, header, signs, problems=problems, progress=progress))
    signs.tell(problems)
    cords = [file_cord(specimen, told, problems) for specimen, told in _by_specimen(rows).items()]
    if problems.found:
        raise problems.refusal()
    noted = [tested_cord(cord, options) for cord in cords]
    return ReadingsFile(
        cords=tuple(cord for cord, _ in noted),
        about=tuple(about for _, about in noted),
        settings=_settings(cords, options),
        doubts=(*signs.doubts(), *doubts_of(noted, header)),
        unknown=header.unknown,
    )


def _tell_missing(header: Header, problems: Problems) -> None:
    """Each needed column that the header lacks is a problem; UnreadableFile when it lacks them all."""
    missing = [name for name in NEEDED if name not in header.known]
    has = f" It has: {_listed([name for place, name in enumerate(header.labels) if place not in header.unnamed])}."
    for name in missing:
        problems.add(header.line, name, "There is no column of this name in the header." + has)
        has = ""
    if len(missing) == len(NEEDED):
        raise problems.refusal()


def _listed(names: Sequence[str]) -> str:
    more = len(names) - NAMES_SHOWN
    return ", ".join(names[:NAMES_SHOWN]) + (f" and {more} more" if more > 0 else "")


@dataclass(frozen=True, kw_only=True)
class _Cell:
    value: object = None
    fault: str | None = None
    unsure: bool = False


def _read(reader: Reader, signs: DecimalSigns, text: str) -> _Cell:
    try:
        value = reader(text)
    except Refusal as refusal:
        return _Cell(fault=refusal.sentence)
    return _Cell(value=value, unsure=isinstance(value, int | float) and signs.notice(text))


def _rows(
    text: str, header: Header, signs: DecimalSigns, *, problems: Problems, progress: Progress | None
) -> Iterator[FileRow]:
    """Each row that fits the header; equal cells of a column are read once."""
    readers: list[tuple[int, str, Callable[[str], _Cell]]] = [
        (header.known[column.name], column.name, cache(partial(_read, column.read, signs)))
        for column in COLUMNS
        if column.read is not None and column.name in header.known
    ]
    entry_place = header.known.get("entry_id")
    for line, cells in read_rows(text, header, problems, progress=progress):
        said, sound = {}, None not in cells
        for place, name, read in readers:
            written = cells[place]
            cell = _Cell() if written is None else read(written)
            if cell.fault:
                sound = False
                problems.add(line, name, cell.fault)
            elif cell.value is not None:
                said[name] = cell.value
            if cell.unsure:
                signs.unsure.append((line, name, written or ""))
        entry_id = None if entry_place is None else (cells[entry_place] or "").strip()
        yield FileRow(line=line, about=shown(entry_id or f"line {line}", 60), said=said, sound=sound)


def _by_specimen(rows: Sequence[FileRow]) -> dict[str, list[FileRow]]:
    found: dict[str, list[FileRow]] = {}
    for row in rows:
        if "specimen" in row.said:
            found.setdefault(row.said["specimen"], []).append(row)
    return found


def _settings(cords: Sequence[FileCord], options: ReadingOptions) -> tuple[Setting, ...]:
    """Every value that a setting had, for all cords; without a cord, what would hold for one."""
    used: dict[str, dict[tuple[float | str | None, str], None]] = {}
    for said in [cord.said for cord in cords] or [{}]:
        for name, value in settings_of(said, options).items():
            used.setdefault(name, {})[value] = None
    return tuple(Setting(name=name, used=tuple(values)) for name, values in used.items())
