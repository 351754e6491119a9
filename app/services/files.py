"""Files of a lesson: the class CSV, from the same picture that pages show."""

from collections.abc import Mapping
from dataclasses import fields

from app.domain.tested import Row, TestedCord
from app.mechanics.classwork import ClassPicture, Point, SpecimenPicture
from app.transfer.csv_write import write_rows

_OF_CORD = tuple(field.name for field in fields(TestedCord) if field.name != "rows")
_OF_ROW = tuple(field.name for field in fields(Row))
"""What a sum starts from has the same names as the columns that are read back."""


def class_csv(picture: ClassPicture) -> str:
    """The class CSV: one row a standing reading, benches in order, then specimen, then time of typing."""
    return write_rows(row for cord in picture.specimens for row in _rows(cord))


def _rows(cord: SpecimenPicture) -> list[dict[str, object]]:
    said = {**{name: getattr(cord.tested, name) for name in _OF_CORD}, **_kept_of_cord(cord)}
    told = zip(cord.tested.rows, cord.points, strict=True)
    in_time = sorted(told, key=lambda each: each[1].taken_at)  # of one moment: the order of the test
    return [{**said, **{name: getattr(row, name) for name in _OF_ROW}, **_kept(point)} for row, point in in_time]


def _kept_of_cord(cord: SpecimenPicture) -> Mapping[str, object]:
    ending = cord.ending
    return {
        "remark": ending.remark if ending else None,
        "ending": ending.kind if ending else None,
        "look": ending.look if ending else None,
    }


def _kept(point: Point) -> Mapping[str, object]:
    reading = point.reading
    return {
        "marks_hung": point.marks_hung,
        "taken_at": point.taken_at,
        "s_since_zero": None if point.s_since_zero is None else round(point.s_since_zero, 1),
        "pointer_typed": reading.pointer_typed,
        "first_typed": point.first_typed if reading.replaces else None,
        "reason": point.reason,
        "entry_id": reading.entry_id,
        "force_N": point.force_n,
        "extension_mm": point.extension_mm,
        "strain": point.strain,
    }
