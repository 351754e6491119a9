"""Designs beside the yardstick cord: the thing that differs, named."""

from dataclasses import replace

import pytest

from app.domain.records import DesignRecord
from app.domain.star import cut_words, design_name, differ_words, moved, strips_words, yardstick_of

A = DesignRecord(
    id="a",
    letter="A",
    name="",
    is_yardstick=True,
    strands=3,
    lay_up="plait_flat",
    direction="along",
    free_length_mm=300,
)


@pytest.mark.parametrize(
    ("strands", "lay_up", "words"),
    [(3, "plait_flat", "3 plaited"), (4, "plait_flat", "4 flat plait"), (2, "twist", "2 twisted"),
     (1, "strip", "one strip"), (2, "strip", "2 strips"), (None, "bundle", "bundle"), (5, None, "5"), (None, None, "")],
)  # fmt: skip
def test_strips_in_words(strands: int | None, lay_up: str | None, words: str) -> None:
    assert strips_words(replace(A, strands=strands, lay_up=lay_up)) == words


@pytest.mark.parametrize(
    ("change", "things"),
    [
        ({}, ()),
        ({"strands": 2, "lay_up": "twist"}, ("strips",)),
        ({"direction": "across"}, ("cut",)),
        ({"strands": 4, "direction": "bias"}, ("strips", "cut")),
        ({"level": 12.0}, ("level",)),
        ({"level_words": "wet"}, ("level",)),
        ({"free_length_mm": 150.0, "level": 150.0}, ("free length",)),
        ({"free_length_mm": 150.0, "level": 7.0}, ("free length", "level")),
    ],
)
def test_the_things_that_differ(change: dict[str, object], things: tuple[str, ...]) -> None:
    assert moved(replace(A, **change), A) == things  # type: ignore[arg-type]


def test_names_and_words() -> None:
    assert design_name(A) == "3 plaited, along"
    assert design_name(replace(A, level=12.5), "mm") == "3 plaited, along, 12.5 mm"
    assert cut_words(replace(A, direction="bias")) == "45°"
    assert differ_words(("strips", "cut")) == "two things differ: strips and cut"
    assert differ_words(("cut",)) == ""
    assert len(design_name(replace(A, level_words="w" * 60))) == 60


def test_without_a_mark_the_first_is_the_yardstick() -> None:
    plain = replace(A, is_yardstick=False)
    assert yardstick_of([plain, replace(plain, letter="B")]) == plain
    assert yardstick_of([]) is None
