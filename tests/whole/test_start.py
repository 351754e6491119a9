"""`sh deploy/start.sh` as a teacher meets it: the lines, the second start, the end, and what is refused.

Each test runs on a copy of the code whose `.venv` points into the environment that runs the tests: what installing does
is tested in test_environment.py.
"""

import os
import re
import shutil
import signal
import sqlite3
import subprocess
import urllib.error
import urllib.request
from contextlib import closing
from pathlib import Path

import pytest

from tests.starting import copy_code, environment, free_port, lend_environment, started


@pytest.fixture(scope="module")
def tree(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the code with an environment that fits; its first start fills `.data`."""
    folder = copy_code(tmp_path_factory.mktemp("start") / "rope walk 100%")
    lend_environment(folder)
    return folder


@pytest.fixture
def port() -> int:
    return free_port()


def ctrl_c(process: subprocess.Popen[str]) -> int:
    """What the terminal does: everyone in the group is asked to end."""
    os.killpg(process.pid, signal.SIGINT)
    return process.wait(timeout=15)


def status_of(address: str) -> int:
    try:
        with urllib.request.urlopen(address, timeout=10) as answer:
            return int(answer.status)
    except urllib.error.HTTPError as answer:
        return answer.code


def refused(tree: Path, *options: str, **given: str) -> str:
    """The one sentence with which start.sh refused."""
    told = subprocess.run(
        ["sh", tree / "deploy" / "start.sh", *options],
        env=environment(tree, **given),
        capture_output=True,
        check=False,
        text=True,
        timeout=60,
    )
    assert told.returncode == 2, told.stderr
    assert told.stderr.count("\n") == 1, told.stderr
    return told.stderr


def test_the_first_and_the_second_start(tree: Path, port: int) -> None:
    """Source of the lines: contract.md 1."""
    address = f"http://127.0.0.1:{port}"
    with started(tree, port) as (process, first):
        assert status_of(f"{address}/healthz") == 200
        assert status_of(f"{address}/readyz") == 200
        assert status_of(first[-1].split(": ")[1]) == 200
        assert "in use" in refused(tree, "--port", str(port))
        assert ctrl_c(process) == 0
    lines = [line for line in first if not line.endswith("...")]
    assert [line.split(": ")[0] for line in lines if not line.startswith("Tablets: ")] == [
        "Address",
        "Lesson key",
        "First sign-in",
    ]
    assert lines[0] == f"Address: {address}"
    assert re.fullmatch(r"Lesson key: [A-HJKMNP-Z2-9]{6}", lines[-2])
    assert re.fullmatch(rf"First sign-in: {address}/first/[\w-]+", lines[-1])

    with closing(sqlite3.connect(tree / ".data" / "ropewalk.sqlite")) as file, file:
        lessons = file.execute("SELECT id, head FROM lesson ORDER BY id").fetchall()
    assert len(lessons) == 3

    with started(tree, port) as (process, second):
        assert second[:-1] == lines[:-1]
        os.kill(process.pid, signal.SIGTERM)
        assert process.wait(timeout=15) == 0
    with closing(sqlite3.connect(tree / ".data" / "ropewalk.sqlite")) as file, file:
        assert file.execute("SELECT id, head FROM lesson ORDER BY id").fetchall() == lessons
    assert sorted(path.name for path in (tree / ".data").iterdir()) == [
        "ropewalk.sqlite",
        "ropewalk.sqlite.turn",
        "secret_key",
    ]
    assert (tree / ".data" / "ropewalk.sqlite").stat().st_mode & 0o077 == 0


def test_a_first_start_that_was_cut_short_is_made_whole_by_the_next(tree: Path, port: int, tmp_path: Path) -> None:
    copy = tmp_path / "cut"
    shutil.copytree(tree, copy, symlinks=True, ignore=shutil.ignore_patterns(".data"))
    with subprocess.Popen(
        ["sh", copy / "deploy" / "start.sh", "--port", str(port)],
        env=environment(copy),
        stdout=subprocess.PIPE,
        text=True,
    ) as process:
        assert process.stdout is not None
        assert any(line.startswith("Loading the demo lessons") for line in process.stdout)
        process.kill()
    assert not (copy / ".data" / "ropewalk.sqlite").exists()
    with started(copy, port) as (process, lines):
        assert any(line.startswith("Lesson key: ") for line in lines)
        assert ctrl_c(process) == 0
    assert not list((copy / ".data").glob("first.sqlite*"))


def test_a_database_from_a_newer_version_is_refused(tree: Path, port: int, tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    with closing(sqlite3.connect(tmp_path / "data" / "ropewalk.sqlite")) as file, file:
        file.execute("CREATE TABLE alembic_version (version_num VARCHAR(32))")
        file.execute("INSERT INTO alembic_version VALUES ('9999')")
    assert "newer version" in refused(tree, "--port", str(port), ROPEWALK_DATA=str(tmp_path / "data"))


def test_a_data_folder_that_can_t_be_made_is_refused(tree: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    assert "can't be made" in refused(tree, ROPEWALK_DATA=str(tmp_path / "file" / "data"))


def test_a_bad_setting_is_refused(tree: Path) -> None:
    assert "ROPEWALK_SECRET_KEY" in refused(tree, ROPEWALK_SECRET_KEY="short")
    assert "--port" in refused(tree, "--port", "eighty")
