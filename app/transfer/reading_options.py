"""What a readings file may leave unsaid: options that were given, the file's own columns, defaults, in that order."""

from collections.abc import Mapping
from dataclasses import dataclass

from app.domain import limits
from app.domain.errors import fault
from app.domain.limits import within
from app.domain.quantities import STANDARD_GRAVITY_M_PER_S2
from app.domain.vocabulary import SCALE_WAYS

OPTION, FILE, DEFAULT = "option", "file", "default"

DEFAULTS: Mapping[str, float | str | None] = {
    "gravity_m_per_s2": STANDARD_GRAVITY_M_PER_S2,
    "scale_division_mm": 1.0,
    "judgement_mm": 0.5,
    "scale": "down",
    "balance_division_g": None,
}
"""What holds where neither an option nor the file says anything; no balance division: the masses' own column counts."""


@dataclass(frozen=True, kw_only=True)
class ReadingOptions:
    """What was said beside the file; None where nothing was."""

    gravity_m_per_s2: float | None = None
    scale_division_mm: float | None = None
    judgement_mm: float | None = None
    scale: str | None = None
    balance_division_g: float | None = None

    def __post_init__(self) -> None:
        """What was given lies within its limits; InvalidEntry when it does not."""
        for name, bounds, unit in _BOUNDS:
            value = getattr(self, name)
            if value is not None:
                within(name, value, bounds, unit)
        if self.scale is not None and self.scale not in SCALE_WAYS:
            raise fault("scale", f"Choose one of {', '.join(SCALE_WAYS)}.")


_BOUNDS = (
    ("gravity_m_per_s2", limits.GRAVITY, "m/s2"),
    ("scale_division_mm", limits.DIVISION_MM, "mm"),
    ("judgement_mm", limits.JUDGEMENT_MM, "mm"),
    ("balance_division_g", limits.BALANCE_DIVISION_G, "g"),
)


@dataclass(frozen=True, kw_only=True)
class Setting:
    """One setting with every value that was used and where it came from: option, file or default.

    `used` has one pair where all cords share a value, more where they differ, in order of first appearance.
    """

    name: str
    used: tuple[tuple[float | str | None, str], ...]

    @property
    def value(self) -> float | str | None:
        """The value that all cords share; None where they differ."""
        return self.used[0][0] if len(self.used) == 1 else None


def settings_of(said: Mapping[str, object], options: ReadingOptions) -> dict[str, tuple[float | str | None, str]]:
    """By name, the value of each setting for one cord, and where it came from; `said` is what the file says of it."""
    found: dict[str, tuple[float | str | None, str]] = {}
    for name, default in DEFAULTS.items():
        given, in_file = getattr(options, name), said.get(name)
        if given is not None:
            found[name] = given, OPTION
        elif isinstance(in_file, float | str):
            found[name] = in_file, FILE
        else:
            found[name] = default, DEFAULT
    return found
