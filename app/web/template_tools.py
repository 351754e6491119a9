"""What templates may call: numbers with units, codes, times, addresses of assets."""

import re
from datetime import datetime
from typing import Any

from flask import Flask
from jinja2 import StrictUndefined

from app.domain import vocabulary
from app.domain.naming import spaced
from app.domain.quantities import shown, trimmed, with_unit
from app.domain.records import LessonRecord
from app.services.gravity import gravity_words
from app.web.assets import asset, graph_script
from app.web.current import now
from app.web.typed import holdable


def attach_templates(app: Flask) -> None:
    """Templates have the product's filters and words; a name that is not there is an error."""
    app.jinja_env.undefined = StrictUndefined
    app.jinja_env.trim_blocks = True
    app.jinja_env.lstrip_blocks = True
    app.jinja_env.filters.update(
        newtons=newtons,
        grams=grams,
        millimetres=millimetres,
        percent=percent,
        ratio=ratio,
        number=number,
        gravity=gravity,
        signed=signed,
        ago=ago,
        spaced=spaced,
        day=day,
        holdable=holdable,
        anchor=anchor,
    )
    app.jinja_env.globals.update(asset=asset, graph_script=graph_script, vocabulary=vocabulary)


def newtons(value: float | None) -> str:
    """A force for a page: two decimals, the unit never parted from it."""
    return "" if value is None else with_unit(shown(value, 2), "N")


def grams(value: float | None) -> str:
    """A mass for a page, without zeros that say nothing."""
    return "" if value is None else with_unit(trimmed(value, 1), "g")


def millimetres(value: float | None) -> str:
    """A length for a page, without zeros that say nothing."""
    return "" if value is None else with_unit(trimmed(value, 1), "mm")


def number(value: float | None) -> str:
    """A number whose unit stands in the head of its column."""
    return "" if value is None else trimmed(value, 3)


def gravity(lesson: LessonRecord) -> str:
    """The g of a lesson and where it came from."""
    return gravity_words(lesson.gravity_m_per_s2, lesson.gravity_from)


def signed(value: float | None, decimals: int = 0) -> str:
    """A difference, its sign always written; nothing when there is none to be told."""
    return "" if value is None else ("+" if value > 0 else "") + shown(value, decimals)


def percent(value: float | None) -> str:
    """A ratio as whole per cent."""
    return "" if value is None else with_unit(shown(100 * value), "%")


def ratio(value: float | None) -> str:
    """A number without a unit, to two decimals; words where it is not known."""
    return "not known" if value is None else shown(value, 2)


def day(value: Any) -> str:
    """A date as people say it: 12 March 2026."""
    return "" if value is None else f"{value.day} {value:%B %Y}"


def anchor(key: str) -> str:
    """What a key is called inside an address: gum-5-1-2."""
    return re.sub(r"[^a-z0-9]+", "-", key.lower()).strip("-")


def ago(moment: datetime | None) -> str:
    """How long since a moment, in words short enough for a table."""
    if moment is None:
        return ""
    seconds = int((now() - moment).total_seconds())
    if seconds < 5:
        return "now"
    if seconds < 60:
        return with_unit(str(seconds), "s ago")
    if seconds < 3600:
        return with_unit(str(seconds // 60), "min ago")
    return with_unit(str(seconds // 3600), "h ago")
