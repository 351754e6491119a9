"""Everything worked out of one cord, from what a class CSV tells of it; each sum is made elsewhere in this package."""

from dataclasses import dataclass
from functools import lru_cache

from app.domain.tested import TestedCord
from app.mechanics.extension import reading_u_mm, scale_of
from app.mechanics.reading_sums import ReadingSums, reading_sums
from app.mechanics.result import ReadingScatter


@dataclass(frozen=True, kw_only=True)
class CordSums:
    """What is known of one cord; a figure that can't be had says why."""

    cord: TestedCord
    readings: tuple[ReadingSums, ...]


@lru_cache(maxsize=2048)
def cord_sums(cord: TestedCord) -> CordSums:
    """Everything worked out of one cord; kept, so that a new reading works out its own cord again and no other.

    Parameters: cord, as it was told, masses [g], pointer and lengths [mm].
    Returns: its sums, forces [N], lengths [mm].
    Raises: nothing.
    Source: no sum is made here; each function of this package names its own.
    """
    return CordSums(cord=cord, readings=reading_sums(cord, ReadingScatter(u_mm=reading_u_mm(scale_of(cord)))))
