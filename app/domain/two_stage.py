"""A ladder said in one sentence: first some light rungs, then some heavier ones, all called the same."""

from collections.abc import Sequence
from dataclasses import dataclass

from app.domain.records import RungRecord


@dataclass(frozen=True, kw_only=True)
class TwoStage:
    """First `first_count` rungs of about `first_mass_g` [g], then `then_count` of about `then_mass_g` [g]."""

    rung_word: str
    first_count: int
    first_mass_g: float
    then_count: int = 0
    then_mass_g: float | None = None

    @property
    def count(self) -> int:
        """How many rungs the ladder has."""
        return self.first_count + self.then_count


def said_of(rungs: Sequence[RungRecord]) -> TwoStage | None:
    """The sentence that says this ladder; None when its rungs need a table of their own."""
    if not rungs or {rung.name for rung in rungs} != {rungs[0].name}:
        return None
    masses = [rung.printed_mass_g for rung in rungs]
    first = masses[0]
    if first is None or None in masses:
        return None
    first_count = next((place for place, mass in enumerate(masses) if mass != first), len(masses))
    rest = masses[first_count:]
    if len(set(rest)) > 1:
        return None
    return TwoStage(
        rung_word=rungs[0].name,
        first_count=first_count,
        first_mass_g=first,
        then_count=len(rest),
        then_mass_g=rest[0] if rest else None,
    )


def ladder_of(stages: TwoStage, before: Sequence[RungRecord] = ()) -> tuple[RungRecord, ...]:
    """The rungs that the sentence says; what kind of printed mass a mark has stays as it was before."""
    kinds = {rung.mark: rung.printed_kind for rung in before}
    last = before[-1].printed_kind if before else "none"
    return tuple(
        RungRecord(
            mark=mark,
            name=stages.rung_word,
            printed_mass_g=stages.first_mass_g if mark <= stages.first_count else stages.then_mass_g,
            printed_kind=kinds.get(mark, last),
        )
        for mark in range(1, stages.count + 1)
    )
