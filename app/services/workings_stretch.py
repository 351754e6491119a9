"""How the stretch of a cord was worked out, from the two numbers on the scale."""

from app.domain.quantities import trimmed, with_unit
from app.mechanics.cord_sums import CordSums
from app.mechanics.extension import NO_ZERO
from app.mechanics.material import LENGTH_HALF_WIDTH_MM, free_length, relative_u
from app.mechanics.reading_sums import CurvePoint, ReadingSums
from app.mechanics.result import Result, from_scatter, none
from app.mechanics.stretch_at import strain_of
from app.services.figure_words import amount, as_percent, decimals_of, in_sum, measured, newtons, rounded
from app.services.remedies import MEASURE_FREE, remedy
from app.services.working import Working, listed, notes_of, reaches

DIFFERENCE = "GUM 5.1.2"
NO_LOAD_READ = "No reading under a load counts yet."
ANY_LOAD = "Readings under a load."
SLIP_IN_IT = "A knot or the support moved before this reading, so that is in it too."
READ_ZERO_AGAIN = "Read the zero twice before the first mass: every stretch is counted from it."
READ_TWICE = "Let two readers read each number."


def longer(sums: CordSums, depth: str) -> Working:
    """How much longer the cord was at its last reading."""
    last, found = _last_read(sums), extension(sums)
    return Working(
        code="extension_mm",
        name="Longer by, at the last reading" if depth == "first" else "Extension at the last reading",
        said=measured(found, depth),
        formula=_formula(sums, depth),
        numbers=_longer_numbers(sums, last[0], found, depth=depth) if last else "",
        source=DIFFERENCE,
        own="",
        better=remedy(found.why, zero_better(sums) if last else ANY_LOAD),
        notes=_slip(sums),
    )


def _longer_numbers(sums: CordSums, point: CurvePoint, found: Result, *, depth: str) -> str:
    """Both numbers on the scale, and at the first depth how the give or take comes about."""
    read = f"under {newtons(point.force_n)}: {difference_said(sums, point)}"
    if reaches(depth, "second") or found.high is None or found.value is None:
        return read
    scatter, half_mm = sums.straight.scatter, found.high - found.value
    by = "by the divisions of its scale" if scatter.dof is None else "by how its readings scatter"
    one, both = (amount(rounded(mm, decimals_of(mm)), "mm") for mm in (scatter.u_mm, half_mm))
    with_all = "with the zero, and the pointer put back," if point.joins else "with the zero"
    return listed(
        [
            read,
            f"one reading of this cord is good to about {one}, {by}",
            f"{with_all} that makes {both}, right 95 times in 100",
        ]
    )


def _slip(sums: CordSums) -> tuple[str, ...]:
    last = _last_read(sums)
    return notes_of(SLIP_IN_IT if last and last[0].section > 1 else None)


def _formula(sums: CordSums, depth: str) -> str:
    falls = sums.cord.scale == "up"
    if depth == "first":
        return "pointer at the zero − pointer now" if falls else "pointer now − pointer at the zero"
    return "e = x₀ − x, x the pointer" if falls else "e = x − x₀, x the pointer"


def _last_read(sums: CordSums) -> tuple[CurvePoint, ReadingSums] | None:
    """The last reading under load that has an extension, with what was worked out of it; None before the first."""
    worked = dict(zip(map(id, sums.cord.rows), sums.readings, strict=True))
    read = [point for point in sums.loaded if point.extension_mm is not None and point.row.phase != "zero"]
    return (read[-1], worked[id(read[-1].row)]) if read else None


def extension(sums: CordSums) -> Result:
    """The extension at the last reading, its interval by the scatter of the cord's own readings."""
    last = _last_read(sums)
    if last is None:
        whys = [one.extension_why for one in sums.readings if one.extension_why]
        zero = any(row.phase == "zero" for row in sums.cord.rows)
        return none(whys[0] if whys else NO_LOAD_READ if zero else NO_ZERO, "mm")
    point, worked = last
    if worked.extension_u_mm is None:
        return Result(value=point.extension_mm, unit="mm")
    factor = sums.straight.scatter.factor
    return from_scatter(point.extension_mm or 0.0, worked.extension_u_mm, factor, unit="mm")


def difference_said(sums: CordSums, point: CurvePoint) -> str:
    """The extension of one reading, from the two numbers on the scale."""
    down = sums.cord.scale == "down"
    shift_mm = (point.stretched_mm if down else -point.stretched_mm) - point.row.pointer_mm
    read = with_unit(trimmed(point.row.pointer_mm), "mm")
    if shift_mm:
        sign = "−" if shift_mm < 0 else "+"
        read = f"({read} {sign} {with_unit(trimmed(abs(shift_mm)), 'mm')} for the pointer put back)"
    pair = (read, _zero_said(sums)) if down else (_zero_said(sums), read)
    return f"{' − '.join(pair)} = {in_sum(point.extension_mm or 0.0, 'mm')}"


def _zeros_mm(sums: CordSums) -> tuple[float, ...]:
    return tuple(row.pointer_mm for row in sums.cord.rows if row.phase == "zero" and sums.cord.usable(row))


def _zero_said(sums: CordSums) -> str:
    """The zero that extensions are counted from; the mean of several."""
    zeros = _zeros_mm(sums)
    mean = with_unit(trimmed(sum(zeros) / max(len(zeros), 1)), "mm")
    return f"{mean} (mean of {len(zeros)} zeros)" if len(zeros) > 1 else mean


def zero_better(sums: CordSums) -> str:
    """A second zero while there is only one, then a second reader."""
    return READ_ZERO_AGAIN if len(_zeros_mm(sums)) < 2 else READ_TWICE


def strain(sums: CordSums, depth: str) -> Working:
    """The extension at the last reading for the length between the knots."""
    reached, length = extension(sums), free_length(sums.cord)
    found = as_percent(strain_of(reached, sums.cord))
    return Working(
        code="strain",
        name="Strain at the last reading",
        said=measured(found, depth),
        formula="ε = e / L₀, L₀ the free length under the settling load",
        numbers="" if found.value is None else _strain_numbers(reached, length, found),
        source="ISO 527-1",
        own="",
        better=remedy(found.why, ANY_LOAD if reached.value is None else _strain_better(sums, reached, length)),
        notes=_slip(sums),
    )


def _strain_numbers(reached: Result, length: Result, found: Result) -> str:
    parts = (in_sum(one.value or 0.0, one.unit) for one in (reached, length, found))
    return "{} / {} = {}".format(*parts)


def _strain_better(sums: CordSums, reached: Result, length: Result) -> str:
    if relative_u(length) <= abs(relative_u(reached)):
        return zero_better(sums)
    within = with_unit(trimmed(LENGTH_HALF_WIDTH_MM), "mm")
    return f"{MEASURE_FREE} That length is taken to be good to {within}: agree where a knot starts."
