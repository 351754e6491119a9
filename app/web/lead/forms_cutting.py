"""The form of the sheet that cords are cut from."""

from typing import Any

from wtforms import Form

from app.domain.quantities import plain
from app.domain.records import LessonRecord
from app.services.cutting import KNOT, TAKE_UP, sheet_of_cords
from app.web.fields import ChoiceField, NumberField, WordsField

SIZE_MM = (1.0, 100_000.0)
KNOT_MM = (0.0, 10_000.0)
DENSITY_KG_M3 = (1.0, 30_000.0)
STRENGTH_MPA = (0.01, 10_000.0)
FORMS = [("sheet", "a flat sheet"), ("tube", "a flat tube, as a bag is")]
SEAMS = [("none", "no seam"), ("bottom", "a seam at the bottom"), ("sides", "seams at both sides")]
NUMBERS = (
    "flat_width_mm", "height_mm", "gusset_mm", "thickness_um", "density_kg_m3", "strength_low_mpa", "strength_high_mpa"
)  # fmt: skip


class CuttingForm(Form):
    """What the sheet is, and what a cord takes of it; blanks named as the API names them."""

    name = WordsField("Sheet", most=60)
    form = ChoiceField("It is", pairs=FORMS)
    flat_width_mm = NumberField("Width, lying flat, mm", bounds=SIZE_MM, unit="mm")
    height_mm = NumberField("Height that can be used, mm", bounds=SIZE_MM, unit="mm")
    gusset_mm = NumberField("Depth of the fold at each side, mm", bounds=(0.0, 10_000.0), unit="mm")
    seams = ChoiceField("Seams", pairs=SEAMS)
    thickness_um = NumberField("Thickness, µm", bounds=(0.1, 100_000.0), unit="µm")
    density_kg_m3 = NumberField("Density of the material, kg/m³", bounds=DENSITY_KG_M3, unit="kg/m³")
    strength_low_mpa = NumberField(
        "Strength at least, N/mm²", bounds=STRENGTH_MPA, unit="N/mm²", name="strength_low_MPa"
    )
    strength_high_mpa = NumberField(
        "Strength at most, N/mm²", bounds=STRENGTH_MPA, unit="N/mm²", name="strength_high_MPa"
    )
    strength_source = WordsField("Who says so", most=120)
    take_up_factor = NumberField("Strip for each mm of cord", bounds=(1.0, 5.0))
    knot_strip_mm = NumberField("Strip for a knot and its tail, mm", bounds=KNOT_MM, unit="mm")

    def validate(self, extra_validators: Any = None) -> bool:
        """Whether every blank can be kept, and the strength's ends are in order."""
        fine = super().validate(extra_validators)
        low, high = self.strength_low_mpa, self.strength_high_mpa
        if fine and low.number is not None and high.number is not None and low.number > high.number:
            high.errors = ["The most can't be less than the least."]
            return False
        return fine


def cutting_form(lesson: LessonRecord) -> CuttingForm:
    """The form with what is planned."""
    sheet = sheet_of_cords(lesson)
    said: dict[str, Any] = {name: lesson.planning.get(name) for name in (TAKE_UP, KNOT)}
    if sheet is not None:
        said |= {name: getattr(sheet, name) for name in NUMBERS}
    typed = {name: plain(value) for name, value in said.items() if isinstance(value, int | float)}
    words = (
        {} if sheet is None else {name: getattr(sheet, name) for name in ("name", "form", "seams", "strength_source")}
    )
    return CuttingForm(data={**words, **typed})


def sheet_said(form: Any) -> dict[str, Any]:
    """The columns of the sheet that a valid form says."""
    return {
        **{name: form[name].number for name in NUMBERS},
        "name": form["name"].data.strip(),
        "form": form["form"].data,
        "seams": form["seams"].data,
        "strength_source": form["strength_source"].data.strip() or None,
    }


def planning_said(form: Any) -> dict[str, float | None]:
    """What a valid form says that the plan keeps beside the sheet."""
    return {TAKE_UP: form.take_up_factor.number, KNOT: form.knot_strip_mm.number}
