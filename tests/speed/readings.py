"""What a reading costs: `.venv/bin/python -m tests.speed.readings` prints a table, in about a minute.

Twelve posters with connections kept open send readings over /api/v1 through gunicorn as it is served: into one lesson
of 40 benches, and into 50 lessons. In the same server run, in turn with them, the floors: a route that returns a
constant and one that inserts one row and commits. Each bench gets a zero and seven loads; medians of three rounds.
The numbers are this machine's, and the load came from it too: the ratios matter.
"""

import json
import statistics
import tempfile
import urllib.request
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from app.store.database import Database
from tests import make
from tests.browser.server import Server, serving
from tests.databases import KINDS, a_server, an_empty_one
from tests.speed.floor import make_table
from tests.speed.posting import Run, body_of, dealt, post_all, request

POSTERS = 12
ROUNDS = 3
BENCHES = 40
EACH = 8
LESSONS = 50
FLOOR_REQUESTS = 600
GUNICORN = ("-m", "gunicorn", "-c", "deploy/gunicorn.conf.py", "tests.speed.floor:app")
CONSTANT, INSERT, ONE, MANY = "a constant", "one row, committed", "reading, one lesson", f"reading, {LESSONS} lessons"


def main() -> None:
    """The table is printed, a database after the other."""
    print(f"{POSTERS} posters, medians of {ROUNDS} rounds, p50 and p95 over all rounds")
    print(f"| {'database':10} | {'what':20} | per s | of the constant | of the insert | p50 ms | p95 ms |")
    print(f"|{'-' * 12}|{'-' * 22}|---:|---:|---:|---:|---:|")
    for kind in KINDS:
        with tempfile.TemporaryDirectory() as folder, _served(kind, Path(folder)) as server:
            _print(kind, _measured(server))


@contextmanager
def _served(kind: str, folder: Path) -> Iterator[Server]:
    if kind == "sqlite":
        with serving(folder, command=GUNICORN) as server:
            yield server
        return
    with a_server() as postgres, an_empty_one(postgres) as url, serving(folder, url=url, command=GUNICORN) as server:
        yield server


def _measured(server: Server) -> dict[str, list[Run]]:
    make_table(server.database)
    teacher = make.make_teacher(server.database, password=make.PASSWORD)
    token = teacher_token(server)
    words = [f"Bench{chr(97 + place // 26)}{chr(97 + place % 26)}" for place in range(BENCHES)]
    floors = {CONSTANT: [request("/floor/constant")], INSERT: [request("/floor/insert")]}

    def in_one() -> Sequence[bytes]:
        lesson = make.make_lesson(server.database, teacher=teacher, benches=words)
        return _readings(server.database, [lesson], token)

    def in_many() -> Sequence[bytes]:
        few = words[: max(1, BENCHES // LESSONS)]
        lessons = [make.make_lesson(server.database, teacher=teacher, benches=few) for _ in range(LESSONS)]
        return _readings(server.database, lessons, token)

    found: dict[str, list[Run]] = {}
    for _ in range(ROUNDS):
        for what, one in floors.items():
            found.setdefault(what, []).append(post_all(server.port, dealt(one * FLOOR_REQUESTS, POSTERS), status=200))
        for what, made in ((ONE, in_one), (MANY, in_many)):
            found.setdefault(what, []).append(_posted(server, made))
    return found


def _posted(server: Server, made: Callable[[], Sequence[bytes]]) -> Run:
    requests = made()
    return post_all(server.port, dealt(requests, POSTERS), status=201)


def teacher_token(server: Server) -> str:
    """A token of the teacher moss: unlike a bench's it may write more than 120 times a minute."""
    body = json.dumps({"sign_in_name": "moss", "password": make.PASSWORD}).encode()
    head = {"Content-Type": "application/json"}
    asked = urllib.request.Request(f"{server.loopback}/api/v1/sign-in", data=body, headers=head)
    with urllib.request.urlopen(asked) as answer:
        return str(json.load(answer)["teacher_token"])


def _readings(database: Database, lessons: Sequence[make.MadeLesson], token: str) -> Sequence[bytes]:
    """A zero and loads of every bench; step by step, so that all benches are busy all the time."""
    benches = [(lesson.lesson_id, bench) for lesson in lessons for bench in make.record_of(database, lesson).benches]
    return [
        request(
            f"/api/v1/lessons/{lesson_id}/benches/{bench.address}/readings",
            body_of(bench.specimens[0].entry_id, step, 218 + 4 * step),
            token=token,
        )
        for step in range(EACH)
        for lesson_id, bench in benches
    ]


def _print(kind: str, found: dict[str, list[Run]]) -> None:
    rate = {what: statistics.median(run.per_second for run in runs) for what, runs in found.items()}
    for what, runs in found.items():
        parts = statistics.quantiles([1000 * seconds for run in runs for seconds in run.each_s], n=20)
        shares = [f"{rate[what] / rate[floor]:.2f}" for floor in (CONSTANT, INSERT)]
        cells = [kind.ljust(10), what.ljust(20), f"{rate[what]:.0f}", *shares, f"{parts[9]:.1f}", f"{parts[18]:.1f}"]
        print(f"| {' | '.join(cells)} |")


if __name__ == "__main__":
    main()
