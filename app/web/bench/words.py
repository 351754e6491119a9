"""What the bench page says: the rung's own word, what to hang, what it makes, what the cord did."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from app.domain.quantities import shown, trimmed, with_unit
from app.domain.records import BenchRecord, DesignRecord, LessonRecord, Reading
from app.domain.vocabulary import ENDINGS, EVENTS, LOOKS, PHASES, STAGES
from app.services.bench_state import BenchState

RUNG = "rung"
HANGER = "hanger"
AGAIN = {
    "later": "Later, under the same load",
    "pointer_put_back": "The pointer was put back",
    "return": "Back at the {hanger}",
    "hung_again": "Hung again after that",
}
"""Phases of a further reading at the step that was read, with the words of the page."""
LOOKS_IN_ORDER = [(code, LOOKS[code]) for code in ("clean", "ragged", "unravelled", "necked", "strand_then_rest")]
_ES = ("s", "x", "z", "ch", "sh")


@dataclass(frozen=True, kw_only=True)
class Heading:
    """The sentence of the page's head in three parts: the middle one is what is underlined."""

    before: str = ""
    hang: str = ""
    after: str = ""


def rung_word(lesson: LessonRecord, mark: int | None = None) -> str:
    """The lesson's word for a rung (pouch), of that mark or of the first."""
    found = next((rung.name for rung in lesson.rungs if mark in (None, rung.mark)), "")
    return found.strip(" 0123456789") or RUNG


def rungs_word(lesson: LessonRecord) -> str:
    """More than one of them (pouches)."""
    word = rung_word(lesson)
    return word + ("es" if word.endswith(_ES) else "s")


def hanger_word(lesson: LessonRecord) -> str:
    """The lesson's word for what hangs below the cord (bucket)."""
    found = lesson.planning.get("hanger_name")
    return found.strip() if isinstance(found, str) and found.strip() else HANGER


def named(lesson: LessonRecord, mark: int | None) -> str:
    """A rung as people say it: pouch 8; mark 0 is the hanger."""
    return f"{rung_word(lesson, mark)} {mark}" if mark else f"the {hanger_word(lesson)}"


def upper_first(words: str) -> str:
    """The words with a capital in front."""
    return words[:1].upper() + words[1:]


def grams_words(mass_g: float | None) -> str:
    """A mass with its unit; empty when none is known."""
    return "" if mass_g is None else with_unit(trimmed(mass_g, 1), "g")


def newtons_words(force_n: float | None) -> str:
    """A force with its unit; empty when none is known."""
    return "" if force_n is None else with_unit(shown(force_n, 2), "N")


def heading(state: BenchState, mode: str, *, hanging: bool, changed: Reading | None = None) -> Heading:
    """What stands largest on the page."""
    lesson = state.lesson
    if mode in ("zero", "step"):
        return _hang(state, hanging=hanging and mode == "step")
    where = "is on the shelf" if lesson.shelved_at is not None else "is over"
    said = {
        "top": Heading(before=f"All {len(lesson.rungs)} {rungs_word(lesson)} hang. ", hang="How did it end?"),
        "down": Heading(hang="Masses down"),
        "looking": Heading(before="Another tablet writes for ", hang=state.bench.word, after="."),
        "change": Heading(before="Change ", hang=moment(changed) if changed else "", after="."),
        "again": Heading(before="Read ", hang=f"step {state.step}", after=" once more."),
        "closed": Heading(before="This lesson ", hang=where, after="."),
    }
    return said.get(mode) or Heading(before=f"Cord {state.specimen.specimen_no}: ", hang="it ended", after=".")


def _hang(state: BenchState, *, hanging: bool) -> Heading:
    coming = state.next
    mass = f": {grams_words(coming.mass_g)}" if coming.mass_g is not None else ""
    what = named(state.lesson, coming.mark)
    if hanging:
        return Heading(hang=upper_first(what), after=f" is hanging{mass}.")
    return Heading(before="Hang ", hang=what, after=f"{' next' if coming.step else ''}{mass}.")


def makes(state: BenchState, mode: str) -> tuple[str, ...]:
    """The numbers of "That makes ...": total mass and force; nothing where none is known."""
    coming = state.next
    if mode not in ("zero", "step") or coming.force_n is None or not coming.total_mass_g:
        return ()
    total = grams_words(coming.total_mass_g)
    return (newtons_words(coming.force_n),) if mode == "zero" else (total, newtons_words(coming.force_n))


def no_mass(state: BenchState, mode: str) -> str:
    """Why nothing is said of the load."""
    if mode == "zero" and not state.next.total_mass_g:
        return f"The {hanger_word(state.lesson)} was not weighed: it counts as {with_unit('0', 'g')}."
    if mode == "step" and state.next.force_n is None:
        return f"Nobody has said the mass of {named(state.lesson, state.next.mark)} yet."
    return ""


def cord_words(design: DesignRecord) -> tuple[str, str]:
    """The cord in one sentence with a blank for the strip width: what stands before and after it."""
    strands = design.strands or 1
    strips = "1 strip of" if strands == 1 else f"{strands} strips of"
    lay = {"twist": "twisted", "plait_flat": "plaited flat", "plait_round": "plaited round", "bundle": "in a bundle"}
    how = lay.get(design.lay_up or "")
    return strips, f", {how}." if how else "."


def lift_off(state: BenchState) -> str:
    """Which rungs come off first: the top one."""
    hung = state.cord.points[-1].marks_hung if state.cord.points else ()
    if not hung:
        return "Take the masses off, top one first."
    first = ", then ".join(str(mark) for mark in reversed(hung[-2:]))
    return f"Lift the {rungs_word(state.lesson)} off, top one first: {first}."


def event_words(code: str, lesson: LessonRecord) -> str:
    """An event as the page says it, with the lesson's own rung word."""
    return upper_first(EVENTS[code].replace("{rung}", rung_word(lesson)))


def moment(reading: Reading) -> str:
    """Which reading of a cord it is: the zero; step 7; step 4, back at the hanger."""
    if reading.phase == "zero":
        return "the zero"
    return f"step {reading.step}" if reading.phase == "load" else f"step {reading.step}, {PHASES[reading.phase]}"


def open_ticks(lines: Sequence[tuple[str, str, bool]]) -> str:
    """How many ticks of the list are open."""
    still = sum(not on for _, _, on in lines)
    if not still:
        return "Every line is ticked."
    return (
        "One tick is open. Your teacher sees it." if still == 1 else f"{still} ticks are open. Your teacher sees them."
    )


def planned_measure(design: DesignRecord, quantity: str) -> str:
    """What the field of a quantity shows while nobody measured it: the plan's strip width, else nothing."""
    planned = design.strip_width_mm if quantity == "strip_width_mm" else None
    return "" if planned is None else trimmed(planned, 2)


def for_script(lesson: LessonRecord, design: DesignRecord) -> dict[str, Any]:
    """The words that the page's script needs beside what /api/v1 tells: the same as are printed here."""
    return {
        "rung": rung_word(lesson),
        "rungs": rungs_word(lesson),
        "hanger": hanger_word(lesson),
        "marks": {rung.mark: named(lesson, rung.mark) for rung in lesson.rungs},
        "planned_length_mm": design.free_length_mm,
        "planned": {"strip_width_mm": planned_measure(design, "strip_width_mm")},
        "printed_g": [rung.printed_mass_g for rung in lesson.rungs],
        "events": {code: event_words(code, lesson) for code in EVENTS},
        "phases": PHASES,
        "endings": ENDINGS,
        "stages": {stage: _now(stage) for stage in STAGES if stage not in _QUIET_STAGES},
    }


_QUIET_STAGES = ("preparing", "testing", "over")
"""Stages that the page shows by itself."""


def now_words(lesson: LessonRecord) -> str:
    """What the class does now, where that is not what the page is about; else nothing."""
    return "" if lesson.stage in _QUIET_STAGES else _now(lesson.stage)


def _now(stage: str) -> str:
    return f"All benches now: {STAGES[stage][0].lower()}{STAGES[stage][1:]}"


def ticks_words(lesson: LessonRecord, words: str) -> str:
    """A line of a list, with how many rungs there are."""
    return words.replace("{rungs}", f"{len(lesson.rungs)} {rungs_word(lesson)}")


def scale_words(bench: BenchRecord) -> str:
    """How the bench's scale is read."""
    way = {"down": "downward", "up": "upward"}[bench.scale_way]
    return f"Scale in {bench.scale_unit}, its numbers grow {way}."
