"""Which entries stand and what the rulings say of them; one rule for picture, export and bench page."""

from collections.abc import Callable, Hashable, Iterable, Sequence
from typing import TypeVar

from app.domain.records import Ending, Entry, Event, Measure, Reading, Ruling

AnyEntry = TypeVar("AnyEntry", bound=Entry)
Order = tuple[int, int, int, int, int, str]

STANDS, MATCHED, DIFFERS, RULED_OUT, NONE = "stands", "matched", "differs", "ruled_out", "none"
LEFT_OUT_WITHOUT_WORDS = "left out"

_BEFORE, _AFTER = 0, 3
_PLACE_IN_STEP = {"zero": 1, "load": 1, "later": 2, "pointer_put_back": 4, "return": 5, "hung_again": 6, "unload": 0}
"""Where a phase lies within its step; events lie at 0 (before the load reading) and 3 (after it)."""


def standing(entries: Iterable[AnyEntry]) -> tuple[AnyEntry, ...]:
    """Those entries that no other one replaces, in the order given."""
    given = tuple(entries)
    replaced = {entry.replaces for entry in given}
    return tuple(entry for entry in given if entry.entry_id not in replaced)


def lines(entries: Iterable[AnyEntry]) -> dict[str, tuple[AnyEntry, ...]]:
    """By entry id: the entry itself, then what it replaced, back to the first that is here."""
    known = {entry.entry_id: entry for entry in entries}
    return {entry_id: _line(entry, known) for entry_id, entry in known.items()}


def _line(entry: AnyEntry, known: dict[str, AnyEntry]) -> tuple[AnyEntry, ...]:
    line = [entry]
    while (before := known.get(line[-1].replaces or "")) is not None and before not in line:
        line.append(before)
    return tuple(line)


def first_of(entry: AnyEntry, entries: Iterable[AnyEntry]) -> AnyEntry:
    """The first entry of the chain that ends in this one; the entry itself when it replaces nothing that is here."""
    return _line(entry, {other.entry_id: other for other in entries})[-1]


def holding(rulings: Iterable[Ruling], kinds: Sequence[str]) -> dict[str, Ruling]:
    """By what it is about: the ruling of these kinds that holds, which is the latest one that nothing replaces."""
    said = (ruling for ruling in standing(rulings) if ruling.kind in kinds)
    return {ruling.about_id: ruling for ruling in sorted(said, key=lambda ruling: ruling.n)}


def ruling_on(line: Iterable[Entry], said: dict[str, Ruling]) -> Ruling | None:
    """The latest ruling about any entry of a chain; None when nobody ruled."""
    found = [said[entry.entry_id] for entry in line if entry.entry_id in said]
    return max(found, key=lambda ruling: ruling.n, default=None)


def left_out_reasons(rulings: Iterable[Ruling], entries: Iterable[Entry] = ()) -> dict[str, str]:
    """By id, why it is left out: whatever is ruled left out, and of the entries given those whose chain is."""
    said = holding(rulings, ("left_out", "put_back"))
    chained = {entry_id: ruling_on(line, said) for entry_id, line in lines(entries).items()}
    return {
        about_id: ruling.reason or LEFT_OUT_WITHOUT_WORDS
        for about_id, ruling in {**said, **chained}.items()
        if ruling is not None and ruling.kind == "left_out"
    }


def counted(entries: Iterable[AnyEntry], rulings: Iterable[Ruling]) -> tuple[AnyEntry, ...]:
    """The entries that stand and are not left out, in the order given."""
    given = tuple(entries)
    out = left_out_reasons(rulings, given)
    return tuple(entry for entry in standing(given) if entry.entry_id not in out)


def states(readings: Iterable[Reading], rulings: Iterable[Ruling]) -> dict[str, str]:
    """By entry id, the state of each standing reading of one specimen: stands, matched, differs or ruled_out.

    One that is left out takes no part when two numbers for a step are compared, and is said to stand.
    """
    given, ruled = tuple(readings), tuple(rulings)
    found = {reading.entry_id: STANDS for reading in standing(given)}
    steps: dict[tuple[int, str, int], list[Reading]] = {}
    for reading in counted(given, ruled):
        steps.setdefault((reading.step, reading.phase, reading.turn), []).append(reading)
    chains, said = lines(given), holding(ruled, ("counts",))
    for same in steps.values():
        found |= _compared(same, chains, said, value=lambda reading: reading.pointer_mm)
    return found


def ending_state(endings: Iterable[Ending], rulings: Iterable[Ruling]) -> tuple[str, Ending | None]:
    """The state of a cord's end (none, stands, differs) and the ending that counts, if one does."""
    given, ruled = tuple(endings), tuple(rulings)
    told = counted(given, ruled)
    found = ending_states(given, ruled)
    counting = next((ending for ending in told if found[ending.entry_id] == STANDS), None)
    if counting is not None:
        return STANDS, counting
    return (DIFFERS if told else NONE), None


def ending_states(endings: Iterable[Ending], rulings: Iterable[Ruling]) -> dict[str, str]:
    """By entry id, the state of each ending of one specimen that nothing replaces and nobody left out."""
    given, ruled = tuple(endings), tuple(rulings)
    told = counted(given, ruled)
    return _compared(
        told, lines(given), holding(ruled, ("counts",)), value=lambda ending: (ending.kind, ending.fail_step)
    )


def _compared(
    same: Sequence[AnyEntry],
    chains: dict[str, tuple[AnyEntry, ...]],
    said: dict[str, Ruling],
    *,
    value: Callable[[AnyEntry], Hashable],
) -> dict[str, str]:
    arrived = sorted(same, key=lambda entry: (entry.n, entry.entry_id))
    named = {entry.entry_id: ruling_on(chains[entry.entry_id], said) for entry in arrived}
    chosen = max((ruling.n for ruling in named.values() if ruling is not None), default=None)
    first = {value(entry): entry for entry in reversed(arrived)}
    winner = None
    if chosen is not None:
        winner = next(entry for entry in arrived if (ruling := named[entry.entry_id]) and ruling.n == chosen)
        first[value(winner)] = winner
    elif len(first) == 1:
        winner = arrived[0]

    def state(entry: AnyEntry) -> str:
        if entry is not first[value(entry)]:
            return MATCHED if winner is None or value(entry) == value(winner) else RULED_OUT
        if winner is None:
            return DIFFERS
        return STANDS if entry is winner else RULED_OUT

    return {entry.entry_id: state(entry) for entry in arrived}


def marks_hung(events: Iterable[Event], step: int) -> tuple[int, ...]:
    """The marks that hang below the hanger at a step: the ladder's, unless an event that counts names another."""
    others: dict[int, int] = {}
    for event in sorted(standing(events), key=lambda event: event.n):
        if event.kind == "other_mass" and event.step is not None and event.mark is not None:
            others[event.step] = event.mark
    return tuple(others.get(rung, rung) for rung in range(1, step + 1))


def reading_order(reading: Reading) -> Order:
    """The place of a reading within its specimen: by step, phase and turn; unloading comes last, heaviest first."""
    unloading = reading.phase == "unload"
    step = -reading.step if unloading else reading.step
    return int(unloading), step, _PLACE_IN_STEP[reading.phase], reading.turn, reading.n, reading.entry_id


def event_order(event: Event) -> Order:
    """The place of an event that has a step among the readings of its specimen."""
    return 0, event.step or 0, _AFTER if event.after_reading else _BEFORE, 0, event.n, event.entry_id


def beside(readings: Sequence[Reading], events: Iterable[Event]) -> dict[str, tuple[Reading, bool]]:
    """By event id, the reading of one specimen beside which the event is told, and whether it came after it.

    Within its step where that was read, else before the next reading, else after the last; an event without a step,
    or a specimen without a reading, has none. `readings` are in order.
    """
    placed = ((event, _beside(readings, event)) for event in events if event.step is not None and readings)
    return {event.entry_id: place for event, place in placed}


def _beside(readings: Sequence[Reading], event: Event) -> tuple[Reading, bool]:
    within = [reading for reading in readings if reading.step == event.step and reading.phase != "unload"]
    loaded = [reading for reading in within if _PLACE_IN_STEP[reading.phase] < _AFTER]
    if event.after_reading and loaded:
        return loaded[-1], True
    later = within or [reading for reading in readings if reading_order(reading) > event_order(event)]
    return (later[0], False) if later else (readings[-1], True)


def measured(measures: Iterable[Measure], quantity: str) -> float | None:
    """What was measured of a quantity, in its own unit: the latest of each place, and their mean; None if nothing."""
    latest: dict[int, float] = {}
    for measure in sorted(standing(measures), key=lambda measure: measure.n):
        if measure.quantity == quantity:
            latest[measure.place] = measure.value
    return sum(latest.values()) / len(latest) if latest else None
