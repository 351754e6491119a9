"""How long the first and the second start take: `.venv/bin/python -m tests.speed.start [--install]`.

A start is over when the last line is printed and the server has answered once. Floors in the same run: a Python that
does nothing, one that imports what the server needs, and gunicorn with an app of one constant route. With --install a
first start from nothing is measured too, which fetches packages (uv if it is on the path, else pip).
"""

import os
import signal
import statistics
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from collections.abc import Callable
from pathlib import Path

from tests.starting import ROOT, copy_code, free_port, lend_environment, started

ROUNDS = 5
CONSTANT = "def app(environ, start):\n    start('200 OK', [('Content-Length', '2')])\n    return [b'ok']\n"


def main() -> None:
    """The table is printed."""
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        rows = [("floor: a Python that does nothing", several(lambda: run("pass")))]
        rows.append(("floor: the imports of the server", several(lambda: run("import app, app.commands"))))
        (place / "constant.py").write_text(CONSTANT)
        rows.append(("floor: gunicorn with a constant route", several(lambda: constant(place))))
        if "--install" in sys.argv:
            rows.append(("first start from nothing", [start(copy_code(place / "nothing"))]))
        tree = copy_code(place / "tree")
        lend_environment(tree)
        rows.append(("first start, environment there", [start(tree)]))
        rows.append(("second start", several(lambda: start(tree))))
    print(f"| {'what':38} | median s | slowest s | runs |\n|{'-' * 40}|---:|---:|---:|")
    for what, times in rows:
        print(f"| {what:38} | {statistics.median(times):8.2f} | {max(times):9.2f} | {len(times):4} |")


def several(measure: Callable[[], float]) -> list[float]:
    return [measure() for _ in range(ROUNDS)]


def run(code: str) -> float:
    begun = time.perf_counter()
    subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=True)
    return time.perf_counter() - begun


def constant(place: Path) -> float:
    port = free_port()
    begun = time.perf_counter()
    command = [sys.executable, "-m", "gunicorn", "--preload", "-w", "2", "-k", "gthread", "--threads", "48"]
    command += ["--no-control-socket", "--log-level", "critical", "-b", f"127.0.0.1:{port}", "constant:app"]
    with subprocess.Popen(command, cwd=place) as process:
        answered(port)
        took = time.perf_counter() - begun
        process.send_signal(signal.SIGTERM)
    return took


def start(tree: Path) -> float:
    port = free_port()
    begun = time.perf_counter()
    with started(tree, port) as (process, _):
        answered(port)
        took = time.perf_counter() - begun
        os.kill(process.pid, signal.SIGTERM)
        process.wait()
    return took


def answered(port: int) -> None:
    """The server has answered a first question, whatever it said."""
    while True:
        try:
            with urllib.request.urlopen(f"http://127.0.0.1:{port}/healthz", timeout=10):
                return
        except urllib.error.HTTPError:
            return
        except OSError:
            time.sleep(0.005)


if __name__ == "__main__":
    main()
