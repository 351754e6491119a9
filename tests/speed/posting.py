"""Posters: each keeps one connection open and sends one request after another, as a tablet does."""

import json
import socket
import threading
import time
import uuid
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass


@dataclass(frozen=True)
class Run:
    """How a number of requests went: whole time [s], and each answer's time [s]."""

    whole_s: float
    each_s: tuple[float, ...]

    @property
    def per_second(self) -> float:
        """Requests answered in a second."""
        return len(self.each_s) / self.whole_s


def request(path: str, sent: bytes = b"", *, token: str | None = None) -> bytes:
    """One POST, ready to be sent."""
    lines = [
        f"POST {path} HTTP/1.1",
        "Host: 127.0.0.1",
        "Content-Type: application/json",
        f"Content-Length: {len(sent)}",
    ]
    lines += [f"Authorization: Bearer {token}"] if token else []
    return "\r\n".join([*lines, "", ""]).encode() + sent


def body_of(specimen_id: str, step: int, pointer: float) -> bytes:
    """The body of one reading with a fresh entry id."""
    return json.dumps(
        {
            "entry_id": str(uuid.uuid4()),
            "specimen_id": specimen_id,
            "step": step,
            "phase": "load" if step else "zero",
            "pointer_typed": str(pointer),
            "pointer_unit": "mm",
        }
    ).encode()


def post_all(port: int, requests_of: Sequence[Sequence[bytes]], *, status: int) -> Run:
    """Every poster has sent all of its requests; fails at the first answer of another status."""
    begin = threading.Barrier(len(requests_of) + 1)

    def work(requests: Sequence[bytes]) -> list[float]:
        with socket.create_connection(("127.0.0.1", port), timeout=30) as connection:
            connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            begin.wait()
            return [_answered(connection, one, status) for one in requests]

    with ThreadPoolExecutor(len(requests_of)) as posters:
        working = [posters.submit(work, requests) for requests in requests_of]
        begin.wait()
        before = time.perf_counter()
        each = [seconds for one in working for seconds in one.result()]
        return Run(time.perf_counter() - before, tuple(each))


def _answered(connection: socket.socket, sent: bytes, status: int) -> float:
    before = time.perf_counter()
    connection.sendall(sent)
    answer = connection.recv(65_536)
    while b"\r\n\r\n" not in answer:
        answer += connection.recv(65_536)
    head, _, body = answer.partition(b"\r\n\r\n")
    assert head.split(b" ", 2)[1] == str(status).encode(), answer.decode(errors="replace")
    length = next(int(line[15:]) for line in head.split(b"\r\n") if line.lower().startswith(b"content-length:"))
    while len(body) < length:
        body += connection.recv(65_536)
    return time.perf_counter() - before


def dealt(requests: Sequence[bytes], posters: int) -> list[list[bytes]]:
    """The requests dealt out to so many posters in turn."""
    return [list(requests[place::posters]) for place in range(posters)]
