"""What the planners say: what cords may hold, how far the ladder reaches, what the benches can show, strips."""

import math

from app.domain.quantities import shown, trimmed, with_unit
from app.services.class_power import RATIOS, ClassPower
from app.services.cutting import Cords
from app.services.expecting import FALL_MM, Expected, LadderPlan

_HOW = {
    "typed": "As typed here, the weakest cord may break at {low}, the strongest may hold up to {high}.",
    "here": "Cords of this lesson broke or held between {low} and {high}.",
    "earlier": "In the lesson that this plan comes from, cords broke or held between {low} and {high}.",
    "film": "By the sheet's strength, the strips, lay-up and knots, cords may break between {low} and {high}. "
    "That is an estimate only: it could be half or double. A pilot cord tells more.",
}
NOTHING_EXPECTED = (
    "Nothing says yet what the cords may hold. Break a pilot cord, tell the sheet's strength under Strips, or type it."
)
FEW_DESIGNS = "Few designs with many benches show most. If the strongest cord outlives the masses, most of it is lost."
WEIGH_THE_FILM = (
    "Thickness without a micrometer: type the density here (from memory: LDPE 910 to 930, PP 900 to 910, HDPE 940 to "
    "965 kg/m³). Then open the bench on the lead bench and add to its cord the mass and the area of a piece of the "
    "sheet; or the layers of a stack and its thickness. For that cord it counts before the thickness typed here."
)
_TAKE_UP = {"measured": "measured", "typed": "as planned", "assumed": "assumed"}


def expected_sentence(expected: Expected | None) -> str:
    """What cords may hold, and how that is known."""
    if expected is None:
        return NOTHING_EXPECTED
    low, high = (_newtons(force) for force in (expected.low_n, expected.high_n))
    return _HOW[expected.how].format(low=low, high=high)


def reach_sentences(plan: LadderPlan) -> list[str]:
    """How many readings come before the break; and what falls when everything hangs."""
    told = []
    if plan.reach is not None:
        low, high = (_newtons(force) for force in (plan.reach.low_n, plan.reach.high_n))
        told.append(
            f"{plan.reach.readings_before_low} readings, the zero counted, come before {low}, "
            f"{plan.reach.readings_before_high} before {high}."
        )
    if plan.fall_j is not None:
        energy, height = with_unit(trimmed(plan.fall_j), "J"), with_unit(shown(FALL_MM), "mm")
        told.append(
            f"When all of it falls, up to {_newtons(plan.fall_j / FALL_MM * 1000)}, each {height} over the tray adds "
            f"{energy}. The lower it hangs, the better."
        )
    return told


def reach_warnings(plan: LadderPlan) -> list[str]:
    """What is wrong with the ladder for the cords that are expected."""
    if plan.reach is None:
        return []
    told = []
    if plan.reach.too_few:
        told.append(
            "Under 8 readings before the weakest may break: no bend can be looked for. Begin with lighter ones."
        )
    if plan.reach.few:
        told.append("A bend can be looked for, but 10 to 12 readings before the weakest may break find it more often.")
    if plan.reach.may_outlive:
        told.append(
            f"On the bench that reaches least all of it pulls with {_newtons(plan.reach.top_n)}, less than one and a "
            f"half times {_newtons(plan.reach.high_n)}: the strongest may outlive it."
        )
    return told


def power_sentences(power: ClassPower) -> list[str]:
    """What the class's own sharing-out can show."""
    if len(power.benches) < 2:
        return ["Two designs need two benches each, at least, before anything can be said of a difference."]
    ours = said(power.benches)
    if power.benches == (2, 2):
        return [f"Yours: {ours} benches. Two against two can hint, never tell: luck parts them 1 time in 3."]
    if power.row is None:
        return [f"Yours: {ours} benches. A class like that was not tried; the table has those that were."]
    told = f"Yours: {ours} benches. A design {_times(RATIOS[-1])} as strong as all others would be found "
    told += f"{power.row.found[-1]} times in 100."
    ratio = power.row.smallest_ratio
    if ratio is None:
        return [told, "None of the ratios tried would be found 8 times in 10."]
    return [told, f"Of the ratios tried, it would be found 8 times in 10 or more from {_times(ratio)} as strong on."]


def said(benches: tuple[int, ...]) -> str:
    """Numbers of benches as people say them: "3, 2, 2 and 2"."""
    numbers = [str(count) for count in benches]
    return " and ".join([", ".join(numbers[:-1]), numbers[-1]] if len(numbers) > 1 else numbers)


def _times(ratio: float) -> str:
    return "twice" if ratio == 2 else f"{trimmed(ratio)} times"


def strip_sentence(cords: Cords) -> str:
    """How much strip a cord of the design needs, and how that is known."""
    if cords.strip_mm is None or cords.design.free_length_mm is None:
        return "Its free length is not planned yet."
    length = with_unit(trimmed(cords.design.free_length_mm, 0), "mm")
    strip = with_unit(shown(math.ceil(cords.strip_mm - 1e-6)), "mm")
    each = with_unit(trimmed(cords.take_up_factor), "mm")
    return f"{strip} for {length} of cord, {each} of strip for each mm ({_TAKE_UP[cords.take_up_how]})"


def cut_sentence(cords: Cords, way: int) -> str:
    """What the sheet gives for a design, of crosswise (0) or lengthwise (1) strips; blank while not known."""
    if cords.cuts is None:
        return ""
    cut = (cords.cuts.crosswise, cords.cuts.lengthwise)[way]
    if not cut.count:
        return "no strip fits"
    told = f"{_several(cut.count, 'strip')} of {_millimetres(cut.strip_mm)}"
    many = cords.lengths[way] if cords.lengths else 1
    if many > 1:
        told += f", {many} lengths of each"
    if cords.cords:
        told += f", for {_several(cords.cords[way], 'cord')}"
    whole_ones = "; left whole, each up to" if many > 1 else ", each up to"
    told += f"{whole_ones} {_millimetres(whole(cords.longest_mm[way]))}"
    if many == 0:
        told += f": shorter than the {_millimetres(cords.design.free_length_mm or 0.0)} planned"
    return told


def _several(count: int, what: str) -> str:
    return f"{count} {what}" + ("" if count == 1 else "s")


def _millimetres(length_mm: float) -> str:
    return with_unit(trimmed(length_mm, 1), "mm")


def all_designs_sentence(found: tuple[Cords, ...]) -> str:
    """How long a cord every design can reach, of crosswise and of lengthwise strips; blank while not known."""
    if not found or any(not cords.longest_mm for cords in found):
        return ""
    across, along = (with_unit(shown(whole(min(cords.longest_mm[way] for cords in found))), "mm") for way in (0, 1))
    return f"All designs can be {across} long between the knots of crosswise strips, {along} of lengthwise ones."


def whole(length_mm: float) -> int:
    """The whole millimetres of a length that may not be exceeded."""
    return math.floor(length_mm + 1e-6)


def _newtons(force_n: float) -> str:
    return with_unit(trimmed(force_n, 1), "N")
