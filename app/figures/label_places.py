"""Places for words on a graph: none covers another, none leaves the field, lines are covered as little as can be."""

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate, pairwise

CELL = 8.0
"""Side in px of the squares in which the lines' points are counted."""
COVERED = 4.0
"""What covering one counted point costs, in px of distance."""
STEP = 10.0
FINE = 6
"""Side in px of the net of places that are tried, and how many sides far it is that fine."""
CROSSED = 100.0
"""What a leader across a taken box costs."""

Place = tuple[float, float]


@dataclass(frozen=True)
class Box:
    """An upright rectangle in px, top down."""

    left: float
    top: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Its right edge."""
        return self.left + self.width

    @property
    def bottom(self) -> float:
        """Its lower edge."""
        return self.top + self.height

    def meets(self, other: "Box", gap: float = 0.0) -> bool:
        """Whether the two have more than an edge in common, or stand nearer than the gap."""
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.top < other.bottom + gap
            and other.top < self.bottom + gap
        )

    def within(self, field: "Box") -> bool:
        """Whether no part of it is outside the field."""
        return (
            self.left >= field.left
            and self.right <= field.right
            and self.top >= field.top
            and self.bottom <= field.bottom
        )


def crosses(line: tuple[Place, Place], box: Box) -> bool:
    """Whether a straight line goes through the box (Liang and Barsky's clipping)."""
    (x, y), (to_x, to_y) = line
    if max(x, to_x) <= box.left or min(x, to_x) >= box.right or max(y, to_y) <= box.top or min(y, to_y) >= box.bottom:
        return False
    enters, leaves = 0.0, 1.0
    for move, room in (
        (x - to_x, x - box.left),
        (to_x - x, box.right - x),
        (y - to_y, y - box.top),
        (to_y - y, box.bottom - y),
    ):
        if move == 0:
            if room < 0:
                return False
        elif move < 0:
            enters = max(enters, room / move)
        else:
            leaves = min(leaves, room / move)
    return enters < leaves


def along(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """The points of a polyline with more between them, so that no two are farther apart than a cell."""
    found = points[:1]
    for (x0, y0), (x1, y1) in pairwise(points):
        parts = max(1, math.ceil(math.hypot(x1 - x0, y1 - y0) / CELL))
        found += [(x0 + (x1 - x0) * part / parts, y0 + (y1 - y0) * part / parts) for part in range(1, parts + 1)]
    return found


Leads = Callable[[Box], tuple[Place, Place] | None]


class Field:
    """A field to put boxes in: it knows what is taken and how much of the lines any box would cover."""

    def __init__(self, box: Box, lines: Iterable[list[tuple[float, float]]]) -> None:
        self.box = box
        self.taken: list[Box] = []
        self.leaders: list[tuple[Place, Place]] = []
        columns, rows = math.ceil(box.right / CELL) + 1, math.ceil(box.bottom / CELL) + 1
        counts = [[0] * columns for _ in range(rows)]
        for line in lines:
            for x, y in along(line):
                if 0 <= x < box.right and 0 <= y < box.bottom:
                    counts[int(y / CELL)][int(x / CELL)] += 1
        self._sums = [[0] * (columns + 1)]
        for row in counts:
            above = self._sums[-1]
            self._sums.append([0, *(a + b for a, b in zip(accumulate(row), above[1:], strict=True))])

    def covered(self, box: Box) -> int:
        """How many of the lines' points lie under the box, counted in whole cells."""
        left, right = max(0, int(box.left / CELL)), int(box.right / CELL) + 1
        top, bottom = int(box.top / CELL), int(box.bottom / CELL) + 1
        upper, lower = self._sums[max(0, top)], self._sums[min(bottom, len(self._sums) - 1)]
        right = min(right, len(upper) - 1)
        return lower[right] - lower[left] - upper[right] + upper[left]

    def free(self, box: Box, gap: float = 0.0) -> bool:
        """Whether the box lies inside and touches nothing that is taken."""
        return box.within(self.box) and not any(box.meets(other, gap) for other in self.taken)

    def take(self, box: Box) -> Box:
        """The box itself; its place is taken from now on."""
        self.taken.append(box)
        return box

    def first_clear(self, boxes: list[Box], margin: float) -> Box:
        """The one of the boxes that stands clearest, the earlier one when two stand alike; now taken."""

        def crowded(box: Box) -> tuple[bool, bool, int]:
            around = Box(box.left - margin, box.top - margin, box.width + 2 * margin, box.height + 2 * margin)
            return not self.free(box), not self.free(box, margin), self.covered(around)

        return self.take(min(boxes, key=crowded))

    def near(self, wanted: Box, lead: Leads, *, gap: float, most: float = math.inf) -> Box | None:
        """A free place as near to the wanted one as covers little, now taken; None when there is none under `most`.

        `lead` says which leader a box would have; it and the box keep clear of what was placed before where they can.
        """
        best, best_cost = None, most
        reach = math.hypot(self.box.width, self.box.height)
        wide, high = wanted.width + gap, wanted.height + gap
        barred = [(other.left - wide, other.top - high, other.right + gap, other.bottom + gap) for other in self.taken]
        for distance, right, down in _offsets(STEP, reach):
            if distance >= best_cost:
                break
            x, y = wanted.left + right, wanted.top + down
            if any(left < x < beyond and top < y < below for left, top, beyond, below in barred):
                continue
            box = Box(x, y, wanted.width, wanted.height)
            if not box.within(self.box):
                continue
            cost = distance + COVERED * self.covered(box)
            if cost < best_cost:
                cost += CROSSED * self._crossings(box, lead(box))
            if cost < best_cost:
                best, best_cost = box, cost
        if best is None:
            return None
        leader = lead(best)
        self.leaders += [leader] if leader else []
        return self.take(best)

    def _crossings(self, box: Box, leader: tuple[Place, Place] | None) -> int:
        """How many leaders would lie under the box, and boxes under its leader."""
        over = sum(crosses(other, box) for other in self.leaders)
        return over + (sum(crosses(leader, other) for other in self.taken) if leader else 0)


@lru_cache(maxsize=8)
def _offsets(step: float, reach: float) -> tuple[tuple[float, float, float], ...]:
    """Every move on a square net, nearest first; far off the net is twice as wide."""
    most = int(reach / step) + 1
    fine = range(-FINE, FINE + 1)
    wide = range(-most - most % 2, most + 1, 2)
    moves = {(i, j) for i in fine for j in fine} | {(i, j) for i in wide for j in wide}
    return tuple(sorted((math.hypot(i, j) * step, i * step, j * step) for i, j in moves))
