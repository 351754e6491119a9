"""A bench as /api/v1 tells it: its records and what was worked out, put into the answer's fields."""

from collections.abc import Iterable, Iterator
from typing import Any, Protocol

from app.domain.records import BenchRecord, Entry, LessonRecord, SpecimenRecord
from app.domain.standing import STANDS, ending_states, left_out_reasons, reading_order, standing
from app.services.bench_state import BenchState, Next
from app.web.api import answers
from app.web.api.answers import BenchAnswer, Figures, Interval, NextAnswer, Told
from app.web.api.look_again import open_notes

REPLACED = "replaced"
HANGER = "hanger"
NO_FIGURES = "Another reading replaces this one."


class _Bracket(Protocol):
    """A breaking force as the sums give it."""

    @property
    def low_n(self) -> float | None: ...
    @property
    def high_n(self) -> float | None: ...
    @property
    def why(self) -> str | None: ...


def interval(bracket: _Bracket) -> Interval:
    """The breaking force, with its why where an end can't be had."""
    return Interval(low=bracket.low_n, high=bracket.high_n, why=bracket.why)


def next_step(coming: Next) -> NextAnswer:
    """What the bench does next."""
    return NextAnswer(
        do=coming.do,
        step=coming.step,
        phase=coming.phase,
        mark=coming.mark,
        mass_g=coming.mass_g,
        total_mass_g=coming.total_mass_g,
        force_n=coming.force_n,
    )


def figures(point: Any) -> dict[str, Any]:
    """What follows from a reading that stands."""
    return {
        "pointer_mm": point.reading.pointer_mm,
        "total_mass_g": point.mass_g,
        "force_n": point.force_n,
        "force_u_n": point.force_u_n,
        "extension_mm": point.extension_mm,
        "extension_u_mm": point.extension_u_mm,
        "extension_why": point.extension_why,
        "strain": point.strain,
    }


def figures_of_replaced(pointer_mm: float) -> dict[str, Any]:
    """What follows from a reading that another one replaces: nothing."""
    return dict.fromkeys(Figures.model_fields) | {"pointer_mm": pointer_mm, "extension_why": NO_FIGURES}


def bench_answer(state: BenchState, *, writes: bool) -> BenchAnswer:
    """The bench whole, as GET B answers it."""
    lesson, bench = state.lesson, state.bench
    telling = _Telling(state)
    return BenchAnswer(
        lesson_id=lesson.id,
        lesson=_lesson(lesson),
        bench=_bench(state),
        ladder=_ladder(state),
        hanger=answers.HangerSaid(name=hanger_name(lesson), mass_g=_mass_g(state.tray.hanger)),
        specimens=[telling.specimen(one) for one in bench.specimens],
        next=next_step(state.next),
        readings=[reading for one in bench.specimens for reading in telling.readings(one)],
        events=[event for one in bench.specimens for event in telling.events(one.events)],
        endings=list(telling.endings()),
        measures=telling.measures(bench.measures),
        prediction=telling.prediction(),
        sentences=telling.sentences(),
        ticks=bench.ticks,
        look_again=open_notes(state),
        writes=writes,
        head=lesson.head,
    )


def hanger_name(lesson: LessonRecord) -> str:
    """What the lesson calls its hanger."""
    return str(lesson.planning.get("hanger_name") or HANGER)


def letter_of(lesson: LessonRecord, bench: BenchRecord) -> str:
    """The letter of the bench's design."""
    return lesson.design(bench.design_id).letter


def scale_of(lesson: LessonRecord, bench: BenchRecord) -> answers.Scale:
    """The bench's scale; its own division, or the lesson's."""
    own = bench.scale_division_mm
    return answers.Scale(
        unit=bench.scale_unit, division_mm=lesson.scale_division_mm if own is None else own, way=bench.scale_way
    )


def _lesson(lesson: LessonRecord) -> answers.BenchLesson:
    return answers.BenchLesson(
        title=lesson.title,
        question=lesson.question,
        stage=lesson.stage,
        over=lesson.over,
        depth=lesson.depth,
        wait_s=lesson.wait_s,
        later_wait_s=lesson.later_wait_s,
        gravity_m_per_s2=lesson.gravity_m_per_s2,
        paused=lesson.paused_at is not None,
        masses_down_at=lesson.masses_down_at,
        graph_open=lesson.graph_open,
        own_graph=lesson.own_graph,
        free_text=lesson.free_text,
    )


def _bench(state: BenchState) -> answers.BenchSaid:
    bench = state.bench
    return answers.BenchSaid(
        bench=bench.address,
        word=bench.word,
        kind=bench.kind,
        design=letter_of(state.lesson, bench),
        scale=scale_of(state.lesson, bench),
        bench_stage=state.stage,
        open_again=bench.open_again,
    )


def _ladder(state: BenchState) -> list[answers.LadderRung]:
    masses = state.tray.rungs
    return [
        answers.LadderRung(mark=rung.mark, name=rung.name, mass_g=_mass_g(masses.get(rung.mark)))
        for rung in state.lesson.rungs
    ]


def _mass_g(mass: Any) -> float | None:
    return None if mass is None else mass.mass_g


class _Telling:
    """The entries of one bench, each with what is said of it."""

    def __init__(self, state: BenchState) -> None:
        self._state = state
        self._lesson = state.lesson
        self._points = {point.reading.entry_id: point for cord in state.cords for point in cord.points}
        self._cords = {cord.specimen_id: cord for cord in state.cords}

    def specimen(self, specimen: SpecimenRecord) -> answers.Specimen:
        return answers.Specimen(
            specimen_id=specimen.entry_id,
            specimen_no=specimen.specimen_no,
            design=self._lesson.design(specimen.design_id).letter,
            measures=self.measures(specimen.measures),
            left_out=self._cords[specimen.entry_id].left_out,
        )

    def readings(self, specimen: SpecimenRecord) -> Iterator[answers.ReadingTold]:
        """Those of one cord in the order of the test, replaced ones among them: pages strike them through."""
        for reading in sorted(specimen.readings, key=reading_order):
            point = self._points.get(reading.entry_id)
            said = self._said(reading, state=point.state if point else REPLACED)
            if point:
                said |= figures(point) | {"left_out": point.left_out}
            else:
                said |= figures_of_replaced(reading.pointer_mm)
            yield answers.ReadingTold(**said)

    def events(self, events: Iterable[Entry]) -> list[answers.EventTold]:
        return [answers.EventTold(**said) for said in self._all(events, answers.EventTold)]

    def endings(self) -> Iterator[answers.EndingTold]:
        for specimen in self._state.bench.specimens:
            cord = self._cords[specimen.entry_id]
            states = ending_states(specimen.endings, self._lesson.rulings)
            for said in self._all(specimen.endings, answers.EndingTold):
                said["state"] = states.get(said["entry_id"], said["state"])
                yield answers.EndingTold(**said, break_force_n=interval(cord.break_bracket))

    def measures(self, measures: Iterable[Entry]) -> list[answers.MeasureTold]:
        return [answers.MeasureTold(**said) for said in self._all(measures, answers.MeasureTold)]

    def sentences(self) -> list[answers.SentenceTold]:
        return [answers.SentenceTold(**said) for said in self._all(self._state.bench.sentences, answers.SentenceTold)]

    def prediction(self) -> answers.PredictionTold | None:
        sealed = standing(self._state.bench.predictions)
        if not sealed:
            return None
        last = sealed[-1]
        letters = {design.id: design.letter for design in self._lesson.designs}
        return answers.PredictionTold(
            **self._said(last, state=STANDS),
            break_force_n=last.break_force_n,
            best_design=letters.get(last.best_design_id or ""),
            shape=last.shape,
        )

    def _all(self, entries: Iterable[Entry], model: type[Told]) -> Iterator[dict[str, Any]]:
        """Of each entry the fields that the model has, replaced ones too."""
        given = tuple(entries)
        stands = {entry.entry_id for entry in standing(given)}
        out = left_out_reasons(self._lesson.rulings, given)
        names = [name for name in model.model_fields if given and hasattr(given[0], name)]
        for entry in given:
            said = {name: getattr(entry, name) for name in names}
            said["state"] = STANDS if entry.entry_id in stands else REPLACED
            yield said | {"left_out": out.get(entry.entry_id)}

    def _said(self, entry: Entry, *, state: str) -> dict[str, Any]:
        model = answers.ReadingTold if hasattr(entry, "pointer_mm") else Told
        names = [name for name in model.model_fields if hasattr(entry, name)]
        return {name: getattr(entry, name) for name in names} | {"state": state, "left_out": None}
