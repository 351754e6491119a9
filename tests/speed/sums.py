"""What the sums cost: `.venv/bin/python -m tests.speed.sums [--rows N]` prints tables, in about two minutes.

One process, processor time of one core, the least of seven rounds; every round begins with nothing kept but the tables
of quantiles, unless the line says otherwise. Beside each line a floor of the same run: plain least squares of as many
readings, or the file read by `csv` alone. Then where the time of one class goes. The numbers are this machine's.
"""

import argparse
import cProfile
import csv
import gc
import io
import sys
import time
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from app.domain.records import LessonRecord
from app.domain.tested import TestedCord
from app.mechanics.class_sums import class_sums
from app.mechanics.classwork import class_picture
from app.mechanics.cord_sums import cord_sums
from app.mechanics.offset_yield import OFFSET_PERCENT
from app.mechanics.reading_sums import CurvePoint
from app.mechanics.straight import StraightPart, straight_part
from app.services.analysing import Analysis, analyse, as_json
from app.transfer.reading_options import ReadingOptions
from tests.speed.whole_classes import CORDS, KINDS, READINGS, a_class, a_file, with_another_reading

ROUNDS = 7
LIMITS_MS = {12: 150, 30: 400}
"""Longest that the whole class picture of so many benches may take."""
ROWS = 100_000
ANALYSE_LIMIT_S = 60
TABLES = ("student", "tukey_factor")
"""What is kept from one class to the next: it does not rest on readings."""
SHOWN = 12


@dataclass(frozen=True, kw_only=True)
class Line:
    """One line of the table."""

    what: str
    spent_ms: float
    floor_ms: float
    limit_ms: float | None = None

    def __str__(self) -> str:
        """The line in Markdown."""
        times = self.spent_ms / self.floor_ms
        return f"| {self.what} | {self.spent_ms:.1f} | {self.floor_ms:.1f} | {times:.0f} | {self._within()} |"

    def _within(self) -> str:
        if self.limit_ms is None:
            return ""
        return f"{self.limit_ms:g}: {'yes' if self.spent_ms <= self.limit_ms else '**no**'}"


def forget(*, tables: bool = False) -> None:
    """Nothing is kept of earlier sums; the tables of quantiles too are forgotten if wanted."""
    for name, module in list(sys.modules.items()):
        if name.startswith(("app.mechanics", "app.domain")):
            for kept in vars(module).values():
                if hasattr(kept, "cache_clear") and (tables or kept.__name__ not in TABLES):
                    kept.cache_clear()


def nothing() -> None:
    """What is kept stays."""


def spent_ms(work: Callable[[], object], before: Callable[[], None] = forget, *, rounds: int = ROUNDS) -> float:
    """Processor time of that work [ms], the least of some rounds: whatever else runs here only adds to it."""
    found = []
    for _ in range(rounds):
        before()
        gc.collect()
        begun = time.process_time()
        work()
        found.append(1000 * (time.process_time() - begun))
    return min(found)


def least_squares(benches: int) -> None:
    """Every cord of such a class fitted once by plain least squares, with a toe and a bend at given places."""
    force_n = KINDS[0].force_n
    columns = np.column_stack([np.ones(READINGS), force_n, np.maximum(force_n - 20, 0), np.maximum(4 - force_n, 0)])
    pointer_mm = np.linspace(200, 300, READINGS)
    for _ in range(benches * CORDS):
        np.linalg.lstsq(columns, pointer_mm, rcond=None)


def class_lines(benches: int) -> list[Line]:
    """The whole picture of a class of so many benches, and one more reading of it."""
    lesson = a_class(benches)
    changed = with_another_reading(lesson)
    size = f"{benches} x {CORDS} x {READINGS}"
    floor = spent_ms(lambda: least_squares(benches))
    first = spent_ms(lambda: class_picture(lesson), lambda: forget(tables=True), rounds=1)
    whole = spent_ms(lambda: class_picture(lesson))
    more = spent_ms(lambda: class_picture(changed), lambda: _after(lesson))
    again = spent_ms(lambda: class_picture(lesson), nothing)
    once_more = f"one reading more, {size}: {_worked_out(lesson, changed)} cord worked out"
    return [
        Line(what=f"whole class, {size}", spent_ms=whole, floor_ms=floor, limit_ms=LIMITS_MS[benches]),
        Line(what=f"the first class of a process, {size}: tables of quantiles too", spent_ms=first, floor_ms=floor),
        Line(what=once_more, spent_ms=more, floor_ms=floor),
        Line(what=f"nothing new, {size}: the records put together", spent_ms=again, floor_ms=floor),
    ]


def _after(lesson: LessonRecord) -> None:
    """That lesson was worked out, and nothing before it."""
    forget()
    class_picture(lesson)


def _worked_out(lesson: LessonRecord, changed: LessonRecord) -> int:
    """How many cords a change works out again."""
    _after(lesson)
    before = cord_sums.cache_info().misses
    class_picture(changed)
    return cord_sums.cache_info().misses - before


def analyse_lines(rows: int) -> list[Line]:
    """A file of so many rows analysed, and told in the fields of --json."""
    data, told, kept = a_file(rows), Counter[str](), list[Analysis]()

    def work() -> None:
        kept.append(analyse(data, ReadingOptions(), depth="third", progress=lambda _: told.update(["progress"])))

    floor = spent_ms(lambda: list(csv.reader(io.StringIO(data.decode()))), rounds=1)
    spent = spent_ms(work, rounds=1)
    json_ms = spent_ms(lambda: as_json(kept[0]), nothing, rounds=1)
    what = f"{rows:,} rows of {rows // READINGS:,} cords analysed, progress told {told['progress']} times"
    return [
        Line(what=what, spent_ms=spent, floor_ms=floor, limit_ms=1000 * ANALYSE_LIMIT_S),
        Line(what="the same put into the fields of --json", spent_ms=json_ms, floor_ms=floor),
    ]


def stages(benches: int) -> str:
    """What the sums of one class take, one after the other."""
    lesson = a_class(benches)
    cords = [cord.tested for cord in class_picture(lesson).specimens]
    curves = [cord_sums(cord, OFFSET_PERCENT).curve for cord in cords]
    parts = {
        "the records put together, nothing new": spent_ms(lambda: class_picture(lesson), nothing),
        "every cord worked out": spent_ms(lambda: [cord_sums(cord, OFFSET_PERCENT) for cord in cords]),
        "of that: the straight parts": spent_ms(lambda: [_fitted(curve) for curve in curves]),
        "designs and comparisons, every cord known": spent_ms(lambda: class_sums(cords), lambda: _known(cords)),
    }
    return "\n".join(["| part | ms |", "|---|---:|", *(f"| {what} | {spent:.1f} |" for what, spent in parts.items())])


def _fitted(curve: Sequence[CurvePoint]) -> StraightPart:
    forces, pointers = [point.force_n for point in curve], [point.stretched_mm for point in curve]
    return straight_part(forces, pointers, force_u_n=[point.force_u_n or 0.0 for point in curve], u0_mm=0.4)


def _known(cords: Sequence[TestedCord]) -> None:
    """Every cord was worked out, and nothing of the class."""
    forget()
    for cord in cords:
        cord_sums(cord, OFFSET_PERCENT)


def profile(benches: int) -> str:
    """Where the time of one whole class goes, as own time of each function."""
    lesson = a_class(benches)
    _after(lesson)
    forget()
    watch = cProfile.Profile()
    watch.runcall(class_picture, lesson)
    watch.create_stats()
    own = Counter[str]()
    for (place, _, name), parts in watch.stats.items():
        own[f"{Path(place).name}:{name}"] += parts[2]
    rows = [f"| `{name}` | {100 * spent / own.total():.0f} |" for name, spent in own.most_common(SHOWN)]
    return "\n".join(["| own time of | % |", "|---|---:|", *rows])


def main(arguments: Sequence[str] | None = None) -> None:
    """The tables are printed."""
    asked = argparse.ArgumentParser(prog="python -m tests.speed.sums", description=__doc__)
    asked.add_argument("--rows", type=int, default=ROWS, help=f"rows of the file that is analysed ({ROWS:,})")
    rows = asked.parse_args(arguments).rows
    print("| what | ms | floor ms | times | within ms |\n|---|---:|---:|---:|---|")
    for benches in LIMITS_MS:
        print(*class_lines(benches), sep="\n", flush=True)
    print(*analyse_lines(rows), sep="\n", flush=True)
    print(f"\nOne class of 12 x {CORDS} x {READINGS}:\n\n{stages(12)}\n\n{profile(12)}")


if __name__ == "__main__":
    main()
