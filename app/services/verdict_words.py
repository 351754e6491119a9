"""What is said of two designs, in words, at each depth: the verdict is the sums', only the words are made here."""

from collections.abc import Callable, Mapping

from app.domain.quantities import shown, with_unit
from app.mechanics.comparison import Difference, Verdict, p_of
from app.mechanics.difference import BOTH_ALONE, ONE_GROUP
from app.mechanics.permutation import pair_p
from app.mechanics.result import Result
from app.mechanics.shared_scatter import PROBABILITY

BREAK_FORCE, TENACITY = "break_force_N", "tenacity_cN_per_tex"
WHAT = {
    BREAK_FORCE: "breaking force",
    "break_force_per_strand_N": "breaking force for each strip",
    TENACITY: "strength for the mass of a metre",
    "stiffness_N_per_mm": "stiffness",
    "extension_at_common_force_mm": "stretch under the same load",
}
"""What a quantity is called beside two designs."""
FOR_EACH_GRAM = "strength for each gram in a metre"
READ_OFF = (BREAK_FORCE, "break_force_per_strand_N", TENACITY)
"""Quantities of which each cord shows a bracket: what it held, and what it broke on."""
MORE = {
    BREAK_FORCE: "held more than",
    "break_force_per_strand_N": "held more for each strip than",
    TENACITY: "held more for its mass than",
    "stiffness_N_per_mm": "was stiffer than",
    "extension_at_common_force_mm": "stretched more under the same load than",
}
"""What the greater design did, by quantity; of any other it is said that it had more."""
HAD_MORE = "had more than"

LEANING = " How far cords of one design differ is taken from the other designs too."
EVERY = "Every {one} {more} every {other}. With so few, luck does that 1 time in {chance}{pairs}."
OVERLAP = "From lowest to highest, the cords of {one} and {other} overlap in {what}. More cords would be needed."
MIXED = "Not every {one} {more} every {other}. More cords would be needed."
TOO_CLOSE = "{one} and {other} lie too close together in {what} for how sure each figure is."
INSIDE = "The difference in {what} between {one} and {other} lies inside its uncertainty: {ratio}{luck}. {smallest}"
SMALLEST = "The smallest ratio that this class could have shown is {}."
NONE_BROKEN = "{one} and {other}, {what}: {other} wasn't broken, so {other} may be the stronger."
SOME_BROKEN = "{one} and {other}, {what}: not every {other} was broken, so {other} may be the stronger."
OF_ONE_GROUP = "{one} and {other}, {what}: {why}"
COUNTS_AS_DIFFERENT = f"under {1 - PROBABILITY:.2f} counts as different"

Names = Mapping[str, str]


def verdict_words(difference: Difference, depth: str, *, names: Names) -> str:
    """The sentences about two designs at a depth; `names` are those of designs by letter, else the letter is said."""
    named = {side: names.get(letter, letter) for side, letter in _letters(difference).items()}
    return _BY_VERDICT[difference.verdict](difference, depth, named)


def what_of(quantity: str, depth: str) -> str:
    """What a quantity is called beside two designs; at the first depth it is told by the unit that stands there."""
    return FOR_EACH_GRAM if quantity == TENACITY and depth == "first" else WHAT.get(quantity, quantity)


def ratio_text(ratio: float) -> str:
    """A ratio with two decimals, with three where two would hide on which side of 1 it lies."""
    return shown(ratio, 2 if abs(ratio - 1) >= 0.01 else 3)


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
        return f"{head}, by more than its uncertainty: {_ratio(difference.ratio)}.{leaning}"
    return f"{head}: {_ratio(difference.ratio)}; {_luck(difference)}.{leaning}"


def _hint(difference: Difference, depth: str, named: Names) -> str:
    said = EVERY.format(
        **named,
        more=_more(difference),
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
        return _not_apart(difference, depth, named)
    if difference.smallest_ratio is None:
        return f"{_not_apart(difference, depth, named)} {_smallest(difference)}"
    luck = f"; {_luck(difference)}" if depth == "third" else ""
    what = what_of(difference.quantity, depth)
    return INSIDE.format(**named, what=what, ratio=_ratio(difference.ratio), luck=luck, smallest=_smallest(difference))


def _not_apart(difference: Difference, depth: str, named: Names) -> str:
    """What keeps two designs from being told apart: brackets, figures that mix, or how sure each figure is."""
    mixed = not difference.unbroken_one and min(difference.ln_one) <= max(difference.ln_other)
    said = OVERLAP if difference.overlap and difference.quantity in READ_OFF else MIXED if mixed else TOO_CLOSE
    return said.format(**named, what=what_of(difference.quantity, depth), more=_more(difference))


def _one_group(difference: Difference, depth: str, named: Names) -> str:
    alone = [named[side] for side, values in _values(difference).items() if len(values) < 2]
    why = (BOTH_ALONE if len(alone) == 2 else ONE_GROUP).format(*alone)
    return OF_ONE_GROUP.format(**named, what=what_of(difference.quantity, depth), why=why[0].lower() + why[1:])


def _values(difference: Difference) -> Mapping[str, tuple[float, ...]]:
    return {"one": difference.ln_one, "other": difference.ln_other}


def _weaker_unbroken(difference: Difference, depth: str, named: Names) -> str:
    whole = difference.unbroken_other == len(difference.ln_other)
    said = (NONE_BROKEN if whole else SOME_BROKEN).format(**named, what=what_of(difference.quantity, depth))
    if depth != "third":
        return said
    value = difference.ratio.value
    known = "no ratio is known" if value is None else f"ratio at most {ratio_text(value)}, without an interval"
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


def _ratio(ratio: Result) -> str:
    if ratio.value is None or ratio.low is None:
        return str(ratio.why or ratio.note)
    if ratio.high is None:
        return f"ratio at least {ratio_text(ratio.low)}"
    return f"ratio {ratio_text(ratio.value)}, from {ratio_text(ratio.low)} to {ratio_text(ratio.high)}"


def _smallest(difference: Difference) -> str:
    if difference.smallest_ratio is None:
        return str(difference.smallest_why)
    return SMALLEST.format(ratio_text(difference.smallest_ratio))


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
