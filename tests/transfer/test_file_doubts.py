"""What is doubted of a file that is read all the same."""

import pytest

from app.transfer.reading_options import ReadingOptions
from app.transfer.readings_file import read_readings

HEADER = "specimen,step,phase,turn,mass_g,mass_u_g,pointer_mm,left_out,group"
GOOD = ("A,0,zero,1,87,1,218,,Alder", "A,1,load,1,187,1,222,,Alder")


def doubts(*rows: str, header: str = HEADER) -> tuple[str, ...]:
    return read_readings("\n".join([header, *rows]).encode(), ReadingOptions()).doubts


@pytest.mark.parametrize(
    "row",
    [
        "A,1,load,2,187,1,223,,Alder",
        "A,1,return,1,87,1,219,,Alder",
        "A,1,unload,1,187,1,219,,Alder",
        "A,2,load,1,187,1,223,touched the tray,Alder",
    ],
)
def test_the_same_mass_is_no_doubt_where_nothing_more_was_to_hang(row: str) -> None:
    assert doubts(*GOOD, row) == ()


def test_a_mass_that_does_not_grow_is_named_once_a_cord() -> None:
    rows = ("A,2,load,1,187,1,223,,Alder", "A,3,load,1,150,1,225,,Alder")
    assert doubts(*GOOD, *rows) == ("A: the mass does not grow at step 2 (line 4), where the cord is loaded.",)


@pytest.mark.parametrize(("name", "meant"), [("phases", "phase"), ("Gauge-length_mm", "gauge_length_mm")])
def test_a_column_that_is_nearly_known_is_asked_about(name: str, meant: str) -> None:
    (doubt,) = doubts("87,1,218,A,x", header=f"mass_g,mass_u_g,pointer_mm,specimen,{name}")
    assert doubt == f"The column {name} is not read. Is {meant} meant?"


@pytest.mark.parametrize("name", ["mass_g2", "mood", "phase_2"])
def test_a_column_like_one_that_is_there_is_not(name: str) -> None:
    assert doubts("87,1,218,A,zero,x", header=f"mass_g,mass_u_g,pointer_mm,specimen,phase,{name}") == ()


KG = "All masses are under 10 g: are they in kg? The column mass_g is read in g."


@pytest.mark.parametrize(("heaviest_g", "told"), [("3.3", [KG]), ("9.99", [KG]), ("10", []), ("", [KG])])
def test_masses_that_look_like_kilograms_are_asked_about(heaviest_g: str, told: list[str]) -> None:
    rows = ("A,0,zero,1,0.087,0.001,218,,x", f"A,1,load,1,{heaviest_g},,222,,x")
    assert [one for one in doubts(*rows) if "in kg" in one] == told


def test_no_mass_and_a_mass_of_nothing_are_not_in_kilograms() -> None:
    assert not any("in kg" in one for one in doubts("A,0,zero,1,0,1,218,,x", "B,0,zero,1,,,218,,x"))


WAY = "The pointer readings {} as the load grows: do the scale's numbers grow {}? Then say --scale {}."


@pytest.mark.parametrize(
    ("scale", "readings", "told"),
    [
        ("down", ("222", "218", "222", "215"), (WAY.format("fall", "upward", "up"),)),
        ("up", ("218", "222", "218", "225"), (WAY.format("rise", "downward", "down"),)),
        ("up", ("222", "218", "222", "215"), ()),
        ("down", ("222", "218", "218", "222"), ()),
        ("down", ("218", "218", "222", "218"), (WAY.format("fall", "upward", "up"),)),
        ("down", ("218", "218", "218", "218"), ()),
    ],
)
def test_pointers_that_go_against_the_scale_are_asked_about(
    scale: str, readings: tuple[str, ...], told: tuple[str, ...]
) -> None:
    a, b, c, d = readings
    rows = (
        f"A,0,zero,1,87,1,{a},,x",
        f"A,1,load,1,187,1,{b},,x",
        f"B,0,zero,1,87,1,{c},,y",
        f"B,1,load,1,187,1,{d},,y",
    )
    found = read_readings("\n".join([HEADER, *rows]).encode(), ReadingOptions(scale=scale)).doubts
    assert found == told


def test_a_way_that_the_option_tells_is_no_doubt() -> None:
    """A scale of the file itself, and one reading a cord that is left out, or that carries no other load."""
    rows = ("A,0,zero,1,87,1,222,,x,up", "A,1,load,1,187,1,218,,x,up", "B,0,zero,1,87,1,222,,y,down")
    assert doubts(*rows, "B,1,load,1,187,1,218,nick,y,down", header=HEADER + ",scale") == ()
