"""What the lead bench and one bench's page show, gathered before anything is printed."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from flask import request

from app.domain import vocabulary
from app.domain.errors import NotFound, Refusal
from app.domain.records import BenchRecord, LessonRecord
from app.figures.ladder_strip import LadderStrip, ladder_strip
from app.services.bench_state import BenchState, bench_state
from app.services.class_table import loads_of_bench
from app.services.cord_story import Line, Story, find_line, stories
from app.services.lessons import slip_codes
from app.services.pace import Pace, Question, ending_words, pace, who_needs_help_first
from app.services.workings import cord_workings
from app.web.bench.straight import straight_choice
from app.web.bench.words import ticks_words
from app.web.bench.worked import Worked, worked
from app.web.current import database
from app.web.lead.forms import new_entry_id
from app.web.typed import form_again


@dataclass(frozen=True, kw_only=True)
class Row:
    """One row of the pace strip."""

    pace: Pace
    strip: LadderStrip
    shows_strip: bool
    what: str
    silent: bool


@dataclass(frozen=True, kw_only=True)
class LeadView:
    """The lead bench: the lesson, a row for each bench, and what is to settle."""

    lesson: LessonRecord
    rows: Sequence[Row]
    questions: Sequence[Question]
    here: int

    @property
    def invented(self) -> bool:
        """Whether this is the demo lesson under way, whose invented benches can take readings by themselves."""
        return bool(self.lesson.planning.get("under_way")) and not self.lesson.over

    @property
    def hung(self) -> bool:
        """Whether any bench has a reading under a rung, of whichever cord."""
        cords = (cord for row in self.rows for cord in row.pace.state.cords)
        return any(point.reading.step >= 1 for cord in cords for point in cord.points)

    @property
    def stages(self) -> Mapping[str, str]:
        """Where the lesson can be, each code with its words."""
        return vocabulary.STAGES

    def fresh_id(self) -> str:
        """The id of an entry that a button of this page may make."""
        return new_entry_id()


def lead_view(lesson: LessonRecord, *, at: datetime) -> LeadView:
    """The lead bench of a lesson as it stands, who may need help first."""
    rows = who_needs_help_first(pace(lesson))
    return LeadView(
        lesson=lesson,
        rows=[_row(lesson, one, at) for one in rows],
        questions=[question for one in rows for question in one.questions],
        here=sum(not one.absent for one in rows),
    )


def strip_of(lesson: LessonRecord, state: BenchState, *, pen: str = "row", now: bool = False) -> LadderStrip:
    """The ladder strip of one bench; `now` marks the step that it hangs."""
    masses = [rung.printed_mass_g for rung in lesson.rungs]
    coming = state.next.step if now and state.next.do in ("hang", "read") else None
    return ladder_strip(masses, read=state.step, now=coming, pen=pen)


def _row(lesson: LessonRecord, one: Pace, at: datetime) -> Row:
    return Row(
        pace=one,
        strip=strip_of(lesson, one.state, now=True),
        shows_strip=one.state.stage in ("zeroed", "step", "ended"),
        what=", ".join(filter(None, (_what(lesson, one), _open_ticks(one)))),
        silent=one.silent(at),
    )


def _what(lesson: LessonRecord, one: Pace) -> str:
    """The last thing that the bench told: how it ended, or its last reading with what happened there."""
    ending = one.state.cord.ending
    if ending is not None:
        return ending_words(ending)
    if one.last is None:
        return f"first cord: {_first_end(one)}" if len(one.state.cords) > 1 else ""
    rung = lesson.rungs[0].name if lesson.rungs else "rung"
    told = [vocabulary.EVENTS[code].format(rung=rung) for code in (*one.last.events, *one.last.events_after)]
    unit = one.last.reading.pointer_unit
    return ", ".join([f"{one.last.reading.pointer_typed}\u00a0{unit}", *told])


def _open_ticks(one: Pace) -> str:
    still = one.open_ticks
    return f"{still} tick{'' if still == 1 else 's'} open" if still else ""


def _first_end(one: Pace) -> str:
    ending = one.state.cords[-2].ending
    return ending_words(ending) if ending else "not ended"


@dataclass(frozen=True, kw_only=True)
class BenchView:
    """One bench's page: `about` is the entry whose forms are open; faults stand by the form of `noun`."""

    lesson: LessonRecord
    bench: BenchRecord
    pace: Pace
    strip: LadderStrip
    told: Sequence[Story]
    about: Line | None
    about_cord: Story | None
    slip_code: str
    noun: str = ""
    sentence: str = ""
    faults: Mapping[str, str] = field(default_factory=dict)
    typed: Mapping[str, Any] = field(default_factory=dict)

    @property
    def state(self) -> BenchState:
        """The bench as it stands."""
        return self.pace.state

    @property
    def ticks(self) -> Sequence[tuple[str, bool]]:
        """What the bench ticks, in the lesson's own words, and whether it is ticked; the tray last, once it ended."""
        back = ("rungs_back",) if self.state.stage == "ended" or self.state.closed else ()
        return [
            (ticks_words(self.lesson, vocabulary.TICKS[what]), self.bench.ticks.get(what, False))
            for what in (*vocabulary.SET_UP_TICKS, *back)
        ]

    @property
    def loads(self) -> str:
        """What the forces of the bench rest on where no balance gave them; nothing when all is weighed."""
        return loads_of_bench(self.lesson, self.bench)

    @property
    def quantities(self) -> Sequence[tuple[str, str]]:
        """What may be measured, each with its unit in its words."""
        return [(code, f"{words}, {unit}" if unit else words) for code, (words, unit) in vocabulary.QUANTITIES.items()]

    def worked(self, story: Story) -> Worked:
        """What was worked out of a cord, ended or not, with the choice of its straight part."""
        depth, cord = self.lesson.depth, story.cord
        choice = straight_choice(cord, depth, typed=self.typed, faults=self.faults)
        return worked(cord_workings(cord.sums, depth), choice)

    def fresh_id(self) -> str:
        """The id of an entry that a form of this page may make."""
        return new_entry_id()

    def was(self, noun: str, name: str, before: Any = "") -> Any:
        """What was typed into a field of the refused form; else what stood there before."""
        return self.typed.get(name, before) if self.noun == noun else before

    def wrong(self, noun: str, name: str) -> str:
        """The sentence beside a field, if something is wrong with it."""
        return self.faults.get(name, "") if self.noun == noun else ""


def _form_of(noun: str) -> str:
    """Which of the page's forms of that noun was refused: the one that changes an entry, or the one that adds one."""
    changes = noun in ("rulings", "bench", "") or request.form.get("replaces")
    return noun if changes else f"add {noun}"


def bench_view(
    lesson: LessonRecord, word: str, *, about: str = "", noun: str = "", refusal: Refusal | None = None
) -> BenchView:
    """One bench's page; NotFound when the lesson has no bench of that word."""
    bench = lesson.bench(word)
    if bench is None:
        raise NotFound("This lesson has no bench of that word.")
    told = stories(bench_state(lesson, bench))
    row = next(one for one in pace(lesson) if one.bench.id == bench.id)
    return BenchView(
        lesson=lesson,
        bench=bench,
        pace=row,
        strip=strip_of(lesson, row.state, pen="wide", now=True),
        told=told,
        about=find_line(told, about),
        about_cord=next((one for one in told if one.specimen.entry_id == about), None),
        slip_code=slip_codes(database(), lesson.id)[bench.id],
        noun=_form_of(noun),
        sentence=refusal.sentence if refusal else "",
        faults={one.field: one.words for one in refusal.faults} if refusal else {},
        typed=form_again(request.form.items(multi=True)) if refusal else {},
    )
