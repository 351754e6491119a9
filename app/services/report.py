"""A readings file worked out, as a text that a teacher can read on a terminal or print."""

from collections.abc import Iterator, Sequence

from app.domain.quantities import trimmed, with_unit
from app.domain.tested import TestedCord
from app.domain.told import Note
from app.domain.vocabulary import DEPTHS, SCALE_WAYS
from app.mechanics.offset_yield import OFFSET_PERCENT
from app.services.analysing import Analysis, Progress
from app.services.report_class import agreement_told, designs_told, differences_told
from app.services.report_cords import cords_told
from app.services.report_layout import NESTED, heading, page, pairs, paragraph
from app.services.working import reaches
from app.transfer.reading_options import DEFAULT, FILE, OPTION, Setting

FROM = {OPTION: "as the option says", FILE: "from the file", DEFAULT: "by default"}
SETTINGS = (
    ("gravity_m_per_s2", "Gravity", "m/s²"),
    ("scale", "The scale's numbers grow", ""),
    ("scale_division_mm", "Division of the scale", "mm"),
    ("judgement_mm", "Judging and parallax, each way", "mm"),
)
USED_MOST = 4


def report(found: Analysis, name: str, progress: Progress | None = None) -> str:
    """Everything that a readings file tells, at the depth it was asked for; `name` is the file's.

    `progress` is told in words, now and then, how far it has come; of a file of a class's size nothing.
    """
    return page(_lines(found, name, progress))


def _lines(found: Analysis, name: str, progress: Progress | None) -> Iterator[str]:
    yield from _title(found, name)
    yield from heading("Settings")
    yield from pairs(_settings(found))
    if found.doubts:
        yield from heading("Doubts about the file")
        for doubt in found.doubts:
            yield from paragraph(f"- {doubt}", further=NESTED)
    yield from cords_told(found.sums.cords, found.depth, progress)
    yield from designs_told(found.sums, found.depth)
    yield from differences_told(found.sums, found.depth)
    yield from agreement_told(found.sums.designs, found.depth)
    yield from _look_again(found)
    yield ""
    yield from paragraph(_last_words(found))


def _title(found: Analysis, name: str) -> Iterator[str]:
    cords = found.file.cords
    counts = (
        _count(len(cords), "cord"),
        _count(sum(len(cord.rows) for cord in cords), "reading"),
        _count(len(found.sums.designs), "design"),
    )
    yield from paragraph(f"{name}: {', '.join(counts)}")
    yield from paragraph(f"Worked out at the {found.depth} depth ({DEPTHS[found.depth]})")


def _count(number: int, what: str) -> str:
    return f"{number:,} {what}{'' if number == 1 else 's'}"


def _settings(found: Analysis) -> Iterator[tuple[str, str]]:
    """What was used, and where it came from."""
    by_name = {setting.name: setting for setting in found.file.settings}
    for code, words, unit in SETTINGS:
        yield words, _used(by_name[code], unit)
    yield "Uncertainty of the masses", _masses(by_name["balance_division_g"], found.file.cords)
    if reaches(found.depth, "third"):
        offset = found.offset_strain_percent
        source = FROM[DEFAULT if offset == OFFSET_PERCENT else OPTION]
        yield "Offset of the offset yield", f"{with_unit(trimmed(offset, 6), '%')} of the free length, {source}"
    if found.file.unknown:
        yield "Columns kept, not read", ", ".join(found.file.unknown)


def _used(setting: Setting, unit: str) -> str:
    told = [f"{_value(value, unit)}, {FROM[source]}" for value, source in setting.used[:USED_MOST]]
    more = len(setting.used) - USED_MOST
    return "; ".join([*told, *([f"and {_count(more, 'other')}"] if more > 0 else [])])


def _value(value: float | str | None, unit: str) -> str:
    if isinstance(value, str) or value is None:
        return SCALE_WAYS.get(value or "", value or "")
    return with_unit(trimmed(value, 6), unit)


def _masses(division: Setting, cords: Sequence[TestedCord]) -> str:
    """By the balance that weighed them, else as the file states it of each reading."""
    if division.value is not None:
        return f"balance in steps of {_used(division, 'g')}"
    rows = [row for cord in cords for row in cord.rows if row.mass_g is not None]
    stated = sum(row.mass_u_g is not None for row in rows)
    if stated and stated < len(rows):
        return f"from the file, for {stated:,} of {_count(len(rows), 'reading')}"
    return FROM[FILE] if stated else "not stated"


def _look_again(found: Analysis) -> Iterator[str]:
    """The friendly doubts, cord by cord."""
    noted = [(cord, notes) for cord, notes in zip(found.file.cords, found.notes, strict=True) if notes]
    if noted:
        yield from heading("Look again")
    for cord, notes in noted:
        yield from paragraph(cord.specimen)
        yield from pairs(((note.about, _asked(note)) for note in notes), indent=NESTED)


def _asked(note: Note) -> str:
    likely = "" if note.likely_mm is None else with_unit(trimmed(note.likely_mm), "mm")
    return note.words if likely in note.words else f"{note.words} Likely: {likely}."


def _last_words(found: Analysis) -> str:
    notes = [len(each) for each in found.notes if each]
    if not notes:
        return "No look-again notes. Exit status 1 would mean some."
    told = f"{_count(sum(notes), 'look-again note')} in {_count(len(notes), 'cord')}"
    return f"{told}. Exit status 1 means look-again notes."
