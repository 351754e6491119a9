"""Which events and points are marked on a curve."""

from app.mechanics.classwork import Point

RINGED = ("knot_slipped", "pointer_moved", "strand_went", "support_moved", "necking_seen")
"""Events that are seen on a curve: a ring marks them."""


def is_moving(point: Point) -> bool:
    """Whether the bench said that the pointer was still moving at that reading."""
    return "still_moving" in (*point.events, *point.events_after)
