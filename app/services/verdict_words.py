"""What is said of two designs, in words, at each depth: the verdict is the sums', only the words are made here."""

from collections.abc import Callable, Mapping

from app.domain.quantities import shown, with_unit
from app.mechanics.comparison import Difference, Verdict, p_of
from app.mechanics.difference import BOTH_ALONE, ONE_GROUP
from app.mechanics.permutation import pair_p
from app.mechanics.result import Result
from app.mechanics.shared_scatter import PROBABILITY

BREAK_FORCE = "break_force_N"
MORE = {
    BREAK_FORCE: "held more than",
    "break_force_per_strand_N": "held more for each strip than",
    "tenacity_cN_per_tex": "held more for its mass than",
    "stiffness_N_per_mm": "was stiffer than",
    "extension_at_common_force_mm": "stretched more than",
}
"""What the greater design did, by quantity; of any other it is said that it had more."""
HAD_MORE = "had more than"

LEANING = " This leans on the scatter that the other designs show."
EVERY = "Every {one} {beat} every {other}. With so few, luck does that 1 time in {chance}{pairs}."
OVERLAP = "The cords of {one} and {other} overlap. More cords would be needed."
INSIDE = "The difference between {one} and {other} lies inside its uncertainty: {ratio}{luck}. {smallest}"
SMALLEST = "The smallest ratio that this class could have shown is {}."
NONE_BROKEN = "{other} wasn't broken, so {other} may be the stronger."
SOME_BROKEN = "Not every {other} was broken, so {other} may be the stronger."
COUNTS_AS_DIFFERENT = f"under {1 - PROBABILITY:.2f} counts as different"

Names = Mapping[str, str]


def verdict_words(difference: Difference, depth: str, *, names: Names) -> str:
    """The sentences about two designs at a depth; `names` are those of designs by letter, else the letter is said."""
    named = {side: names.get(letter, letter) for side, letter in _letters(difference).items()}
    return _BY_VERDICT[difference.verdict](difference, depth, named)


def alike_words(p: float) -> str:
    """What the third depth says beside the pairs: how often equal designs would differ as much, all taken together."""
    return f"All designs together: {_p(p)} if they were all alike. No shape of scatter is assumed here."


def _letters(difference: Difference) -> Names:
    return {"one": difference.one, "other": difference.other}


def _different(difference: Difference, depth: str, named: Names) -> str:
    head = f"{named['one']} {_more(difference)} {named['other']}"
    if difference.overlap:
        head = f"On the whole {head}"
    leaning = LEANING if difference.leans else ""
    if depth == "first":
        return f"{head}, by more than luck explains.{leaning}"
    if depth == "second":
        return f"{head}, over its uncertainty: {_ratio(difference.ratio)}.{leaning}"
    return f"{head}: {_ratio(difference.ratio)}; {_luck(difference)}.{leaning}"


def _hint(difference: Difference, depth: str, named: Names) -> str:
    said = EVERY.format(
        **named,
        beat="beat" if difference.quantity == BREAK_FORCE else _more(difference),
        chance=difference.chance_one_in,
        pairs=f", and {difference.pairs} pairs were compared" if difference.pairs > 1 else "",
    )
    if depth == "first":
        return said
    if depth == "second":
        return f"{said} {_smallest(difference)}"
    exact = _p(pair_p(difference.ln_one, difference.ln_other))
    return f"{said} {_smallest(difference)} For this pair alone, exactly {exact}."


def _cannot_tell(difference: Difference, depth: str, named: Names) -> str:
    if depth == "first":
        return OVERLAP.format(**named)
    if difference.smallest_ratio is None:
        return f"{OVERLAP.format(**named)} {_smallest(difference)}"
    luck = f"; {_luck(difference)}" if depth == "third" else ""
    return INSIDE.format(**named, ratio=_ratio(difference.ratio), luck=luck, smallest=_smallest(difference))


def _one_group(difference: Difference, _: str, named: Names) -> str:
    alone = [named[side] for side, values in _values(difference).items() if len(values) < 2]
    return (BOTH_ALONE if len(alone) == 2 else ONE_GROUP).format(*alone)


def _values(difference: Difference) -> Mapping[str, tuple[float, ...]]:
    return {"one": difference.ln_one, "other": difference.ln_other}


def _weaker_unbroken(difference: Difference, depth: str, named: Names) -> str:
    whole = difference.unbroken_other == len(difference.ln_other)
    said = (NONE_BROKEN if whole else SOME_BROKEN).format(**named)
    if depth != "third":
        return said
    value = difference.ratio.value
    known = "no ratio is known" if value is None else f"ratio at most {_number(value)}, without an interval"
    return f"{said} From these cords: {known}."


_BY_VERDICT: Mapping[Verdict, Callable[[Difference, str, Names], str]] = {
    "different": _different,
    "hint": _hint,
    "cannot_tell": _cannot_tell,
    "one_group": _one_group,
    "weaker_unbroken": _weaker_unbroken,
}


def _more(difference: Difference) -> str:
    return MORE.get(difference.quantity, HAD_MORE)


def _number(ratio: float) -> str:
    """A ratio with two decimals, with three where two would hide on which side of 1 it lies."""
    return shown(ratio, 2 if abs(ratio - 1) >= 0.01 else 3)


def _ratio(ratio: Result) -> str:
    if ratio.value is None or ratio.low is None:
        return str(ratio.why or ratio.note)
    if ratio.high is None:
        return f"ratio at least {_number(ratio.low)}"
    return f"ratio {_number(ratio.value)}, from {_number(ratio.low)} to {_number(ratio.high)}"


def _smallest(difference: Difference) -> str:
    if difference.smallest_ratio is None:
        return str(difference.smallest_why)
    return SMALLEST.format(_number(difference.smallest_ratio))


def _luck(difference: Difference) -> str:
    """The chance of luck alone, and what it rests on."""
    p, s_ln = p_of(difference), difference.s_ln
    if p is None or s_ln is None:
        return str(difference.smallest_why)
    scatter = with_unit(shown(100 * s_ln, 1), "%")
    luck = _p(p, at_most=difference.unbroken_one > 0)
    return f"{luck} ({COUNTS_AS_DIFFERENT}), s = {scatter}, {difference.dof} degrees of freedom"


def _p(p: float, *, at_most: bool = False) -> str:
    if p < 0.001:
        return "p < 0.001"
    return f"p at most {p:.3f}" if at_most else f"p = {p:.3f}"
