"""Everything that is wrong with a file, gathered before it is refused."""

from dataclasses import dataclass, field

from app.domain.errors import Problem, UnreadableFile

PROBLEMS_MOST = 10_000
"""So many are told of one file; what has more is no readings file."""


@dataclass
class Problems:
    """The problems met so far, in any order."""

    found: list[Problem] = field(default_factory=list)

    def add(self, line: int, column: str | None, words: str) -> None:
        """One more is kept; UnreadableFile when there are too many to go on."""
        if len(self.found) >= PROBLEMS_MOST:
            self.found.append(Problem(line, None, "There are more problems than these; reading stopped here."))
            raise self.refusal()
        self.found.append(Problem(line, column, words))

    def refusal(self) -> UnreadableFile:
        """The refusal of the whole file, its problems in order of lines."""
        return UnreadableFile(sorted(self.found, key=lambda problem: problem.line))


def refused(words: str) -> UnreadableFile:
    """The refusal of a file of which no line can be read."""
    return UnreadableFile([Problem(1, None, words)])
