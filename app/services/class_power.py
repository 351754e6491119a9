"""What the benches of a class are good for: how often they would show that one design is stronger."""

from collections import Counter
from dataclasses import dataclass

from app.domain.records import LessonRecord
from app.mechanics.power import MEASURED, RATIOS, Power, measured_power

__all__ = ["MEASURED", "RATIOS", "ClassPower", "Power", "class_power"]


@dataclass(frozen=True, kw_only=True)
class ClassPower:
    """Benches of each design that has two or more, most first; the row measured for such a class, if one was."""

    benches: tuple[int, ...]
    row: Power | None


def class_power(lesson: LessonRecord) -> ClassPower:
    """How the benches of the lesson are shared out, pilots not counted, and what was measured for that."""
    counts = Counter(bench.design_id for bench in lesson.benches if bench.kind != "pilot")
    several = tuple(sorted((count for count in counts.values() if count >= 2), reverse=True))
    return ClassPower(benches=several, row=measured_power(several))
