"""The whole class at once: a lesson's record in, its class picture out; every sum is made elsewhere in this package."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from app.domain.records import BenchRecord, DesignRecord, Ending, LessonRecord, SpecimenRecord
from app.domain.tested import TestedCord
from app.mechanics.as_told import tested_cord
from app.mechanics.breaking import Bracket
from app.mechanics.class_sums import ClassSums, DesignSums, class_sums, no_cords
from app.mechanics.cord_sums import CordSums, cord_sums
from app.mechanics.curve import CurveEvent, Point, curve_events, points_of
from app.mechanics.loading import Tray, tray_of
from app.mechanics.seen import seen_of

__all__ = [
    "Bracket",
    "ClassPicture",
    "CurveEvent",
    "DesignPicture",
    "Point",
    "SpecimenPicture",
    "class_picture",
    "specimen_picture",
]


@dataclass(frozen=True, kw_only=True)
class SpecimenPicture:
    specimen_id: str
    name: str
    bench_id: str
    bench: str
    bench_kind: str
    design: str
    specimen_no: int
    left_out: str | None
    free_length_mm: float | None
    strands: int | None
    strip_width_mm: float | None
    linear_density_g_per_m: float | None
    points: tuple[Point, ...]
    events: tuple[CurveEvent, ...]
    ending: Ending | None
    ending_state: str
    outcome: str | None
    fail_mass_g: float | None
    break_bracket: Bracket
    tested: TestedCord
    sums: CordSums

    @property
    def counted(self) -> tuple[Point, ...]:
        """The points that may be drawn as the curve, in order of load."""
        return tuple(point for point in self.points if point.counts)


@dataclass(frozen=True, kw_only=True)
class DesignPicture:
    letter: str
    name: str
    is_yardstick: bool
    specimens: int
    groups: int
    unbroken: int
    brackets: tuple[Bracket, ...]
    median: Bracket
    sums: DesignSums


@dataclass(frozen=True, kw_only=True)
class ClassPicture:
    """Everything worked out from a lesson as it stands at change `head`."""

    lesson_id: str
    head: int
    title: str
    gravity_m_per_s2: float
    gravity_from: str | None
    weighed: bool
    hanger_counted: bool
    specimens: tuple[SpecimenPicture, ...]
    designs: tuple[DesignPicture, ...]
    sums: ClassSums


def class_picture(lesson: LessonRecord) -> ClassPicture:
    """Everything that is worked out of a lesson as it stands.

    Parameters: lesson, the record whole.
    Returns: the pictures of all specimens that have an entry, benches in order, and those of the designs; masses [g],
        forces [N], lengths [mm].
    Raises: nothing.
    Source: no sum is made here; each function of this package names its own.
    """
    benches = sorted(lesson.benches, key=lambda bench: bench.place)
    specimens = tuple(
        specimen_picture(lesson, bench, specimen)
        for bench in benches
        for specimen in sorted(bench.specimens, key=lambda specimen: specimen.specimen_no)
        if specimen.measures or specimen.readings or specimen.events or specimen.endings
    )
    trays = {bench.id: tray_of(lesson, bench.id) for bench in benches}
    sums = class_sums(
        [cord.tested for cord in specimens],
        offset_percent=lesson.offset_strain_percent,
        plain_of=_plain_of(lesson.designs),
    )
    return ClassPicture(
        lesson_id=lesson.id,
        head=lesson.head,
        title=lesson.title,
        gravity_m_per_s2=lesson.gravity_m_per_s2,
        gravity_from=lesson.gravity_from,
        weighed=_weighed(trays, specimens),
        hanger_counted=all(tray.hanger is not None for tray in trays.values()),
        specimens=specimens,
        designs=tuple(_design_picture(design, sums) for design in lesson.designs),
        sums=sums,
    )


def _weighed(trays: Mapping[str, Tray], specimens: Sequence[SpecimenPicture]) -> bool:
    """Whether a balance gave the mass of every rung that hung; before any hung, of every rung there is."""
    hung = {(cord.bench_id, mark) for cord in specimens for point in cord.points for mark in point.marks_hung}
    if not hung:
        return all(tray.weighed for tray in trays.values())
    masses = (trays[bench_id].rungs.get(mark) for bench_id, mark in hung)
    return all(mass is not None and mass.weighed for mass in masses)


def specimen_picture(lesson: LessonRecord, bench: BenchRecord, specimen: SpecimenRecord) -> SpecimenPicture:
    """Everything that is worked out of one cord.

    Parameters: lesson, bench and specimen, records that belong together.
    Returns: its standing readings in the order of the test with mass [g], force [N], extension [mm] and strain [1],
        its events, its end and its breaking force [N].
    Raises: nothing.
    Source: no sum is made here; each function of this package names its own.
    """
    seen = seen_of(lesson, bench, specimen)
    told = tested_cord(lesson, bench, specimen, seen)
    sums = cord_sums(told, lesson.offset_strain_percent)
    points = points_of(seen, told, sums.readings)
    return SpecimenPicture(
        specimen_id=specimen.entry_id,
        name=told.specimen,
        bench_id=bench.id,
        bench=bench.word,
        bench_kind=bench.kind,
        design=told.design,
        specimen_no=specimen.specimen_no,
        left_out=seen.specimen_left_out,
        free_length_mm=told.gauge_length_mm,
        strands=told.strands,
        strip_width_mm=told.strip_width_mm,
        linear_density_g_per_m=told.linear_density_g_per_m,
        points=points,
        events=curve_events(seen, points),
        ending=seen.ending,
        ending_state=seen.ending_state,
        outcome=told.outcome,
        fail_mass_g=told.fail_mass_g,
        break_bracket=sums.break_bracket,
        tested=told,
        sums=sums,
    )


def _design_picture(design: DesignRecord, of_class: ClassSums) -> DesignPicture:
    sums = of_class.design(design.letter) or no_cords(design.letter)
    return DesignPicture(
        letter=design.letter,
        name=design.name,
        is_yardstick=design.is_yardstick,
        specimens=len(sums.cords),
        groups=len(sums.groups),
        unbroken=sums.unbroken,
        brackets=tuple(cord.break_bracket for cord in sums.cords if cord.cord.outcome),
        median=sums.breaking.median,
        sums=sums,
    )


def _plain_of(designs: Sequence[DesignRecord]) -> dict[str, str]:
    """By letter of a knotted design, that of the one that is alike in all else but tied round a bar."""
    plain = {_but_for_ends(design): design.letter for design in designs if design.end_fixing == "bar"}
    knotted = [design for design in designs if design.end_fixing == "knot"]
    return {design.letter: plain[alike] for design in knotted if (alike := _but_for_ends(design)) in plain}


def _but_for_ends(design: DesignRecord) -> DesignRecord:
    """The design without what names it and what ties it."""
    return replace(design, id="", letter="", name="", is_yardstick=False, level=None, level_words=None, end_fixing=None)
