"""Whether "1,234" is a little over one or over a thousand: told by how the rest of the file writes its numbers."""

import re
from dataclasses import dataclass, field

from app.transfer.cell_read import quoted
from app.transfer.problems import Problems

_EITHER = re.compile(r"[+-]?[1-9][0-9]{0,2}(?P<sign>[.,])[0-9]{3}")
_SIGN = re.compile(r"[.,]")
_USUAL = {",": ".", ";": ","}
"""By delimiter: the decimal sign that goes with it. A tab goes with either."""

_MIXED = "{} could mean two numbers here, for the file has the other decimal sign too: use one sign only."
_ALONE = "{} could mean two numbers: write no mark between thousands, and a point before decimals."


@dataclass
class DecimalSigns:
    """The decimal signs of a file: which it has surely, and the cells in which one could part thousands instead."""

    delimiter: str
    sure: set[str] = field(default_factory=set)
    unsure: list[tuple[int, str, str]] = field(default_factory=list)

    def notice(self, text: str) -> bool:
        """Whether the number could be read in two ways; if not, its decimal sign is one that the file has."""
        tidy = text.strip()
        if _EITHER.fullmatch(tidy):
            return True
        self.sure.update(_SIGN.findall(tidy))
        return False

    def tell(self, problems: Problems) -> None:
        """Each cell that could be read in two ways is a problem, unless the rest of the file tells which."""
        for line, label, text in self.unsure:
            if self._is_a_problem(text):
                problems.add(line, label, (_MIXED if self._has_other(text) else _ALONE).format(quoted(text)))

    def doubts(self) -> list[str]:
        """In a sentence, how such cells were read, when nothing in the file told."""
        taken = [one for one in self.unsure if not (self._is_a_problem(one[2]) or self._is_told(one[2]))]
        if not taken:
            return []
        line, label, text = taken[0]
        more = f", and {len(taken) - 1} more like it," if len(taken) > 1 else ""
        return [f"Line {line}, column {label}: {quoted(text)}{more} was read with decimals, not as thousands."]

    def _has_other(self, text: str) -> bool:
        return bool(self.sure - set(_SIGN.findall(text)))

    def _is_told(self, text: str) -> bool:
        """Whether the file tells that the mark of this number is its decimal sign."""
        sign = _SIGN.findall(text)[0]
        usual = _USUAL.get(self.delimiter) == sign
        if self._has_other(text):
            return usual and sign in self.sure
        return usual or sign in self.sure

    def _is_a_problem(self, text: str) -> bool:
        return not self._is_told(text) and (self._has_other(text) or self.delimiter == ",")
