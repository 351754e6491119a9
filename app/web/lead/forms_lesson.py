"""The form of a new lesson: the few things that can't be taken from the last one."""

from wtforms import Form

from app.domain.limits import BENCHES_MOST
from app.web.fields import NumberField, WordsField
from app.web.lead.forms import DayField, EntryIdField

TITLE_NEEDED = "Give the lesson a title, so that you find it again."


class NewLessonForm(Form):
    """Title, day, question, year band and how many benches; everything else comes from the last plan."""

    title = WordsField("Title", most=120, needed=TITLE_NEEDED)
    planned_on = DayField("Day")
    year_band = WordsField("Year band", most=20)
    question = WordsField("Question", most=300)
    bench_count = NumberField("Benches", bounds=(1, BENCHES_MOST), needed=True, whole=True)
    entry_id = EntryIdField()


class CopyForm(Form):
    """A copy needs nothing but the id that it will have."""

    entry_id = EntryIdField()
