"""One cord of a readings file: from the rows that name it to a tested cord."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from math import sqrt
from typing import Any

from app.domain.tested import Row, TestedCord, row_order
from app.transfer.cell_read import quoted
from app.transfer.columns import COLUMNS
from app.transfer.moments import FileRow, Moment, moments_of, tell_twice
from app.transfer.problems import Problems
from app.transfer.reading_options import ReadingOptions, settings_of

_COLUMNS = {column.name: column for column in COLUMNS}
_OF_CORD = frozenset(each.name for each in fields(TestedCord)) - {"rows", "specimen"}
_OF_ROW = tuple(each.name for each in fields(Row) if each.name not in ("step", "phase", "turn", "mass_u_g"))
_ONLY_HANGER = ("zero", "return")
"""Phases with no rung on the hanger."""


@dataclass(frozen=True, kw_only=True)
class FileCord:
    """What a file says of one cord: its rows in the order of the file, their moments, and of the cord as a whole."""

    specimen: str
    rows: Sequence[FileRow]
    moments: Sequence[Moment]
    said: Mapping[str, Any]


def file_cord(specimen: str, rows: Sequence[FileRow], problems: Problems) -> FileCord:
    """The cord that these rows tell of; where they contradict each other is told to problems."""
    sound = [row for row in rows if row.sound]
    moments = moments_of(sound, problems)
    if len(sound) == len(rows) or any("step" in row.said for row in sound):
        tell_twice(sound, moments, problems)
    return FileCord(specimen=specimen, rows=sound, moments=moments, said=_said_of_cord(rows, problems))


def _said_of_cord(rows: Sequence[FileRow], problems: Problems) -> dict[str, Any]:
    """What the rows say of their cord as a whole; a row that says otherwise than one before it is a problem."""
    said: dict[str, Any] = {}
    lines: dict[str, int] = {}
    for row in rows:
        for name, value in row.said.items():
            if name not in _OF_CORD:
                continue
            if said.setdefault(name, value) != value:
                here, there = (quoted(_COLUMNS[name].write(each)) for each in (value, said[name]))
                problems.add(row.line, name, f"{here} here, {there} in line {lines[name]}: one cord has one value.")
            lines.setdefault(name, row.line)
    return said


def tested_cord(cord: FileCord, options: ReadingOptions) -> tuple[TestedCord, tuple[str, ...]]:
    """The cord with its rows in the order of the test, and what names each of them in a note."""
    settings = {name: value for name, (value, _) in settings_of(cord.said, options).items()}
    division_g = settings.pop("balance_division_g")
    told = [(_row(row, moment, division_g), row.about) for row, moment in zip(cord.rows, cord.moments, strict=True)]
    told.sort(key=lambda each: row_order(each[0]))
    said = {**cord.said, **settings, "linear_density_g_per_m": _linear_density_g_per_m(cord.said)}
    rows, about = (tuple(each) for each in zip(*told, strict=True))
    return TestedCord(specimen=cord.specimen, rows=rows, **said), about


def _row(row: FileRow, moment: Moment, division_g: Any) -> Row:
    mass_u_g = row.said.get("mass_u_g")
    if division_g is not None and "mass_g" in row.said:
        weighings = 1 if moment.phase in _ONLY_HANGER else moment.step + 1
        mass_u_g = division_g * sqrt(weighings / 12)
    said = {name: row.said[name] for name in _OF_ROW if name in row.said}
    return Row(step=moment.step, phase=moment.phase, turn=moment.turn, mass_u_g=mass_u_g, **said)


def _linear_density_g_per_m(said: Mapping[str, Any]) -> float | None:
    """As stated, else of the piece that was weighed, worked out in the order in which the lesson's pages do."""
    stated: float | None = said.get("linear_density_g_per_m")
    if stated is None and {"cord_mass_g", "cord_length_mm"} <= said.keys():
        weighed: float = said["cord_mass_g"] / said["cord_length_mm"] * 1000
        return weighed
    return stated
