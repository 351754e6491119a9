"""What may be said of two designs: a sentence for each pair, quantity by quantity, the breaking force first."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from app.domain.records import LessonRecord
from app.domain.star import differ_words, moved
from app.services.design_table import alike, told_in_order
from app.services.figure_words import newtons
from app.services.picture import Seen
from app.services.verdict_words import verdict_words
from app.services.workings_common_load import AT_COMMON_LOAD
from app.web.bench.words import upper_first
from app.web.lead.design_asked import names_of

VERDICTS = {
    "different": "different",
    "hint": "hint",
    "cannot_tell": "can't tell yet",
    "weaker_unbroken": "can't tell: not broken",
    "one_group": "can't tell: one group",
}
HEADS = {
    "break_force_N": "Breaking force",
    "break_force_per_strand_N": "For each strip",
    "tenacity_cN_per_tex": "For the mass of a metre",
    "stiffness_N_per_mm": "Stiffness",
    AT_COMMON_LOAD: "Stretch under {force}, the heaviest load that the cords share; early ends are left aside",
}


@dataclass(frozen=True, kw_only=True)
class PairLine:
    """What may be said of two designs in one quantity, and the key by which its working is asked.

    `differ` names the things in which they are made differently where these are two or more.
    """

    key: str
    verdict: str
    words: str
    differ: str


@dataclass(frozen=True, kw_only=True)
class Compared:
    """All pairs of designs in one quantity; `alike` is said beside them at the third depth."""

    quantity: str
    head: str
    pairs: Sequence[PairLine]
    alike: str
    passed_over: Sequence[str]


def compared(found: Seen) -> list[Compared]:
    """Every quantity in which some pair of designs has something to say, the breaking force first."""
    return [_compared(found, one) for one in found.picture.sums.comparisons if one.differences]


def differing(lesson: LessonRecord, one: str, other: str) -> str:
    """The things in which two designs differ where these are two or more: nobody can say which of them did it."""
    by_letter = {design.letter: design for design in lesson.designs}
    words = differ_words(moved(by_letter[one], by_letter[other]))
    return f"{upper_first(words)}. It can't be said which of them did it." if words else ""


def _compared(found: Seen, comparison: Any) -> Compared:
    depth, names = found.lesson.depth, names_of(found.lesson)
    common_n = found.picture.sums.common_force_n
    return Compared(
        quantity=comparison.quantity,
        head=HEADS[comparison.quantity].format(force=newtons(common_n or 0.0)),
        pairs=[
            PairLine(
                key=f"pair/{one.quantity}/{one.one}/{one.other}",
                verdict=VERDICTS[one.verdict],
                words=verdict_words(one, depth, names=names),
                differ=differing(found.lesson, one.one, one.other),
            )
            for one in told_in_order(comparison)
        ],
        alike=alike(comparison) if depth == "third" else "",
        passed_over=comparison.passed_over,
    )
