"""Runs `ropewalk` in this process, with a data folder of the test's own."""

import sys
from pathlib import Path

import pytest

from app import commands
from tests.commands.told import Run, Told


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> Run:
    """Runs `ropewalk` with these arguments in this process, with a data folder of the test's own."""
    for variable in ("ROPEWALK_DATABASE_URL", "ROPEWALK_SECRET_KEY", "ROPEWALK_HOST", "ROPEWALK_PORT"):
        monkeypatch.setenv(variable, "")

    def call(*arguments: str) -> Told:
        monkeypatch.setenv("ROPEWALK_DATA", str(tmp_path / "data"))
        monkeypatch.setattr(sys, "argv", ["ropewalk", *arguments])
        with pytest.raises(SystemExit) as ended:
            commands.main()
        shown = capsys.readouterr()
        assert "Traceback" not in shown.err
        return Told(int(ended.value.code or 0), shown.out, shown.err)

    return call


@pytest.fixture
def migrated(run: Run) -> Run:
    """The same, on a database that is ready."""
    assert run("migrate").status == 0
    return run
