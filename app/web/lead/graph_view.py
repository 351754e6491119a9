"""What Discuss shows, gathered before anything is printed."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from app.domain.records import LessonRecord
from app.services.class_table import CordRow, Count, class_table, count, loads_words
from app.services.picture import Seen

ALONG = {"extension": "extension", "strain": "strain"}
UP = {"load": "force", "load_per_strand": "force for each strip", "load_per_linear_density": "force for each g/m"}


@dataclass(frozen=True, kw_only=True)
class GraphView:
    """The class graph as it was asked for, with its table; `mine` is false for a reader of another's shelf."""

    lesson: LessonRecord
    table: Sequence[CordRow]
    count: Count
    loads: str
    benches: Sequence[str]
    bench: str
    x: str
    y: str
    mine: bool
    teacher: bool

    @property
    def figure(self) -> str:
        """The address that the graph is asked from."""
        asked = {"x": self.x, "y": self.y, "view": "one_bench" if self.bench else "benches"}
        said = asked | ({"bench": self.bench} if self.bench else {})
        return f"/api/v1/lessons/{self.lesson.id}/class-graph?{urlencode(said)}"

    @property
    def along(self) -> Mapping[str, str]:
        """What may lie along the foot of the graph, each code with its words."""
        return ALONG

    @property
    def up(self) -> Mapping[str, str]:
        """What may stand upright, each code with its words."""
        return UP


def graph_view(found: Seen, asked: Mapping[str, str], *, mine: bool, teacher: bool) -> GraphView:
    """Discuss for what the address asks; what it can't show gives way to all benches, force against extension."""
    table = class_table(found.picture)
    benches = list(dict.fromkeys(row.bench for row in table))
    bench = asked.get("bench", "").lower()
    return GraphView(
        lesson=found.lesson,
        table=table,
        count=count(table),
        loads=loads_words(found.picture),
        benches=benches,
        bench=bench if bench in [word.lower() for word in benches] else "",
        x=asked.get("x", "") if asked.get("x") in ALONG else "extension",
        y=asked.get("y", "") if asked.get("y") in UP else "load",
        mine=mine,
        teacher=teacher,
    )
