"""What would make a figure better: for each reason why there is none, the deed that would bring it."""

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
MORE_STRETCH = "More load, as long as it holds."
MORE_GROUPS = "More groups that make this design."
ZERO = "Read the zero with the hanger alone."
TELL_END = "Tell how the test ended."
FAIL_MASS = "Tell which mass was on, or going on, when it broke."

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
    offset_yield.NOT_REACHED: "Heavier masses, or a lesson that states a smaller offset.",
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
    recovery.TOO_LITTLE: "Take it back from a heavier step.",
    recovery.ALL_BACK: "Take it back from a heavier step too.",
    recovery.NONE_BACK: "Take it back from a lighter step too.",
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
    design_break.FEW_BROKEN: "Masses that go on until the cords break.",
    design_break.NOWHERE: "Smaller steps, and masses that go on until the cords break.",
    design_break.FEWER_THAN_8: MORE_GROUPS,
    efficiency.NO_VALUE: "A breaking force of both designs.",
    efficiency.NOTHING_HELD: "Smaller steps at the start.",
    efficiency.ONE_BENCH: MORE_GROUPS,
    efficiency.NO_SCATTER: MORE_GROUPS,
    efficiency.BOTH_OPEN: "Masses that go on until the cords break.",
    efficiency.AT_LEAST: "Ends wound round a smooth bar, and masses that go on until it breaks.",
    efficiency.AT_MOST: "Ends wound round a smooth bar, and masses that go on until it breaks.",
    agreement.FEW_GROUPS: "Three groups or more that each make two cords of this design.",
    agreement.NO_SCATTER: "Smaller steps, so that two cords don't always break on the same one.",
}


def remedy(why: str | None, otherwise: str) -> str:
    """What would bring a figure that can't be had; `otherwise` where there is no such reason."""
    return _REMEDIES.get(why or "", otherwise)
