"""What follows from a lesson sheet, in sentences for the teacher."""

from collections.abc import Sequence

from app.domain.quantities import FAST, shown, trimmed, with_unit
from app.domain.records import LessonRecord
from app.services.following import Beside, Following
from app.services.gravity import gravity_words

_COUNTS = ("No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten")


def compare_sentences(follows: Following) -> list[str]:
    """Which designs may be compared with which, and why not."""
    yardstick, *others = follows.designs or (Beside(letter="A", things=(), words="", benches=()),)
    if not others:
        return [f"Design {yardstick.letter} alone: it shows how far cords that are made alike differ. Add a design."]
    fair = [one.letter for one in others if len(one.things) == 1]
    told = []
    if fair:
        each = "it can" if len(fair) == 1 else "each can"
        verb = "changes" if len(fair) == 1 else "change"
        told.append(f"{_and(fair)} {verb} one thing of {yardstick.letter}, so {each} be compared with it.")
    told += _among_themselves(follows.comparable)
    told += [f"{one.letter}: {one.words}. It can't be said which of them did it." for one in others if one.words]
    told += [f"{one.letter} is made as {yardstick.letter} still." for one in others if not one.things]
    if any("strips" in one.things for one in others):
        told.append("A new strip count brings a new plait.")
    return told


def _among_themselves(alike: Sequence[Sequence[str]]) -> list[str]:
    """Which of the designs that change one thing may be compared with each other, where not all of them may."""
    if len(alike) < 2:
        return []
    several = [_and(letters) for letters in alike if len(letters) > 1]
    if not several:
        one_each = _and([letters[0] for letters in alike])
        return [f"{one_each} change different things: they can't be compared with each other."]
    return [
        f"Of these, {', or '.join(several)} change the same thing and can be compared with each other. "
        "In every other pair two things differ."
    ]


def bench_sentence(follows: Following) -> str:
    """How many benches make each design, and what that is good for."""
    none = [one.letter for one in follows.designs if not one.benches]
    if none:
        return f"No bench makes {_and(none)} yet. Share the benches out afresh."
    if follows.fewest == 1:
        return f"One bench alone makes {_and(follows.lone)}: one cord can't say how far alike cords differ."
    if follows.fewest == follows.most == 2:
        return "Two benches a design: enough to ask, not to settle."
    if follows.fewest == follows.most:
        return f"{_count(follows.fewest)} benches a design."
    return f"{_count(follows.fewest)} to {_count(follows.most).lower()} benches a design."


def ladder_sentences(lesson: LessonRecord, follows: Following) -> list[str]:
    """How long the ladder takes, what it weighs, how far it reaches."""
    minutes, seconds = divmod(follows.test_s, 60)
    time = with_unit(str(minutes), "min") + (f" {with_unit(str(seconds), 's')}" if seconds else "")
    told = [f"{follows.steps} steps at {follows.step_s}{FAST}s take {time}: the wait, and 25{FAST}s to hang and write."]
    if follows.tray_kg is None or follows.class_kg is None or follows.top_n is None:
        return [*told, "Some rungs have no mass yet: no total can be said."]
    told.append(
        f"{follows.steps} rungs reach up to {with_unit(trimmed(follows.top_n, 1), 'N')}. "
        f"{with_unit(shown(follows.tray_kg, 1), 'kg')} a bench, "
        f"{with_unit(shown(follows.class_kg, 0 if follows.class_kg >= 10 else 1), 'kg')} in all"
        + ("." if follows.settling_n is not None else f", the {_hanger(lesson)} not counted.")
    )
    if follows.not_weighed:
        told.append(_unweighed_sentence(lesson, ranges(follows.not_weighed)))
    return told


def _unweighed_sentence(lesson: LessonRecord, what: str) -> str:
    if lesson.over:
        return f"Not weighed: {what}. Their force goes by the label."
    return f"Not weighed yet: {what}. Until then the force goes by the label."


def settling_sentence(lesson: LessonRecord, follows: Following) -> str:
    """What the settling load is."""
    if follows.settling_n is None:
        return (
            f"The free length is measured with the {_hanger(lesson)} on: that is the settling load. "
            "It is not weighed yet, so it is not counted."
        )
    least, most = (shown(force, 2) for force in follows.settling_n)
    load = with_unit(least if least == most else f"{least} to {most}", "N")
    return f"The free length is measured with the {_hanger(lesson)} on: that is the settling load, {load}."


def gravity_sentence(lesson: LessonRecord) -> str:
    """With which g masses are turned into forces, and how to say another."""
    used = gravity_words(lesson.gravity_m_per_s2, lesson.gravity_from)
    return (
        f"Forces are counted with {used}. Standard gravity is 9.80665, schools use 9.81, 9.8 or 10; a latitude, "
        "southern ones with a minus, gives g at sea level there (WGS 84)."
    )


def scale_sentence(follows: Following) -> str:
    """What a reading is good to by the scale alone."""
    reading = with_unit(trimmed(follows.reading_mm, 1), "mm")
    extension = with_unit(trimmed(follows.extension_mm, 1), "mm")
    return f"By the scale alone a reading is good to ±{reading}, an extension to ±{extension}. Hands add to it."


def numbered(names: Sequence[str]) -> str:
    """Names and marks as people say them: "the bucket, numbers 1 to 18", "number 9"."""
    things = [f"the {name}" for name in names if not name.isdigit()]
    marks = [name for name in names if name.isdigit()]
    told = [f"number{'' if len(marks) == 1 else 's'} {ranges(marks)}"] if marks else []
    return ", ".join(things + told)


def ranges(names: Sequence[str]) -> str:
    """Names and marks in words, marks that follow one another as from and to: "bucket, 1 to 18"."""
    marks = [int(name) for name in names if name.isdigit()]
    runs: list[list[int]] = []
    for mark in marks:
        if runs and mark == runs[-1][-1] + 1:
            runs[-1].append(mark)
        else:
            runs.append([mark])
    told = [name for name in names if not name.isdigit()]
    told += [str(run[0]) if len(run) == 1 else f"{run[0]} to {run[-1]}" for run in runs]
    return ", ".join(told)


def _hanger(lesson: LessonRecord) -> str:
    return str(lesson.planning.get("hanger_name") or "hanger")


def _and(letters: Sequence[str]) -> str:
    return letters[0] if len(letters) == 1 else ", ".join(letters[:-1]) + " and " + letters[-1]


def _count(number: int) -> str:
    return _COUNTS[number] if number < len(_COUNTS) else str(number)
