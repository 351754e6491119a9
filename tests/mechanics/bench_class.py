"""Bench values for tests of comparing: brackets, values that are exact, and the invented demonstration class."""

from app.mechanics.comparison import BenchValue


def broke(low: float, high: float, group: str = "Alder") -> BenchValue:
    """A cord that held `low` and broke under `high`."""
    return BenchValue(group=group, value=(low + high) / 2, low=low, high=high)


def held(low: float, group: str = "Alder") -> BenchValue:
    """A cord that was not broken."""
    return BenchValue(group=group, value=low, low=low, high=None, at_least=True)


def exact(*values: float) -> list[BenchValue]:
    """Values without bracket or uncertainty, each of another group."""
    return [BenchValue(group=f"group {place}", value=value, low=None, high=None) for place, value in enumerate(values)]


INVENTED = {
    "R": [broke(26.36, 28.36, "Alder"), broke(24.54, 26.52, "Hazel")],
    "P2": [broke(18.84, 20.81, "Birch"), broke(16.51, 18.52, "Cedar")],
    "P4": [held(32.39, "Maple"), broke(30.35, 32.31, "Rowan")],
    "X3": [broke(16.58, 18.51, "Willow"), broke(16.73, 18.65, "Elder")],
    "D3": [broke(18.58, 20.53, "Larch"), broke(18.53, 20.53, "Juniper")],
}
"""Breaking forces in newtons of the demonstration lesson; all names and figures are made up."""
