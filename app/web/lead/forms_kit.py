"""The forms of what the lesson sheet leads to: benches, the ladder rung by rung, the balance check."""

from typing import Any

from wtforms import Form, FormField
from wtforms.fields.choices import SelectChoice  # type: ignore[attr-defined]  # newer than the type stubs
from wtforms.fields.list import FieldList

from app.domain.limits import BALANCE_DIVISION_G, BENCHES_MOST, EXPECTED_N, ONE_MASS_G, RUNGS_MOST
from app.domain.quantities import plain
from app.domain.records import LessonRecord, RungRecord, Weighing
from app.services.balance import BalanceLine
from app.services.expecting import HIGH, LOW, typed
from app.services.seating import Seat, seats_of
from app.web.fields import ChoiceField, IdField, NumberField, WordsField
from app.web.lead.forms import EntryIdField, new_entry_id

KINDS = [("class", "class"), ("catch_up", "catch-up"), ("pilot", "pilot")]
LABELS = [("none", "not said"), ("net", "contents"), ("drained", "contents, drained"), ("gross", "all that hangs")]


class SeatForm(Form):
    """One bench."""

    bench_id = IdField()
    word = WordsField("Bench word", most=20, needed="A bench needs a word.")
    design = ChoiceField("Design", pairs=[])
    kind = ChoiceField("Kind", pairs=KINDS)


class BenchesForm(Form):
    """All benches of a lesson."""

    benches = FieldList(FormField(SeatForm), max_entries=BENCHES_MOST)


def benches_form(lesson: LessonRecord, sent: Any = None) -> BenchesForm:
    """The form of a lesson's benches, as they are or as typed."""
    said = [{"bench_id": one, **vars(seat)} for one, seat in seats_of(lesson).items()]
    form = BenchesForm(sent) if sent is not None else BenchesForm(data={"benches": said})
    rows: Any = form.benches
    for row in rows:
        row["design"].choices = [SelectChoice(design.letter, design.letter) for design in lesson.designs]
    return form


def seats_said(form: Any) -> dict[str, Seat]:
    """By bench id, what a valid form says of each bench."""
    return {
        row["bench_id"].data: Seat(word=row["word"].data.strip(), design=row["design"].data, kind=row["kind"].data)
        for row in form.benches
    }


class RungForm(Form):
    """One rung."""

    name = WordsField("Name", most=40, needed="Give it a name: what it is called at the benches.")
    printed_mass_g = NumberField("Printed mass", bounds=ONE_MASS_G, unit="g")
    printed_kind = ChoiceField("The label says", pairs=LABELS)


class LadderForm(Form):
    """The ladder rung by rung, and what cords are expected to hold."""

    rungs = FieldList(FormField(RungForm), max_entries=RUNGS_MOST)
    break_low_n = NumberField("The weakest may break at", bounds=EXPECTED_N, unit="N", name=LOW)
    break_high_n = NumberField("The strongest may hold", bounds=EXPECTED_N, unit="N", name=HIGH)

    def validate(self, extra_validators: Any = None) -> bool:
        """Whether every blank can be kept; a range is said whole or not at all."""
        fine = super().validate(extra_validators)
        ends: list[Any] = [self.break_low_n, self.break_high_n]
        if not fine or (ends[0].number is None and ends[1].number is None):
            return fine
        for one in ends:
            if one.number is None:
                one.errors = ["Type both ends, or none."]
                return False
        if ends[0].number > ends[1].number:
            ends[1].errors = ["The strongest can't hold less than the weakest."]
            return False
        return True


def ladder_form(lesson: LessonRecord) -> LadderForm:
    """The form with the ladder as it is."""
    said = [
        {
            "name": rung.name,
            "printed_mass_g": "" if rung.printed_mass_g is None else plain(rung.printed_mass_g),
            "printed_kind": rung.printed_kind,
        }
        for rung in lesson.rungs
    ]
    expected = typed(lesson)
    ends = {} if expected is None else {"break_low_n": plain(expected.low_n), "break_high_n": plain(expected.high_n)}
    return LadderForm(data={"rungs": said, **ends})


def rungs_said(form: Any) -> list[RungRecord]:
    """The ladder that a valid form says."""
    return [
        RungRecord(
            mark=mark,
            name=row["name"].data.strip(),
            printed_mass_g=row["printed_mass_g"].number,
            printed_kind=row["printed_kind"].data,
        )
        for mark, row in enumerate(form.rungs, start=1)
    ]


def planning_said(lesson: LessonRecord, form: Any) -> dict[str, Any]:
    """The plan's own notes with the range that a valid form says, or without one."""
    ends = {LOW: form.break_low_n.number, HIGH: form.break_high_n.number}
    return {name: value for name, value in {**lesson.planning, **ends}.items() if value is not None or name not in ends}


class BalanceForm(Form):
    """What the balance says of the hanger and of each rung, one division for all."""

    balance_division_g = NumberField("Division of the balance", bounds=BALANCE_DIVISION_G, unit="g", needed=True)
    masses = FieldList(NumberField("Balance mass", bounds=ONE_MASS_G, unit="g"), max_entries=RUNGS_MOST + 1)
    entry_id = EntryIdField()


def balance_form(lines: list[BalanceLine], weighed: dict[int, Weighing]) -> BalanceForm:
    """The form with what was weighed so far."""
    divisions = [one.balance_division_g for one in weighed.values()]
    return BalanceForm(
        data={
            "balance_division_g": plain(divisions[-1] if divisions else 1.0),
            "masses": ["" if line.balance_mass_g is None else plain(line.balance_mass_g) for line in lines],
            "entry_id": new_entry_id(),
        }
    )


def balance_typed(sent: Any, lines: list[BalanceLine]) -> BalanceForm:
    """The form with what was typed, a blank for each thing to weigh."""
    form = BalanceForm(sent)
    while len(form.masses.entries) < len(lines):
        form.masses.append_entry("")
    return form


def masses_said(form: Any, lines: list[BalanceLine]) -> dict[int, float]:
    """By mark, the masses that a valid form says; a blank says nothing."""
    said = zip(lines, form.masses, strict=False)
    return {line.mark: row.number for line, row in said if row.number is not None}
