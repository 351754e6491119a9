"""What would make a figure better: for each reason why there is none, the deed that would bring it."""

from collections.abc import Iterable

from app.mechanics import (
    agreement,
    bend,
    breaking,
    chosen,
    design_break,
    efficiency,
    extension,
    material,
    offset_yield,
    recovery,
    returns,
    slack,
    stiffness,
    straight,
    strength,
    unweighed,
    work,
)

SMALLER_STEPS = "Smaller steps: eight readings or more before it breaks."
TAKE_BACK = "Take the masses off once while it holds, wait, and read the pointer back at the hanger."
JOIN = "Pull the knots tight before the zero; when the pointer moves, read it before and after under the same load."
WEIGH_CORD = "Weigh a piece of the cord and measure its length."
MEASURE_FREE = "Measure from knot to knot under the hanger."
STEP_OFF = "Take the masses off one by one down to the hanger, and wait and read each time."
MORE_STRETCH = "A softer or longer cord, or a ladder planned higher, with the teacher."
MORE_GROUPS = "More groups that make this design."
ZERO = "Read the zero with the hanger alone."
TELL_END = "Tell how the test ended."
FAIL_MASS = "Tell which mass was on, or going on, when it broke."
KNOTS_THAT_HOLD = "Knots that hold: see how they are tied and set."
PLANNED_TO_END = (
    "Next time plan room, time and masses so that a test can end by itself; never past the planned top load."
)
PLANNED_HIGHER = "A ladder planned higher, with the teacher, would tell more."
TO_BREAK_ALL = f"{KNOTS_THAT_HOLD} {PLANNED_HIGHER}"
ROUND_A_BAR = f"Ends wound round a smooth bar. {PLANNED_HIGHER}"
LATER_STEP = "Take it back from a later step of the ladder"

_AFTER = {"slipped": KNOTS_THAT_HOLD, "stopped": PLANNED_TO_END, "held": PLANNED_HIGHER}
"""By how a cord ended that did not break. No group is ever asked to hang more on its own account."""

_REMEDIES = {
    straight.NEEDS_FOUR: SMALLER_STEPS,
    straight.ONE_FORCE: SMALLER_STEPS,
    bend.TOO_FEW_FOR_BEND: SMALLER_STEPS,
    bend.CANT_TELL: "More and smaller steps, or a finer scale.",
    unweighed.NOT_WEIGHED: "Weigh every mass.",
    chosen.TOO_FEW: "Choose steps with three readings or more between them.",
    chosen.ACROSS_A_GAP: "Choose both steps on one side of the gap.",
    chosen.ONE_LOAD: "Choose steps of different load.",
    stiffness.NO_STRETCH: MORE_STRETCH,
    stiffness.NOT_READ_THERE: SMALLER_STEPS,
    stiffness.ONE_LOAD: SMALLER_STEPS,
    stiffness.NO_ZERO_THERE: JOIN,
    slack.NO_ZERO_THERE: JOIN,
    offset_yield.NOT_REACHED: "A ladder planned higher, with the teacher, or a lesson that states a smaller offset.",
    offset_yield.NO_FREE_LENGTH: MEASURE_FREE,
    material.NO_FREE_LENGTH: MEASURE_FREE,
    material.NO_LINEAR_DENSITY: WEIGH_CORD,
    material.NO_LENGTHS: "Measure a strip before plaiting and the cord made of it.",
    material.LONGER_THAN_STRIPS: "Measure both lengths once more.",
    material.NO_STRANDS: "Count the strips.",
    material.NO_WIDTH: "Measure the width of a strip at three places.",
    material.NO_THICKNESS: "Weigh a piece of the film of known area.",
    strength.NO_SECTION_OF_A_PLAIT: "Test a single flat strip.",
    recovery.NO_RETURN: TAKE_BACK,
    recovery.TOO_LITTLE: f"{LATER_STEP}.",
    recovery.ALL_BACK: f"{LATER_STEP} too.",
    recovery.NONE_BACK: "Take it back from an earlier step of the ladder too.",
    returns.OVER_A_GAP: JOIN,
    work.GAP: JOIN,
    work.ONE_READING: ZERO,
    work.NO_UNLOADING: STEP_OFF,
    work.OPEN_LOOP: STEP_OFF,
    work.NO_FAILING_LOAD: FAIL_MASS,
    work.NOT_HEAVIER: FAIL_MASS,
    work.NO_LAST_SLOPE: SMALLER_STEPS,
    extension.NO_ZERO: ZERO,
    extension.NO_ZERO_COUNTS: "Say which zero counts.",
    breaking.NOTHING_READ: "Readings that count.",
    breaking.NO_END_COUNTS: TELL_END,
    breaking.FAIL_UNKNOWN: FAIL_MASS,
    breaking.NOT_HEAVIER: FAIL_MASS,
    breaking.NO_BRACKET: MORE_GROUPS,
    design_break.ONE_BENCH: MORE_GROUPS,
    design_break.TWO_BENCHES: MORE_GROUPS,
    design_break.NOWHERE: f"Smaller steps. {MORE_GROUPS}",
    design_break.FEWER_THAN_8: MORE_GROUPS,
    efficiency.NO_VALUE: "A breaking force of both designs.",
    efficiency.NOTHING_HELD: "Smaller steps at the start.",
    efficiency.ONE_BENCH: MORE_GROUPS,
    efficiency.NO_SCATTER: MORE_GROUPS,
    efficiency.BOTH_OPEN: TO_BREAK_ALL,
    efficiency.AT_LEAST: ROUND_A_BAR,
    efficiency.AT_MOST: ROUND_A_BAR,
    agreement.FEW_GROUPS: "Three groups or more that each make two cords of this design.",
    agreement.NO_SCATTER: "Smaller steps, so that two cords don't always break on the same one.",
}


def remedy(why: str | None, otherwise: str) -> str:
    """What would bring a figure that can't be had; `otherwise` where there is no such reason."""
    return _REMEDIES.get(why or "", otherwise)


def after(outcomes: Iterable[str | None]) -> str:
    """What would tell more of cords that did not break, by how they ended."""
    ended = set(outcomes)
    return " ".join(said for outcome, said in _AFTER.items() if outcome in ended)
