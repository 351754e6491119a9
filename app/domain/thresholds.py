"""Where the look-again rules begin to ask: one table, which a page may carry to a tablet."""

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Thresholds:
    """Found by simulation on invented cords, so that good readings raise less than one question in 30.

    Names ending in `_u` count standard uncertainties of one reading, in `_sp` the scatter of a step, in `_stretch`
    the move that the steps before let expect.
    """

    least_u_mm: float = 0.7
    no_move_mm: float = 1.0
    tenth: tuple[float, float] = (0.08, 0.125)
    tenfold: tuple[float, float] = (8.0, 12.0)
    back_u: float = 3.0
    swapped_off_sp: float = 6.0
    swapped_off_mm: float = 6.0
    swapped_lands_sp: float = 3.0
    swapped_lands_stretch: float = 0.25
    larger_stretch: float = 2.5
    larger_sp: float = 4.0
    nothing_u: float = 5.0
    two_stretch: tuple[float, float] = (1.75, 2.4)
    two_u: float = 6.0
    two_scatter_stretch: float = 0.15
    tray_u: float = 4.0
    limp_times: float = 4.0
    limp_mm: float = 12.0
    early_s: float = 3.0
    hasty_s: float = 8.0
    hasty_steps: int = 4
    equal_moves: int = 6
    length_of_plan: tuple[float, float] = (0.8, 1.25)
    density_of_plan: float = 3.0


AT = Thresholds()
"""`early_s` is how well a wait is kept by hand: +-3 s, common practice, no published source."""
