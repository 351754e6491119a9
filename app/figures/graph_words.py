"""The line of words over a class graph: what it shows, and what it doesn't."""

from collections.abc import Sequence

from app.domain.quantities import shown, with_unit
from app.domain.vocabulary import ENDINGS, PLACES
from app.figures.graph_curves import LACKING, Curve, Missing
from app.mechanics.classwork import ClassPicture

NAMED_MOST = 3


def line_of_words(
    picture: ClassPicture,
    curves: Sequence[Curve],
    missing: Missing,
    *,
    x: str,
    y: str,
    lifted: str | None,
    unplaced: Sequence[str],
) -> dict[str, str]:
    """The line in two parts, `lead` (bold) and `rest`."""
    first = _one_bench(picture, curves, lifted) if lifted else _all_benches(curves, x, y)
    lacking = LACKING.get(y) or LACKING.get(x, "")
    more = (
        _named(f"Not drawn, no {lacking}", missing.lacking),
        _named("Left out", missing.left_out),
        _named("No room for the name of", unplaced),
        _how_weighed(picture) if curves else "",
    )
    return {"lead": first[0], "rest": " ".join(part for part in (first[1], *more) if part)}


def _how_weighed(picture: ClassPicture) -> str:
    """What the forces rest on where no balance gave them: it stands beside every graph of them."""
    said = (
        *(() if picture.weighed else ("loads by label",)),
        *(() if picture.hanger_counted else ("hanger not counted",)),
    )
    return f"{', '.join(said).capitalize()}." if said else ""


def _all_benches(curves: Sequence[Curve], x: str, y: str) -> tuple[str, str]:
    if not curves:
        return "Nothing to draw yet.", ""
    cords = "1 cord" if len(curves) == 1 else f"{len(curves)} cords"
    share = {"load_per_strand": " for each strip", "load_per_linear_density": " for each gram in a metre"}.get(y, "")
    return "All benches:", f"{cords}, force{share} against {x}."


def _one_bench(picture: ClassPicture, curves: Sequence[Curve], bench: str) -> tuple[str, str]:
    """What the bench's newest drawn cord held so far, or how it ended."""
    curve = next((curve for curve in reversed(curves) if curve.specimen.bench == bench), None)
    if curve is None:
        design = next(specimen.design for specimen in picture.specimens if specimen.bench == bench)
        return f"{bench}, design {design}:", "nothing to draw yet."
    return f"{curve.label}, design {curve.specimen.design}:", _so_far(curve)


def _so_far(curve: Curve) -> str:
    ending, bracket = curve.specimen.ending, curve.specimen.break_bracket
    last = curve.end.point
    if ending is None or bracket.low_n is None:
        held, longer = with_unit(shown(last.force_n or 0.0, 2), "N"), with_unit(shown(last.extension_mm or 0.0), "mm")
        told = f" It ended: {ENDINGS[ending.kind]}." if ending else ""
        return f"{held} so far, {longer} longer.{told}"
    held = f"held {with_unit(shown(bracket.low_n, 2), 'N')}"
    if bracket.high_n is None:
        return f"{held}; {ENDINGS[ending.kind]}."
    place = f", {PLACES[ending.place]}" if ending.place in PLACES else ""
    return f"{held}, broke on {with_unit(shown(bracket.high_n, 2), 'N')}{place}."


def _named(what: str, names: Sequence[str]) -> str:
    """A sentence with the first few names; nothing when there are none."""
    if not names:
        return ""
    more = f" and {len(names) - NAMED_MOST} more" if len(names) > NAMED_MOST else ""
    return f"{what}: {', '.join(names[:NAMED_MOST])}{more}."
