"""The class graph as a table: a row a cord, what it held and what it broke on; and every reading that is drawn."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from app.domain import vocabulary
from app.domain.records import BenchRecord, LessonRecord
from app.mechanics.classwork import ClassPicture, Point, SpecimenPicture, class_picture


@dataclass(frozen=True, kw_only=True)
class CordRow:
    """One cord: `broke_n` is None where it is not known, and `ended` says why, or that it goes on."""

    name: str
    bench: str
    bench_kind: str
    design: str
    design_name: str
    held_n: float | None
    broke_n: float | None
    more_than: bool
    ended: str
    where: str
    readings: int
    left_out: str | None
    points: tuple[Point, ...]


@dataclass(frozen=True, kw_only=True)
class Count:
    """How many cords are in the sums, and how many are left out."""

    counted: int
    left_out: int


def class_table(picture: ClassPicture) -> list[CordRow]:
    """A row for each cord of which anything hung, benches in order."""
    names = {design.letter: design.name for design in picture.designs}
    return [_row(cord, names[cord.design]) for cord in picture.specimens if cord.points or cord.ending_state != "none"]


def loads_words(picture: ClassPicture) -> str:
    """What the forces rest on where no balance gave them; nothing when everything that hung is weighed."""
    said = ([] if picture.weighed else ["loads by label"]) + ([] if picture.hanger_counted else ["hanger not counted"])
    return ", ".join(said).capitalize()


def loads_of_bench(lesson: LessonRecord, bench: BenchRecord) -> str:
    """The same for one bench alone: another bench's tray may be weighed when this one's is not."""
    return loads_words(class_picture(replace(lesson, benches=(bench,))))


def _row(cord: SpecimenPicture, design_name: str) -> CordRow:
    bracket = cord.break_bracket
    ended = cord.ending is not None
    return CordRow(
        name=cord.name,
        bench=cord.bench,
        bench_kind=cord.bench_kind,
        design=cord.design,
        design_name=design_name,
        held_n=bracket.low_n if ended else held_so_far(cord.points),
        broke_n=bracket.high_n if ended else None,
        more_than=ended and bracket.low_n is not None and bracket.high_n is None,
        ended=ended_words(cord),
        where=vocabulary.PLACES[cord.ending.place] if cord.ending and cord.ending.place else "",
        readings=len(cord.points),
        left_out=cord.left_out,
        points=cord.points,
    )


def held_so_far(points: Sequence[Point]) -> float | None:
    """The greatest force of a reading that counts; None before the first."""
    return max((point.force_n for point in points if point.counts and point.force_n is not None), default=None)


def ended_words(cord: SpecimenPicture) -> str:
    """How a cord ended, in words; that it goes on, or that two tablets do not agree."""
    if cord.ending_state == "differs":
        return "two endings"
    return vocabulary.ENDINGS[cord.ending.kind] if cord.ending else "under test"


def count(rows: Sequence[CordRow]) -> Count:
    """How many of the cords stand in the sums; a pilot bench's are in none."""
    out = sum(row.left_out is not None for row in rows)
    pilots = sum(row.bench_kind == "pilot" and row.left_out is None for row in rows)
    return Count(counted=len(rows) - out - pilots, left_out=out)
