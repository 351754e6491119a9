"""Which figure of the page by designs was asked about: its working, by the key that the figure's link carries."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from app.domain.records import LessonRecord
from app.services.picture import Seen
from app.services.working import Working
from app.services.workings import cord_workings, design_workings, difference_working
from app.services.workings_common_load import AT_COMMON_LOAD, common_stretch

SHARES = "shares_kept"
"""The code of figures that stand in a list of their own."""


@dataclass(frozen=True, kw_only=True)
class Asked:
    """The figure that was asked about, and whose it is where its name does not say so."""

    key: str
    whose: str
    working: Working


def names_of(lesson: LessonRecord) -> dict[str, str]:
    """Each design by letter and name, as sentences say it."""
    return {design.letter: f"{design.letter} ({design.name})" for design in lesson.designs}


def workings_of_design(found: Seen, sums: Any, name: str) -> tuple[Working, ...]:
    """Everything worked out of one design, what it kept of its strips and its stretch at the common load too."""
    whole = found.picture.sums
    comparison = next(one for one in whole.comparisons if one.quantity == AT_COMMON_LOAD)
    stretch = common_stretch(comparison, sums, whole.common_force_n, name=name, depth=found.lesson.depth)
    told = design_workings(sums, found.lesson.depth, name=name, kept=whole.kept)
    return (*told, *([stretch] if stretch else []))


def asked_working(found: Seen, key: str) -> Asked | None:
    """The working that a link asks for; None when the key names nothing that is there now."""
    kind, _, rest = key.partition("/")
    find = _BY_KIND.get(kind)
    return find(found, key, rest.split("/")) if find else None


def _of_cord(found: Seen, key: str, parts: list[str]) -> Asked | None:
    sums = found.picture.sums.cord(parts[0])
    if sums is None:
        return None
    return _asked(key, parts[0], cord_workings(sums, found.lesson.depth), parts[1:])


def _of_design(found: Seen, key: str, parts: list[str]) -> Asked | None:
    sums = found.picture.sums.design(parts[0])
    if sums is None:
        return None
    return _asked(key, "", workings_of_design(found, sums, names_of(found.lesson)[parts[0]]), parts[1:])


def _of_pair(found: Seen, key: str, parts: list[str]) -> Asked | None:
    differences = (one for comparison in found.picture.sums.comparisons for one in comparison.differences)
    pair = next((one for one in differences if [one.quantity, one.one, one.other] == parts), None)
    if pair is None:
        return None
    working = difference_working(pair, found.lesson.depth, names=names_of(found.lesson))
    return Asked(key=key, whose="", working=working)


def _asked(key: str, whose: str, told: Iterable[Working], code: list[str]) -> Asked | None:
    working = next((one for one in told if [one.code] == code), None)
    return Asked(key=key, whose=whose, working=working) if working else None


_BY_KIND: Mapping[str, Callable[[Seen, str, list[str]], Asked | None]] = {
    "cord": _of_cord,
    "design": _of_design,
    "pair": _of_pair,
}
