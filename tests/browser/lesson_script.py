"""What one whole lesson types, noted beside the product as on paper, so that its file can be held to it.

Every figure is invented. What follows from a figure (a mass hung, a force, an extension) is worked out here anew, by
the definitions of the outside contract, and nothing is asked of the product.
"""

import csv
import io
import json
import math
import uuid
from dataclasses import dataclass, field
from typing import Any
from urllib.error import HTTPError
from urllib.request import Request, urlopen

import pytest

GRAVITY = 9.81
"""What the lesson sheet says of g, N/kg."""
STRIP_WIDTH_MM = 25.0
"""What it says of the strips of each design; a group that measured its own goes by that."""
PER_MM = {"mm": 1, "cm": 10}
OUTCOMES = {
    "broke_adding": "broke",
    "broke_waiting": "broke",
    "knot_undone": "slipped",
    "did_not_break": "held",
    "touched_tray": "stopped",
    "out_of_time": "stopped",
}
"""What the outside contract, section 9, calls each of these endings."""
WORDS = (
    "specimen", "design", "group", "repeat", "step", "phase", "turn", "events", "events_after", "left_out",
    "bench_kind", "outcome", "ending", "place", "look", "scale", "marks_hung", "pointer_typed", "first_typed", "reason",
)  # fmt: skip
NUMBERS = (
    "mass_g", "pointer_mm", "gauge_length_mm", "strands", "strip_width_mm", "cord_mass_g", "fail_mass_g",
    "gravity_m_per_s2", "force_N", "extension_mm", "strain",
)  # fmt: skip


@dataclass(kw_only=True)
class Line:
    """One reading as it was typed, and what else was said of it."""

    step: int
    typed: str
    unit: str = "mm"
    events: str = ""
    waited_s: float | None = None
    first_typed: str = ""
    reason: str = ""
    left_out: str = ""

    @property
    def pointer_mm(self) -> float:
        """Where the pointer was."""
        return float(self.typed.replace(",", ".")) * PER_MM[self.unit]


@dataclass(kw_only=True)
class Cord:
    """One cord as its group wrote it down: `masses_g` are those of its tray, the hanger's first."""

    bench: str
    design: str
    strands: int
    masses_g: list[float]
    number: int = 1
    measures: dict[str, float] = field(default_factory=dict)
    lines: list[Line] = field(default_factory=list)
    ending: str = ""
    place: str = ""
    look: str = ""
    fail_step: int | None = None
    left_out: str = ""

    def reads(self, typed: str, **more: Any) -> Line:
        """One line more: the zero first, then a step after the other."""
        self.lines.append(Line(step=len(self.lines), typed=typed, **more))
        return self.lines[-1]

    def corrects(self, step: int, typed: str, *, reason: str) -> None:
        """Another number stands; the first one is still to be seen."""
        line = self.lines[step]
        line.first_typed, line.typed, line.reason = line.typed, typed, reason

    def ends(self, kind: str, *, fail_step: int | None = None, place: str = "", look: str = "") -> None:
        """How it ended."""
        self.ending, self.fail_step, self.place, self.look = kind, fail_step, place, look

    def fresh(self) -> "Cord":
        """The next cord of the same bench."""
        return Cord(
            bench=self.bench,
            design=self.design,
            strands=self.strands,
            masses_g=self.masses_g,
            number=self.number + 1,
        )

    def mass_g(self, step: int) -> float:
        """What hung at a step, the hanger too."""
        return math.fsum(self.masses_g[: step + 1])


def words_of(cord: Cord, line: Line) -> dict[str, str]:
    """The cells of words that the file must have for a reading, and numbers that it repeats as they were typed."""
    return {
        "specimen": f"{cord.bench}-{cord.number}",
        "design": cord.design,
        "group": cord.bench,
        "repeat": str(cord.number),
        "step": str(line.step),
        "phase": "load" if line.step else "zero",
        "turn": "1",
        "events": line.events,
        "events_after": "",
        "left_out": line.left_out or cord.left_out,
        "bench_kind": "class",
        "outcome": OUTCOMES[cord.ending],
        "ending": cord.ending,
        "place": cord.place,
        "look": cord.look,
        "scale": "down",
        "marks_hung": " ".join(str(mark) for mark in range(1, line.step + 1)),
        "pointer_typed": line.typed,
        "first_typed": line.first_typed,
        "reason": line.reason,
    }


def numbers_of(cord: Cord, line: Line) -> dict[str, float]:
    """The cells of numbers that the file must have for a reading; not a number where the cell must be blank."""
    longer_mm = line.pointer_mm - cord.lines[0].pointer_mm
    gave_way = OUTCOMES[cord.ending] in ("broke", "slipped")
    return {
        "mass_g": cord.mass_g(line.step),
        "pointer_mm": line.pointer_mm,
        "strands": cord.strands,
        "fail_mass_g": cord.mass_g(cord.fail_step or 0) if gave_way else math.nan,
        "gravity_m_per_s2": GRAVITY,
        "force_N": cord.mass_g(line.step) * GRAVITY / 1000,
        "extension_mm": longer_mm,
        "strain": longer_mm / cord.measures["gauge_length_mm"],
        "strip_width_mm": STRIP_WIDTH_MM,
        "cord_mass_g": math.nan,
        **cord.measures,
    }


def check_file(text: str, cords: list[Cord]) -> None:
    """The class CSV has the readings of those cords, each once, in their order, and no other one."""
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    lines = [(cord, line) for cord in cords for line in cord.lines]
    assert [{name: row[name] for name in WORDS} for row in rows] == [words_of(*one) for one in lines]
    for row, one in zip(rows, lines, strict=True):
        wanted = numbers_of(*one)
        told = {name: (float(row[name] or math.nan), wanted[name]) for name in NUMBERS}
        wrong = {name: pair for name, pair in told.items() if pair[0] != pytest.approx(pair[1], rel=1e-12, nan_ok=True)}
        assert not wrong, f"{row['specimen']}, step {row['step']}, told and wanted: {wrong}"
        _check_waited(row["waited_s"], one[1])
    assert len({str(uuid.UUID(row["entry_id"])) for row in rows}) == len(rows)
    for cord in cords:
        own = [row for row in rows if row["specimen"] == f"{cord.bench}-{cord.number}"]
        assert own == sorted(own, key=lambda row: float(row["s_since_zero"])), f"{cord.bench}: not in order of taking"


def _check_waited(cell: str, line: Line) -> None:
    if line.waited_s is None:
        assert cell == ""
    else:
        assert float(cell) >= line.waited_s


class Program:
    """A bench that no browser holds: a program that talks to /api/v1 with the bench's token."""

    def __init__(self, address: str, slip_code: str, cord: Cord) -> None:
        self.address = f"{address}/api/v1"
        self.cord = cord
        self.token = ""
        status, joined = self.ask("/join", code=slip_code)
        assert (status, joined["word"], joined["design"]) == (201, cord.bench, cord.design)
        self.token = joined["bench_token"]
        self.specimen_id = joined["specimen_id"]
        self.bench = f"/lessons/{joined['lesson_id']}/benches/{joined['bench']}"

    def ask(self, path: str, **body: Any) -> tuple[int, dict[str, Any]]:
        """Status and JSON of what a POST is answered."""
        heads = {"Content-Type": "application/json"} | ({"Authorization": f"Bearer {self.token}"} if self.token else {})
        try:
            with urlopen(
                Request(self.address + path, data=json.dumps(body).encode(), headers=heads), timeout=20
            ) as one:
                return one.status, json.load(one)
        except HTTPError as refused:
            return refused.code, json.load(refused)

    def tells(self, noun: str, **said: Any) -> tuple[int, dict[str, Any]]:
        """What an entry about the cord is answered."""
        entry = {"entry_id": str(uuid.uuid4()), "specimen_id": self.specimen_id, **said}
        return self.ask(f"{self.bench}/{noun}", **entry)

    def measures(self, free_length: str) -> None:
        """What lies between the knots is told."""
        status, _ = self.tells("measures", quantity="free_length_mm", typed=free_length, unit="mm")
        assert status == 201
        self.cord.measures["gauge_length_mm"] = float(free_length)

    def sends(self, line: Line, *, age_s: float = 0.0, entry_id: str | None = None) -> tuple[int, dict[str, Any]]:
        """What that line is answered; sent again under the same id, it is the same entry."""
        said = {"step": line.step, "phase": "load" if line.step else "zero", "pointer_typed": line.typed}
        more = {"entry_id": entry_id} if entry_id else {}
        return self.tells("readings", **said, pointer_unit=line.unit, waited_s=line.waited_s, age_s=age_s, **more)

    def reads(self, typed: str, **more: Any) -> None:
        """The next line is noted and sent."""
        status, answer = self.sends(self.cord.reads(typed, **more))
        assert status == 201, answer

    def ends(self, kind: str, *, age_s: float = 0.0, **said: Any) -> None:
        """How the cord ended is noted and told."""
        self.cord.ends(kind, **said)
        status, answer = self.tells("endings", kind=kind, age_s=age_s, **said)
        assert status == 201, answer
