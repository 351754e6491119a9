"""How far a design's cords were stretched at the one load that every cord was read at or beyond."""

import math

from app.mechanics.comparison import Comparison
from app.services.figure_words import amount, figures, in_sum, newtons
from app.services.working import Working

AT_COMMON_LOAD = "extension_at_common_force_mm"
"""The quantity in which designs are compared at that load."""
OWN = (
    "Our own rule: the heaviest load up to which every cord has readings from its zero. Beyond it a design that loses "
    "its weak cords would be flattered."
)


def common_stretch(comparison: Comparison, letter: str, force_n: float | None, *, name: str) -> Working | None:
    """The mean stretch of a design's groups at the common load; None when there is none, or none of the design."""
    values = next((one.ln_values for one in comparison.designs if one.design == letter), ())
    if force_n is None or not values:
        return None
    each = ", ".join(figures(math.exp(value), 3) for value in sorted(values))
    mean_mm = math.exp(math.fsum(values) / len(values))
    return Working(
        code=AT_COMMON_LOAD,
        name=f"How much longer {name} was under {newtons(force_n)}",
        said=amount(figures(mean_mm, 2), "mm"),
        formula="geometric mean of what the groups' cords were longer by, between two readings along a straight line",
        numbers=f"{each} mm: mean {in_sum(mean_mm, 'mm')}",
        source="",
        own=OWN,
        better="More groups, and two readers for each number.",
        notes=(),
    )
