"""What is open to look at again at a bench: friendly doubts about its cords as they stand, and about its tray."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

from app.domain.check_cord import look_again_at_cord, rung_note
from app.domain.check_words import listed
from app.domain.checks import facts_of, notes_along, told_of
from app.domain.records import BenchRecord, LessonRecord, Measure, SpecimenRecord
from app.domain.standing import DIFFERS, counted, holding, measured, standing
from app.domain.told import TEACHER, BenchFacts, CordFacts, Note, Told
from app.domain.vocabulary import ENDINGS
from app.mechanics.classwork import SpecimenPicture
from app.mechanics.cord import linear_density_g_per_m
from app.services.bench_state import BenchState

TWO_OF_ONE = 23


def notes_of_bench(state: BenchState) -> tuple[Note, ...]:
    """What is open at the bench: of its tray, then of its cords, each in the order of the test."""
    lesson, bench = state.lesson, state.bench
    answered = _answered(lesson)
    of_cords = (note for cord in state.cords for note in _of_cord(lesson, bench, cord))
    return tuple(note for note in (*_of_tray(lesson, bench), *of_cords) if note.about not in answered)


def notes_by_specimen(lesson: LessonRecord, cords: Iterable[SpecimenPicture]) -> dict[str, tuple[Note, ...]]:
    """By specimen id, what is open of those cords of a lesson."""
    answered = _answered(lesson)
    benches = {bench.id: bench for bench in lesson.benches}
    return {
        cord.specimen_id: tuple(
            note for note in _of_cord(lesson, benches[cord.bench_id], cord) if note.about not in answered
        )
        for cord in cords
    }


def for_benches(notes: Iterable[Note]) -> list[Note]:
    """Those of the notes that a bench may read; the others are for the teacher only."""
    return [note for note in notes if note.severity != TEACHER]


def _answered(lesson: LessonRecord) -> Collection[str]:
    """The ids of the entries about which someone answered; a number that replaces one of them is looked at anew."""
    return holding(lesson.rulings, ("note_answer",)).keys()


def _of_cord(lesson: LessonRecord, bench: BenchRecord, cord: SpecimenPicture) -> Iterator[Note]:
    if cord.left_out is not None:
        return
    specimen = next(one for one in bench.specimens if one.entry_id == cord.specimen_id)
    measures = counted(specimen.measures, lesson.rulings)
    yield from look_again_at_cord(_cord_facts(lesson, specimen, measures))
    yield from _walked(_told(cord), _bench_facts(lesson, bench, cord, measures=measures))
    if cord.ending_state == DIFFERS:
        yield _two_endings(lesson, specimen)


@lru_cache(maxsize=2048)
def _walked(told: tuple[Told, ...], bench: BenchFacts) -> tuple[Note, ...]:
    """Kept, so that a new reading has its own cord looked at again and no other."""
    return notes_along(told, bench)


def _told(cord: SpecimenPicture) -> tuple[Told, ...]:
    """The readings of the cord, by entry id, with what a file does not tell of them."""
    timed = all(point.reading.by == "bench" for point in cord.points if point.reading.phase == "zero")
    return tuple(
        replace(
            told,
            key=point.reading.entry_id,
            marks=point.marks_hung,
            s_since_zero=point.s_since_zero if timed and point.reading.by == "bench" else None,
        )
        for told, point in zip(told_of(cord.tested), cord.points, strict=True)
    )


def _bench_facts(
    lesson: LessonRecord, bench: BenchRecord, cord: SpecimenPicture, *, measures: Sequence[Measure]
) -> BenchFacts:
    return replace(
        facts_of(cord.tested),
        unit=bench.scale_unit,
        wait_s=float(lesson.wait_s),
        drop_mm=measured(measures, "drop_height_mm"),
        broke_adding=cord.ending is not None and cord.ending.kind == "broke_adding",
    )


def _cord_facts(lesson: LessonRecord, specimen: SpecimenRecord, measures: Sequence[Measure]) -> CordFacts:
    design = lesson.design(specimen.design_id)
    newest = {measure.quantity: measure.entry_id for measure in sorted(standing(measures), key=lambda one: one.n)}
    return CordFacts(
        free_length_mm=measured(measures, "free_length_mm"),
        planned_length_mm=design.free_length_mm,
        length_key=newest.get("free_length_mm", ""),
        linear_density_g_per_m=linear_density_g_per_m(
            measured(measures, "cord_mass_g"), measured(measures, "cord_length_mm")
        ),
        planned_density_g_per_m=design.linear_density_g_per_m,
        strands=design.strands,
        mass_key=newest.get("cord_mass_g", ""),
    )


def _of_tray(lesson: LessonRecord, bench: BenchRecord) -> Iterator[Note]:
    rungs = {rung.mark: rung for rung in lesson.rungs}
    for weighing in counted(lesson.weighings, lesson.rulings):
        rung = rungs.get(weighing.mark)
        if weighing.bench_id != bench.id or rung is None:
            continue
        note = rung_note(rung.printed_mass_g, rung.printed_kind, balance_mass_g=weighing.mass_g, key=weighing.entry_id)
        if note is not None:
            yield note


def _two_endings(lesson: LessonRecord, specimen: SpecimenRecord) -> Note:
    told = counted(specimen.endings, lesson.rulings)
    words = listed([f"{ENDINGS[ending.kind]}{_at(ending.fail_step)}" for ending in told])
    said = f"Two endings for one cord: {words}. Which one did you see?"
    return Note(note=TWO_OF_ONE, words=said, about=told[0].entry_id)


def _at(step: int | None) -> str:
    return "" if step is None else f" at step {step}"
