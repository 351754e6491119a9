"""What each bench found for the breaking force of one design: one value a bench, however many cords it made."""

from collections.abc import Sequence

from app.mechanics.bench_values import BenchValue, bench_value
from app.mechanics.breaking import Bracket


def bench_breaks(brackets: Sequence[tuple[str, Bracket]]) -> tuple[BenchValue, ...]:
    """The breaking force that each bench found for a design.

    Parameters: brackets, each with the bench that made the cord [N], shape (n,); those without a low end are passed
        over.
    Returns: a value for each bench [N], benches as they first come: the middle of the bracket, of a cord that is not
        known to have broken what it held ("at least"), with the ends of the bracket; of several cords the geometric
        mean of each, and no high end when one of them has none.
    Raises: nothing.
    Source: our own rule: two cords by one bench are not two independent tries.
    """
    cords: dict[str, list[BenchValue]] = {}
    for bench, bracket in brackets:
        if bracket.low_n is not None:
            cords.setdefault(bench, []).append(_cord_value(bench, bracket.low_n, bracket.high_n))
    return tuple(made[0] if len(made) == 1 else bench_value(bench, made) for bench, made in cords.items())


def _cord_value(bench: str, low_n: float, high_n: float | None) -> BenchValue:
    middle_n = low_n if high_n is None else (low_n + high_n) / 2
    return BenchValue(group=bench, value=middle_n, low=low_n, high=high_n, at_least=high_n is None)
