"""What a command prints reaches terminals of any encoding, and a reader that goes away is no fault."""

import io
import os
import subprocess
import sys
from pathlib import Path

import pytest

from app.printing import print_text
from app.settings import SettingsRefused

FILE = Path(__file__).parents[1] / "cases" / "report" / "class.csv"
SIGNS = "−1.6 ± 0.5 m/s², 2 × 3 “µm” – ε\n"


@pytest.mark.parametrize(
    ("encoding", "shown"),
    [
        ("utf-8", SIGNS),
        ("latin-1", '-1.6 ± 0.5 m/s², 2 × 3 "µm" - ?\n'),
        ("ascii", '-1.6 +/- 0.5 m/s2, 2 x 3 "um" - ?\n'),
    ],
)
def test_signs_that_a_terminal_lacks_are_replaced(monkeypatch: pytest.MonkeyPatch, encoding: str, shown: str) -> None:
    behind = io.BytesIO()
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(behind, encoding=encoding))
    print_text(SIGNS)
    assert behind.getvalue().decode(encoding) == shown


def test_a_full_disk_is_refused_in_one_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    with Path("/dev/full").open("w", encoding="utf-8") as full:
        monkeypatch.setattr(sys, "stdout", full)
        with pytest.raises(SettingsRefused, match=r"The output can't be written \(No space left on device\)\."):
            print_text("words\n")


def test_an_output_that_is_closed_is_no_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdout", None)
    print_text("words\n")


def test_a_reader_that_went_away_is_no_fault() -> None:
    command = [sys.executable, "-m", "app", "analyse", str(FILE), "--depth", "third"]
    read, write = os.pipe()
    os.close(read)
    told = subprocess.run(command, check=False, stdout=write, stderr=subprocess.PIPE, timeout=60)
    os.close(write)
    assert (told.returncode, told.stderr) == (1, b"")
