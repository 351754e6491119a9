"""How the breaking force of a cord, and what is read off it, was worked out."""

import math

from app.domain.quantities import trimmed, with_unit
from app.mechanics.breaking import Bracket
from app.mechanics.cord_sums import CordSums
from app.mechanics.efficiency import KNOT_PLACES
from app.mechanics.material import LINEAR_DENSITY_HALF_WIDTH_PERCENT, linear_density, relative_u, section_area
from app.mechanics.result import Result
from app.services.figure_words import amount, bracketed, decimals_for, force_bracket, in_sum, rounded
from app.services.load_words import load_notes
from app.services.remedies import WEIGH_CORD, after, remedy
from app.services.working import Working, beside, listed, notes_of

NELSON = "Nelson 1982"
SLIPPED = "The knot came undone, so all that is known of the cord itself is that it holds more."
AT_A_KNOT = "It broke at a knot: ends wound round a smooth bar would test the cord itself."
STOPPED = "This test was stopped. "
PER_STRIP = "Our own definition: the breaking force shared out equally among the strips."
WITH_KNOTS = "Our own definition: a knot that comes undone counts as the end of the cord with its knots."
DEPTH_NAMES = {"first": "Held, and broke on"}


def break_force(sums: CordSums, depth: str) -> Working:
    """The force held and the force broken on."""
    found = sums.break_bracket
    slipped = SLIPPED if sums.cord.outcome == "slipped" else None
    left_out = sums.cord.left_out
    return Working(
        code="break_force_N",
        name=DEPTH_NAMES.get(depth, "Breaking force"),
        said=force_bracket(found),
        formula=_force_formula(depth),
        numbers=_force_numbers(sums, found, "it broke on"),
        source=NELSON,
        own="",
        better=break_better(sums),
        notes=notes_of(
            found.why if found.low_n is not None else None,
            slipped,
            *load_notes(sums.cord),
            f"This cord is left out of the sums of its design: {left_out}" if left_out else None,
        ),
    )


def break_with_knots(sums: CordSums, depth: str) -> Working | None:
    """The same of the cord with its knots, where a knot came undone; None of any other cord."""
    if sums.cord.outcome != "slipped":
        return None
    found = sums.with_knots
    return Working(
        code="break_force_with_knots_N",
        name="Breaking force of the cord with its knots",
        said=force_bracket(found),
        formula=_force_formula(depth),
        numbers=_force_numbers(sums, found, "the knot came undone under"),
        source="",
        own=WITH_KNOTS,
        better=break_better(sums),
        notes=notes_of(found.why if found.low_n is not None else None, *load_notes(sums.cord)),
    )


def _force_formula(depth: str) -> str:
    if depth == "first":
        return "force = mass in kg × g; the cord breaks between the force it held and the force it broke on"
    return "F = m g; held < breaking force ≤ broke on"


def _force_numbers(sums: CordSums, found: Bracket, broke: str) -> str:
    told = [("it held", found.low_n), (broke, found.high_n)]
    return listed([f"{what} {_force(sums, force_n)}" for what, force_n in told if force_n])


def _force(sums: CordSums, force_n: float) -> str:
    g = sums.cord.gravity_m_per_s2
    mass = with_unit(trimmed(force_n / g, 4), "kg")
    return f"{mass} × {with_unit(trimmed(g, 5), 'N/kg')} = {in_sum(force_n, 'N')}"


def break_better(sums: CordSums) -> str:
    """What would tell the breaking force of this cord closer."""
    found, cord = sums.break_bracket, sums.cord
    if found.low_n is None or found.why is not None:
        return remedy(found.why, "Readings that count.")
    if found.high_n is None:
        return f"{STOPPED if cord.outcome == 'stopped' else ''}{after([cord.outcome])}"
    width_n = found.high_n - found.low_n
    step = amount(rounded(width_n, decimals_for(width_n, 2)), "N")
    knot = f" {AT_A_KNOT}" if cord.place in KNOT_PLACES else ""
    return f"Smaller steps near the break: the last one was {step}.{knot}"


def per_strand(sums: CordSums, depth: str) -> Working:
    """The breaking force for each strip."""
    cord, found = sums.cord, sums.load_per_strand_n
    return Working(
        code="break_force_per_strand_N",
        name="Breaking force for each strip",
        said=bracketed(found, depth),
        formula="breaking force ÷ number of strips" if depth == "first" else "F / n, n the strips",
        numbers="" if not cord.strands else _ends(sums, f" / {cord.strands}", found),
        source="",
        own=PER_STRIP,
        better=remedy(found.why, break_better(sums)),
        notes=(*beside(found), *load_notes(sums.cord)),
    )


def per_linear_density(sums: CordSums, depth: str) -> Working:
    """Newtons for each gram in a metre."""
    found = sums.load_per_linear_density
    plain = "breaking force ÷ grams in a metre of cord"
    return Working(
        code="break_force_per_linear_density",
        name="Newtons for each gram in a metre",
        said=bracketed(found, depth),
        formula=plain if depth == "first" else "F / μ, μ the mass of a metre",
        numbers=_over_density(sums, found),
        source="ISO 1144",
        own="",
        better=_density_better(sums, found),
        notes=(*beside(found), *load_notes(sums.cord)),
    )


def tenacity(sums: CordSums, depth: str) -> Working:
    """Tenacity as the textile trade says it."""
    found = sums.tenacity_cn_per_tex
    return Working(
        code="tenacity_cN_per_tex",
        name="Tenacity",
        said=bracketed(found, depth),
        formula="F / μ; 1 N for each g/m is 100 cN over 1000 tex, 0.1 cN/tex",
        numbers=_over_density(sums, found, " × 0.1"),
        source="ISO 1144",
        own="",
        better=_density_better(sums, found),
        notes=(*beside(found), *load_notes(sums.cord)),
    )


def breaking_length(sums: CordSums, depth: str) -> Working:
    """The length that would break under its own weight."""
    found = sums.breaking_length_km
    return Working(
        code="breaking_length_km",
        name="Breaking length",
        said=bracketed(found, depth),
        formula="L = F / (μ g), μ in g/m, L in km",
        numbers=_over_density(sums, found, f" / {with_unit(trimmed(sums.cord.gravity_m_per_s2, 5), 'm/s²')}"),
        source="Breaking length",
        own="",
        better=_density_better(sums, found),
        notes=(*beside(found), *load_notes(sums.cord)),
    )


def stress(sums: CordSums, depth: str) -> Working:
    """The stress at break of a single flat strip."""
    found, area = sums.stress_mpa, section_area(sums.cord)
    known = found.low is not None and area.value is not None
    return Working(
        code="stress_at_break_MPa",
        name="Stress at break",
        said=bracketed(found, depth),
        formula="σ = F / A, A = width × thickness (× layers) before any load",
        numbers=_ends(sums, f" / {in_sum(area.value or 0.0, 'mm2')}", found) if known else "",
        source="ISO 527-1",
        own="",
        better=remedy(found.why, _shared_better(sums, relative_u(area), "Weigh a larger piece of the film.")),
        notes=(*beside(found), *load_notes(sums.cord)),
    )


def _over_density(sums: CordSums, found: Result, then: str = "") -> str:
    density = linear_density(sums.cord)
    if density.value is None or found.low is None:
        return ""
    return _ends(sums, f" / {in_sum(density.value, 'g/m')}{then}", found) + _weighed(sums)


def _weighed(sums: CordSums) -> str:
    """Whose the mass of a metre is: of a piece that was weighed, or stated; and what it is taken to be good to."""
    mass_g, length_mm = sums.cord.cord_mass_g, sums.cord.cord_length_mm
    percent = with_unit(trimmed(LINEAR_DENSITY_HALF_WIDTH_PERCENT), "%")
    taken = f"taken to be good to {percent}"
    if not mass_g or not length_mm:
        return f"; the mass of a metre is the one stated for this cord, {taken}"
    length = with_unit(trimmed(length_mm / 1000, 4), "m")
    return f"; a metre, weighed: {with_unit(trimmed(mass_g, 3), 'g')} / {length}, {taken}"


def _ends(sums: CordSums, over: str, found: Result) -> str:
    """Both ends of the breaking force, each put through the same sum."""
    pairs = ((sums.break_bracket.low_n, found.low), (sums.break_bracket.high_n, found.high))
    parts = [
        f"{in_sum(force_n, 'N')}{over} = {in_sum(end, found.unit)}"
        for force_n, end in pairs
        if force_n is not None and end is not None
    ]
    return listed(parts)


def _density_better(sums: CordSums, found: Result) -> str:
    percent = with_unit(trimmed(LINEAR_DENSITY_HALF_WIDTH_PERCENT), "%")
    more = f"{WEIGH_CORD[:-1]} closer: the mass of a metre is taken to be good to {percent}."
    return remedy(found.why, _shared_better(sums, relative_u(linear_density(sums.cord)), more))


def _shared_better(sums: CordSums, doubt: float, more: str) -> str:
    """What betters the weaker of the two: the bracket of the force, or what it is divided by."""
    found = sums.break_bracket
    if found.low_n is None or found.high_n is None:
        return break_better(sums)
    width = (found.high_n - found.low_n) / math.sqrt(12) / ((found.high_n + found.low_n) / 2)
    return more if doubt > width else break_better(sums)
