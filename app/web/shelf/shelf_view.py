"""What the shelf shows, gathered before anything is printed: the yardstick cords of all lessons lie on one axis."""

from collections.abc import Sequence
from dataclasses import dataclass

from app.figures.break_signs import BreakSigns, Broke, break_signs, shared_axis
from app.services.shelf import Listed


@dataclass(frozen=True, kw_only=True)
class Past:
    """One past lesson; `signs` is None when no yardstick cord of it ended."""

    listed: Listed
    yardstick: str
    signs: BreakSigns | None


def shelf_view(found: Sequence[Listed], words: str) -> list[Past]:
    """The lessons that say these words, all of them when there are none."""
    chosen = [one for one in found if one.says(words)]
    broke = [_broke(one) for one in chosen]
    axis = shared_axis(cord for cords in broke for cord in cords)
    return [
        Past(listed=one, yardstick=_letter(one), signs=break_signs(cords, axis) if cords else None)
        for one, cords in zip(chosen, broke, strict=True)
    ]


def _broke(one: Listed) -> list[Broke]:
    """The yardstick cords of which it is known what they held."""
    return [
        Broke(name=cord.bench, held_n=cord.break_bracket.low_n, broke_n=cord.break_bracket.high_n)
        for cord in one.yardstick
        if cord.break_bracket.low_n is not None
    ]


def _letter(one: Listed) -> str:
    return next((design.letter for design in one.lesson.designs if design.is_yardstick), "")
