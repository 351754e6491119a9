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
