"""How often a class of so many benches a design would show that one design is stronger: measured, not reckoned."""

from collections.abc import Sequence
from dataclasses import dataclass

RATIOS = (1.25, 1.5, 2.0)
"""How many times as strong as all others the stronger design of the given pair was [1]."""

MOSTLY = 80
"""A ratio counts as shown when it was found so many times in 100."""


@dataclass(frozen=True, kw_only=True)
class Power:
    """Benches of each design, and how many times in 100 a difference was found at each of RATIOS."""

    benches: tuple[int, ...]
    found: tuple[int, int, int]

    @property
    def smallest_ratio(self) -> float | None:
        """The smallest ratio tried that was found 80 times in 100 or more; None when none was."""
        return next((ratio for ratio, times in zip(RATIOS, self.found, strict=True) if times >= MOSTLY), None)


MEASURED = (
    Power(benches=(3, 2), found=(19, 46, 85)),
    Power(benches=(3, 3), found=(24, 65, 97)),
    Power(benches=(4, 4), found=(36, 84, 100)),
    Power(benches=(2, 2, 2), found=(6, 24, 60)),
    Power(benches=(3, 3, 3), found=(17, 55, 97)),
    Power(benches=(4, 4, 4), found=(24, 79, 100)),
    Power(benches=(3, 2, 2, 2), found=(9, 32, 79)),
    Power(benches=(2, 2, 2, 2, 2), found=(6, 22, 63)),
)
"""By our own simulation of whole classes: cords that scatter by 15 %, every one broken, one bench one value."""


def measured_power(benches: Sequence[int]) -> Power | None:
    """The row that was measured for a class shared out like that.

    Parameters: benches, of each design, any order [1]; a design with fewer than two is compared with none and is
        passed over.
    Returns: the row [times in 100], None when no such class was tried: nothing is reckoned between rows.
    Raises: nothing.
    Source: our own simulation (see MEASURED).
    """
    several = tuple(sorted((count for count in benches if count >= 2), reverse=True))
    return next((row for row in MEASURED if row.benches == several), None)
