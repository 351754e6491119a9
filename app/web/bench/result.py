"""What a cord did, in sentences: first what it held and broke on, then what that can't say."""

from app.domain.quantities import shown, with_unit
from app.domain.vocabulary import ENDINGS, OUTCOMES
from app.services.bench_state import BenchState
from app.web.bench.words import newtons_words, upper_first

_AFTER_HELD = {
    "did_not_break": "and didn't break",
    "out_of_time": "and didn't break before the clock stopped it",
    "stopped_for_safety": "and was stopped for safety",
    "touched_tray": "and reached the tray",
    "knot_undone": "until the knot came undone",
    "broke_returning": "and broke later, on the way back",
}
_KNOT = "A knot makes a weak place, so the plain cord may hold more."
_PLACES = {
    "free_length": "It broke between the knots, in the cord itself.",
    "at_knot": f"It broke just at a knot. {_KNOT}",
    "in_knot": f"It broke inside a knot. {_KNOT}",
    "at_support": "It broke at the support or the hook. An edge there may have cut it: the plain cord may hold more.",
}


def result(state: BenchState) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Lines that stand large, then sentences below them; before the end, what it has held so far."""
    cord = state.cord
    if cord.ending_state == "differs":
        return ("Two tablets told different ends.",), ("Your teacher says which one counts.",)
    if cord.ending is None:
        return _so_far(state)
    return _first_lines(state), tuple(line for line in (*_bounds(state), _stretch(state), _place(state)) if line)


def _so_far(state: BenchState) -> tuple[tuple[str, ...], tuple[str, ...]]:
    held = [point.force_n for point in state.cord.counted if point.force_n is not None]
    if not held:
        return ("Nothing is held yet.",), ()
    return (f"It has held {newtons_words(max(held))}.",), tuple(line for line in (_stretch(state),) if line)


def _first_lines(state: BenchState) -> tuple[str, ...]:
    ending, bracket = state.cord.ending, state.cord.break_bracket
    kind = ending.kind if ending else ""
    if bracket.low_n is None:
        return (upper_first(ENDINGS[kind]) + ".",)
    if bracket.high_n is not None:
        held = f"It held {newtons_words(bracket.low_n)}." if bracket.low_n else "It held nothing yet."
        return held, f"It broke on {newtons_words(bracket.high_n)}."
    more = f"more than {newtons_words(bracket.low_n)}."
    return (f"It held {newtons_words(bracket.low_n)} {_AFTER_HELD.get(kind, 'and broke after it')}: {more}",)


def _bounds(state: BenchState) -> tuple[str, ...]:
    bracket = state.cord.break_bracket
    if bracket.why:
        return (bracket.why,)
    if bracket.high_n is not None:
        return ("So it breaks somewhere between the two. The steps between your masses can't say it closer.",)
    return ("How much more it would hold, this test can't say.",)


def _stretch(state: BenchState) -> str:
    reached = [point for point in state.cord.counted if point.extension_mm is not None and point.reading.step > 0]
    if not reached:
        return ""
    last = reached[-1]
    longer = with_unit(shown(last.extension_mm or 0.0), "mm")
    share = "" if last.strain is None else f": {with_unit(shown(100 * last.strain), '%')} of its free length"
    ending = state.cord.ending
    when = "Before it broke" if ending and OUTCOMES[ending.kind] == "broke" else "At the last reading"
    return f"{when} it was {longer} longer{share}."


def _place(state: BenchState) -> str:
    ending = state.cord.ending
    return _PLACES.get(ending.place or "", "") if ending and OUTCOMES[ending.kind] == "broke" else ""
