"""What of a class picture is drawn as curves: which cords, which points, in which measures."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby

from app.figures.axis_steps import axis_end
from app.mechanics.classwork import ClassPicture, Point, SpecimenPicture

CURVE_PHASES = ("zero", "load")
"""Readings on the way up; the others are in the table."""

ALONG = {"extension": "Extension, mm", "strain": "Strain, %"}
UP = {
    "load": "Force, N",
    "load_per_strand": "Force for each strip, N",
    "load_per_linear_density": "Force for each g/m, N",
}
LACKING = {
    "strain": "length between the knots",
    "load_per_strand": "number of strips",
    "load_per_linear_density": "linear density",
}
"""What a cord lacks that can't be drawn in that measure."""

LEAST_ALONG = {"extension": 20.0, "strain": 5.0}
LEAST_UP = {"load": 5.0, "load_per_strand": 2.0, "load_per_linear_density": 2.0}
FAR_ALONG = {"extension": 600.0, "strain": 200.0}
FAR_TIMES = 3.0
"""A reading beyond the far mark and three times all nearer ones stands off the graph: it would squeeze the rest."""
ROOM_ALONG = 1.1
ROOM_UP = 1.02
ROOM_ARROW = 1.06
"""Room for a label after the last reading, for the cross on top of a bar, for the arrow of "more than"."""


@dataclass(frozen=True)
class Spot:
    """One point of a curve in the measures that are drawn."""

    point: Point
    x: float
    y: float


@dataclass(frozen=True, kw_only=True)
class Curve:
    """One cord as it is drawn: its line in sections, what stands beside the line, and where its end lies."""

    specimen: SpecimenPicture
    label: str
    lifted: bool
    sections: tuple[tuple[Spot, ...], ...]
    crosses: tuple[Spot, ...]
    low: float | None
    high: float | None
    share: float

    @property
    def spots(self) -> list[Spot]:
        """All points of its line, section after section."""
        return [spot for section in self.sections for spot in section]

    @property
    def end(self) -> Spot:
        """The last point of its line."""
        return self.spots[-1]

    @property
    def has_end_sign(self) -> bool:
        """Whether it ended, at a load that is known."""
        return self.specimen.ending is not None and self.low is not None


@dataclass(frozen=True, kw_only=True)
class Missing:
    """Cords that have readings and are not drawn, by why."""

    lacking: tuple[str, ...]
    left_out: tuple[str, ...]


def curves_of(picture: ClassPicture, x: str, y: str, *, lifted_bench: str | None) -> tuple[list[Curve], Missing]:
    """The cords that can be drawn, the lifted bench last, and the names of those that can't."""
    read = [specimen for specimen in picture.specimens if specimen.left_out is None and specimen.points]
    labels = _labels(read)
    curves, lacking = [], []
    for specimen in read:
        lifted = _same(specimen.bench, lifted_bench)
        curve = curve_of(specimen, x, y, label=labels[specimen.specimen_id], lifted=lifted)
        if curve is not None:
            curves.append(curve)
        elif _share(specimen, y) is None or (x == "strain" and specimen.free_length_mm is None):
            lacking.append(labels[specimen.specimen_id])
    left_out = tuple(specimen.name for specimen in picture.specimens if specimen.left_out is not None)
    curves.sort(key=lambda curve: curve.lifted)
    return curves, Missing(lacking=tuple(lacking), left_out=left_out)


def ends_needed(
    curves: Iterable[Curve], x: str, y: str, *, previous: tuple[float, float] | None
) -> tuple[float, float]:
    """The ends of both axes: round, never under those before."""
    along, up = [0.0], [0.0]
    for curve in curves:
        along += [spot.x for spot in curve.spots]
        up += [spot.y * ROOM_UP for spot in curve.spots]
        if curve.has_end_sign and curve.low is not None:
            up.append(curve.low * ROOM_ARROW if curve.high is None else curve.high * ROOM_UP)
    before_x, before_y = previous or (0.0, 0.0)
    return (
        axis_end(max(most_near(along, x) * ROOM_ALONG, before_x), least=LEAST_ALONG[x]),
        axis_end(max(*up, before_y), least=LEAST_UP[y]),
    )


def most_near(values: list[float], x: str) -> float:
    """The largest value along that doesn't stand far off from all nearer ones."""
    far = FAR_ALONG[x]
    most = max(value for value in values if value <= far)
    for value in sorted(value for value in values if value > far):
        if value > FAR_TIMES * most:
            break
        most = value
    return most


def _same(bench: str, other: str | None) -> bool:
    return other is not None and bench.casefold() == other.casefold()


def _labels(specimens: list[SpecimenPicture]) -> dict[str, str]:
    """What each line is called at its end: the bench word, with the cord's number where a bench has two."""
    lines = Counter(specimen.bench for specimen in specimens)
    return {
        specimen.specimen_id: (specimen.bench if lines[specimen.bench] == 1 else specimen.name)
        + (", pilot" if specimen.bench_kind == "pilot" else "")
        for specimen in specimens
    }


def _share(specimen: SpecimenPicture, y: str) -> float | None:
    """What a force is divided by; None when the cord lacks it."""
    if y == "load_per_strand":
        return specimen.strands or None
    if y == "load_per_linear_density":
        return specimen.linear_density_g_per_m or None
    return 1.0


def curve_of(
    specimen: SpecimenPicture, x: str, y: str, *, label: str | None = None, lifted: bool = False
) -> Curve | None:
    """One cord's curve in those measures; None when no reading of it can be drawn so."""
    share = _share(specimen, y)
    if share is None:
        return None
    line = _spots(specimen.counted, x, share)
    if not line:
        return None
    crosses = [point for point in specimen.points if not point.counts and point.state != "matched"]
    bracket = specimen.break_bracket
    return Curve(
        specimen=specimen,
        label=label or specimen.bench,
        lifted=lifted,
        sections=tuple(tuple(spots) for _, spots in groupby(line, key=lambda spot: spot.point.section)),
        crosses=tuple(_spots(crosses, x, share)),
        low=None if bracket.low_n is None else bracket.low_n / share,
        high=None if bracket.high_n is None else bracket.high_n / share,
        share=share,
    )


def _spots(points: Iterable[Point], x: str, share: float) -> list[Spot]:
    """The points on the way up that have both a place along and a place up."""
    found = []
    for point in points:
        along = point.extension_mm if x == "extension" else None if point.strain is None else point.strain * 100
        if point.reading.phase in CURVE_PHASES and along is not None and point.force_n is not None:
            found.append(Spot(point, along, point.force_n / share))
    return found
