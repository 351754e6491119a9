"""What the look-again notes say: what was seen, with its numbers, and a question that may be answered with yes."""

from collections.abc import Sequence

from app.domain.quantities import shown, trimmed, with_unit
from app.domain.told import Told
from app.domain.vocabulary import PHASES, SCALE_UNITS

OTHER_UNIT = {"mm": ("centimetres", -1), "cm": ("millimetres", 1)}
"""By the unit of a scale: the one typed in its place when a number is a tenth (-1) of what it should be, or tenfold."""


def number(mm: float, unit: str) -> str:
    """A length as the bench reads it, without its unit."""
    return trimmed(mm / SCALE_UNITS[unit])


def length(mm: float, unit: str) -> str:
    """A length as the bench reads it."""
    return with_unit(number(mm, unit), unit)


def newtons(force_n: float) -> str:
    """A force."""
    return with_unit(shown(force_n, 1), "N")


def moment(told: Told) -> str:
    """What a reading is of."""
    if told.phase == "zero":
        return "the zero"
    return f"step {told.step}" if told.phase == "load" else f"step {told.step}, {PHASES[told.phase]}"


def hung_last(told: Told) -> int:
    """The mark of what went on at the step."""
    return told.marks[-1] if told.marks else told.step


def listed(parts: Sequence[str]) -> str:
    """Two or more, with an `and` before the last."""
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def ten_times(before_mm: float, now_mm: float, likely_mm: float, *, unit: str) -> str:
    """Rows 1 and 2."""
    other, direction = OTHER_UNIT[unit]
    seen = f"Last time the pointer was at {length(before_mm, unit)}, now at {length(now_mm, unit)}."
    if (direction > 0) == (abs(now_mm) > abs(before_mm)):
        return f"{seen} Is {number(now_mm, unit)} in {other}? Then it is {length(likely_mm, unit)}."
    return f"{seen} Is it {length(likely_mm, unit)}? Look at the digits once more."


def swapped(before_mm: float, now_mm: float, likely_mm: float, *, unit: str) -> str:
    """Row 3."""
    return (
        f"{length(now_mm, unit)} after {length(before_mm, unit)} does not go with the steps before. "
        f"Is it {length(likely_mm, unit)}? Look again before the next mass."
    )


def went_back(before_mm: float, now_mm: float, *, unit: str) -> str:
    """Row 8."""
    return (
        f"The pointer went back, from {length(before_mm, unit)} to {length(now_mm, unit)}, with more on the cord. "
        "Did it fall or turn? Tap what happened."
    )


def wrong_end(mm: Sequence[float], *, unit: str, way: str) -> str:
    """Row 6."""
    seen, grow = ("smaller", "upwards") if way == "down" else ("larger", "downwards")
    numbers = ", ".join(number(each, unit) for each in mm)
    return f"The numbers get {seen}: {numbers}\u00a0{unit}. Do the numbers on your scale grow {grow}?"


def nothing_there(*, unit: str) -> str:
    """Row 25, for a pointer at 0."""
    return f"0\u00a0{unit} is the end of the scale. Did the cord break? Then tap “It ended” and tell how."


def no_stretch(before_mm: float, now: Told, *, unit: str, moved: bool) -> str:
    """Row 11."""
    seen = "Hardly any stretch this time" if moved else "No stretch this time"
    return (
        f"{seen}: {length(before_mm, unit)}, then {length(now.pointer_mm, unit)}. "
        f"Is mass {hung_last(now)} really hanging?"
    )


def third_time(now: Told, *, unit: str) -> str:
    """Row 11, for the same number three times."""
    return (
        f"{length(now.pointer_mm, unit)} for the third time. Is mass {hung_last(now)} really hanging, "
        "and can the pointer move?"
    )


def on_the_tray(now_mm: float, *, unit: str) -> str:
    """Row 20."""
    return f"It stopped stretching at {length(now_mm, unit)}. Are the masses touching the tray?"


def far_larger(move_mm: float, expected_mm: float, *, unit: str) -> str:
    """Row 9."""
    return f"{_jump(move_mm, expected_mm, unit)} Look at the knots and at the pointer: did one of them slip?"


def two_hung(move_mm: float, expected_mm: float, *, unit: str) -> str:
    """Row 10."""
    return f"{_jump(move_mm, expected_mm, unit)} Did two masses go on?"


def _jump(move_mm: float, expected_mm: float, unit: str) -> str:
    return f"A big step: {length(move_mm, unit)}, where the steps before make {_about(expected_mm, unit)}."


def _about(mm: float, unit: str) -> str:
    return "about " + with_unit(shown(mm / SCALE_UNITS[unit], 0 if unit == "mm" else 1), unit)


def skipped(first: int, last: int) -> str:
    """Row 10, for steps without a reading."""
    which = f"Step {first} has" if first == last else f"Steps {first} to {last} have"
    return f"{which} no reading. Is one still to type, or did two masses go on at once?"


def limp(move_mm: float, usual_mm: float, *, unit: str) -> str:
    """Row 18."""
    return (
        f"A lot of stretch for the first mass: {length(move_mm, unit)}, "
        f"where the next ones make {_about(usual_mm, unit)}. "
        "Was the cord hanging straight, with the hanger on, when you took the zero?"
    )


def too_soon(waited_s: float, wait_s: float) -> str:
    """Row 16."""
    return f"Only {trimmed(waited_s, 0)}\u00a0s of {trimmed(wait_s, 0)}\u00a0s. Wait for the clock, then read again."


def hung_twice(mark: int) -> str:
    """Row 12."""
    return f"Mass {mark} would hang twice. Look at the marks on the masses: which ones are hanging?"


def lighter(before_n: float, now_n: float) -> str:
    """Row 13."""
    return (
        f"The load got smaller, from {newtons(before_n)} to {newtons(now_n)}, while loading. "
        "Is that all that hangs, or only what was added?"
    )


def past_the_tray(extension_mm: float, drop_mm: float, *, unit: str) -> str:
    """Row 25."""
    return (
        f"The pointer is {length(extension_mm, unit)} from the zero, and the tray only {length(drop_mm, unit)} below. "
        "Did the cord break, or reach the tray? Then tap “It ended”."
    )


def after_the_break(broke_n: float, now_n: float) -> str:
    """Row 26."""
    return (
        f"The cord broke under {newtons(broke_n)}, and this reading is under {newtons(now_n)}. "
        "Which mass was on when it broke?"
    )


def late_zero() -> str:
    """Row 19."""
    return "The zero was typed after a reading with a mass on. Was it read with the hanger alone, before that mass?"


def equal_moves(first: int, last: int, move_mm: float, *, unit: str) -> str:
    """Row 22."""
    return f"Steps {first} to {last}: every move is exactly {length(move_mm, unit)}."


def hasty(first: Told, last: Told, seconds: float) -> str:
    """Row 22, for times."""
    return f"From {moment(first)} to {moment(last)}: all typed within {trimmed(seconds, 0)}\u00a0s."


def two_numbers(told: Sequence[Told], *, unit: str) -> str:
    """Row 23."""
    typed = listed([number(each.pointer_mm, unit) for each in told])
    return f"Two numbers for {moment(told[0])}: {typed}. Which one did you read?"


def in_centimetres(length_mm: float, planned_mm: float) -> str:
    """Row 27, for a length that is a tenth of the plan."""
    own = number(length_mm, "mm")
    return f"{own}\u00a0mm is a tenth of the {length(planned_mm, 'mm')} planned. Is it {own}\u00a0cm?"


def other_length(length_mm: float, planned_mm: float) -> str:
    """Row 27."""
    return (
        f"{length(length_mm, 'mm')} between the knots, and {length(planned_mm, 'mm')} was planned. "
        "Is that from knot to knot, without the knots?"
    )


def heavy(density: float, planned: float) -> str:
    """Row 28."""
    return (
        f"A metre of this cord would weigh {trimmed(density)}\u00a0g, and about {trimmed(planned)}\u00a0g was planned. "
        "Was only the cord on the balance?"
    )


def other_strands(weighs_like: int, planned: int) -> str:
    """Row 32."""
    return f"This cord weighs like {_strips(weighs_like)}, and the plan says {planned}. How many are in it?"


def _strips(count: int) -> str:
    return f"{count} strip" if count == 1 else f"{count} strips"


def drained(mass_g: float) -> str:
    """Row 12, for a balance mass that is the printed one of drained contents."""
    return (
        f"{trimmed(mass_g)}\u00a0g is what the label says of the drained contents. "
        "Did the balance say so, with all that hangs on it?"
    )
