"""Bench words and codes, from a random source that the caller gives; nothing that could name a child is drawn."""

import random
import re
from collections.abc import Callable, Sequence

from app.domain.errors import fault
from app.domain.limits import CODE_ALPHABET, CODE_LENGTH

BENCH_WORDS = (
    "Alder", "Hazel", "Birch", "Cedar", "Maple", "Rowan", "Willow", "Elder", "Larch", "Juniper",
    "Aspen", "Beech", "Bracken", "Clover", "Cork", "Cypress", "Elm", "Fern", "Fir", "Gorse",
    "Hawthorn", "Hornbeam", "Linden", "Medlar", "Moss", "Oak", "Palm", "Pine", "Plane", "Poplar",
    "Quince", "Reed", "Rush", "Sedge", "Sloe", "Spruce", "Sycamore", "Teasel", "Walnut", "Yew",
)  # fmt: skip

_WORD = re.compile(r"[^\W\d_][\w-]{0,19}")


def tidy_code(typed: str) -> str:
    """A code as it is stored: upper case, without the spaces that people put in."""
    return "".join(typed.split()).upper()


def looks_like_code(code: str) -> bool:
    """Whether a tidied code could be one of ours."""
    return len(code) == CODE_LENGTH and all(letter in CODE_ALPHABET for letter in code)


def new_code(choose: Callable[[Sequence[str]], str]) -> str:
    """A fresh slip code or lesson key, letters drawn by `choose`."""
    return "".join(choose(CODE_ALPHABET) for _ in range(CODE_LENGTH))


def spaced(code: str) -> str:
    """A code as it is shown: three and three."""
    return f"{code[:3]} {code[3:]}"


def check_bench_word(word: str) -> str:
    """The bench word, fit for an address; refused with a sentence when it is not."""
    if not _WORD.fullmatch(word):
        raise fault("word", "A bench word is one word of up to 20 letters.")
    return word


def share_out(designs: Sequence[str], benches: int, seed: int, yardstick: str | None = None) -> list[str]:
    """One design for each bench: as even as can be, odd benches to the yardstick cord first; same seed, same plan."""
    first = [yardstick] if yardstick in designs else []
    order = first + [letter for letter in designs if letter not in first]
    shared = [order[place % len(order)] for place in range(benches)]
    random.Random(seed).shuffle(shared)  # noqa: S311 - a stated seed is the point: the plan can be made again
    return [str(letter) for letter in shared]
