"""How figures read off the line of the straight part were worked out: toe, corrected zero, secant, offset, modulus."""

import math

from app.domain.quantities import shown, with_unit
from app.mechanics.cord_sums import CordSums
from app.mechanics.extension import reading_u_mm, scale_of
from app.mechanics.material import free_length, relative_u, section_area
from app.mechanics.reading_sums import CurvePoint
from app.services.figure_words import amount, figures, in_sum, measured, rounded
from app.services.remedies import SMALLER_STEPS, remedy
from app.services.working import Working, listed, notes_of
from app.services.workings_straight import STEADIER

TOE, MODULUS, OFFSET = "ASTM D882 A1", "ISO 527-1", "ISO 6892-1"
START = "Smaller steps at the start, where the cord takes up its slack."
RISING = "The scale grows upward, so the pointer is counted with a minus sign here."
MEAN_ALL_THE_WAY = "It goes from the zero to the last reading, whatever bends lie between."


def toe(sums: CordSums, depth: str) -> Working:
    """The slack that the settling load left."""
    found, part = sums.slack_mm, sums.straight
    zeros = [point.stretched_mm for point in sums.curve if point.row.phase == "zero"]
    numbers = ""
    if found.value is not None and part.line_at_start_mm.value is not None:
        at_start, zero, apart = (
            with_unit(shown(mm, 2), "mm") for mm in (part.line_at_start_mm.value, sum(zeros) / len(zeros), found.value)
        )
        numbers = f"{at_start} − {zero} = {apart}".replace("− −", "+ ")
    return Working(
        code="toe_mm",
        name="Toe (slack)",
        said=measured(found, depth),
        formula="a + c F₀ − x₀: the straight part carried back to the settling load, less the zero read there",
        numbers=numbers,
        source=TOE,
        own="",
        better=remedy(found.why, START),
        notes=_straight_notes(sums),
    )


def corrected_zero(sums: CordSums, depth: str) -> Working:
    """Where the pointer would stand without any load."""
    found, line = sums.straight.zero_force_mm, sums.straight.line
    last = sums.curve[-1] if sums.curve else None
    numbers = ""
    if found.value is not None and line is not None and last is not None:
        numbers = listed(
            [f"x = {in_sum(line.intercept_mm, 'mm')} + {in_sum(line.slope_mm_per_n, 'mm/N')} × F", _both(sums, last)]
        )
    return Working(
        code="zero_force_pointer_mm",
        name="Corrected zero",
        said=measured(found, depth),
        formula="x₀' = a, the line x = a + c F at F = 0; corrected extension = x − x₀'",
        numbers=numbers,
        source=TOE,
        own="",
        better=remedy(found.why, START),
        notes=_straight_notes(sums),
    )


def _both(sums: CordSums, last: CurvePoint) -> str:
    """Both extensions of the last reading: from the zero read, and from the corrected one."""
    corrected = last.stretched_mm - (sums.straight.zero_force_mm.value or 0.0)
    told = "" if last.extension_mm is None else f", {in_sum(last.extension_mm, 'mm')} from the zero read"
    return f"at the last reading {in_sum(corrected, 'mm')} from the corrected zero{told}"


def _straight_notes(sums: CordSums) -> tuple[str, ...]:
    return notes_of(*sums.straight.notes, RISING if sums.cord.scale == "up" else None)


def secant(sums: CordSums, depth: str) -> Working:
    """From the zero to the heaviest reading in one straight line."""
    found = sums.secant_n_per_mm
    numbers = ""
    if found.value is not None:
        ends = sorted(sums.curve, key=lambda point: point.force_n)
        forces = f"({figures(ends[-1].force_n)} − {in_sum(ends[0].force_n, 'N')})"
        stretch = in_sum((ends[-1].force_n - ends[0].force_n) / found.value, "mm")
        numbers = f"{forces} / {stretch} = {in_sum(found.value, 'N/mm')}"
    return Working(
        code="secant_N_per_mm",
        name="Secant stiffness",
        said=measured(found, depth),
        formula="(F_max − F₀) / (x_max − x₀)",
        numbers=numbers,
        source=TOE,
        own="",
        better=remedy(found.why, "Let two readers read the zero and the last reading."),
        notes=notes_of(MEAN_ALL_THE_WAY if found.value is not None else None),
    )


def offset_yield(sums: CordSums, depth: str) -> Working:
    """Where the curve has left its straight part by a stated part of the free length."""
    found, line = sums.offset_yield.force_n, sums.straight.line
    length_mm, at_mm = sums.cord.gauge_length_mm, sums.offset_yield.stretched_mm
    numbers = ""
    if found.value is not None and line is not None and at_mm is not None and length_mm:
        off_mm = at_mm - line.at(found.value)
        percent = amount(figures(100 * off_mm / length_mm, 3), "%")
        numbers = (
            f"{percent} of {in_sum(length_mm, 'mm')} = {in_sum(off_mm, 'mm')}; "
            f"the line moved on by it meets the readings at {in_sum(found.value, 'N')}"
        )
    return Working(
        code="offset_yield_N",
        name="Offset yield",
        said=measured(found, depth),
        formula="the force where a + c F + the offset meets the readings joined by straight lines",
        numbers=numbers,
        source=OFFSET,
        own="",
        better=remedy(found.why, "Smaller steps past the straight part."),
        notes=_straight_notes(sums),
    )


def youngs_modulus(sums: CordSums, depth: str) -> Working:
    """The stiffness of the material itself."""
    found, k = sums.youngs_modulus_mpa, sums.straight.stiffness_n_per_mm
    length, area = free_length(sums.cord), section_area(sums.cord)
    numbers = ""
    if found.value is not None:
        parts = (in_sum(one.value or 0.0, one.unit) for one in (k, length, area, found))
        numbers = "{} × {} / {} = {}".format(*parts)
    weakest = max(
        (relative_u(area), "Weigh a larger piece of the film, and measure widths."), (relative_u(k), STEADIER)
    )
    return Working(
        code="youngs_modulus_MPa",
        name="Young's modulus",
        said=measured(found, depth),
        formula="E = k L₀ / A, A = strips × width × thickness (× layers)",
        numbers=numbers,
        source=MODULUS,
        own="",
        better=remedy(found.why, weakest[1]),
        notes=notes_of(found.note, *sums.straight.notes),
    )


def reading_scatter(sums: CordSums, _: str) -> Working:
    """What one pointer reading of this cord is good to."""
    scatter, part, cord = sums.straight.scatter, sums.straight, sums.cord
    u0_mm = reading_u_mm(scale_of(cord))
    of_scale = (
        f"u₀ = √({figures(cord.scale_division_mm)}²/12 + {figures(cord.judgement_mm)}²/3) = {in_sum(u0_mm, 'mm')}"
    )
    squares = math.fsum(one * one for one in part.residuals_mm)
    fitted = scatter.dof is not None and bool(part.residuals_mm)
    of_fit = f"s = √({figures(squares)} / {scatter.dof}) = {in_sum(math.sqrt(squares / (scatter.dof or 1)), 'mm')}"
    return Working(
        code="reading_u_mm",
        name="Scatter of a reading",
        said=amount(f"u = {rounded(scatter.u_mm, 2)}", "mm"),
        formula="u_x = the larger of s = √(Σr² / (N − p)), r reading less curve, and u₀ = √(d²/12 + a²/3)",
        numbers=listed([of_fit, of_scale]) if fitted else of_scale,
        source="GUM 4.3.7",
        own="",
        better=STEADIER if fitted else SMALLER_STEPS,
        notes=notes_of(None if fitted else "From the scale only", part.scatter_warning),
    )
