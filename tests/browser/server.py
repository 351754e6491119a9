"""The product as it is served: gunicorn in a process of its own, on a free port, with a database of its own."""

import os
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import URL

from app.services.migrating import migrate
from app.store.database import Database, sqlite_url
from tests.databases import ROOT, opened

NAME = "rope.test"
"""What browsers call the server: a name makes plain http no secure context, as on a school's network."""

SERVE = ("-m", "app", "serve")
READY_S = 40.0
STOP_S = 15.0


class Server:
    """A server that runs; `database` is the one it works on, so that tests make lessons through the same verbs."""

    def __init__(self, process: subprocess.Popen[str], port: int, *, database: Database, told: Path) -> None:
        self.process = process
        self.port = port
        self.database = database
        self._told = told

    @property
    def address(self) -> str:
        """Where browsers find it: by name, which our Chromium knows."""
        return f"http://{NAME}:{self.port}"

    @property
    def loopback(self) -> str:
        """Where other programs of this computer find it."""
        return f"http://127.0.0.1:{self.port}"

    @property
    def output(self) -> str:
        """Everything it has written so far."""
        return self._told.read_text(encoding="utf-8", errors="replace")

    def wait_until_ready(self) -> None:
        """It answers; fails with its own words when it died or stays silent."""
        until = time.monotonic() + READY_S
        while time.monotonic() < until:
            assert self.process.poll() is None, f"the server died with {self.process.returncode}:\n{self.output}"
            if self._answers():
                return
            time.sleep(0.05)
        raise AssertionError(f"the server did not answer within {READY_S:g} s:\n{self.output}")

    def _answers(self) -> bool:
        try:
            with urllib.request.urlopen(f"{self.loopback}/healthz", timeout=5):
                return True
        except urllib.error.HTTPError as answer:
            raise AssertionError(f"/healthz answered {answer.code}:\n{self.output}") from answer
        except OSError:
            return False

    def stop(self, by: signal.Signals = signal.SIGTERM) -> int:
        """It has ended, cleanly or by force; its exit status."""
        if self.process.poll() is None:
            self.process.send_signal(by)
        try:
            return self.process.wait(STOP_S)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait(STOP_S)
            raise AssertionError(f"the server did not end within {STOP_S:g} s:\n{self.output}") from None


@contextmanager
def serving(
    folder: Path, *, url: URL | None = None, port: int | None = None, workers: int = 2, command: Sequence[str] = SERVE
) -> Iterator[Server]:
    """A server with its data in that folder, on that PostgreSQL address or else a SQLite file; ended afterwards.

    Called again with the same folder, address and port it is the same installation, started again. `command` is what
    this Python runs, if it is to be more than the product.
    """
    folder.mkdir(parents=True, exist_ok=True)
    with opened(url or sqlite_url(folder / "ropewalk.sqlite")) as database:
        migrate(database)
        at = port or free_port()
        told = folder / f"server-{time.time_ns()}.txt"
        with told.open("w") as output:
            process = subprocess.Popen(
                [sys.executable, *command],
                cwd=ROOT,
                env=_environment(folder, url, port=at, workers=workers),
                stdout=output,
                stderr=subprocess.STDOUT,
                text=True,
            )
        server = Server(process, at, database=database, told=told)
        try:
            server.wait_until_ready()
            yield server
        finally:
            server.stop()


def _environment(folder: Path, url: URL | None, *, port: int, workers: int) -> dict[str, str]:
    own = {name: value for name, value in os.environ.items() if not name.startswith("ROPEWALK_")}
    return own | {
        "ROPEWALK_DATA": str(folder),
        "ROPEWALK_DATABASE_URL": url.render_as_string(hide_password=False) if url else "",
        "ROPEWALK_HOST": "127.0.0.1",
        "ROPEWALK_PORT": str(port),
        "ROPEWALK_WORKERS": str(workers),
        "OPENBLAS_NUM_THREADS": "1",
    }


def free_port() -> int:
    """A port that nobody listened on a moment ago."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])
