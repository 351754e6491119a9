"""One cord told line by line for the teacher: what stands, what it replaced, by whom, and what was ruled of it."""

from collections.abc import Sequence
from dataclasses import dataclass

from app.domain import vocabulary
from app.domain.quantities import trimmed, with_unit
from app.domain.records import BenchRecord, Ending, Entry, Event, LessonRecord, Measure, Reading, SpecimenRecord
from app.domain.standing import left_out_reasons, lines, standing
from app.mechanics.classwork import Point, SpecimenPicture
from app.services.bench_state import BenchState
from app.services.pace import ending_words

BY_WORDS = {"bench": "the bench", "teacher": "the teacher", "paper": "paper"}
STATE_WORDS = {
    "stands": "",
    "matched": "the same number again",
    "differs": "not settled: none counts yet",
    "ruled_out": "the other number counts",
}


@dataclass(frozen=True, kw_only=True)
class Before:
    """What an entry said before it was changed, and who had said so."""

    says: str
    by: str


@dataclass(frozen=True, kw_only=True)
class Line:
    """One standing entry: what it says, what it said before (the first saying first), who wrote it, what was ruled."""

    table: str
    entry: Entry
    says: str
    before: tuple[Before, ...]
    by: str
    why: str
    left_out: str | None
    state: str = "stands"
    point: Point | None = None

    @property
    def state_words(self) -> str:
        """What its state means, in words; nothing when it simply stands."""
        return STATE_WORDS[self.state]

    @property
    def rivals(self) -> bool:
        """Whether another entry says something else of the same moment, settled or not."""
        return self.state in ("differs", "ruled_out")


@dataclass(frozen=True, kw_only=True)
class Story:
    """One cord with everything told of it; `left_out` is the reason when the whole cord is out of the sums."""

    cord: SpecimenPicture
    specimen: SpecimenRecord
    readings: tuple[Line, ...]
    events: tuple[Line, ...]
    endings: tuple[Line, ...]
    measures: tuple[Line, ...]

    @property
    def left_out(self) -> str | None:
        """Why the whole cord is out of the sums; None when it is in them."""
        return self.cord.left_out

    @property
    def lines(self) -> tuple[Line, ...]:
        """Everything told of the cord, whatever it is."""
        return (*self.readings, *self.events, *self.endings, *self.measures)


def stories(state: BenchState) -> list[Story]:
    """The cords of one bench, the newest first."""
    told = [_story(state.lesson, state.bench, cord) for cord in state.cords]
    return told[::-1]


def find_line(told: Sequence[Story], entry_id: str) -> Line | None:
    """The line of that entry; None when it does not stand, or not here."""
    return next((line for story in told for line in story.lines if line.entry.entry_id == entry_id), None)


def _story(lesson: LessonRecord, bench: BenchRecord, cord: SpecimenPicture) -> Story:
    specimen = next(one for one in bench.specimens if one.entry_id == cord.specimen_id)
    counting = cord.ending.entry_id if cord.ending else None
    rung = lesson.rungs[0].name if lesson.rungs else "rung"
    return Story(
        cord=cord,
        specimen=specimen,
        readings=tuple(
            _line(lesson, "reading", specimen.readings, point.reading, point=point) for point in cord.points
        ),
        events=tuple(_line(lesson, "event", specimen.events, one, rung=rung) for one in standing(specimen.events)),
        endings=tuple(
            _line(lesson, "ending", specimen.endings, one, state=_ending_state(cord, one, counting))
            for one in standing(specimen.endings)
        ),
        measures=tuple(_line(lesson, "measure", specimen.measures, one) for one in standing(specimen.measures)),
    )


def _ending_state(cord: SpecimenPicture, ending: Ending, counting: str | None) -> str:
    if cord.ending_state == "differs":
        return "differs"
    same = cord.ending is not None and ending_words(cord.ending) == ending_words(ending)
    return "stands" if ending.entry_id == counting or counting is None else "matched" if same else "ruled_out"


def _line(
    lesson: LessonRecord,
    table: str,
    entries: Sequence[Entry],
    entry: Entry,
    *,
    point: Point | None = None,
    state: str = "stands",
    rung: str = "",
) -> Line:
    chain = lines(entries)[entry.entry_id]
    code, _, words = (entry.reason or "").partition(": ")
    return Line(
        table=table,
        entry=entry,
        says=says(entry, rung),
        before=tuple(Before(says=says(one, rung), by=BY_WORDS[one.by]) for one in chain[:0:-1]),
        by=BY_WORDS[entry.by],
        why=(words or vocabulary.REASONS.get(code, code)) if entry.replaces else "",
        left_out=left_out_reasons(lesson.rulings, entries).get(entry.entry_id),
        state=point.state if point else state,
        point=point,
    )


def says(entry: Entry, rung: str = "") -> str:
    """What one entry says, in the words of a page; a reading as it was typed."""
    if isinstance(entry, Reading):
        return with_unit(entry.pointer_typed, entry.pointer_unit)
    if isinstance(entry, Event):
        return event_words(entry, rung)
    if isinstance(entry, Ending):
        place = f", {vocabulary.PLACES[entry.place]}" if entry.place else ""
        look = f", {vocabulary.LOOKS[entry.look]}" if entry.look else ""
        return ending_words(entry) + place + look
    if isinstance(entry, Measure):
        return f"{vocabulary.QUANTITIES[entry.quantity][0]}: {_amount(entry)}"
    raise TypeError(f"{type(entry).__name__} says nothing on a page.")


def event_words(event: Event, rung: str) -> str:
    """What happened, with its step and the mark that really hung."""
    mark = "" if event.mark is None else f" ({event.mark})"
    when = (
        "" if event.step is None else f", {'after the reading of' if event.after_reading else 'at'} step {event.step}"
    )
    return vocabulary.EVENTS[event.kind].format(rung=rung) + mark + when


def _amount(measure: Measure) -> str:
    unit = vocabulary.QUANTITIES[measure.quantity][1]
    return with_unit(trimmed(measure.value, 3), unit) if unit else trimmed(measure.value, 3)
