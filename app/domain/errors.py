"""Named refusals, one for each problem name of the outside contract.

Each carries a sentence that a teacher can act on; `app/web/errors.py` is the one place that turns them into a status.
"""

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class FieldFault:
    """One fault of entry: the field it belongs to and a sentence for whoever typed it."""

    field: str
    words: str


class Refusal(Exception):
    """Something asked of the product that it will not do; nothing was changed."""

    problem = "invalid-entry"

    def __init__(self, sentence: str, *, faults: tuple[FieldFault, ...] = ()) -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.faults = faults


class InvalidEntry(Refusal):
    """What was typed is not a number, or outside the limits, or not in a closed list."""


class SignInNeeded(Refusal):
    problem = "sign-in-needed"


class NotThisBench(Refusal):
    problem = "not-this-bench"


class TeacherOnly(Refusal):
    problem = "teacher-only"


class NotOpened(Refusal):
    problem = "not-opened"


class UnknownCode(Refusal):
    problem = "unknown-code"


class NotFound(Refusal):
    problem = "not-found"


class BenchTaken(Refusal):
    problem = "bench-taken"


class EntryReused(Refusal):
    problem = "entry-reused"


class Sealed(Refusal):
    problem = "sealed"


class MassesDown(Refusal):
    problem = "masses-down"


class LessonOver(Refusal):
    problem = "lesson-over"


class AlreadyHere(Refusal):
    problem = "already-here"


class InUse(Refusal):
    problem = "in-use"


class Stale(Refusal):
    problem = "stale"


@dataclass(frozen=True)
class Problem:
    """One thing wrong with a file: the line where its row begins, the column by name, and a sentence."""

    line: int
    column: str | None
    words: str

    def __str__(self) -> str:
        """The place and the sentence, in one line."""
        place = f"line {self.line}" if self.column is None else f"line {self.line}, column {self.column}"
        return f"{place}: {self.words}"


class UnreadableFile(Refusal):
    """A file that was refused whole, with everything that is wrong with it, in order of lines."""

    problem = "unreadable-file"

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        count = len(self.problems)
        super().__init__(f"The file was not read: {count} problem{'' if count == 1 else 's'} in it.")


class TooMany(Refusal):
    problem = "too-many"

    def __init__(self, sentence: str, *, retry_after_s: int) -> None:
        super().__init__(sentence)
        self.retry_after_s = retry_after_s


class Busy(Refusal):
    problem = "busy"
    retry_after_s = 1


def fault(field: str, words: str) -> InvalidEntry:
    """The refusal of one field, its sentence beside it."""
    return InvalidEntry(words, faults=(FieldFault(field, words),))
