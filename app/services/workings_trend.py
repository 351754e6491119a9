"""How the line of the breaking force along a numeric variable (strips, width) was worked out."""

from app.mechanics.result import Result
from app.mechanics.trend import UNBROKEN, Trend
from app.services.figure_words import figures, in_sum, measured
from app.services.remedies import TO_BREAK_ALL
from app.services.working import Working, notes_of, reaches

LEAST_SQUARES = "NIST 4.1.4.1"
SLOPE = "b, of F = a + b n by least squares, n the variable, one F a group"
MORE_VALUES = "More groups, spread over more values of the variable."
FITS_LESS = "The means leave the line by more than the groups scatter: a line is not the whole story"


def trend_workings(found: Trend, depth: str) -> tuple[Working, ...]:
    """What one more of the variable adds, and at the third depth where the line starts; nothing at the first depth."""
    if not reaches(depth, "second"):
        return ()
    slope = _figure(found, found.slope, depth, code="slope", name="One more of the changed variable adds")
    start = _figure(found, found.intercept, depth, code="intercept", name="Where the line starts, at none of it")
    return (slope, start) if reaches(depth, "third") else (slope,)


def _figure(found: Trend, result: Result, depth: str, *, code: str, name: str) -> Working:
    return Working(
        code=code,
        name=name,
        said=measured(result, depth),
        formula=SLOPE if code == "slope" else SLOPE.replace("b, of", "a, of"),
        numbers=_numbers(found),
        source=LEAST_SQUARES,
        own="",
        better=TO_BREAK_ALL if result.why == UNBROKEN else MORE_VALUES,
        notes=notes_of(result.note, *_lack_of_fit(found, depth)),
    )


def _numbers(found: Trend) -> str:
    slope, start = found.slope.value, found.intercept.value
    if slope is None or start is None or found.s is None:
        return ""
    sign = "−" if slope < 0 else "+"
    line = f"F = {in_sum(start, 'N')} {sign} {in_sum(abs(slope), 'N')} × n"
    return f"{line}; scatter about it {in_sum(found.s, 'N')}, {found.dof} degrees of freedom"


def _lack_of_fit(found: Trend, depth: str) -> tuple[str, ...]:
    lack = found.lack_of_fit
    if lack is None or not reaches(depth, "third"):
        return ()
    test = f"Lack of fit: F = {figures(lack.f, 3)} with {lack.dof} and {lack.dof_repeats}, p = {figures(lack.p, 2)}"
    return (test, FITS_LESS) if lack.p < 0.05 else (test,)
