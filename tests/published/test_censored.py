"""Estimates from intervals and "more than" against published ones; `tests/reference/censored.json` and its tables."""

import math
from collections.abc import Iterable
from itertools import pairwise

import numpy as np
import pytest
from lifelines import LogNormalFitter, WeibullFitter
from scipy import optimize, stats

from app.mechanics.censored import Ends, Estimate, estimate
from app.mechanics.scatter_shape import NORMAL, SMALLEST_EXTREME, Shape
from app.mechanics.turnbull import shares
from tests.published.tables import columns, published, rows

PUBLISHED = published("censored.json")
NARROW = 1e-5
"""An exact value as an interval: so narrow that its width is of no account, so wide that it keeps its digits."""
NO_TOP = 1e9
INVENTED: Ends = ((16.0, 18.0), (20.0, 22.0), (22.0, None), (18.0, 20.0), (22.0, None), (17.0, 19.0), (20.0, 22.0))


def exactly(values: Iterable[float]) -> Ends:
    return tuple((value * (1 - NARROW), value * (1 + NARROW)) for value in values)


def fit(ends: Ends, shape: Shape) -> Estimate:
    found = estimate(ends, shape, top_n=NO_TOP)
    assert found is not None
    return found


def weibull(found: Estimate) -> tuple[float, float]:
    """Scale and shape, as books give them: the shape is 1/s, the scale the median over (ln 2) to the s."""
    return found.median_n / math.log(2) ** found.s_ln, 1 / found.s_ln


def without_width(found: Estimate, values: Iterable[float]) -> float:
    """The log-likelihood of exact values from that of narrow intervals about them."""
    return found.log_likelihood - math.fsum(math.log(2 * NARROW * value) for value in values)


def test_four_intervals_of_a_normal() -> None:
    """R package fitdistrplus, as kept in the tests of SciPy (test_continuous_fit_censored.py): mean 0.591999, sd
    0.2868042. Our values are logarithms: the four are turned into forces first."""
    given = PUBLISHED["normal_interval_small.csv"]
    left, right = columns("normal_interval_small.csv")
    found = fit(tuple((math.exp(low), math.exp(high)) for low, high in zip(left, right, strict=True)), NORMAL)
    assert math.log(found.median_n) == pytest.approx(given["mean"], abs=5e-7)
    assert found.s_ln == pytest.approx(given["sd"], abs=5e-8)


def cracking(times: Iterable[float]) -> Ends:
    counts = [int(row["count"]) for row in rows("nelson_part_cracking.csv")]
    looked = [0.0, *times, None]
    between = pairwise(looked)
    return tuple((low or 0.0, high) for (low, high), count in zip(between, counts, strict=True) for _ in range(count))


def test_parts_that_cracked_between_two_looks() -> None:
    """W. Nelson, Applied Life Data Analysis (1982), p. 415: Weibull scale 71.690 months, shape 1.4854 (fit from
    memory)."""
    given = PUBLISHED["nelson_part_cracking.csv"]["in_months"]
    months = [float(row["upper_months"]) for row in rows("nelson_part_cracking.csv") if row["upper_months"]]
    found = fit(cracking(months), SMALLEST_EXTREME)
    scale, shape = weibull(found)
    assert scale == pytest.approx(given["weibull_scale"], abs=5e-5)
    assert shape == pytest.approx(given["weibull_shape"], abs=5e-5)
    assert found.log_likelihood == pytest.approx(given["log_likelihood"], abs=5e-5)


def test_the_same_parts_in_days() -> None:
    """The same table in days, in the test output of the R package survival (r_sas.Rout.save): intercept 7.688, ln of
    the scale -0.3953, log-likelihood -309.6."""
    given = PUBLISHED["nelson_part_cracking.csv"]["in_days"]
    found = fit(cracking(given["times"]), SMALLEST_EXTREME)
    assert math.log(weibull(found)[0]) == pytest.approx(given["intercept"], abs=5e-4)
    assert math.log(found.s_ln) == pytest.approx(given["ln_scale"], abs=5e-5)
    assert found.log_likelihood == pytest.approx(given["log_likelihood"], abs=0.1)


def test_half_of_twenty_units_still_whole() -> None:
    """NIST/SEMATECH e-Handbook 8.4.1.3: Weibull scale 606.528 (computed 606.5275), shape 1.7208, ln L -75.135."""
    given = PUBLISHED["nist_weibull_type1.csv"]
    time_h, whole = columns("nist_weibull_type1.csv")
    failed = [time for time, censored in zip(time_h, whole, strict=True) if not censored]
    still: Ends = tuple((time, None) for time, censored in zip(time_h, whole, strict=True) if censored)
    found = fit((*exactly(failed), *still), SMALLEST_EXTREME)
    scale, shape = weibull(found)
    assert scale == pytest.approx(given["weibull_scale"], abs=6e-4)
    assert scale == pytest.approx(given["worked_out"]["weibull_scale"], abs=1e-4)
    assert shape == pytest.approx(given["weibull_shape"], abs=5e-5)
    assert without_width(found, failed) == pytest.approx(given["log_likelihood"], abs=5e-4)


@pytest.mark.parametrize(("voltage", "n"), [("26.0", 3), ("30.0", 11), ("34.0", 19), ("38.0", 8)])
def test_three_to_nineteen_values(voltage: str, n: int) -> None:
    """W. Nelson, Applied Life Data Analysis (1982), insulating fluid; fits as printed in the tests of the R package
    survival (r_sas.Rout.save)."""
    given = PUBLISHED["insulating_fluid.csv"][voltage]
    values = [float(row["time_min"]) for row in rows("insulating_fluid.csv") if row["voltage_kV"] == voltage]
    assert len(values) == n
    scale, shape = weibull(fit(exactly(values), SMALLEST_EXTREME))
    assert scale == pytest.approx(given["weibull_scale"], rel=1e-6)
    assert shape == pytest.approx(given["weibull_shape"], abs=5.1e-6)


@pytest.mark.parametrize(("treatment", "count"), [("Rad", 8), ("RadChem", 11)])
def test_a_spread_without_a_shape(treatment: str, count: int) -> None:
    """D. M. Finkelstein and R. A. Wolfe (1985); masses as printed by M. P. Fay and P. A. Shaw, J. Stat. Softw. 36(2)
    (2010), section 4.1, to four decimals."""
    given = [tuple(part) for part in PUBLISHED["breast_cosmesis.csv"][treatment]]
    table = [row for row in rows("breast_cosmesis.csv") if row["treatment"] == treatment]
    ends: Ends = tuple((float(row["left_months"]), float(row["right_months"] or "inf")) for row in table)
    found = shares(tuple((low, None if high == math.inf else high) for low, high in ends))
    assert len(given) == count
    assert [(part.low_n, part.high_n, round(part.share, 4)) for part in found] == given


def test_units_that_leave_at_different_times() -> None:
    """NIST/SEMATECH e-Handbook 8.2.1.5; product-limit figures worked out, 0.95 0.90 0.8471 0.7941 0.7374 0.6704."""
    time_h, failed = columns("nist_kaplan_meier.csv")
    ends = tuple(
        (time * (1 - NARROW), time) if fell else (time, None) for time, fell in zip(time_h, failed, strict=True)
    )
    still, found = 1.0, {}
    for part in shares(ends):
        still -= part.share
        if part.high_n is not None:
            found[f"{part.high_n:g}"] = round(still, 4)
    assert found == PUBLISHED["nist_kaplan_meier.csv"]["still_whole"]


def test_a_second_opinion_on_log_normal_forces() -> None:
    """lifelines' own fit of interval-censored log-normal values; invented brackets."""
    low, high = (np.array(side) for side in zip(*((low, high or math.inf) for low, high in INVENTED), strict=True))
    other = LogNormalFitter().fit_interval_censoring(low, high)
    found = fit(INVENTED, NORMAL)
    assert math.log(found.median_n) == pytest.approx(other.mu_, abs=1e-4)
    assert found.s_ln == pytest.approx(other.sigma_, rel=1e-3)
    assert found.log_likelihood == pytest.approx(other.log_likelihood_, abs=1e-6)


def test_a_second_opinion_on_weibull_forces() -> None:
    """lifelines' own fit of interval-censored Weibull values; invented brackets."""
    low, high = (np.array(side) for side in zip(*((low, high or math.inf) for low, high in INVENTED), strict=True))
    other = WeibullFitter().fit_interval_censoring(low, high)
    found = fit(INVENTED, SMALLEST_EXTREME)
    assert weibull(found) == pytest.approx((other.lambda_, other.rho_), rel=1e-3)
    assert found.log_likelihood == pytest.approx(other.log_likelihood_, abs=1e-6)


def test_a_third_opinion_on_both() -> None:
    """SciPy's CensoredData with norm.fit of ln and weibull_min.fit, its search made finer; invented brackets."""

    def fine(function, start, args=(), disp=0):  # type: ignore[no-untyped-def]
        return optimize.fmin(
            function, start, args=args, disp=disp, xtol=1e-10, ftol=1e-12, maxfun=10_000, maxiter=10_000
        )

    between = [(low, high) for low, high in INVENTED if high is not None]
    beyond = [low for low, high in INVENTED if high is None]
    logs = stats.CensoredData(interval=np.log(between), right=np.log(beyond))
    mean, sd = stats.norm.fit(logs, optimizer=fine)
    found = fit(INVENTED, NORMAL)
    assert (math.log(found.median_n), found.s_ln) == pytest.approx((mean, sd), rel=1e-6)
    shape, _, scale = stats.weibull_min.fit(
        stats.CensoredData(interval=np.array(between), right=np.array(beyond)), floc=0, optimizer=fine
    )
    assert weibull(fit(INVENTED, SMALLEST_EXTREME)) == pytest.approx((scale, shape), rel=1e-5)
