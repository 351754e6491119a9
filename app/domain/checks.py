"""Look-again notes: friendly doubts about readings, asked while it can still be put right, and never enforced."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from app.domain import check_words as words
from app.domain.check_rules import limp_zero, value_note
from app.domain.check_seen import seen_notes
from app.domain.tested import DIFFERS, Row, TestedCord
from app.domain.told import BenchFacts, Note, Told
from app.domain.trail import Trail
from app.domain.vocabulary import OUTCOMES

BROKE = OUTCOMES["broke_adding"]


def look_again(before: Sequence[Told], new: Told, bench: BenchFacts) -> tuple[Note, ...]:
    """What is to ask of a reading, after those before it in the order of the test.

    The first loading is compared with itself, from the last slip, moved pointer or moved support on; a reading that
    does not count is not compared, one that stands beside another number for its moment asks only which counts. Its
    value raises one question at most: `check_rules.value_note` says which of several goes first. A zero that was
    taken limp, and what was seen beside the value, are asked besides; of one row of the list only what was seen.
    """
    trail = Trail(bench.way)
    for told in before:
        trail.come_to(told)
        trail.take(told)
    trail.come_to(new)
    same = [told for told in (*before, new) if told.differs and told.moment == new.moment]
    return (*_two_numbers(same if new.differs else (), bench), *_asked(trail, new, bench))


def notes_along(told: Sequence[Told], bench: BenchFacts) -> tuple[Note, ...]:
    """What is to ask of all readings of a cord, in the order of the test; as `look_again` at each of them."""
    return tuple(_along(told, bench))


def _along(told: Sequence[Told], bench: BenchFacts) -> Iterator[Note]:
    differing: dict[tuple[int, str, int], list[Told]] = {}
    for one in told:
        if one.differs:
            differing.setdefault(one.moment, []).append(one)
    trail = Trail(bench.way)
    for new in told:
        trail.come_to(new)
        if new.differs and new is differing[new.moment][-1]:
            yield from _two_numbers(differing[new.moment], bench)
        yield from _asked(trail, new, bench)
        trail.take(new)


def _asked(trail: Trail, new: Told, bench: BenchFacts) -> tuple[Note, ...]:
    if not new.counts:
        return ()
    of_value = (value_note(trail, new, bench), limp_zero(trail, new, bench))
    notes = (*(note for note in of_value if note is not None), *seen_notes(trail, new, bench))
    return tuple({note.note: note for note in notes}.values())


def _two_numbers(told: Sequence[Told], bench: BenchFacts) -> Iterable[Note]:
    """Row 23, about the first of them."""
    if len(told) > 1:
        yield Note(note=23, words=words.two_numbers(told, unit=bench.unit), about=told[0].key)


def notes_of_cord(cord: TestedCord) -> tuple[Note, ...]:
    """What is to ask of a cord as a class CSV tells it; `about` says which reading: "step 4", "the zero"."""
    return notes_along(told_of(cord), facts_of(cord))


def told_of(cord: TestedCord) -> tuple[Told, ...]:
    """The readings of a cord, each named by its moment in words."""
    return tuple(_told(row, cord.gravity_m_per_s2) for row in cord.rows)


def _told(row: Row, gravity_m_per_s2: float) -> Told:
    told = Told(
        key="",
        step=row.step,
        phase=row.phase,
        turn=row.turn,
        pointer_mm=row.pointer_mm,
        force_n=None if row.mass_g is None else row.mass_g * gravity_m_per_s2 / 1000,
        events=row.events,
        events_after=row.events_after,
        waited_s=row.waited_s,
        counts=row.counts,
        differs=row.left_out == DIFFERS,
    )
    return replace(told, key=words.moment(told))


def facts_of(cord: TestedCord) -> BenchFacts:
    """What a class CSV tells of the bench of a cord."""
    fail_mass_g = cord.fail_mass_g if cord.outcome == BROKE else None
    return BenchFacts(
        way=cord.scale,
        division_mm=cord.scale_division_mm,
        judgement_mm=cord.judgement_mm,
        broke_n=None if fail_mass_g is None else fail_mass_g * cord.gravity_m_per_s2 / 1000,
    )
