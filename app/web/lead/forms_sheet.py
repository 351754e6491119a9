"""The form of the lesson sheet, filled from a sheet and read back into one."""

from typing import Any

from werkzeug.datastructures import MultiDict
from wtforms import Form, FormField, HiddenField, RadioField
from wtforms.fields.choices import SelectChoice  # type: ignore[attr-defined]  # newer than the type stubs
from wtforms.fields.list import FieldList

from app.domain import vocabulary
from app.domain.limits import (
    BENCHES_MOST,
    DESIGNS_MOST,
    DIVISION_MM,
    GAUGE_LENGTH_MM,
    GRAVITY,
    LATITUDE_DEG,
    ONE_MASS_G,
    QUANTITY_LIMITS,
    RUNGS_MOST,
    WAIT_S,
)
from app.domain.quantities import plain
from app.domain.records import LessonRecord
from app.domain.two_stage import TwoStage
from app.services.sheet import LESSON_BLANKS, DesignLine, Sheet, sheet_of
from app.web.fields import ChoiceField, IdField, NumberField, WordsField
from app.web.lead.forms import DayField
from app.web.lead.forms_lesson import TITLE_NEEDED

_DEPTHS = [SelectChoice(code, f"{code.capitalize()}, {ages}") for code, ages in vocabulary.DEPTHS.items()]


class DesignForm(Form):
    """One row of designs."""

    letter = IdField()
    strands = NumberField("Strips", bounds=QUANTITY_LIMITS["strands"], whole=True)
    lay_up = ChoiceField("Lay-up", pairs=list(vocabulary.LAY_UPS.items()), needed=False)
    direction = ChoiceField("Cut", pairs=list(vocabulary.DIRECTIONS.items()), needed=False)
    level = WordsField("Level", most=40)


class KeptForm(Form):
    """One thing that stays the same."""

    name = WordsField("Something else", most=60)
    value_words = WordsField("is", most=60)


class SheetForm(Form):
    """The whole lesson sheet, its blanks named as the API names them."""

    title = WordsField("Title", most=120, needed=TITLE_NEEDED)
    planned_on = DayField("Day")
    year_band = WordsField("Year band", most=20)
    question = WordsField("The question of the lesson", most=300)
    changed = WordsField("What is changed", most=60)
    changed_unit = WordsField("Unit of the level", most=12)
    designs = FieldList(FormField(DesignForm), max_entries=DESIGNS_MOST)
    strip_width_mm = NumberField("Strip width, mm", bounds=QUANTITY_LIMITS["strip_width_mm"], unit="mm")
    free_length_mm = NumberField("Free length, mm", bounds=GAUGE_LENGTH_MM, unit="mm")
    kept = FieldList(FormField(KeptForm), max_entries=40)
    wait_s = NumberField("Wait before reading, s", bounds=WAIT_S, unit="s", needed=True, whole=True)
    hanger_name = WordsField("Hanger", most=40)
    gravity_m_per_s2 = NumberField("g, N/kg", bounds=GRAVITY, unit="N/kg")
    latitude_deg = NumberField("or by latitude, °", bounds=LATITUDE_DEG, unit="°")
    rung_word = WordsField("What each rung is called", most=40)
    first_count = NumberField("How many at first", bounds=(1, RUNGS_MOST), whole=True)
    first_mass_g = NumberField("Mass of each at first", bounds=ONE_MASS_G, unit="g")
    then_count = NumberField("How many then", bounds=(0, RUNGS_MOST), whole=True)
    then_mass_g = NumberField("Mass of each then", bounds=ONE_MASS_G, unit="g")
    scale_unit = ChoiceField("Unit of the scale", pairs=[(one, one) for one in vocabulary.SCALE_UNITS], needed=False)
    scale_division_mm = NumberField("Smallest division", bounds=DIVISION_MM, unit="mm", needed=True)
    scale_way = ChoiceField("Which way its numbers grow", pairs=list(vocabulary.SCALE_WAYS.items()), needed=False)
    depth = RadioField("Depth", choices=_DEPTHS)
    bench_count = NumberField("How many benches", bounds=(1, BENCHES_MOST), needed=True, whole=True)
    laddered = HiddenField()

    def validate(self, extra_validators: Any = None) -> bool:
        """Whether every blank can be kept; a ladder said in a sentence must be said whole."""
        fine = super().validate(extra_validators)
        if self.laddered.data:
            fine = self._ladder_said() and fine
        return fine

    def _ladder_said(self) -> bool:
        wanted: list[Any] = [self.rung_word, self.first_count, self.first_mass_g]
        if (self.then_count.number or 0) > 0:
            wanted.append(self.then_mass_g)
        blank = [one for one in wanted if not one.errors and not (one.data or "").strip()]
        for one in blank:
            one.errors = [*one.errors, "The ladder needs this."]
        total = (self.first_count.number or 0) + (self.then_count.number or 0)
        if total > RUNGS_MOST:
            self.first_count.errors = [*self.first_count.errors, f"That makes {total:g}: at most {RUNGS_MOST} rungs."]
        return not blank and total <= RUNGS_MOST


def filled(lesson: LessonRecord) -> SheetForm:
    """The form with what the lesson's sheet says."""
    sheet = sheet_of(lesson)
    columns = dict(sheet.lesson)
    day = columns.pop("planned_on")
    said: dict[str, Any] = {name: _text(value) for name, value in columns.items()}
    said |= {
        "planned_on": day.isoformat() if day else "",
        "changed": sheet.changed,
        "changed_unit": sheet.changed_unit,
        "designs": [_row(line) for line in sheet.designs],
        "strip_width_mm": _text(sheet.strip_width_mm),
        "free_length_mm": _text(sheet.free_length_mm),
        "kept": [*({"name": name, "value_words": words} for name, words in sheet.kept), {}],
        "latitude_deg": _text(sheet.latitude_deg),
        "hanger_name": sheet.hanger_name,
        "scale_unit": sheet.scale_unit or "",
        "scale_way": sheet.scale_way or "",
        "bench_count": str(sheet.bench_count),
        "laddered": "yes" if sheet.ladder else "",
    }
    return SheetForm(data=said | _ladder_texts(sheet.ladder))


def _text(value: Any) -> str:
    if value is None:
        return ""
    return plain(value) if isinstance(value, int | float) else str(value)


def _row(line: DesignLine) -> dict[str, str]:
    return {
        "letter": line.letter,
        "strands": _text(line.strands),
        "lay_up": line.lay_up or "",
        "direction": line.direction or "",
        "level": line.level,
    }


def _ladder_texts(ladder: TwoStage | None) -> dict[str, str]:
    if ladder is None:
        return {}
    return {
        "rung_word": ladder.rung_word,
        "first_count": str(ladder.first_count),
        "first_mass_g": plain(ladder.first_mass_g),
        "then_count": str(ladder.then_count),
        "then_mass_g": _text(ladder.then_mass_g),
    }


def typed(sent: "MultiDict[str, str]") -> SheetForm:
    """The form with what was typed into it."""
    return SheetForm(sent)


def said(form: Any) -> Sheet:
    """What a valid form says."""
    columns = {name: _value(form[name]) for name in LESSON_BLANKS}
    columns["year_band"] = columns["year_band"] or None
    return Sheet(
        lesson=columns,
        latitude_deg=form.latitude_deg.number,
        hanger_name=_value(form.hanger_name),
        changed=_value(form.changed),
        changed_unit=_value(form.changed_unit),
        designs=[_line(row) for row in form.designs],
        strip_width_mm=form.strip_width_mm.number,
        free_length_mm=form.free_length_mm.number,
        kept=[(_value(row["name"]), _value(row["value_words"])) for row in form.kept],
        ladder=_ladder(form) if form.laddered.data else None,
        scale_unit=form.scale_unit.data or None,
        scale_way=form.scale_way.data or None,
        bench_count=form.bench_count.number,
    )


def _value(field: Any) -> Any:
    if isinstance(field, NumberField):
        return field.number
    if isinstance(field, DayField):
        return field.day
    return (field.data or "").strip()


def _line(row: Any) -> DesignLine:
    return DesignLine(
        letter=row["letter"].data or "",
        strands=None if row["strands"].number is None else int(row["strands"].number),
        lay_up=row["lay_up"].data or None,
        direction=row["direction"].data or None,
        level=(row["level"].data or "").strip(),
    )


def _ladder(form: Any) -> TwoStage:
    then_count = int(form.then_count.number or 0)
    return TwoStage(
        rung_word=_value(form.rung_word),
        first_count=int(form.first_count.number),
        first_mass_g=form.first_mass_g.number,
        then_count=then_count,
        then_mass_g=form.then_mass_g.number if then_count else None,
    )
