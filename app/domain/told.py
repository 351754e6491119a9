"""What the look-again rules are told, by value only, and what they say."""

from dataclasses import dataclass

STOP, ASK, TEACHER = "stop", "ask", "teacher"
"""Look before the next mass goes on; may go on; for the teacher only."""

SEVERITY = {
    **dict.fromkeys((1, 2, 3, 6, 8, 11, 12, 13, 18, 19, 20, 23, 25, 27), STOP),
    **dict.fromkeys((9, 10, 16, 26, 28, 32), ASK),
    22: TEACHER,
}
"""By row of the list of blunders, for those rows that a rule can see."""


@dataclass(frozen=True, kw_only=True)
class Told:
    """One standing reading with what its rules need; `key` names it in a note.

    `events` came before it and `events_after` after it, within its step; `s_since_zero` is when a tablet typed it,
    counted from the zero of its cord; `differs` says that another number for the same moment stands beside it.
    """

    key: str
    step: int
    phase: str
    pointer_mm: float
    turn: int = 1
    force_n: float | None = None
    marks: tuple[int, ...] | None = None
    events: tuple[str, ...] = ()
    events_after: tuple[str, ...] = ()
    waited_s: float | None = None
    s_since_zero: float | None = None
    counts: bool = True
    differs: bool = False

    @property
    def moment(self) -> tuple[int, str, int]:
        """What it is a reading of: another one of the same moment is another number for it."""
        return self.step, self.phase, self.turn


@dataclass(frozen=True, kw_only=True)
class BenchFacts:
    """What the rules are told of the bench; None where nobody said.

    `way` the numbers of its scale grow, the `unit` it is read in; `wait_s` before a reading; `drop_mm` below the
    masses to the tray; `broke_n` the force that the cord broke under, `broke_adding` when that mass was going on.
    """

    way: str = "down"
    unit: str = "mm"
    division_mm: float = 1.0
    judgement_mm: float = 0.5
    wait_s: float | None = None
    drop_mm: float | None = None
    broke_n: float | None = None
    broke_adding: bool = False


@dataclass(frozen=True, kw_only=True)
class CordFacts:
    """What is measured of a cord and what was planned for it, None where nobody said; keys name the measures."""

    free_length_mm: float | None = None
    planned_length_mm: float | None = None
    length_key: str = ""
    linear_density_g_per_m: float | None = None
    planned_density_g_per_m: float | None = None
    strands: int | None = None
    mass_key: str = ""


@dataclass(frozen=True, kw_only=True)
class Note:
    """A friendly doubt: `note` is its row in the list of blunders, `about` the key of what it asks about.

    `likely_mm` is what the number may be meant to be, None where nothing suggests itself.
    """

    note: int
    words: str
    about: str
    likely_mm: float | None = None

    @property
    def severity(self) -> str:
        """How it is asked: stop, ask or teacher."""
        return SEVERITY[self.note]
