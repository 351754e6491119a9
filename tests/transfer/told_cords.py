"""Tested cords of any kind for properties, and the file that the class CSV makes of them."""

from collections.abc import Iterable
from dataclasses import fields
from typing import Any

from hypothesis import strategies as st

from app.domain import limits
from app.domain.tested import STATE_WORDS, Row, TestedCord, row_order
from app.domain.vocabulary import BENCH_KINDS, EVENTS, OUTCOMES, PHASES, PLACES, SCALE_WAYS
from app.transfer.csv_write import write_rows

SIGNS = st.sampled_from("'=+-@,;\"\n a1") | st.characters(exclude_categories=["Cs", "Cc"])
NAMES = st.text(SIGNS, min_size=1, max_size=9).map(str.strip).filter(bool)
REASONS = st.text(SIGNS | st.sampled_from("\t\r\x07\x85"), min_size=1, max_size=9).filter(
    lambda said: bool(said.strip())
)
MASS_G = st.floats(0, limits.TOTAL_MASS_G)
LENGTH_MM = st.floats(*limits.GAUGE_LENGTH_MM)
SIZE = st.floats(0, limits.MEASURE_MOST)
STEP = st.integers(*limits.STEP)


def or_none(values: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | values


@st.composite
def rows_of_one_cord(draw: st.DrawFn) -> tuple[Row, ...]:
    """Rows in the order of the test; of those that count no two are of one moment."""
    moments = st.tuples(STEP, st.sampled_from(list(PHASES)), st.integers(*limits.TURN))
    fitting = moments.filter(lambda one: one[1] not in ("zero", "load") or (one[1] == "zero") == (one[0] == 0))
    told, seen = [], set()
    for moment in draw(st.lists(fitting, min_size=1, max_size=6)):
        out = st.sampled_from(STATE_WORDS) | REASONS
        left_out = draw(out if moment in seen else or_none(out))
        seen |= {moment} if left_out is None else set()
        told.append(draw(a_row(moment, left_out)))
    return tuple(sorted(told, key=row_order))


def a_row(moment: tuple[int, str, int], left_out: str | None) -> st.SearchStrategy[Row]:
    step, phase, turn = moment
    codes = st.lists(st.sampled_from(list(EVENTS)), max_size=2).map(tuple)
    return st.builds(
        Row,
        step=st.just(step),
        phase=st.just(phase),
        turn=st.just(turn),
        left_out=st.just(left_out),
        pointer_mm=st.floats(*limits.POINTER_MM),
        mass_g=or_none(MASS_G),
        mass_u_g=or_none(MASS_G),
        events=codes,
        events_after=codes,
        waited_s=or_none(st.floats(*limits.WAIT_S)),
    )


CORDS = st.builds(
    TestedCord,
    specimen=NAMES,
    rows=rows_of_one_cord(),
    design=NAMES | st.just(""),
    group=NAMES | st.just(""),
    repeat=st.integers(1, limits.SPECIMENS_MOST),
    bench_kind=st.sampled_from(BENCH_KINDS),
    gravity_m_per_s2=st.floats(*limits.GRAVITY),
    scale=st.sampled_from(list(SCALE_WAYS)),
    scale_division_mm=st.floats(*limits.DIVISION_MM),
    judgement_mm=st.floats(*limits.JUDGEMENT_MM),
    gauge_length_mm=or_none(LENGTH_MM),
    strands=or_none(st.integers(1, 100)),
    layers=or_none(st.integers(1, 1_000)),
    strip_width_mm=or_none(SIZE),
    strip_length_mm=or_none(SIZE),
    film_thickness_um=or_none(SIZE),
    cord_mass_g=or_none(st.floats(*limits.QUANTITY_LIMITS["cord_mass_g"])),
    cord_length_mm=or_none(LENGTH_MM),
    linear_density_g_per_m=SIZE,
    level=or_none(st.floats(-1e6, 1e6)),
    outcome=or_none(st.sampled_from(sorted(set(OUTCOMES.values())))),
    fail_mass_g=or_none(MASS_G),
    place=or_none(st.sampled_from(list(PLACES))),
    straight_first_step=or_none(STEP),
    straight_last_step=or_none(STEP),
)
CLASSES = st.lists(CORDS, max_size=3, unique_by=lambda cord: cord.specimen)


def rows_of(cord: TestedCord) -> list[dict[str, object]]:
    """The cord as rows by column name."""
    said = {each.name: getattr(cord, each.name) for each in fields(TestedCord) if each.name != "rows"}
    return [{**said, **{each.name: getattr(row, each.name) for each in fields(Row)}} for row in cord.rows]


def csv_of(cords: Iterable[TestedCord]) -> str:
    """The class CSV of these cords."""
    return write_rows(row for cord in cords for row in rows_of(cord))
