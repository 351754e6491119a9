"""How far a design's cords were stretched at the one load that every cord was read at or beyond."""

import math

from app.mechanics.class_sums import DesignSums
from app.mechanics.comparison import Comparison
from app.mechanics.result import Result
from app.mechanics.stretch_at import stretch_at
from app.services.figure_words import amount, counted, decimals_of, figures, in_sum, measured, newtons, rounded
from app.services.working import Working, listed, reaches

AT_COMMON_LOAD = "extension_at_common_force_mm"
"""The quantity in which designs are compared at that load."""
BY_GROUP = "what the groups' cords were longer by, between two readings along a straight line"
GEOMETRIC_MEAN = f"geometric mean of {BY_GROUP}"
ROOT_OF_PRODUCT = f"the n numbers of n groups multiplied, and the nth root taken: {BY_GROUP}"
OWN = (
    "Our own rule: the heaviest load up to which every cord has readings from its zero. Beyond it a design that loses "
    "its weak cords would be flattered."
)


def common_stretch(
    comparison: Comparison, sums: DesignSums, force_n: float | None, *, name: str, depth: str
) -> Working | None:
    """The mean stretch of a design's groups at the common load; None when there is none, or none of the design."""
    values = next((one.ln_values for one in comparison.designs if one.design == sums.letter), ())
    found = [(one.cord.specimen, stretch_at(one, force_n)) for one in sums.cords]
    read = [(specimen, each) for specimen, each in found if each.value is not None]
    if force_n is None or not values or not read:
        return None
    mean_mm = math.exp(math.fsum(values) / len(values))
    each = [f"{specimen} {measured(one, depth)}" for specimen, one in read]
    return Working(
        code=AT_COMMON_LOAD,
        name=f"How much longer {name} was under {newtons(force_n)}",
        said=f"{amount(figures(mean_mm, 2), 'mm')} ({_within([one for _, one in read])})",
        formula=GEOMETRIC_MEAN if reaches(depth, "second") else ROOT_OF_PRODUCT,
        numbers=listed([*each, f"mean {in_sum(mean_mm, 'mm')}"]),
        source="",
        own=OWN,
        better="More groups, and two readers for each number.",
        notes=(),
    )


def _within(read: list[Result]) -> str:
    """How closely the stretch of each cord is known: so much as of the one known least."""
    half_mm = max((one.high - one.low) / 2 for one in read if one.high is not None and one.low is not None)
    each = "each to within" if len(read) > 1 else "to within"
    return f"{counted(len(read), 'cord')}, {each} {amount(rounded(half_mm, decimals_of(half_mm)), 'mm')}"
