import pytest

from app.figures.look import DASHES, MARKERS, THEMES, design_key, design_look

SHEETS = {"light": 3.0, "dark": 3.0, "projector": 5.0}
"""Least contrast of a line on its sheet: WCAG 2.2, 1.4.11 for graphs; 5 for a projector in a lit room is our own."""


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("name", SHEETS)
def test_every_line_and_every_letter_on_its_tag_can_be_seen(name: str) -> None:
    theme = THEMES[name]
    assert min(contrast(line, theme.sheet) for line in theme.lines) >= SHEETS[name]
    assert min(contrast(theme.tag_letter, tag) for tag in theme.tags) >= 4.5


def test_no_two_of_the_six_share_a_marker_a_dash_or_a_colour() -> None:
    assert len(set(MARKERS)) == len(set(DASHES)) == 6
    assert all(len(set(theme.lines)) == 6 for theme in THEMES.values())


def test_markers_that_make_a_known_set_never_stand_together() -> None:
    assert not {"circle", "square", "triangle-up", "diamond"} <= set(MARKERS)


def test_after_f_the_six_come_round_again() -> None:
    key = design_key("AGBH", THEMES["light"])
    assert (key["G"].line, key["G"].marker, key["G"].dash) == (key["A"].line, key["A"].marker, key["A"].dash)
    assert key["G"].letter == "G"
    assert key["H"].line == key["B"].line


def test_a_dash_is_told_to_plotly_in_px() -> None:
    assert design_look("A", THEMES["light"]).dash_text(1) == "solid"
    assert design_look("C", THEMES["light"]).dash_text(1) == "16px,5px,3px,5px"
    assert design_look("C", THEMES["light"]).dash_text(1.5, lifted=True) == "42px,13.5px,7.5px,13.5px"
