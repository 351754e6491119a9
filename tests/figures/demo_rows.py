"""The invented class of the demonstration, clean rows, as a class picture made by hand; all of it is made up."""

from datetime import UTC, datetime

from app.domain.records import Ending, Reading
from app.domain.tested import Row
from app.mechanics.class_sums import class_sums, no_cords
from app.mechanics.classwork import Bracket, ClassPicture, CurveEvent, DesignPicture, Point, SpecimenPicture
from app.mechanics.cord_sums import cord_sums
from tests.mechanics.told import a_cord, a_row

AT = datetime(2026, 3, 12, 9, 40, tzinfo=UTC)
DESIGNS = {
    "A": ("3 plaited, along", 3, 1.479),
    "B": ("2 twisted, along", 2, 0.884),
    "C": ("4 flat plait, along", 4, 2.074),
    "D": ("3 plaited, across", 3, 1.479),
    "E": ("3 plaited, 45°", 3, 1.479),
}
ROWS = """
Alder|A|300|0.84 1.81 2.82 3.82 4.78 6.81 8.74 10.70 12.71 14.68 16.62 18.55 20.55 22.46 24.40 26.36 28.36|\
218 222 224 227 229 234 238 242 248 253 259 265 274 285 300 316
Hazel|A|298|0.84 1.81 2.82 3.84 4.83 6.85 8.82 10.80 12.76 14.69 16.64 18.61 20.62 22.56 24.54 26.52|\
224 227 231 232 235 242 244 252 257 265 273 282 296 310 335
Birch|B|300|1.10 2.08 3.09 4.06 5.07 7.07 9.04 10.96 12.95 14.94 16.87 18.84 20.81|\
223 226 230 233 235 241 248 257 264 274 288 307
Cedar|B|298|0.84 1.84 2.78 3.75 4.74 6.72 8.66 10.65 12.63 14.56 16.51 18.52|230 235 240 242 246 253 278 288 301 315 341
Maple|C|298|0.84 1.82 2.84 3.80 4.80 6.78 8.78 10.71 12.63 14.63 16.63 18.62 20.62 22.54 24.48 26.47 28.42 30.40 32.39|\
218 223 223 227 228 233 235 237 241 243 247 252 254 260 266 270 277 285 292
Rowan|C|296|0.84 1.81 2.83 3.83 4.79 6.69 8.71 10.67 12.58 14.56 16.54 18.49 20.46 22.44 24.38 26.35 28.39 30.35 32.31|\
237 241 244 245 248 253 256 260 263 270 274 280 287 296 303 314 330 350
Willow|D|298|0.84 1.81 2.78 3.76 4.76 6.68 8.65 10.58 12.59 14.62 16.58 18.51|\
235 240 244 250 253 261 273 284 299 319 347
Elder|D|296|0.84 1.82 2.80 3.82 4.81 6.80 8.83 10.79 12.77 14.75 16.73 18.65|183 189 194 200 205 217 231 248 267 296 342
Larch|E|305|0.84 1.80 2.80 4.66 5.66 6.64 8.66 10.63 12.62 14.55 16.63 18.58 20.53|\
235 240 249 256 262 268 280 294 311 331 361 405
Juniper|E|298|0.84 1.80 2.78 3.78 4.77 6.77 8.76 10.77 12.68 14.63 16.57 18.53 20.53|\
202 208 214 218 223 233 244 258 273 289 314 348
"""
"""Bench, design, length between the knots, forces with the last one that it broke on, pointer readings in mm."""
EVENTS = {"Cedar": ("knot_slipped", 6), "Rowan": ("strand_went", 16)}
SLIP_FROM = {"Cedar": 6}


def a_point(step: int, force_n: float, extension_mm: float, **more: object) -> Point:
    """A reading that counts, unless `more` says otherwise."""
    reading = Reading(
        entry_id=f"reading-{step}",
        n=step,
        by="bench",
        received_at=AT,
        specimen_id="specimen",
        step=step,
        phase="load" if step else "zero",
        turn=1,
        pointer_typed="200",
        pointer_unit="mm",
        pointer_mm=200.0,
    )
    facts: dict[str, object] = {
        "reading": reading, "state": "stands", "left_out": None, "counts": True, "waited_s": 20.0,
        "mass_g": 100.0, "mass_u_g": 1.0,
        "force_n": force_n, "force_u_n": 0.01, "load_why": None, "extension_mm": extension_mm, "extension_u_mm": 0.7,
        "extension_why": None, "strain": extension_mm / 300, "section": 0, "marks_hung": (), "events": (),
        "taken_at": AT, "events_after": (), "s_since_zero": 60.0 * step, "first_typed": "200", "reason": None,
    }  # fmt: skip
    return Point(**(facts | more))  # type: ignore[arg-type]


def _row(point: Point) -> Row:
    return a_row(point.reading.step, point.reading.pointer_mm, phase=point.reading.phase, mass_g=point.mass_g)


def an_ending(kind: str, place: str | None = "at_knot") -> Ending:
    return Ending(entry_id="ending", n=99, by="bench", received_at=AT, specimen_id="specimen", kind=kind, place=place)


def a_specimen(bench: str, design: str, points: tuple[Point, ...], **more: object) -> SpecimenPicture:
    """A cord that has not ended, unless `more` says otherwise."""
    _, strands, density = DESIGNS.get(design, ("", 3, 1.5))
    facts: dict[str, object] = {
        "specimen_id": f"id-{bench}", "name": f"{bench}-1", "bench_id": f"bench-{bench}", "bench": bench,
        "bench_kind": "class", "design": design, "specimen_no": 1, "left_out": None, "free_length_mm": 300.0,
        "strands": strands, "strip_width_mm": 25.0, "linear_density_g_per_m": density, "points": points, "events": (),
        "ending": None, "ending_state": "none", "outcome": None, "fail_mass_g": None,
        "break_bracket": Bracket(low_n=None, high_n=None), "tested": a_cord(*map(_row, points)),
        "sums": cord_sums(a_cord(*map(_row, points))),
    }  # fmt: skip
    return SpecimenPicture(**(facts | more))  # type: ignore[arg-type]


def a_picture(specimens: tuple[SpecimenPicture, ...]) -> ClassPicture:
    letters = sorted({specimen.design for specimen in specimens})
    designs = tuple(
        DesignPicture(
            letter=letter, name=DESIGNS.get(letter, (f"design {letter}",))[0], is_yardstick=letter == "A", specimens=1,
            groups=1, unbroken=0, brackets=(), median=Bracket(low_n=None, high_n=None), sums=no_cords(letter),
        )
        for letter in letters
    )  # fmt: skip
    return ClassPicture(
        lesson_id="lesson", head=1, title="Invented", gravity_m_per_s2=9.81, gravity_from=None, weighed=True,
        hanger_counted=True, specimens=specimens, designs=designs, sums=class_sums([one.tested for one in specimens]),
    )  # fmt: skip


def _from_row(row: str) -> SpecimenPicture:
    bench, design, length, forces_text, readings_text = row.split("|")
    forces = [float(force) for force in forces_text.split()]
    readings = [float(reading) for reading in readings_text.split()]
    slip = SLIP_FROM.get(bench, 99)
    points = tuple(
        a_point(step, forces[step], reading - readings[0], section=int(step >= slip))
        for step, reading in enumerate(readings)
    )
    broke = len(forces) > len(readings)
    events: tuple[CurveEvent, ...] = ()
    if bench in EVENTS:
        kind, step = EVENTS[bench]
        at = points[step]
        events = (
            CurveEvent(
                kind=kind, step=step, after_reading=False, force_n=at.force_n, extension_mm=at.extension_mm, at=AT
            ),
        )
    return a_specimen(
        bench,
        design,
        points,
        free_length_mm=float(length),
        events=events,
        ending=an_ending("broke_adding") if broke else an_ending("did_not_break", None),
        break_bracket=Bracket(low_n=forces[len(readings) - 1], high_n=forces[-1] if broke else None),
    )


def demo_class() -> ClassPicture:
    """The ten finished benches."""
    return a_picture(tuple(_from_row(row) for row in ROWS.strip().splitlines()))
