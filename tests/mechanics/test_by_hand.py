"""Three cords of the invented lesson worked out by hand: from the masses and readings as typed, with plain arithmetic.

Alder's knots held all the way and it was taken back twice; Hazel's pointer fell off and was put back; Cedar's knot
slipped. Nothing of the product's sums is used here but their results, which the hand's are compared with. The typed
numbers stand here again, as the benches' sheets have them; all of them are made up.
"""

import math
from collections.abc import Sequence
from functools import lru_cache

import pytest

from app.mechanics.classwork import class_picture
from app.mechanics.cord_sums import CordSums
from app.services.workings import cord_workings
from tests.mechanics.demo_class import demo_class

G = 9.81
BUCKET_G = 86.0
T_975_12 = 2.1788
"""Student's t for 12 degrees of freedom, from a printed table."""

ALDER_G = [99, 102, 102, 98, 207, 197, 200, 205, 200, 198, 197, 204, 194, 198, 200, 204]
ALDER_MM = [218, 222, 224, 227, 229, 234, 238, 242, 248, 253, 259, 265, 274, 285, 300, 316]
HAZEL_G = [98, 103, 104, 101, 206, 201, 202, 200, 196, 199, 201, 205, 198, 202, 201]
HAZEL_MM = [224, 227, 231, 232, 235, 242, 244, 252]
HAZEL_AGAIN_MM = 238
HAZEL_LATER_MM = [243, 251, 259, 268, 282, 296, 321]
CEDAR_G = [102, 95, 99, 101, 202, 198, 203, 201, 197, 199, 205]
CEDAR_MM = [230, 235, 240, 242, 246, 253]
CEDAR_SLIPPED_MM = [278, 288, 301, 315, 341]
"""Masses of the rungs in the order in which they were hung, and the pointer, zero first."""


@lru_cache
def page(bench: str) -> CordSums:
    """What the pages show of that bench's cord."""
    found = class_picture(demo_class()).sums.cord(f"{bench}-1")
    assert found is not None
    return found


def said(bench: str, code: str) -> str:
    found = next(one for one in cord_workings(page(bench), "second") if one.code == code)
    return found.said.replace("\u00a0", " ")


def forces_n(rungs_g: Sequence[float]) -> list[float]:
    """The bucket alone, then one rung more at each step: total mass in kilograms times g."""
    total_g = BUCKET_G
    found = [total_g / 1000 * G]
    for rung_g in rungs_g:
        total_g += rung_g
        found.append(total_g / 1000 * G)
    return found


def trapezia_j(force: Sequence[float], pointer: Sequence[float]) -> float:
    """Each step: the mean of two forces times the way between the two readings, in newton millimetres."""
    newton_mm = 0.0
    for step in range(1, len(pointer)):
        newton_mm += (force[step - 1] + force[step]) / 2 * (pointer[step] - pointer[step - 1])
    return newton_mm / 1000


def plain_line(force: Sequence[float], pointer: Sequence[float]) -> tuple[float, float]:
    """Intercept and slope of the straight line of least squares, by the sums of the schoolbook."""
    n = len(force)
    sum_f, sum_x = sum(force), sum(pointer)
    sum_ff = sum(f * f for f in force)
    sum_fx = sum(f * x for f, x in zip(force, pointer, strict=True))
    slope = (n * sum_fx - sum_f * sum_x) / (n * sum_ff - sum_f * sum_f)
    return (sum_x - slope * sum_f) / n, slope


def bent_line(force: Sequence[float], pointer: Sequence[float], bend_n: float) -> tuple[float, float, float]:
    """Line and bend x = a + c F + b ((F - bend)+)^2, by the three normal equations, one unknown after the other."""
    beyond = [max(f - bend_n, 0.0) ** 2 for f in force]
    columns = [[1.0] * len(force), list(force), beyond]
    rows = [
        [sum(p * q for p, q in zip(one, other, strict=True)) for other in columns]
        + [sum(p * x for p, x in zip(one, pointer, strict=True))]
        for one in columns
    ]
    for pivot in range(3):
        for row in range(pivot + 1, 3):
            share = rows[row][pivot] / rows[pivot][pivot]
            rows[row] = [low - share * high for low, high in zip(rows[row], rows[pivot], strict=True)]
    b = rows[2][3] / rows[2][2]
    c = (rows[1][3] - rows[1][2] * b) / rows[1][1]
    a = (rows[0][3] - rows[0][1] * c - rows[0][2] * b) / rows[0][0]
    return a, c, b


def scatter_mm(residuals: Sequence[float], parameters: int) -> float:
    return math.sqrt(sum(one * one for one in residuals) / (len(residuals) - parameters))


def residuals_mm(
    force: Sequence[float], pointer: Sequence[float], found: tuple[float, float, float], bend_n: float
) -> list[float]:
    a, c, b = found
    return [x - a - c * f - b * max(f - bend_n, 0.0) ** 2 for f, x in zip(force, pointer, strict=True)]


def test_alder_forces_and_extensions() -> None:
    force = forces_n(ALDER_G)
    assert force[0] == pytest.approx(0.84366)
    assert force[4] == pytest.approx((86 + 99 + 102 + 102 + 98) * 9.81 / 1000)
    loads = [one for one in page("Alder").readings if one.extension_mm is not None]
    seen = dict(zip(page("Alder").cord.rows, loads, strict=True))
    for step, pointer in enumerate(ALDER_MM):
        row = next(row for row in seen if row.step == step and row.phase in ("zero", "load"))
        assert seen[row].force_n == pytest.approx(force[step])
        assert seen[row].extension_mm == pytest.approx(pointer - 218)
        assert seen[row].strain == pytest.approx((pointer - 218) / 300)


def test_alder_breaking_force_and_what_is_read_off_it() -> None:
    force = forces_n(ALDER_G)
    held, broke = force[15], force[16]
    assert held == pytest.approx(2687 * 9.81 / 1000)
    assert broke == pytest.approx(2891 * 9.81 / 1000)
    sums = page("Alder")
    assert (sums.break_bracket.low_n, sums.break_bracket.high_n) == pytest.approx((held, broke))
    middle = (held + broke) / 2
    assert sums.load_per_strand_n.value == pytest.approx(middle / 3)
    assert sums.load_per_linear_density.value == pytest.approx(middle / 1.479)
    assert sums.tenacity_cn_per_tex.low == pytest.approx(held * 100 / (1.479 * 1000))
    assert sums.tenacity_cn_per_tex.value == pytest.approx(middle * 100 / (1.479 * 1000))
    assert sums.breaking_length_km.value == pytest.approx(middle / (1.479 / 1000 * 9.81) / 1000)
    assert said("Alder", "break_force_N") == f"between {held:.1f} and {broke:.1f} N"


def test_alder_what_stayed_and_what_came_back() -> None:
    light, heavy = page("Alder").returns
    assert (light.set_mm.value, heavy.set_mm.value) == (220 - 218, 231 - 218)
    assert light.recovery.value == pytest.approx((229 - 220) / (229 - 218))
    assert heavy.recovery.value == pytest.approx((259 - 231) / (259 - 218))
    assert heavy.force_n == pytest.approx(forces_n(ALDER_G)[10])


def test_alder_straight_part_and_the_scatter_about_it() -> None:
    force, straight = forces_n(ALDER_G)[:16], page("Alder").straight
    assert (straight.shape, straight.bend, straight.readings) == ("bent", "gradually", 16)
    bend_n = straight.bend_at_n
    assert bend_n is not None
    assert force[9] < bend_n < force[10]
    a, c, b = found = bent_line(force, ALDER_MM, bend_n)
    assert straight.line is not None
    assert straight.line.slope_mm_per_n == pytest.approx(c)
    assert straight.line.intercept_mm == pytest.approx(a)
    assert straight.stiffness_n_per_mm.value == pytest.approx(1 / c)
    assert page("Alder").slack_mm.value == pytest.approx(a + c * force[0] - 218)
    u = scatter_mm(residuals_mm(force, ALDER_MM, found, bend_n), parameters=4)
    assert straight.scatter.u_mm == pytest.approx(u)
    assert b > 0
    half = T_975_12 * math.sqrt(2) * u
    stayed = page("Alder").permanent_set_mm
    assert (stayed.low, stayed.high) == pytest.approx((13 - half, 13 + half), rel=1e-4)


def test_alder_work() -> None:
    force = forces_n(ALDER_G)
    work = trapezia_j(force[:16], ALDER_MM)
    assert work == pytest.approx(1.6355, abs=5e-5)
    assert page("Alder").work_j.value == pytest.approx(work)
    last = (316 - 300) / (force[15] - force[14])
    failing = force[16] * last * (force[16] - force[15]) / 1000
    assert page("Alder").failing_work_j.value == pytest.approx(failing)


def test_hazel_pointer_put_back() -> None:
    force = forces_n(HAZEL_G)
    offset = HAZEL_MM[7] - HAZEL_AGAIN_MM
    assert offset == 14
    pointer = HAZEL_MM + [later + offset for later in HAZEL_LATER_MM]
    assert pointer[-1] == 335
    sums = page("Hazel")
    assert [point.stretched_mm for point in sums.curve] == pointer
    assert [point.force_n for point in sums.curve] == pytest.approx(force[:15])
    assert sums.curve[-1].extension_mm == 335 - 224
    assert said("Hazel", "extension_mm").startswith("111 ")
    last = next(worked for row, worked in zip(sums.cord.rows, sums.readings, strict=True) if row.step == 14)
    assert last.strain == pytest.approx(111 / 298)


def test_hazel_figures() -> None:
    force, sums = forces_n(HAZEL_G), page("Hazel")
    pointer = HAZEL_MM + [later + 14 for later in HAZEL_LATER_MM]
    held, broke = force[14], force[15]
    assert (sums.break_bracket.low_n, sums.break_bracket.high_n) == pytest.approx((held, broke))
    middle = (held + broke) / 2
    assert sums.load_per_strand_n.value == pytest.approx(middle / 3)
    assert sums.tenacity_cn_per_tex.value == pytest.approx(middle / 1.479 / 10)
    assert sums.breaking_length_km.value == pytest.approx(middle / 1.479 / 9.81)
    assert sums.work_j.value == pytest.approx(trapezia_j(force[:15], pointer))
    assert sums.returns == ()
    bend_n = sums.straight.bend_at_n
    assert bend_n is not None
    assert sums.straight.bend == "gradually"
    a, c, _ = found = bent_line(force[:15], pointer, bend_n)
    assert sums.straight.stiffness_n_per_mm.value == pytest.approx(1 / c)
    assert sums.straight.zero_force_mm.value == pytest.approx(a)
    u = scatter_mm(residuals_mm(force[:15], pointer, found, bend_n), parameters=4)
    assert sums.straight.scatter.u_mm == pytest.approx(u)
    assert sums.secant_n_per_mm.value == pytest.approx((force[14] - force[0]) / 111)


def test_cedar_slipped_so_only_the_first_six_readings_make_its_line() -> None:
    force, sums = forces_n(CEDAR_G), page("Cedar")
    assert (sums.straight.shape, sums.straight.readings) == ("straight", 6)
    a, c = plain_line(force[:6], CEDAR_MM)
    assert sums.straight.line is not None
    assert (sums.straight.line.intercept_mm, sums.straight.line.slope_mm_per_n) == pytest.approx((a, c))
    assert sums.straight.stiffness_n_per_mm.value == pytest.approx(1 / c)
    residuals = [x - a - c * f for f, x in zip(force, CEDAR_MM, strict=False)]
    assert sums.straight.residuals_mm == pytest.approx(residuals)
    assert sums.straight.scatter.u_mm == pytest.approx(scatter_mm(residuals, parameters=2))
    assert (sums.straight.from_n, sums.straight.to_n) == pytest.approx((force[0], force[5]))
    assert sums.secant_n_per_mm.value == pytest.approx((force[5] - force[0]) / (253 - 230))


def test_cedar_slip_is_in_its_extension_and_no_work_is_counted_across_it() -> None:
    force, sums = forces_n(CEDAR_G), page("Cedar")
    later = [point for point in sums.loaded if point.section == 2]
    assert [point.extension_mm for point in later] == [mm - 230 for mm in CEDAR_SLIPPED_MM]
    assert [point.force_n for point in later] == pytest.approx(force[6:11])
    assert sums.work_j.value is None
    assert (sums.break_bracket.low_n, sums.break_bracket.high_n) == pytest.approx((force[10], force[11]))
    middle = (force[10] + force[11]) / 2
    assert sums.load_per_strand_n.value == pytest.approx(middle / 2)
    assert sums.load_per_linear_density.value == pytest.approx(middle / 0.884)
    assert sums.tenacity_cn_per_tex.value == pytest.approx(middle / 0.884 / 10)
    assert sums.breaking_length_km.value == pytest.approx(middle / 0.884 / 9.81)


def test_alder_and_hazel_together_are_design_a() -> None:
    alder, hazel = forces_n(ALDER_G), forces_n(HAZEL_G)
    design = class_picture(demo_class()).sums.design("A")
    assert design is not None
    assert design.breaking.median.low_n == pytest.approx((hazel[14] + alder[15]) / 2)
    assert design.breaking.median.high_n == pytest.approx((hazel[15] + alder[16]) / 2)
    middles = [(alder[15] + alder[16]) / 2, (hazel[14] + hazel[15]) / 2]
    assert design.breaking.typical_break_force_n.value == pytest.approx(math.sqrt(middles[0] * middles[1]))
    assert design.breaking.spread_holds == 1 - 2 / 2**2
