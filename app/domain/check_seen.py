"""The look-again rules on what was seen beside a value: steps, marks, waits, the tray, the end. None has a scatter."""

from collections.abc import Callable, Sequence
from itertools import pairwise

from app.domain import check_words as words
from app.domain.tested import LOADING
from app.domain.thresholds import AT
from app.domain.told import BenchFacts, Note, Told
from app.domain.trail import UNDER_LOAD, Trail


def seen_notes(trail: Trail, new: Told, bench: BenchFacts) -> tuple[Note, ...]:
    """What is to ask of a reading whatever its value: of each kind at most one note."""
    return tuple(note for rule in SEEN_RULES if (note := rule(trail, new, bench)) is not None)


def past_the_tray(trail: Trail, new: Told, bench: BenchFacts) -> Note | None:
    """Row 25: an extension longer than the drop to the tray."""
    zero = trail.path[0] if trail.path and trail.path[0].phase == "zero" else None
    if zero is None or bench.drop_mm is None or new.phase not in UNDER_LOAD:
        return None
    extension_mm = trail.sign * (new.pointer_mm - zero.pointer_mm)
    if not extension_mm > bench.drop_mm:
        return None
    said = words.past_the_tray(extension_mm, bench.drop_mm, unit=bench.unit)
    return Note(note=25, words=said, about=new.key)


def after_the_break(_trail: Trail, new: Told, bench: BenchFacts) -> Note | None:
    """Row 26: a reading under more than what the cord broke under; or under just that, if it was only going on."""
    if bench.broke_n is None or new.force_n is None or new.phase not in UNDER_LOAD:
        return None
    if not (new.force_n > bench.broke_n or (bench.broke_adding and new.force_n == bench.broke_n)):
        return None
    return Note(note=26, words=words.after_the_break(bench.broke_n, new.force_n), about=new.key)


def hung_twice(_trail: Trail, new: Told, _bench: BenchFacts) -> Note | None:
    """Row 12: one rung would hang twice, so what was told of the order of the ladder can't be."""
    marks = new.marks or ()
    twice = next((mark for place, mark in enumerate(marks) if mark in marks[:place]), None)
    if twice is None or twice != marks[-1]:
        return None
    return Note(note=12, words=words.hung_twice(twice), about=new.key)


def lighter(trail: Trail, new: Told, _bench: BenchFacts) -> Note | None:
    """Row 13: the force falls although the phase is load."""
    before = trail.heaviest
    if before is None or before.force_n is None or new.force_n is None or new.phase not in LOADING:
        return None
    if before.step >= new.step or not new.force_n < before.force_n:
        return None
    return Note(note=13, words=words.lighter(before.force_n, new.force_n), about=new.key)


def skipped(trail: Trail, new: Told, _bench: BenchFacts) -> Note | None:
    """Row 10: a step of the ladder has no reading."""
    first = trail.top_step + 1
    if new.phase != "load" or new.step <= first:
        return None
    return Note(note=10, words=words.skipped(first, new.step - 1), about=new.key)


def too_soon(_trail: Trail, new: Told, bench: BenchFacts) -> Note | None:
    """Row 16: read before the wait was over."""
    if bench.wait_s is None or new.waited_s is None or new.waited_s >= bench.wait_s - AT.early_s:
        return None
    return Note(note=16, words=words.too_soon(new.waited_s, bench.wait_s), about=new.key)


def late_zero(trail: Trail, new: Told, _bench: BenchFacts) -> Note | None:
    """Row 19, about the zero: the first reading with a mass on was typed before it."""
    if new.phase != "load" or new.s_since_zero is None or new.s_since_zero >= 0:
        return None
    if not trail.path or trail.path[-1].phase != "zero":
        return None
    return Note(note=19, words=words.late_zero(), about=trail.path[-1].key)


def equal_moves(trail: Trail, new: Told, bench: BenchFacts) -> Note | None:
    """Row 22, to the teacher: so many moves running are exactly the same, on a scale fine enough to tell."""
    if new.phase not in LOADING or not trail.path or bench.division_mm > AT.no_move_mm:
        return None
    moves = [round(move, 6) for move in trail.moves_mm(new, AT.equal_moves + 1)]
    if moves[-1] == 0 or not _just_reached([move == moves[-1] for move in moves], AT.equal_moves):
        return None
    first = trail.path[1 - AT.equal_moves].step
    said = words.equal_moves(first, new.step, abs(moves[-1]), unit=bench.unit)
    return Note(note=22, words=said, about=new.key)


def hasty(trail: Trail, new: Told, _bench: BenchFacts) -> Note | None:
    """Row 22, to the teacher: so many readings running were typed sooner than a mass can be hung."""
    if new.phase != "load":
        return None
    along = (*trail.path[-AT.hasty_steps - 1 :], new)
    seconds = [_seconds_between(before, after) for before, after in pairwise(along)]
    if not _just_reached([passed is not None and 0 <= passed < AT.hasty_s for passed in seconds], AT.hasty_steps):
        return None
    whole = _seconds_between(along[-1 - AT.hasty_steps], new) or 0.0
    return Note(note=22, words=words.hasty(along[-1 - AT.hasty_steps], new, whole), about=new.key)


def _just_reached(holds: Sequence[bool], running: int) -> bool:
    """Whether it holds for the last so many, and not for one more before them."""
    return len(holds) >= running and all(holds[-running:]) and not any(holds[-running - 1 : -running])


def _seconds_between(before: Told, after: Told) -> float | None:
    if before.s_since_zero is None or after.s_since_zero is None:
        return None
    return after.s_since_zero - before.s_since_zero


SEEN_RULES: tuple[Callable[[Trail, Told, BenchFacts], Note | None], ...] = (
    past_the_tray,
    after_the_break,
    hung_twice,
    lighter,
    skipped,
    too_soon,
    late_zero,
    equal_moves,
    hasty,
)
