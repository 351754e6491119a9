"""How a command ended, and what a refusal looks like."""

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True)
class Told:
    """How a command ended and what it printed."""

    status: int
    out: str
    err: str


Run = Callable[..., Told]


def refused(told: Told, part: str) -> None:
    assert told.status == 2
    assert part in told.err
    assert told.err.count("\n") == 1, "one sentence"
    assert told.out == ""
