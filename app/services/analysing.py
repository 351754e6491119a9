"""A readings file worked out without a server: the same sums as a lesson's pages, from the same ground."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar

from app.domain.checks import notes_of_cord
from app.domain.told import Note
from app.mechanics.class_sums import ClassSums, class_sums
from app.mechanics.comparison import MOST_DESIGNS
from app.mechanics.cord_sums import CordSums
from app.mechanics.offset_yield import OFFSET_PERCENT
from app.services import telling, telling_class
from app.transfer.reading_options import ReadingOptions
from app.transfer.readings_file import ReadingsFile, read_readings

__all__ = ["OFFSET_PERCENT", "Analysis", "Progress", "ReadingOptions", "analyse", "as_json", "counted"]

PROGRESS_CORDS = 250
"""Cords between two words of progress."""

Of = TypeVar("Of")
Progress = Callable[[str], None]
"""What is told in words, now and then, how far the work has come; of a file of a class's size nothing."""

TOO_MANY = f"There are more than {MOST_DESIGNS} designs, so no two of them are compared."


@dataclass(frozen=True, kw_only=True)
class Analysis:
    """What a file told and what was worked out of it; `notes` has those of each cord, in the order of the cords."""

    file: ReadingsFile
    sums: ClassSums
    notes: tuple[tuple[Note, ...], ...]
    depth: str
    offset_strain_percent: float

    @property
    def doubts(self) -> tuple[str, ...]:
        """What may be wrong with the file, or was too much to compare."""
        return (*self.file.doubts, TOO_MANY) if len(self.sums.designs) > MOST_DESIGNS else self.file.doubts

    @property
    def doubtful(self) -> bool:
        """Whether something should be looked at again."""
        return any(self.notes)


def analyse(
    data: bytes,
    options: ReadingOptions,
    *,
    depth: str,
    offset_strain_percent: float = OFFSET_PERCENT,
    progress: Progress | None = None,
) -> Analysis:
    """Everything worked out of a readings file; UnreadableFile, with all that is wrong with it, when anything is."""
    file = read_readings(data, options, _rows_told(progress))
    cords = counted(file.cords, "cords worked out", progress)
    return Analysis(
        file=file,
        sums=class_sums(cords, offset_percent=offset_strain_percent),
        notes=tuple(notes_of_cord(cord) for cord in file.cords),
        depth=depth,
        offset_strain_percent=offset_strain_percent,
    )


def _rows_told(progress: Progress | None) -> Callable[[int], None] | None:
    return None if progress is None else lambda rows: progress(f"{rows:,} rows read")


def counted(all_of: Sequence[Of], what: str, progress: Progress | None) -> Iterator[Of]:
    """Each of them; where there are many, progress is told every so often how many have been asked for."""
    for number, one in enumerate(all_of):
        if progress is not None and number and number % PROGRESS_CORDS == 0:
            progress(f"{number:,} of {len(all_of):,} {what}")
        yield one


def as_json(found: Analysis) -> dict[str, Any]:
    """The whole analysis in the fields of contract.md 3."""
    told = zip(found.sums.cords, found.file.about, found.notes, strict=True)
    return {
        "settings": _settings(found),
        "specimens": [_specimen(sums, about, notes) for sums, about, notes in told],
        "designs": [telling_class.design(design) for design in found.sums.designs],
        "differences": telling_class.differences(found.sums, found.depth),
        "repeatability": telling_class.repeatability(found.sums, naming=True),
        "shares_kept": telling_class.shares_kept(found.sums.kept),
        "common_force_N": found.sums.common_force_n,
        "trend": telling_class.trend(found.sums.trend),
        "doubts": list(found.doubts),
    }


def _settings(found: Analysis) -> dict[str, Any]:
    """Each setting's value, null where cords differ, and where it came from."""
    return {
        **{setting.name: setting.value for setting in found.file.settings},
        "offset_strain_percent": found.offset_strain_percent,
        "depth": found.depth,
        "from": {setting.name: [source for _, source in setting.used] for setting in found.file.settings},
        "columns_not_read": list(found.file.unknown),
    }


def _specimen(sums: CordSums, about: tuple[str, ...], notes: tuple[Note, ...]) -> dict[str, Any]:
    cord = sums.cord
    told = zip(cord.rows, sums.readings, about, strict=True)
    return {
        "specimen": cord.specimen,
        "design": cord.design or None,
        "group": cord.group or None,
        "repeat": cord.repeat,
        "bench_kind": cord.bench_kind,
        "left_out": cord.left_out,
        "outcome": cord.outcome,
        "points": [{**telling.reading(row, worked), "about": each} for row, worked, each in told],
        **telling.figures(sums),
        "look_again": [telling.note(each) for each in notes],
    }
