"""What the store holds of one specimen, put as the class CSV tells it: the ground of every sum."""

from collections.abc import Sequence

from app.domain.limits import MEASURE_MOST
from app.domain.records import BenchRecord, DesignRecord, LessonRecord, MaterialRecord, Measure, SpecimenRecord
from app.domain.standing import beside, counted, event_order, holding, measured
from app.domain.tested import DIFFERS, MATCHED, RULED_OUT, Row, TestedCord
from app.domain.vocabulary import OUTCOMES
from app.mechanics.breaking import failing_step
from app.mechanics.cord import cord_of
from app.mechanics.material import film_thickness
from app.mechanics.seen import Seen

_STATE_WORDS = {"stands": None, "matched": MATCHED, "differs": DIFFERS, "ruled_out": RULED_OUT}


def tested_cord(lesson: LessonRecord, bench: BenchRecord, specimen: SpecimenRecord, seen: Seen) -> TestedCord:
    """One cord as it is told, from the records.

    Parameters: lesson, bench and specimen, records that belong together; seen, what counts of the specimen.
    Returns: a row for each standing reading, in the order of the test, shape (n,), masses [g], pointer [mm], and what
        is said of the cord as a whole: lengths [mm], linear density [g/m], gravity [m/s2].
    Raises: nothing.
    Source: our own rules for entries.
    """
    design = lesson.design(specimen.design_id)
    measures = counted(specimen.measures, lesson.rulings)
    cord = cord_of(measures, design)
    material = _sheet(lesson, design)
    first_step, last_step = _straight_part(lesson, specimen)
    return TestedCord(
        specimen=f"{bench.word}-{specimen.specimen_no}",
        rows=_rows(seen),
        design=design.letter,
        group=bench.word,
        repeat=specimen.specimen_no,
        bench_kind=bench.kind,
        gravity_m_per_s2=lesson.gravity_m_per_s2,
        scale=bench.scale_way,
        scale_division_mm=lesson.scale_division_mm if bench.scale_division_mm is None else bench.scale_division_mm,
        judgement_mm=lesson.judgement_mm,
        gauge_length_mm=cord.free_length_mm,
        strands=cord.strands,
        layers=design.layers,
        strip_width_mm=cord.strip_width_mm,
        strip_length_mm=measured(measures, "strip_length_mm"),
        film_thickness_um=_film_thickness_um(measures, material),
        cord_mass_g=measured(measures, "cord_mass_g"),
        cord_length_mm=measured(measures, "cord_length_mm"),
        linear_density_g_per_m=cord.linear_density_g_per_m,
        level=design.level,
        outcome=None if seen.ending is None else OUTCOMES[seen.ending.kind],
        fail_mass_g=_fail_mass_g(seen),
        place=seen.ending.place if seen.ending else None,
        straight_first_step=first_step,
        straight_last_step=last_step,
    )


def _sheet(lesson: LessonRecord, design: DesignRecord) -> MaterialRecord | None:
    """The sheet that the design names; of a design that names none, the one sheet of the plan."""
    if design.material_id is None and len(lesson.materials) == 1:
        return lesson.materials[0]
    return next((sheet for sheet in lesson.materials if sheet.id == design.material_id), None)


def _film_thickness_um(measures: Sequence[Measure], material: MaterialRecord | None) -> float | None:
    """As measured on film of the cord, by weighing a known area or else by a stack; else as the plan states it."""
    found = (_weighed_um(measures, material), _stacked_um(measures), material.thickness_um if material else None)
    return next((um for um in found if um is not None and 0 < um <= MEASURE_MOST), None)


def _weighed_um(measures: Sequence[Measure], material: MaterialRecord | None) -> float | None:
    mass_g, area_mm2 = (measured(measures, f"sheet_{name}") for name in ("mass_g", "area_mm2"))
    density = material.density_kg_m3 if material else None
    if mass_g is None or area_mm2 is None or density is None:
        return None
    return film_thickness(mass_g, area_mm2, density).value


def _stacked_um(measures: Sequence[Measure]) -> float | None:
    stack_mm, layers = (measured(measures, f"stack_{name}") for name in ("thickness_mm", "layers"))
    return stack_mm / layers * 1000 if stack_mm is not None and layers else None


def _fail_mass_g(seen: Seen) -> float | None:
    step = failing_step(seen.ending, seen.last_read)
    return None if step is None else seen.load_at(step).mass_g


def _straight_part(lesson: LessonRecord, specimen: SpecimenRecord) -> tuple[int | None, int | None]:
    """First and last step of the straight part, as someone chose them."""
    ruling = holding(lesson.rulings, ("straight_part",)).get(specimen.entry_id)
    detail = ruling.detail if ruling is not None and isinstance(ruling.detail, dict) else {}
    first, last = (detail.get(f"{name}_step") for name in ("first", "last"))
    return first if isinstance(first, int) else None, last if isinstance(last, int) else None


def _rows(seen: Seen) -> tuple[Row, ...]:
    codes = _codes(seen)
    rows = []
    for reading in seen.readings:
        hung = seen.load_of(seen.marks_at(reading))
        rows.append(
            Row(
                step=reading.step,
                phase=reading.phase,
                turn=reading.turn,
                mass_g=hung.mass_g,
                mass_u_g=hung.mass_u_g,
                pointer_mm=reading.pointer_mm,
                events=tuple(codes.get((reading.entry_id, False), ())),
                events_after=tuple(codes.get((reading.entry_id, True), ())),
                waited_s=_waited_s(seen, reading.entry_id),
                left_out=_left_out(seen, reading.entry_id),
            )
        )
    return tuple(rows)


def _waited_s(seen: Seen, entry_id: str) -> float | None:
    """The newest wait that was told of a reading, for a correction typed later does not wait again."""
    return next((one.waited_s for one in seen.chains[entry_id] if one.waited_s is not None), None)


def _left_out(seen: Seen, entry_id: str) -> str | None:
    return seen.left_out.get(entry_id) or seen.specimen_left_out or _STATE_WORDS[seen.state[entry_id]]


def _codes(seen: Seen) -> dict[tuple[str, bool], dict[str, None]]:
    """By entry id of a reading, and whether after it: the codes of the events told beside it, each once, in order."""
    told = beside(seen.readings, seen.events)
    codes: dict[tuple[str, bool], dict[str, None]] = {}
    for event in sorted(seen.events, key=event_order):
        if event.entry_id in told:
            reading, after = told[event.entry_id]
            codes.setdefault((reading.entry_id, after), {})[event.kind] = None
    return codes
