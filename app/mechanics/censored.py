"""Breaking forces of one design that are intervals or "more than", taken together."""

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Pooled:
    """Scatter that several designs share: standard deviation of ln of a bench's value, and its degrees of freedom."""

    s_ln: float
    dof: int
