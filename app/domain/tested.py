"""One tested cord as the class CSV tells it: the one ground of all sums, whether it comes from the store or a file."""

from collections import Counter
from dataclasses import dataclass
from functools import cached_property

MATCHED, DIFFERS, RULED_OUT = "matched", "differs", "ruled out"
STATE_WORDS = (MATCHED, DIFFERS, RULED_OUT)
"""What `left_out` says of a reading that nobody left out, but that another one of its step outdoes."""

LOADING = ("zero", "load")
"""Phases of the first loading, whose readings make the curve."""

_PLACE_IN_STEP = {"zero": 1, "load": 1, "later": 2, "pointer_put_back": 4, "return": 5, "hung_again": 6, "unload": 0}


@dataclass(frozen=True, kw_only=True)
class Row:
    """One standing reading: what hung [g], where the pointer stood [mm], what happened beside it, why it is out."""

    step: int
    phase: str
    pointer_mm: float
    turn: int = 1
    mass_g: float | None = None
    mass_u_g: float | None = None
    events: tuple[str, ...] = ()
    events_after: tuple[str, ...] = ()
    waited_s: float | None = None
    left_out: str | None = None

    @property
    def counts(self) -> bool:
        """Whether the reading may enter a sum."""
        return self.left_out is None


@dataclass(frozen=True, kw_only=True)
class TestedCord:
    """One cord: its rows in the order of the test, and what is said of it as a whole."""

    specimen: str
    rows: tuple[Row, ...]
    design: str = ""
    group: str = ""
    repeat: int = 1
    bench_kind: str = "class"
    gravity_m_per_s2: float
    scale: str = "down"
    scale_division_mm: float = 1.0
    judgement_mm: float = 0.5
    gauge_length_mm: float | None = None
    strands: int | None = None
    layers: int | None = None
    strip_width_mm: float | None = None
    strip_length_mm: float | None = None
    film_thickness_um: float | None = None
    cord_mass_g: float | None = None
    cord_length_mm: float | None = None
    linear_density_g_per_m: float | None = None
    level: float | None = None
    outcome: str | None = None
    fail_mass_g: float | None = None
    place: str | None = None
    straight_first_step: int | None = None
    straight_last_step: int | None = None

    @cached_property
    def left_out(self) -> str | None:
        """Why the whole cord is out: every reading is left out by someone; the reason that most of them give."""
        reasons = [row.left_out for row in self.rows if row.left_out not in STATE_WORDS]
        if not reasons or None in reasons:
            return None
        return Counter(reasons).most_common(1)[0][0]

    def usable(self, row: Row) -> bool:
        """Whether nobody left the row out, or only together with the whole cord."""
        return row.left_out is None or row.left_out == self.left_out


def row_order(row: Row) -> tuple[bool, int, int, int]:
    """The place of a row within its specimen: by step, phase and turn; unloading comes last, heaviest first."""
    unloading = row.phase == "unload"
    return unloading, -row.step if unloading else row.step, _PLACE_IN_STEP[row.phase], row.turn
