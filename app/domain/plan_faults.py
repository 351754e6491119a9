"""What is wrong with single things of a plan: a text too long, a number that can't be, a code of no list."""

import math
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Any

from app.domain import vocabulary
from app.domain.errors import FieldFault
from app.domain.limits import DIVISION_MM, MEASURE_MOST

_TEXT_MOST: Mapping[str, Mapping[str, int]] = {
    "designs": {"letter": 1, "name": 60, "level_words": 40},
    "rungs": {"name": 40},
    "variables": {"name": 60, "unit": 12, "value_words": 60, "instrument": 60},
    "materials": {"name": 60, "direction_found": 60, "strength_source": 120},
    "benches": {},
}
_LISTS: Mapping[str, Mapping[str, Collection[str]]] = {
    "designs": {
        "lay_up": vocabulary.LAY_UPS,
        "direction": vocabulary.DIRECTIONS,
        "end_fixing": vocabulary.END_FIXINGS,
    },
    "rungs": {"printed_kind": vocabulary.PRINTED_KINDS},
    "variables": {"role": vocabulary.VARIABLE_ROLES},
    "materials": {"form": vocabulary.MATERIAL_FORMS, "seams": vocabulary.SEAMS},
    "benches": {
        "kind": vocabulary.BENCH_KINDS,
        "scale_unit": vocabulary.SCALE_UNITS,
        "scale_way": vocabulary.SCALE_WAYS,
    },
}
_RANGES: Mapping[str, tuple[float, float]] = {"scale_division_mm": DIVISION_MM}
_ANY = (-MEASURE_MOST, MEASURE_MOST)
CANT_BE_KEPT = "There is a sign in it that can't be kept. Type the words again."


def thing_faults(list_name: str, things: Sequence[Any]) -> list[FieldFault]:
    """The first fault of each design, rung, variable, material or bench of a plan, its field the list's."""
    found = (next(_faults(list_name, thing), None) for thing in things)
    return [FieldFault(list_name, words) for words in found if words is not None]


def _faults(list_name: str, thing: Any) -> Iterator[str]:
    for name, value in vars(thing).items():
        words = None if value is None or isinstance(value, bool) else _fault(list_name, name, value)
        if words:
            yield f"{_called(thing)}{name.replace('_', ' ')}: {words}"


def _called(thing: Any) -> str:
    own = getattr(thing, "letter", None) or getattr(thing, "mark", None)
    return f"{own}, " if own and len(str(own)) <= 2 else ""


def _fault(list_name: str, name: str, value: Any) -> str | None:
    if isinstance(value, str):
        return _text_fault(value, _TEXT_MOST[list_name].get(name), _LISTS[list_name].get(name))
    low, high = _RANGES.get(name, _ANY)
    fits = math.isfinite(value) and low <= value <= high
    return None if fits else f"that is outside what can be: {low:g} to {high:g}."


def _text_fault(text: str, most: int | None, closed_list: Collection[str] | None) -> str | None:
    if closed_list is not None and text not in closed_list:
        return "choose one of " + ", ".join(closed_list) + "."
    if most is not None and len(text) > most:
        return f"at most {most} characters."
    return CANT_BE_KEPT if "\x00" in text else None
