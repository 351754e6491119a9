"""Look-again notes on a cord's measures and on the masses of a tray."""

import pytest

from app.domain.check_cord import look_again_at_cord, rung_note
from app.domain.told import CordFacts


@pytest.mark.parametrize(
    ("length_mm", "asked"),
    [(240, []), (300, []), (375, []), (239, [(27, None)]), (376, [(27, None)]), (3000, [(27, None)]),
     (30, [(27, 300)]), (24, [(27, 240)]), (37.5, [(27, 375)]), (23, [(27, None)]), (38, [(27, None)])],
)  # fmt: skip
def test_a_length_is_held_against_the_plan_of_300_mm(length_mm: float, asked: list[tuple[int, float | None]]) -> None:
    cord = CordFacts(free_length_mm=length_mm, planned_length_mm=300.0, length_key="tape")
    notes = look_again_at_cord(cord)
    assert [(note.note, note.likely_mm) for note in notes] == asked
    assert all((note.about, note.severity) == ("tape", "stop") for note in notes)


def test_a_length_in_centimetres_is_asked_for_in_words() -> None:
    (note,) = look_again_at_cord(CordFacts(free_length_mm=30.0, planned_length_mm=300.0))
    assert note.words == "30\u00a0mm is a tenth of the 300\u00a0mm planned. Is it 30\u00a0cm?"


@pytest.mark.parametrize(
    ("density", "asked"),
    [(1.479, []), (1.72, []), (1.73, [32]), (1.24, []), (1.23, [32]), (4.43, [32]), (4.45, [28]), (0.001, [32])],
)
def test_a_mass_is_held_against_the_plan_of_three_strips(density: float, asked: list[int]) -> None:
    """The plan: 1.479 g/m for three strips, so that half a strip more or less is 0.2465 g/m away."""
    cord = CordFacts(
        linear_density_g_per_m=density, planned_density_g_per_m=1.479, strands=3, mass_key="balance", free_length_mm=30
    )
    notes = look_again_at_cord(cord)
    assert [note.note for note in notes] == asked
    assert all((note.about, note.severity) == ("balance", "ask") for note in notes)


def test_the_number_of_strips_it_weighs_like_is_said() -> None:
    (note,) = look_again_at_cord(
        CordFacts(linear_density_g_per_m=1.0, planned_density_g_per_m=1.479, strands=3, mass_key="m")
    )
    assert note.words == "This cord weighs like 2 strips, and the plan says 3. How many are in it?"


@pytest.mark.parametrize("missing", ["linear_density_g_per_m", "planned_density_g_per_m", "strands"])
def test_what_is_not_known_is_not_asked_about(missing: str) -> None:
    known = {"linear_density_g_per_m": 1.0, "planned_density_g_per_m": 1.479, "strands": 3}
    assert look_again_at_cord(CordFacts(**{**known, missing: None})) == ()  # type: ignore[arg-type]
    assert look_again_at_cord(CordFacts(free_length_mm=30.0)) == ()
    assert look_again_at_cord(CordFacts(planned_length_mm=30.0)) == ()


@pytest.mark.parametrize(
    ("printed_g", "kind", "balance_g", "asked"),
    [(240.0, "drained", 240.0, True), (240.0, "drained", 455.0, False), (240.0, "gross", 240.0, False),
     (240.0, "none", 240.0, False), (None, "drained", 240.0, False)],
)  # fmt: skip
def test_a_balance_mass_that_only_repeats_a_drained_label(
    printed_g: float | None, kind: str, balance_g: float, asked: bool
) -> None:
    note = rung_note(printed_g, kind, balance_mass_g=balance_g, key="tin")
    assert (note is not None) == asked
    assert note is None or (note.note, note.about) == (12, "tin")
