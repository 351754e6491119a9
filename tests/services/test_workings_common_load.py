"""How far cords were stretched at the load that all of them were read at."""

import math

from app.mechanics.bench_values import BenchValue
from app.mechanics.comparison import compare
from app.services.workings_common_load import AT_COMMON_LOAD, common_stretch
from tests.services.workings_told import holds


def value(group: str, mm: float) -> BenchValue:
    return BenchValue(group=group, value=mm, low=mm - 1, high=mm + 1)


def test_the_mean_of_the_groups_with_each_of_them() -> None:
    comparison = compare(AT_COMMON_LOAD, {"A": [value("Alder", 20.0), value("Birch", 45.0)], "B": []})
    found = common_stretch(comparison, "A", 6.72, name="A (3 plaited)")
    assert found is not None
    assert math.isclose(math.sqrt(20 * 45), 30)
    assert found.said.replace("\u00a0", " ") == "30 mm"
    assert found.numbers.replace("\u00a0", " ") == "20, 45 mm: mean 30 mm"
    assert found.name.replace("\u00a0", " ") == "How much longer A (3 plaited) was under 6.72 N"
    holds((found,))


def test_no_common_load_or_no_cord_has_none() -> None:
    comparison = compare(AT_COMMON_LOAD, {"A": [value("Alder", 20.0)], "B": []})
    assert common_stretch(comparison, "B", 6.72, name="B") is None
    assert common_stretch(comparison, "A", None, name="A") is None
