"""What must be said beside every force of a cord: masses that nobody weighed, a hanger that is not counted."""

import math

from app.domain.tested import TestedCord
from app.mechanics.unweighed import SURE_WITHIN
from app.services.figure_words import amount, decimals_for, rounded

NO_HANGER = "Nothing is counted for the hanger."
NOT_WEIGHED = "The masses were not weighed: each force may be off by some {}."


def load_notes(cord: TestedCord) -> tuple[str, ...]:
    """The sentences that stand beside the cord's forces; none where every mass was weighed, the hanger too."""
    hanger = any(row.phase == "zero" and row.mass_g == 0 for row in cord.rows)
    return (*_unweighed(cord), *([NO_HANGER] if hanger else []))


def _unweighed(cord: TestedCord) -> tuple[str, ...]:
    """How far each load may be off, at most all of it, from the load known best to the one known least."""
    off = [
        min(math.sqrt(3) * row.mass_u_g / row.mass_g, 1.0)
        for row in cord.rows
        if row.phase == "load" and row.mass_g and row.mass_u_g is not None and cord.usable(row)
    ]
    if max(off, default=0.0) <= SURE_WITHIN * (1 + 1e-9):
        return ()
    least, most = (rounded(100 * one, decimals_for(100 * one, 2)) for one in (min(off), max(off)))
    return (NOT_WEIGHED.format(amount(most if least == most else f"{least} to {most}", "%")),)
