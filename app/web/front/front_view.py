"""What the front screen shows, gathered before anything is printed: no slip code and no guess is ever in it."""

from collections.abc import Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from app.domain import vocabulary
from app.domain.records import BenchRecord, DesignRecord, LessonRecord
from app.figures.ladder_strip import LadderStrip, ladder_strip
from app.services.class_table import CordRow, class_table, loads_words
from app.services.pace import Pace, pace
from app.services.picture import Seen

GRAPHS = ("class_graph", "one_bench")
COLUMNS = ((12, 2), (24, 3), (40, 4))
"""Up to so many benches stand in so many columns."""


@dataclass(frozen=True, kw_only=True)
class Place:
    """One bench of the front screen: what it makes, and how far it is by its step alone."""

    pace: Pace
    design: DesignRecord
    strip: LadderStrip


@dataclass(frozen=True, kw_only=True)
class FrontView:
    """The front screen; `chooses` is true where the teacher opened it."""

    lesson: LessonRecord
    shows: str
    places: Sequence[Place]
    rows: int
    table: Sequence[CordRow]
    loads: str
    bench: BenchRecord | None
    before: str
    after: str
    chooses: bool
    address: str
    changes: str
    figure: str

    @property
    def graph(self) -> bool:
        """Whether the class graph is to be seen."""
        return self.shows in GRAPHS

    @property
    def empty(self) -> bool:
        """Whether a graph is asked for and there is nothing to draw yet."""
        return self.graph and not self.table


def front_view(found: Seen, *, code: str | None, address: str) -> FrontView:
    """What the lesson's front screen shows now; a view that this version does not know is blank."""
    lesson = found.lesson
    shows = lesson.front_view if lesson.front_view in vocabulary.FRONT_VIEWS else "blank"
    table = class_table(found.picture) if shows in GRAPHS else []
    drawn = [bench for bench in lesson.benches if any(row.bench == bench.word for row in table)]
    bench = _forward(lesson, drawn) if shows == "one_bench" else None
    places = [_place(lesson, row) for row in pace(lesson)] if shows in ("key", "steps") else []
    columns = next(columns for most, columns in COLUMNS if len(places) <= most)
    words = [one.address for one in drawn]
    at = words.index(bench.address) if bench else 0
    return FrontView(
        lesson=lesson,
        shows=shows,
        places=places,
        rows=-(-len(places) // columns),
        table=table,
        loads=loads_words(found.picture),
        bench=bench,
        before=words[at - 1] if words else "",
        after=words[(at + 1) % len(words)] if words else "",
        chooses=code is None,
        address=address,
        changes=_api(lesson, "changes", code),
        figure=_api(lesson, "class-graph", code, **_asked(bench)),
    )


def _forward(lesson: LessonRecord, drawn: Sequence[BenchRecord]) -> BenchRecord | None:
    chosen = next((bench for bench in drawn if bench.id == lesson.front_bench_id), None)
    return chosen or (drawn[0] if drawn else None)


def _place(lesson: LessonRecord, row: Pace) -> Place:
    masses = [rung.printed_mass_g for rung in lesson.rungs]
    return Place(
        pace=row,
        design=lesson.design(row.bench.design_id),
        strip=ladder_strip(masses, read=row.state.step, pen="wide"),
    )


def _asked(bench: BenchRecord | None) -> dict[str, str]:
    return {"view": "one_bench", "bench": bench.address} if bench else {"view": "benches"}


def _api(lesson: LessonRecord, what: str, code: str | None, **asked: str) -> str:
    """The address that the page's scripts ask; a screen opened by code says its code."""
    said = asked | ({"front": code} if code else {})
    return f"/api/v1/lessons/{lesson.id}/{what}" + (f"?{urlencode(said)}" if said else "")
