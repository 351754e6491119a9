"""A ladder said in a sentence, and read from one."""

import pytest

from app.domain.records import RungRecord
from app.domain.two_stage import TwoStage, ladder_of, said_of


def rungs(*masses_g: float | None, name: str = "pouch") -> list[RungRecord]:
    return [RungRecord(mark=mark, name=name, printed_mass_g=mass) for mark, mass in enumerate(masses_g, start=1)]


@pytest.mark.parametrize(
    "stages",
    [
        TwoStage(rung_word="pouch", first_count=4, first_mass_g=100.0, then_count=14, then_mass_g=200.0),
        TwoStage(rung_word="tin", first_count=1, first_mass_g=412.5),
    ],
)
def test_said_and_made_again(stages: TwoStage) -> None:
    assert said_of(ladder_of(stages)) == stages
    assert [rung.mark for rung in ladder_of(stages)] == list(range(1, stages.count + 1))


@pytest.mark.parametrize("masses_g", [(100.0, 200.0, 100.0), (100.0, None), (None,), ()])
def test_ladders_that_need_a_table(masses_g: tuple[float | None, ...]) -> None:
    assert said_of(rungs(*masses_g)) is None


def test_rungs_with_names_of_their_own_need_a_table() -> None:
    assert said_of([*rungs(100.0), RungRecord(mark=2, name="tin", printed_mass_g=100.0)]) is None


def test_what_a_label_says_stays_with_its_mark() -> None:
    before = [RungRecord(mark=1, name="pouch", printed_mass_g=90.0, printed_kind="net"), *rungs(90.0, 90.0)[1:]]
    after = ladder_of(TwoStage(rung_word="pouch", first_count=4, first_mass_g=100.0), before)
    assert [rung.printed_kind for rung in after] == ["net", "none", "none", "none"]
