"""The report's part about the class: its designs, what may be said of them, and how well their cords agree."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from app.mechanics.class_sums import BREAK, ClassSums, DesignSums
from app.mechanics.comparison import Comparison
from app.services.design_table import alike, told_in_order
from app.services.figure_words import newtons
from app.services.report_cells import force_cell, measured_cell
from app.services.report_layout import NESTED, heading, pairs, paragraph, table, with_stop
from app.services.telling_class import NO_REPEATS
from app.services.verdict_words import verdict_words
from app.services.working import Working, reaches
from app.services.workings import agreement_workings, design_workings
from app.services.workings_common_load import AT_COMMON_LOAD, common_stretch
from app.services.workings_pair import QUANTITIES
from app.services.workings_trend import trend_workings

IN_TABLE = ("unbroken", "median_break_N")
NO_DESIGN = "No cord that counts names a design, so there is nothing to compare."
ONE_DESIGN = "Only one design has results, so there is nothing to compare."
NO_PAIR = "No two designs have a breaking force to compare yet."
GROUPS = "The group is the unit: two cords by one group are not two independent tries."
NAMED = "Beyond a line: {}. Look again at how these made or tested theirs."
ALONE = "Not compared, because only one group has a result: {}."
NOT_OVER_NIL = "Passed over, because the figure is not more than nothing: {}."


def designs_told(sums: ClassSums, depth: str) -> Iterator[str]:
    """The designs in a table, then what each of them rests on."""
    yield from heading("Designs")
    if not sums.designs:
        yield from paragraph(NO_DESIGN)
        return
    yield from _table(sums.designs, depth)
    for design in sums.designs:
        yield ""
        yield from pairs(_pair(one) for one in _of_design(sums, design, depth))
    yield from _trend(sums, depth)


def _table(designs: Sequence[DesignSums], depth: str) -> list[str]:
    deeper = reaches(depth, "second")
    middle = "Median bracket, N" if deeper else "Middle of the groups, N"
    head = ("Design", "Cords", "Groups", "Not broken", middle, *(["Typical, N"] if deeper else []))
    rows = [
        (
            each.letter,
            str(len(each.cords)),
            str(len(each.groups)),
            str(each.unbroken),
            force_cell(each.breaking.median),
            *([measured_cell(each.breaking.typical_break_force_n)] if deeper else []),
        )
        for each in designs
    ]
    return table(head, rows, words=("Design",))


def _of_design(sums: ClassSums, design: DesignSums, depth: str) -> Iterator[Working]:
    """What the table does not hold of a design, and what plaiting and knots cost it."""
    told = design_workings(design, depth, name=design.letter, kept=sums.kept)
    at_common = next(one for one in sums.comparisons if one.quantity == AT_COMMON_LOAD)
    stretch = common_stretch(at_common, design, sums.common_force_n, name=design.letter, depth=depth)
    yield from (one for one in (*told, *([stretch] if stretch else [])) if one.code not in IN_TABLE)


def _pair(one: Working) -> tuple[str, str]:
    return one.name, " ".join([with_stop(one.said), *one.notes]) if one.notes else one.said


def _trend(sums: ClassSums, depth: str) -> Iterator[str]:
    """What one more of the changed variable does, where its levels are numbers."""
    told = [] if all(one.cord.level is None for one in sums.cords) else trend_workings(sums.trend, depth)
    yield from ["", *pairs(_pair(one) for one in told)] if told else []


def differences_told(sums: ClassSums, depth: str) -> Iterator[str]:
    """What may be said of each pair of designs: of the breaking force, from the second depth on of each quantity."""
    if not sums.designs:
        return
    yield from heading("What may be said")
    if len(sums.designs) < 2:
        yield from paragraph(ONE_DESIGN)
        return
    told = [one for one in sums.comparisons if one.differences and (reaches(depth, "second") or one.quantity == BREAK)]
    yield from paragraph(GROUPS if told else NO_PAIR)
    for comparison in told:
        yield from _quantity(comparison, sums.common_force_n, depth)


def _quantity(comparison: Comparison, common_n: float | None, depth: str) -> Iterator[str]:
    yield ""
    yield from paragraph(f"{_name(comparison.quantity, common_n)}:")
    told = [found for found in told_in_order(comparison) if found.verdict != "one_group"]
    yield from pairs(
        ((f"{found.one} and {found.other}", verdict_words(found, depth, names={})) for found in told), indent=NESTED
    )
    alone = [design.design for design in comparison.designs if len(design.groups) < 2]
    besides = (
        ALONE.format(", ".join(alone)) if alone else "",
        alike(comparison) if depth == "third" else "",
        NOT_OVER_NIL.format(", ".join(comparison.passed_over)) if comparison.passed_over else "",
    )
    for said in besides:
        yield from paragraph(said, indent=NESTED) if said else []


def _name(quantity: str, common_n: float | None) -> str:
    words, _ = QUANTITIES[quantity]
    at = f" ({newtons(common_n)})" if quantity == AT_COMMON_LOAD and common_n is not None else ""
    return words[0].upper() + words[1:] + at


def agreement_told(designs: Sequence[DesignSums], depth: str) -> Iterator[str]:
    """At the third depth, how well cords of one design agree within a group and between groups."""
    if not designs or not reaches(depth, "third"):
        return
    yield from heading("How well cords of one design agree")
    repeated = [each for each in designs if each.agreement.groups]
    if not repeated:
        yield from paragraph(NO_REPEATS)
    for each in repeated:
        yield ""
        yield from paragraph(f"{each.letter}:")
        yield from pairs((_agreed(one) for one in agreement_workings(each, depth)), indent=NESTED)
        if each.agreement.named:
            yield from paragraph(NAMED.format(", ".join(each.agreement.named)), indent=NESTED)


def _agreed(one: Working) -> tuple[str, str]:
    """Of h and k the lines too that equal groups seldom pass."""
    return _pair(replace(one, said=f"{one.said} ({one.numbers})") if one.code == "groups" else one)
