"""start.sh run on a copy of the code, for tests and for the table of tests/speed/start.py."""

import hashlib
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
LOCK = "requirements.lock"
PARTS = ("app", "deploy", "migrations", "demo_seed", LOCK)
LAST_LINE = re.compile(r"(First sign-in|Sign in): ")


def copy_code(folder: Path) -> Path:
    """The folder holds what start.sh needs of the code, without an environment."""
    folder.mkdir()
    for part in PARTS:
        if (ROOT / part).is_dir():
            shutil.copytree(ROOT / part, folder / part, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy(ROOT / part, folder / part)
    return folder


def lend_environment(folder: Path) -> None:
    """The copy's `.venv` points into the environment that runs this, with a stamp that fits the lock."""
    venv = folder / ".venv"
    venv.mkdir()
    for name in ("bin", "lib", "pyvenv.cfg"):
        (venv / name).symlink_to(Path(sys.prefix) / name)
    stamp = hashlib.sha256((folder / LOCK).read_bytes()).hexdigest()
    (venv / f"{LOCK}.sha256").write_text(stamp + "\n")


def free_port() -> int:
    """A port on which nobody listens just now."""
    with socket.create_server(("127.0.0.1", 0)) as listener:
        return int(listener.getsockname()[1])


def environment(tree: Path, **given: str) -> dict[str, str]:
    """The variables of this process without the product's own and Python's, and with those given."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("ROPEWALK_", "PYTHON"))}
    return {**kept, "ROPEWALK_DATA": str(tree / ".data"), **given}


@contextmanager
def started(tree: Path, port: int) -> Iterator[tuple[subprocess.Popen[str], list[str]]]:
    """start.sh in a process group of its own, as in a terminal, and the lines that it printed until it served."""
    told = tree / "told"
    with (
        told.open("w") as stderr,
        subprocess.Popen(
            ["sh", tree / "deploy" / "start.sh", "--port", str(port)],
            cwd="/",
            env=environment(tree),
            stdout=subprocess.PIPE,
            stderr=stderr,
            text=True,
            start_new_session=True,
        ) as process,
    ):
        try:
            yield process, _lines(process, told)
        finally:
            if process.poll() is None:
                os.killpg(process.pid, signal.SIGKILL)
            process.communicate()


def _lines(process: subprocess.Popen[str], told: Path) -> list[str]:
    assert process.stdout is not None
    lines: list[str] = []
    for line in process.stdout:
        lines.append(line.rstrip("\n"))
        if LAST_LINE.match(line):
            return lines
    raise AssertionError(f"start.sh ended with {process.wait()}:\n{told.read_text()}")
