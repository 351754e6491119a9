"""Where a curve is straight, as people choose it: the steps to choose from, what was chosen, what is wrong with it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from app.web.bench.words import newtons_words

LEAST_STEPS = 3
"""With fewer steps read there is nothing to choose from."""
FIELDS = ("first_step", "last_step")
BENDS = "Your part bends: these readings don't lie on one line."


@dataclass(frozen=True, kw_only=True)
class StraightChoice:
    """The choice for one cord: `steps` that were read, each with its words; `said` and `wrong` by field.

    `bends` warns of what was chosen where its readings don't lie on one line.
    """

    specimen_id: str
    steps: tuple[tuple[str, str], ...]
    said: Mapping[str, str]
    wrong: Mapping[str, str]
    chosen: bool
    bends: str


def straight_choice(
    cord: Any, depth: str, *, typed: Mapping[str, str], faults: Mapping[str, str]
) -> StraightChoice | None:
    """The choice for a cord, with what was typed into a refused form of it; None at the first depth."""
    steps = {str(point.row.step): _words(point) for point in cord.sums.loaded}
    if depth == "first" or len(steps) < LEAST_STEPS:
        return None
    mine = typed.get("about") == cord.specimen_id
    stood = {name: getattr(cord.tested, f"straight_{name}") for name in FIELDS}
    return StraightChoice(
        specimen_id=cord.specimen_id,
        steps=tuple(steps.items()),
        said={name: typed.get(name, "") if mine else "" if step is None else str(step) for name, step in stood.items()},
        wrong={name: faults[name] for name in FIELDS if mine and name in faults},
        chosen=None not in stood.values(),
        bends=BENDS if cord.sums.chosen and not cord.sums.chosen.on_one_line else "",
    )


def _words(point: Any) -> str:
    name = f"step {point.row.step}" if point.row.step else "zero"
    return f"{name}: {newtons_words(point.force_n)}"
