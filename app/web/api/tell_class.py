"""The class picture as /api/v1 tells it."""

from collections.abc import Sequence
from typing import Any

from app.domain.records import LessonRecord
from app.domain.told import Note
from app.services import telling, telling_class
from app.services.looking import notes_by_specimen, notes_of_bench
from app.services.pace import Pace, pace
from app.services.picture import Seen
from app.web.api import answers_class as answers
from app.web.api.kinds import Answer
from app.web.api.look_again import told


def class_picture_answer(seen: Seen, *, now: LessonRecord | None) -> answers.ClassPictureAnswer:
    """The picture whole; with what to look at again and the benches' pace, by the lesson `now`, for the teacher.

    A bench's doubts are its own and the teacher's, nobody else's; how its cords stand beside others' is the teacher's.
    """
    lesson, picture = seen.lesson, seen.picture
    notes = {} if now is None else notes_by_specimen(lesson, picture.specimens)
    said: dict[str, Any] = {
        "lesson_id": lesson.id,
        "head": lesson.head,
        "settings": _settings(seen),
        "specimens": [_specimen(cord, notes.get(cord.specimen_id, ())) for cord in picture.specimens],
        "designs": [_design(design) for design in picture.designs],
        "differences": telling_class.differences(picture.sums, lesson.depth),
        "repeatability": telling_class.repeatability(picture.sums, naming=now is not None),
        "shares_kept": telling_class.shares_kept(picture.sums.kept),
        "common_force_N": picture.sums.common_force_n,
        "trend": telling_class.trend(picture.sums.trend),
    }
    if now is None:
        return answers.ClassPictureAnswer(**said)
    return answers.TeacherPictureAnswer(**said, pace=[_pace(row) for row in pace(now)])


def _settings(seen: Seen) -> answers.Settings:
    lesson, picture = seen.lesson, seen.picture
    return answers.Settings(
        title=lesson.title,
        gravity_m_per_s2=lesson.gravity_m_per_s2,
        gravity_from=lesson.gravity_from,
        wait_s=lesson.wait_s,
        scale_division_mm=lesson.scale_division_mm,
        judgement_mm=lesson.judgement_mm,
        weighed=picture.weighed,
        hanger_counted=picture.hanger_counted,
    )


def _specimen(cord: Any, notes: Sequence[Note]) -> answers.SpecimenSaid:
    said: dict[str, Any] = {
        "specimen": cord.name,
        "specimen_id": cord.specimen_id,
        "specimen_no": cord.specimen_no,
        "design": cord.design,
        "group": cord.bench,
        "bench": cord.bench.lower(),
        "bench_kind": cord.bench_kind,
        "left_out": cord.left_out,
        "gauge_length_mm": cord.free_length_mm,
        "strands": cord.strands,
        "strip_width_mm": cord.strip_width_mm,
        "linear_density_g_per_m": cord.linear_density_g_per_m,
        "points": [_point(point) for point in cord.points],
        "events": [_event(event) for event in cord.events],
        "ending": _ending(cord.ending) if cord.ending else None,
        "ending_state": cord.ending_state,
        "outcome": cord.outcome,
        "fail_mass_g": cord.fail_mass_g,
        "look_again": told(notes),
    }
    return answers.SpecimenSaid(**said, **telling.figures(cord.sums))


def _of(thing: Any, model: type[Answer]) -> dict[str, Any]:
    """The fields of the model that the thing has under the same name."""
    return {name: getattr(thing, name) for name in model.model_fields if hasattr(thing, name)}


def _point(point: Any) -> answers.PointSaid:
    listed = {name: list(getattr(point, name)) for name in ("marks_hung", "events", "events_after")}
    return answers.PointSaid(**{**_of(point.reading, answers.PointSaid), **_of(point, answers.PointSaid), **listed})


def _event(event: Any) -> answers.CurveEventSaid:
    return answers.CurveEventSaid(**_of(event, answers.CurveEventSaid))


def _ending(ending: Any) -> answers.EndingSaid:
    return answers.EndingSaid(**_of(ending, answers.EndingSaid))


def _design(design: Any) -> answers.DesignSaid:
    named = {"name": design.name, "is_yardstick": design.is_yardstick}
    return answers.DesignSaid(**named, **telling_class.design(design.sums))


def _pace(row: Pace) -> answers.PaceSaid:
    return answers.PaceSaid(
        bench=row.bench.address,
        word=row.bench.word,
        design=row.design,
        bench_stage=row.state.stage,
        step=row.state.step,
        last_reading_at=row.last_reading_at,
        last_heard_at=row.bench.last_heard_at,
        unsent=row.bench.unsent,
        look_again=len(notes_of_bench(row.state)),
    )
