"""The environment that both commands make: found fitting, made, mended, or refused with one sentence.

The shell functions run in a folder of the test's own, with stand-ins on the path for uv, python3 and apt-get.
"""

import hashlib
import os
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
TOOLS = "sh cat ln chmod cut dirname basename readlink mkdir rm sha256sum mktemp tail".split()  # noqa: SIM905
LOCK = "requirements.lock"
MADE = 'mkdir -p .venv/bin; ln -sf "{python}" .venv/bin/python'
UV = f'echo "$@" >> calls; case $1 in venv) {MADE} ;; esac'


@dataclass
class Place:
    """A folder with the scripts and a lock, and the only programs that they can call."""

    folder: Path

    @property
    def bin(self) -> Path:
        return self.folder / "bin"

    def program(self, name: str, words: str) -> None:
        """A stand-in on the path."""
        path = self.bin / name
        path.write_text("#!/bin/sh\n" + words.format(python=sys.executable) + "\n")
        path.chmod(0o755)

    def run(self, words: str, **environ: str) -> subprocess.CompletedProcess[str]:
        """What these words come to after both files of functions were read."""
        read = ". deploy/environment.sh; . deploy/machine.sh; "
        return subprocess.run(
            ["sh", "-euc", read + words],
            cwd=self.folder,
            env={"PATH": str(self.bin), "HOME": str(self.folder), **environ},
            capture_output=True,
            check=False,
            text=True,
        )

    def make(self) -> subprocess.CompletedProcess[str]:
        return self.run(f"make_environment {LOCK}")

    def calls(self) -> list[str]:
        """What uv was asked for since the last look: its first words."""
        path = self.folder / "calls"
        told = path.read_text().splitlines() if path.exists() else []
        path.unlink(missing_ok=True)
        return [line.split()[0] for line in told]


@pytest.fixture
def place(tmp_path: Path) -> Place:
    found = Place(tmp_path)
    found.bin.mkdir()
    for tool in TOOLS:
        (found.bin / tool).symlink_to(str(shutil.which(tool)))
    shutil.copytree(ROOT / "deploy", tmp_path / "deploy")
    (tmp_path / LOCK).write_text("some==1\n")
    found.program("python3", 'exec "{python}" "$@"')
    return found


def refused(told: subprocess.CompletedProcess[str], part: str) -> None:
    assert told.returncode == 2
    assert part in told.stderr
    assert told.stderr.count("\n") == 1, told.stderr


def test_what_is_made_once_is_found_fitting(place: Place) -> None:
    place.program("uv", UV)
    told = place.make()
    assert (told.returncode, told.stderr) == (0, "")
    assert "Making the environment" in told.stdout
    assert "Installing" in told.stdout
    assert place.calls() == ["venv", "pip"]
    stamp = (place.folder / ".venv" / f"{LOCK}.sha256").read_text().strip()
    assert stamp == hashlib.sha256(b"some==1\n").hexdigest()
    assert not (place.folder / ".venv" / "unfinished").exists()

    again = place.make()
    assert (again.returncode, again.stdout, again.stderr) == (0, "", "")
    assert place.calls() == []


def test_another_lock_is_installed_into_the_same_environment(place: Place) -> None:
    place.program("uv", UV)
    place.make()
    place.calls()
    (place.folder / LOCK).write_text("some==2\n")
    assert place.make().returncode == 0
    assert place.calls() == ["pip"]


@pytest.mark.parametrize("cut", ["unfinished", "broken python"])
def test_what_was_cut_short_is_made_afresh(place: Place, cut: str) -> None:
    place.program("uv", UV)
    place.make()
    place.calls()
    left = place.folder / ".venv" / "left over"
    left.write_text("")
    if cut == "unfinished":
        (place.folder / ".venv" / "unfinished").write_text("")
    else:
        (place.folder / ".venv" / "bin" / "python").unlink()
    told = place.make()
    assert "made afresh" in told.stdout
    assert place.calls() == ["venv", "pip"]
    assert not left.exists()


def test_an_install_that_fails_is_a_sentence_and_done_again(place: Place) -> None:
    place.program("uv", UV + '; [ "$1" != pip ] || exit 1')
    refused(place.make(), "could not be installed")
    place.program("uv", UV)
    place.calls()
    assert place.make().returncode == 0
    assert place.calls() == ["venv", "pip"]


def test_without_uv_the_environment_s_own_pip_installs(place: Place) -> None:
    place.program("pip-stand-in", 'case "$*" in *"-m pip"*) echo "$@" >> calls ;; *) exec "{python}" "$@" ;; esac')
    make = 'case "$*" in "-m venv .venv") mkdir -p .venv/bin; ln -s ../../bin/pip-stand-in .venv/bin/python ;; *) '
    place.program("python3", make + 'exec "{python}" "$@" ;; esac')
    told = place.make()
    assert (told.returncode, told.stderr) == (0, "")
    assert "--require-hashes -r requirements.lock" in (place.folder / "calls").read_text()


def test_an_old_python_is_a_sentence(place: Place) -> None:
    place.program("python3", "exit 1")
    refused(place.make(), "Python 3.11 or newer")
    assert not (place.folder / ".venv").exists()


def test_a_newer_python_beside_an_old_one_is_found(place: Place) -> None:
    place.program("python3", "exit 1")
    place.program("python3.12", 'exec "{python}" "$@"')
    place.program("uv", UV + '; [ "$1" != venv ] || echo "$@" > made')
    assert place.make().returncode == 0
    assert "python3.12" in (place.folder / "made").read_text()


def test_a_python_without_venv_is_a_sentence(place: Place) -> None:
    place.program("python3", 'case "$*" in *ensurepip*) exit 1 ;; *) exec "{python}" "$@" ;; esac')
    refused(place.make(), "python3-venv")


def test_the_command_finds_its_own_folder_through_a_link(place: Place) -> None:
    place.program("uv", UV)
    place.make()
    (place.folder / "app").mkdir()
    (place.folder / "app" / "__main__.py").write_text("import sys; print('here', sys.argv[1:])")
    (place.folder / "elsewhere").mkdir()
    link = place.folder / "elsewhere" / "rw"
    link.symlink_to(place.folder / ".venv" / "bin" / "ropewalk")
    told = subprocess.run([link, "a b"], cwd="/", capture_output=True, check=True, text=True)
    assert told.stdout == "here ['a b']\n"


def find(place: Place, what: str, **environ: str) -> subprocess.CompletedProcess[str]:
    return place.run(f'find_{what}; echo "$ROPEWALK_CHROMIUM"', ROPEWALK_CHROMIUM="", **environ)


def test_a_chromium_on_the_path_is_found(place: Place) -> None:
    place.program("chromium-browser", "")
    assert find(place, "chromium").stdout.strip() == str(place.bin / "chromium-browser")


def test_root_on_debian_gets_a_chromium_installed(place: Place) -> None:
    place.program("id", "echo 0")
    place.program(
        "apt-get",
        f'case "$*" in *"install --no-install-recommends chromium") cp {place.bin}/id {place.bin}/chromium; esac',
    )
    (place.bin / "cp").symlink_to(str(shutil.which("cp")))
    told = find(place, "chromium")
    assert told.stdout.splitlines() == ["Installing the system's package chromium ...", str(place.bin / "chromium")]


def test_without_root_a_missing_chromium_is_a_sentence(place: Place) -> None:
    place.program("id", "echo 1000")
    place.program("apt-get", "exit 1")
    refused(find(place, "chromium"), "install the package chromium")


def test_a_chromium_that_is_named_but_not_there_is_a_sentence(place: Place) -> None:
    refused(place.run("find_chromium", ROPEWALK_CHROMIUM="/no/chromium"), "/no/chromium")


def test_a_missing_postgresql_is_a_sentence(place: Place) -> None:
    place.program("id", "echo 1000")
    refused(place.run("find_postgres", ROPEWALK_POSTGRES_BIN="/no/postgresql"), "install the package postgresql")


def test_a_postgresql_that_is_named_is_taken(place: Place) -> None:
    for name in ("initdb", "pg_ctl", "postgres"):
        place.program(name, "")
    told = place.run('find_postgres; echo "$ROPEWALK_POSTGRES_BIN"', ROPEWALK_POSTGRES_BIN=str(place.bin))
    assert told.stdout.strip() == str(place.bin)


def test_the_throw_away_cluster_is_there_for_the_command_and_gone_afterwards(tmp_path: Path) -> None:
    """Real PostgreSQL: the command sees its address, its status is passed on, and nothing is left."""
    code = (
        "import os, sys; from sqlalchemy import create_engine, text; url = os.environ['ROPEWALK_TEST_POSTGRES']; "
        "engine = create_engine(url); print(url.partition('host=')[2], end=''); "
        "sys.exit(int(engine.connect().execute(text('SELECT 7')).scalar()))"
    )
    told = subprocess.run(
        ["sh", ROOT / "deploy" / "postgres.sh", sys.executable, "-c", code],
        cwd=tmp_path,
        env=os.environ,
        capture_output=True,
        check=False,
        text=True,
    )
    assert told.returncode == 7, told.stderr
    assert told.stdout.startswith("/tmp/ropewalk-postgres.")
    assert not Path(told.stdout).exists()
