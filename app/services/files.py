"""Files of a lesson: the class CSV, from the same picture that pages show."""

from collections.abc import Mapping

from app.domain.records import BenchRecord, DesignRecord, LessonRecord, SpecimenRecord
from app.domain.standing import counted, holding, measured
from app.mechanics.classwork import ClassPicture, Point, SpecimenPicture
from app.transfer.csv_write import write_rows

STATE_WORDS = {"stands": None, "matched": "matched", "differs": "differs", "ruled_out": "ruled out"}
"""What the column `left_out` says of a reading that nobody left out."""


def class_csv(lesson: LessonRecord, picture: ClassPicture) -> str:
    """The class CSV: one row a standing reading, benches in order, then specimen, then time of typing."""
    return write_rows(row for cord in picture.specimens for row in _rows(lesson, cord))


def _rows(lesson: LessonRecord, cord: SpecimenPicture) -> list[dict[str, object]]:
    bench = next(bench for bench in lesson.benches if bench.id == cord.bench_id)
    specimen = next(specimen for specimen in bench.specimens if specimen.entry_id == cord.specimen_id)
    design = lesson.design(specimen.design_id)
    said = {
        **_said_of_lesson(lesson, bench),
        **_said_of_cord(cord),
        **_said_of_make(lesson, specimen, design),
        **_straight_part(lesson, cord),
    }
    in_time = sorted(cord.points, key=lambda point: point.taken_at)  # of one moment: the order of the test
    return [{**said, **_said_of_reading(cord, point)} for point in in_time]


def _said_of_lesson(lesson: LessonRecord, bench: BenchRecord) -> Mapping[str, object]:
    division_mm = lesson.scale_division_mm if bench.scale_division_mm is None else bench.scale_division_mm
    return {
        "gravity_m_per_s2": lesson.gravity_m_per_s2,
        "scale": bench.scale_way,
        "scale_division_mm": division_mm,
        "judgement_mm": lesson.judgement_mm,
        "bench_kind": bench.kind,
    }


def _said_of_cord(cord: SpecimenPicture) -> Mapping[str, object]:
    ending = cord.ending
    return {
        "specimen": cord.name,
        "design": cord.design,
        "group": cord.bench,
        "repeat": cord.specimen_no,
        "gauge_length_mm": cord.free_length_mm,
        "strands": cord.strands,
        "strip_width_mm": cord.strip_width_mm,
        "linear_density_g_per_m": cord.linear_density_g_per_m,
        "outcome": cord.outcome,
        "fail_mass_g": cord.fail_mass_g,
        "remark": ending.remark if ending else None,
        "ending": ending.kind if ending else None,
        "place": ending.place if ending else None,
        "look": ending.look if ending else None,
    }


def _said_of_make(lesson: LessonRecord, specimen: SpecimenRecord, design: DesignRecord) -> Mapping[str, object]:
    measures = counted(specimen.measures, lesson.rulings)
    material = next((material for material in lesson.materials if material.id == design.material_id), None)
    return {
        "layers": design.layers,
        "strip_length_mm": measured(measures, "strip_length_mm"),
        "film_thickness_um": material.thickness_um if material else None,
        "cord_mass_g": measured(measures, "cord_mass_g"),
        "cord_length_mm": measured(measures, "cord_length_mm"),
        "level": design.level,
    }


def _straight_part(lesson: LessonRecord, cord: SpecimenPicture) -> Mapping[str, object]:
    ruling = holding(lesson.rulings, ("straight_part",)).get(cord.specimen_id)
    detail = ruling.detail if ruling is not None and isinstance(ruling.detail, dict) else {}
    steps = {name: detail.get(f"{name}_step") for name in ("first", "last")}
    return {f"straight_{name}_step": step if isinstance(step, int) else None for name, step in steps.items()}


def _said_of_reading(cord: SpecimenPicture, point: Point) -> Mapping[str, object]:
    reading = point.reading
    return {
        "step": reading.step,
        "phase": reading.phase,
        "turn": reading.turn,
        "mass_g": point.mass_g,
        "mass_u_g": point.mass_u_g,
        "pointer_mm": reading.pointer_mm,
        "events": point.events,
        "events_after": point.events_after,
        "waited_s": point.waited_s,
        "left_out": point.left_out or cord.left_out or STATE_WORDS[point.state],
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
