"""The answer to "How was this worked out?" for one figure."""

from collections.abc import Sequence
from dataclasses import dataclass

from app.domain.vocabulary import DEPTHS
from app.mechanics.result import Result
from app.services.figure_words import sentence

OF_CALCULATOR = 6
"""Figures of a number from which a calculator gives what is printed behind it."""


@dataclass(frozen=True, kw_only=True)
class Working:
    """One figure with its formula, this cord's numbers in it, what it rests on, and what would make it better.

    `code` is its name in the JSON; `source` a key of the list of sources, or empty with `own` saying what our own
    definition is; `notes` must stand beside the figure.
    """

    code: str
    name: str
    said: str
    formula: str
    numbers: str
    source: str
    own: str
    better: str
    notes: tuple[str, ...]


def reaches(depth: str, least: str) -> bool:
    """Whether a depth shows what a lesson of at least that depth shows."""
    order = tuple(DEPTHS)
    return order.index(depth) >= order.index(least)


def notes_of(*said: str | None) -> tuple[str, ...]:
    """The sentences that there are, each once."""
    return tuple(dict.fromkeys(sentence(one) for one in said if one))


def listed(parts: Sequence[str]) -> str:
    """Parts of a sum told one after the other."""
    return "; ".join(parts)


def is_figure(one: Working) -> bool:
    """Whether a figure is said: what says why there is none is a sentence, with its full stop."""
    return not one.said.endswith((".", "?"))


def beside(found: Result) -> tuple[str, ...]:
    """What must stand beside a figure; why there is none only where an end is told."""
    told = found.low is not None or found.high is not None
    return notes_of(found.note, found.why if told else None)
