"""Cords whose workings are asked for, and what is true of every working."""

from dataclasses import replace
from functools import lru_cache
from typing import Any

from app.domain.sources import SOURCES
from app.mechanics.classwork import class_picture
from app.mechanics.cord_sums import CordSums, cord_sums
from app.services.workings import Working, cord_workings
from tests.mechanics.demo_class import demo_class
from tests.mechanics.told import a_cord, rows_of

KEYS = {source.key for source in SOURCES}


@lru_cache
def demo(specimen: str) -> CordSums:
    found = class_picture(demo_class()).sums.cord(specimen)
    assert found is not None
    return found


def sums_of(pointers: str, *more: Any, **facts: Any) -> CordSums:
    return cord_sums(a_cord(*rows_of(pointers), *more, **facts))


def working(sums: CordSums, code: str, depth: str = "third") -> Working:
    """That working, with ordinary spaces so that a test can be read."""
    one = next(one for one in cord_workings(sums, depth) if one.code == code)
    words = {name: getattr(one, name).replace("\u00a0", " ") for name in ("said", "numbers", "better")}
    return replace(one, **words, notes=tuple(note.replace("\u00a0", " ") for note in one.notes))


def holds(made: tuple[Working, ...], *, but: tuple[str, ...] = ()) -> None:
    """What is true of every working; of those of the codes `but`, nothing may be left to better."""
    assert len({one.code for one in made}) == len(made)
    for one in made:
        assert one.name, one
        assert one.said, one
        assert one.formula, one
        assert one.better or one.code in but, one
        assert bool(one.source) != bool(one.own), one
        assert not one.source or one.source in KEYS, one.source
        assert all(note.endswith((".", "?")) for note in one.notes), one.notes
        assert one.said not in one.notes, one
