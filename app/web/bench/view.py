"""Everything that the bench page shows, as one record; the page prints it and decides nothing."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from app.domain.records import DesignRecord
from app.domain.standing import counted, marks_hung
from app.domain.vocabulary import EVENTS, QUANTITIES, SET_UP_TICKS, TICKS
from app.figures.cord_curve import CordCurve, cord_curve
from app.figures.ladder_strip import LadderStrip, ladder_strip
from app.services.bench_state import BenchState
from app.web.bench import words
from app.web.bench.result import result
from app.web.bench.rows import Row, Told, pointer_words, rows_of, told_of
from app.web.bench.worked import SHOWN_IN, Worked, worked_of_bench

POINTS_LEAST = 3
"""The own curve is drawn from so many counted points on."""
PANELS = ("ending", "change", "again")
HAPPENED = tuple(code for code in EVENTS if code != "resume")
MORE_MEASURES = (
    "strands",
    "strip_length_mm",
    "cord_mass_g",
    "cord_length_mm",
    "crossings_per_100_mm",
    "drop_height_mm",
)
_OPEN = ("zero", "step", "top")


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What the page was asked to show: a panel, the entry that it is about, what was typed, and what was wrong."""

    panel: str = ""
    about: str = ""
    hung: str = ""
    typed: Mapping[str, str] = field(default_factory=dict)
    ticked: Sequence[str] = ()
    faults: Mapping[str, str] = field(default_factory=dict)
    notice: str = ""

    def wrong(self, field: str) -> str:
        """The sentence beside a field; empty when nothing is wrong with it."""
        return self.faults.get(field, "")


@dataclass(frozen=True, kw_only=True)
class BenchView:
    """The whole page."""

    state: BenchState
    asked: Asked
    mode: str
    design: DesignRecord
    heading: words.Heading
    makes: tuple[str, ...]
    no_mass: str
    strip: LadderStrip
    step_words: tuple[str, str]
    last_words: str
    rows: tuple[Row, ...]
    told: tuple[Told, ...]
    curve: CordCurve | None
    result: tuple[tuple[str, ...], tuple[str, ...]]
    hanging: bool
    worked: Worked | None
    changed: Any = None

    def shows(self, modes: str) -> bool:
        """Whether a part that belongs to these modes is in sight."""
        return self.mode in modes.split()

    @property
    def shows_worked(self) -> bool:
        """Whether the figures of the cord are in sight."""
        return self.worked is not None and self.mode in SHOWN_IN

    @property
    def may_change(self) -> bool:
        """Whether this page offers to mend what was sent."""
        return self.mode not in ("looking", "closed") and not self.state.closed

    @property
    def next_words(self) -> str:
        """What stands at the line of the next force."""
        coming = self.state.next
        return f"step {coming.step}: {words.newtons_words(coming.force_n)}" if coming.step and coming.force_n else ""

    @property
    def so_far(self) -> str:
        """What the cord has held at masses down."""
        held = [point.force_n for point in self.state.cord.counted if point.force_n is not None]
        if not held:
            return "No load was read."
        force = words.newtons_words(max(held))
        return f"It held {force} and didn't break: more than {force}."

    def measured_before(self, quantity: str) -> str:
        """The measure that the page shows: the newest that was typed, for the strip width else the plan's."""
        told = [one for one in self.state.specimen.measures if one.quantity == quantity]
        return told[-1].typed if told else words.planned_measure(self.design, quantity)

    def measured(self, quantity: str) -> str:
        """The measure as it stands in its field: what was typed just now, else what the page shows."""
        return self.asked.typed.get(f"typed.{quantity}", self.measured_before(quantity))

    @property
    def more_measures(self) -> list[tuple[str, str, str]]:
        """Further measures, all of which may stay blank: quantity, words and unit."""
        return [(one, words.upper_first(QUANTITIES[one][0]), QUANTITIES[one][1]) for one in MORE_MEASURES]

    @property
    def ending_before(self) -> Any:
        """The ending that was told, which another would replace."""
        return self.state.cord.ending

    @property
    def fail_step(self) -> int:
        """The step that was on or going on, as far as the page can know."""
        said = self.asked.typed.get("fail_step", "")
        if said.isdigit() and len(said) <= 2:
            return int(said)
        before = self.ending_before
        if before and before.fail_step is not None:
            return int(before.fail_step)
        return min(self.state.step + 1, len(self.state.lesson.rungs)) if self.state.next.step != 0 else 0

    @property
    def fail_steps(self) -> list[tuple[int, str]]:
        """What may have been going on: the hanger, or the rung of a step."""
        hung = marks_hung(counted(self.state.specimen.events, self.state.lesson.rulings), len(self.state.lesson.rungs))
        return [
            (0, words.upper_first(words.named(self.state.lesson, 0))),
            *((k + 1, self._rung(m)) for k, m in enumerate(hung)),
        ]

    def _rung(self, mark: int) -> str:
        mass = self.state.tray.rungs.get(mark)
        grams = words.grams_words(mass.mass_g if mass else None)
        return words.named(self.state.lesson, mark) + (f": {grams}" if grams else "")

    @property
    def going_words(self) -> str:
        """What was being hung, in a sentence."""
        line = dict(self.fail_steps).get(self.fail_step, "")
        return f"You were hanging {line[:1].lower()}{line[1:]}."


def view_of(state: BenchState, *, writes: bool, asked: Asked) -> BenchView:
    """The page of a bench as it stands, for the tablet that writes or for one that only looks."""
    mode, changed = _mode(state, writes=writes, asked=asked)
    hanging = state.next.do == "read" or asked.hung == str(state.next.step)
    curve = cord_curve(state.cord, next_force_n=state.next.force_n) if state.lesson.own_graph else None
    return BenchView(
        state=state,
        asked=asked,
        mode=mode,
        design=state.lesson.design(state.specimen.design_id),
        heading=words.heading(state, mode, hanging=hanging, changed=changed.reading if changed else None),
        makes=words.makes(state, mode),
        no_mass=words.no_mass(state, mode),
        strip=_strip(state, mode),
        step_words=_step_words(state, mode),
        last_words=_last_words(state),
        rows=rows_of(state),
        told=told_of(state),
        curve=curve if len(state.cord.counted) >= POINTS_LEAST else None,
        result=result(state),
        hanging=hanging,
        worked=worked_of_bench(state, writes=writes, typed=asked.typed, faults=asked.faults),
        changed=changed,
    )


def _mode(state: BenchState, *, writes: bool, asked: Asked) -> tuple[str, Any]:
    """What the page is for now, and the point that is to be changed if it is for that."""
    own = _own_mode(state, writes=writes)
    if own in ("looking", "closed"):
        return own, None
    if asked.panel == "change":
        found = next((point for point in state.cord.points if point.reading.entry_id == asked.about), None)
        return ("change", found) if found else (own, None)
    if asked.panel == "ending" or (asked.panel == "again" and own in ("step", "top") and state.step):
        return asked.panel, None
    return own, None


def _own_mode(state: BenchState, *, writes: bool) -> str:
    if state.lesson.over:
        return "closed"
    if state.stage == "ended":
        return "ended" if writes else "looking"
    if not writes:
        return "looking"
    if state.closed:
        return "down"
    if state.next.do in ("measure", "zero"):
        return "zero"
    return "step" if state.next.do in ("hang", "read") else "top"


def _strip(state: BenchState, mode: str) -> LadderStrip:
    masses = [rung.printed_mass_g for rung in state.lesson.rungs]
    going = mode in (*_OPEN, "looking", "change", "again") and state.next.do in ("hang", "read")
    return ladder_strip(masses, read=state.step, now=state.next.step if going else None, pen="wide")


def _step_words(state: BenchState, mode: str) -> tuple[str, str]:
    total = len(state.lesson.rungs)
    if mode in ("step", "again", "change") and state.next.step:
        return f"Step {state.next.step}", f"of {total}"
    return f"Step {state.step}", f"of {total}, saved"


def _last_words(state: BenchState) -> str:
    if not state.cord.points:
        return ""
    last = state.cord.points[-1].reading
    where = "at the zero" if last.phase == "zero" else f"at step {last.step}"
    return f"Last time: {pointer_words(state, last.pointer_mm)}\u00a0{state.bench.scale_unit}, {where}."


def set_up_ticks(state: BenchState) -> list[tuple[str, str, bool]]:
    """Code, words and state of each line of the set-up list."""
    lesson, ticks = state.lesson, state.bench.ticks
    return [(what, words.ticks_words(lesson, TICKS[what]), ticks.get(what, False)) for what in SET_UP_TICKS]
