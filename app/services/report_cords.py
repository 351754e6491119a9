"""The report's part about cords: a table of all of them, what it can't hold, and the figures of each cord."""

from collections.abc import Callable, Iterator, Sequence

from app.domain.checks import told_of
from app.domain.tested import DIFFERS, MATCHED, RULED_OUT, TestedCord
from app.domain.vocabulary import PLACES
from app.mechanics.cord_sums import CordSums
from app.services.analysing import Progress, counted
from app.services.report_cells import NOTHING, bracket_cell, force_cell, measured_cell, straight_cell
from app.services.report_layout import NESTED, heading, pairs, paragraph, table, with_stop
from app.services.working import Working, is_figure, reaches
from app.services.workings import cord_workings
from app.services.workings_stretch import extension

OUT = "*"
"""Beside the name of a cord that stands in no design's sums."""
NAMED_MOST = 6
"""So many cords are named where one sentence holds of several; of the others it is said how many."""
BENCHES = {"pilot": "pilot bench", "catch_up": "catch-up bench"}
OUTCOMES = {"broke": "broke", "slipped": "a knot came undone", "held": "did not break", "stopped": "stopped"}
NO_OUTCOME = "no end told"
OF_READINGS = {DIFFERS: "two numbers for one moment", RULED_OUT: "another number counts"}
BRACKETS = ("Breaking force, N", "N per g/m")
BREAKING = "{}: it held the first number and broke on the second."
LEGENDS = {"first": "± means give or take."}
DEEPER_LEGEND = "Other figures: 95\u00a0% intervals."
IN_TABLE = ("break_force_N", "extension_mm", "limit_of_proportionality_N", "permanent_set_mm")
"""Codes of figures in the first depth's table that may have a sentence beside them, or one in their place."""

WORDS = ("Cord", "Design")
"""Columns of words; all others are of figures."""

Cell = Callable[[CordSums], str]


def cords_told(cords: Sequence[CordSums], depth: str, progress: Progress | None) -> Iterator[str]:
    """All cords in a table, under it what it can't hold; from the second depth on the figures of each cord."""
    if not cords:
        return
    columns = _columns(cords, depth)
    yield from heading("Cords")
    yield from table(list(columns), list(zip(*columns.values(), strict=True)), words=WORDS)
    yield ""
    held = BREAKING.format(" and ".join(name.removesuffix(", N") for name in BRACKETS if name in columns))
    yield from paragraph(f"{held} {LEGENDS.get(depth, DEEPER_LEGEND)}")
    for sums in cords:
        yield from _left_out(sums.cord)
    if not reaches(depth, "second"):
        yield from _beside(cords, depth)
        return
    yield from heading("Figures of each cord")
    for sums in counted(cords, "cords written", progress):
        yield from _cord(sums, depth)


def _columns(cords: Sequence[CordSums], depth: str) -> dict[str, list[str]]:
    """By name the cells of each column in which some cord has a figure."""
    columns: dict[str, Cell] = {
        "Cord": lambda one: one.cord.specimen + (OUT if _is_out(one.cord) else ""),
        "Design": lambda one: one.cord.design,
        BRACKETS[0]: lambda one: force_cell(one.break_bracket),
        "Longer, mm": lambda one: measured_cell(extension(one)),
        **(
            {"Stiffness, N/mm": lambda one: measured_cell(one.straight.stiffness_n_per_mm)}
            if reaches(depth, "second")
            else {"Straight up to, N": straight_cell}
        ),
        "Stayed, mm": lambda one: measured_cell(one.permanent_set_mm),
        BRACKETS[1]: lambda one: bracket_cell(one.load_per_linear_density),
    }
    told = {name: [cell(one) for one in cords] for name, cell in columns.items()}
    return {name: cells for name, cells in told.items() if {*cells} - {NOTHING, ""} or name == BRACKETS[0]}


def _is_out(cord: TestedCord) -> bool:
    return cord.left_out is not None or cord.bench_kind == "pilot"


def _left_out(cord: TestedCord) -> Iterator[str]:
    """Whether the cord stands in no design, and which of its readings stand in no sum, each with the reason."""
    if cord.left_out is not None:
        yield from paragraph(with_stop(f"{OUT} {cord.specimen} is left out: {cord.left_out}"))
    elif cord.bench_kind == "pilot":
        yield from paragraph(f"{OUT} {cord.specimen} is a pilot bench's, so it is in no design.")
    for reason, moments in _readings_out(cord).items():
        yield from paragraph(with_stop(f"{cord.specimen}, {'; '.join(dict.fromkeys(moments))}: in no sum: {reason}"))


def _readings_out(cord: TestedCord) -> dict[str, list[str]]:
    """By reason, the readings that are out by themselves."""
    found: dict[str, list[str]] = {}
    if all(row.counts for row in cord.rows):
        return found
    for row, told in zip(cord.rows, told_of(cord), strict=True):
        if row.left_out not in (None, MATCHED, cord.left_out):
            found.setdefault(OF_READINGS.get(row.left_out, row.left_out), []).append(told.key)
    return found


def _beside(cords: Sequence[CordSums], depth: str) -> Iterator[str]:
    """What must stand beside a figure of the table, or why it is not there, with the cords that it holds of."""
    found: dict[str, dict[tuple[str, str], list[str]]] = {code: {} for code in IN_TABLE}
    for sums in cords:
        for one in cord_workings(sums, depth):
            for said in _sentences(one, sums.cord) if one.code in IN_TABLE else ():
                found[one.code].setdefault((one.name, said), []).append(sums.cord.specimen)
    told = [(name, f"{said} ({_named(of)})") for each in found.values() for (name, said), of in each.items()]
    yield from ["", *pairs(told)] if told else []


def _sentences(one: Working, cord: TestedCord) -> tuple[str, ...]:
    notes = tuple(note for note in one.notes if not (cord.left_out and cord.left_out in note))
    return notes if is_figure(one) else (one.said, *notes)


def _named(cords: Sequence[str]) -> str:
    more = len(cords) - NAMED_MOST
    return ", ".join(cords) if more <= 1 else f"{', '.join(cords[:NAMED_MOST])} and {more:,} more"


def _cord(sums: CordSums, depth: str) -> Iterator[str]:
    """One cord: its figures, then what can't be had with the reason, then what must stand beside the figures."""
    made = cord_workings(sums, depth)
    notes = {note: place for place, note in enumerate(dict.fromkeys(note for one in made for note in one.notes), 1)}
    told = [(one.name, _noted(one, notes)) for one in made if is_figure(one)]
    missing: dict[str, list[str]] = {}
    for one in made:
        if not is_figure(one):
            missing.setdefault(_noted(one, notes), []).append(one.name)
    yield ""
    yield from paragraph(_title(sums.cord))
    yield from pairs([*told, *((", ".join(names), why) for why, names in missing.items())], indent=NESTED)
    for note, place in notes.items():
        yield from paragraph(f"[{place}] {note}", indent=NESTED, further=NESTED * 3)


def _noted(one: Working, notes: dict[str, int]) -> str:
    """What is said, with the numbers of the sentences that must stand beside it."""
    return " ".join([one.said, *(f"[{notes[note]}]" for note in one.notes)])


def _title(cord: TestedCord) -> str:
    told = (
        f"design {cord.design}" if cord.design else "",
        f"group {cord.group}" if cord.group else "",
        BENCHES.get(cord.bench_kind, ""),
        "left out" if cord.left_out else "",
        " ".join([OUTCOMES.get(cord.outcome or "", NO_OUTCOME), PLACES.get(cord.place or "", "")]).strip(),
    )
    return f"{cord.specimen}: {', '.join(one for one in told if one)}"
