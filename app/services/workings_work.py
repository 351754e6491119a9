"""How the work of the masses on a cord was worked out, trapezium by trapezium."""

from collections.abc import Sequence

from app.mechanics.cord_sums import CordSums
from app.mechanics.reading_sums import CurvePoint, curve_points
from app.services.figure_words import amount, decimals_for, figures, in_sum, measured, rounded
from app.services.remedies import remedy
from app.services.working import Working, notes_of

TRAPEZIUM = "Trapezium rule"
NOT_COUNTED = "The step that it ended in is not in it, so the work to break is at least this."
BEYOND = "Our own definition: the last slope carried on to the load that it failed under, which nobody read."
FINER = "Smaller steps near the break: the last step, which nobody reads, gets smaller with them."


def work(sums: CordSums, depth: str) -> Working:
    """The work up to the last reading: a lower bound of the work to break."""
    found = sums.work_j
    first = _first_section(sums)
    return Working(
        code="work_J",
        name="Work up to the last reading",
        said=measured(found, depth),
        formula="W = Σ (F_i + F_i₊₁)/2 × (x_i₊₁ − x_i)",
        numbers="" if found.value is None else _trapezia(first, found.value),
        source=TRAPEZIUM,
        own="",
        better=remedy(found.why, FINER),
        notes=notes_of(NOT_COUNTED if found.value is not None else None),
    )


def _first_section(sums: CordSums) -> list[CurvePoint]:
    return [point for point in sums.loaded if point.section == 1 and point.extension_mm is not None]


def _trapezia(points: Sequence[CurvePoint], joules: float) -> str:
    """The first and the last trapezium written out, and what all of them make."""
    if len(points) < 2:
        return ""
    pairs = [(points[0], points[1]), (points[-2], points[-1])][: 2 if len(points) > 2 else 1]
    between = " + … + " if len(points) > 3 else " + "
    total = f"{amount(figures(1000 * joules), 'N mm')} = {in_sum(joules, 'J')}"
    return f"{between.join(_trapezium(*pair) for pair in pairs)} = {total} ({len(points) - 1} steps)"


def _trapezium(one: CurvePoint, other: CurvePoint) -> str:
    forces = f"({figures(one.force_n)} + {figures(other.force_n)})/2"
    return f"{forces} × ({figures(other.stretched_mm, 6)} − {figures(one.stretched_mm, 6)})".replace("− −", "+ ")


def failing_work(sums: CordSums, _: str) -> Working:
    """What the failing step may have added."""
    found = sums.failing_work_j
    value = found.value
    return Working(
        code="failing_step_work_J",
        name="The failing step may have added",
        said=measured(found, _) if value is None else f"up to {amount(rounded(value, decimals_for(value, 2)), 'J')}",
        formula="F_f × c_last × (F_f − F_h), c_last the slope of the last step read",
        numbers="" if value is None else _failing_numbers(sums, value),
        source="",
        own=BEYOND,
        better=remedy(found.why, FINER),
        notes=notes_of(found.note),
    )


def _failing_numbers(sums: CordSums, joules: float) -> str:
    before, last = _first_section(sums)[-2:]
    fail_n = (sums.cord.fail_mass_g or 0.0) * sums.cord.gravity_m_per_s2 / 1000
    slope = (last.stretched_mm - before.stretched_mm) / (last.force_n - before.force_n)
    forces = f"({figures(fail_n)} − {in_sum(last.force_n, 'N')})"
    return f"{in_sum(fail_n, 'N')} × {in_sum(slope, 'mm/N')} × {forces} / 1000 = {in_sum(joules, 'J')}"


def loop(sums: CordSums, depth: str) -> Working:
    """What the cord did not give back when it was unloaded."""
    found = sums.loop_j
    path = [*_first_section(sums), *curve_points(sums.cord, ("unload",))]
    return Working(
        code="loop_J",
        name="Not given back in the loop",
        said=measured(found, depth),
        formula="area under the loading less area under the unloading, both by trapezia",
        numbers="" if found.value is None else _trapezia(path, found.value),
        source=TRAPEZIUM,
        own="",
        better=remedy(found.why, "Smaller steps on the way up and on the way down."),
        notes=(),
    )
