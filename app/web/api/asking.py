"""Bodies and queries are read here, and answers written: pydantic's faults become plain sentences."""

import re
from collections.abc import Callable, Mapping
from typing import Any, TypeVar

from flask import Response, request
from pydantic import BaseModel, ValidationError

from app.domain.errors import FieldFault, InvalidEntry, Refusal
from app.web.api.kinds import Answer, Body, Query

AnyBody = TypeVar("AnyBody", bound=Body)
AnyQuery = TypeVar("AnyQuery", bound=Query)
_NAME = re.compile(r"[a-z][a-zA-Z0-9_]*")
NOT_JSON = "json_invalid"
JSON = "application/json"


class NotJson(Refusal):
    problem = "not-json"


class WrongKind(Refusal):
    problem = "wrong-kind"


_WORDS: Mapping[str, Callable[[Mapping[str, Any]], str]] = {
    "missing": lambda _: "This is needed.",
    "extra_forbidden": lambda _: "There is no such field here.",
    "string_type": lambda _: "Send text here: what was typed, in quotes.",
    "string_too_long": lambda told: f"At most {told['max_length']} characters.",
    "string_too_short": lambda told: f"At least {told['min_length']} characters.",
    "string_pattern_mismatch": lambda _: "That is not an id: a UUID in lower-case letters.",
    "int_type": lambda _: "A whole number, please.",
    "int_parsing": lambda _: "A whole number, please.",
    "int_parsing_size": lambda _: "That number is too large.",
    "int_from_float": lambda _: "A whole number, please.",
    "float_type": lambda _: "A number, please.",
    "float_parsing": lambda _: "A number, please.",
    "finite_number": lambda _: "That is not a number that can be kept.",
    "bool_type": lambda _: "Send true or false.",
    "bool_parsing": lambda _: "Send true or false.",
    "literal_error": lambda told: f"Choose one of: {told['expected'].replace(' or ', ', ')}.".replace("'", ""),
    "greater_than_equal": lambda told: f"That is outside what can be: {told['ge']:g} or more.",
    "less_than_equal": lambda told: f"That is outside what can be: {told['le']:g} or less.",
    "model_type": lambda _: "Send an object here, with its fields by name.",
    "model_attributes_type": lambda _: "Send an object here, with its fields by name.",
    "dict_type": lambda _: "Send an object here, with its fields by name.",
    "list_type": lambda _: "Send a list here.",
    "too_long": lambda told: f"At most {told['max_length']} of them.",
    "too_short": lambda told: f"At least {told['min_length']} of them.",
    "timezone_aware": lambda _: "Send a moment with its zone, as 2026-03-12T09:41:20Z.",
    "datetime_type": lambda _: "Send a moment as 2026-03-12T09:41:20Z.",
    "datetime_parsing": lambda _: "Send a moment as 2026-03-12T09:41:20Z.",
    "datetime_from_date_parsing": lambda _: "Send a moment as 2026-03-12T09:41:20Z.",
    "date_type": lambda _: "Send a date as 2026-03-12.",
    "date_parsing": lambda _: "Send a date as 2026-03-12.",
    "date_from_datetime_parsing": lambda _: "Send a date as 2026-03-12.",
}
_OTHERWISE = "That can't be taken as it is."


def asked(model: type[AnyBody]) -> AnyBody:
    """The body of this request; NotJson, WrongKind or InvalidEntry with a sentence for each field at fault."""
    if request.mimetype != JSON:
        raise WrongKind("Send it as application/json.")
    try:
        return model.model_validate_json(request.get_data(cache=False))
    except ValidationError as faults:
        if any(one["type"] == NOT_JSON for one in faults.errors(include_url=False)):
            raise NotJson("That is not JSON.") from faults
        raise _refusal(faults) from faults


def asked_in_address(model: type[AnyQuery]) -> AnyQuery:
    """What is asked in the address of this request; InvalidEntry with a sentence for each field at fault."""
    try:
        return model.model_validate(request.args.to_dict())
    except ValidationError as faults:
        raise _refusal(faults) from faults


def _refusal(faults: ValidationError) -> InvalidEntry:
    by_field: dict[str, FieldFault] = {}
    for one in faults.errors(include_url=False):
        field = _field(one["loc"], whole=one["type"] == "extra_forbidden")
        by_field.setdefault(field, FieldFault(field, _words(one)))
    found = tuple(by_field.values())
    first = found[0]
    return InvalidEntry(f"{first.field}: {first.words}" if first.field else first.words, faults=found)


def _field(place: tuple[int | str, ...], *, whole: bool) -> str:
    """The field by its names; where a value may be of several kinds, pydantic names the kind too: that is left out."""
    return ".".join(str(part) for part in place if whole or isinstance(part, int) or _NAME.fullmatch(part))


def _words(one: Any) -> str:
    if one["type"] == "words":
        return str(one["msg"])
    words = _WORDS.get(one["type"])
    return words(one.get("ctx") or {}) if words else _OTHERWISE


def answered(answer: BaseModel, status: int = 200) -> Response:
    """The answer as JSON."""
    return Response(answer.model_dump_json(by_alias=True), status=status, mimetype=JSON)


def unless_known(head: int, make: Callable[[], Answer]) -> Response:
    """What is made, with the head as its tag; or 304 without making it, when the asker has that very one."""
    known = request.if_none_match.contains_weak(str(head))
    answer = Response(status=304) if known else answered(make())
    answer.set_etag(str(head))
    return answer


def head_asked_for() -> int | None:
    """The head that `If-Match` names; None when any will do, -1 when it names none that could be."""
    said = request.headers.get("If-Match", "").strip()
    if said in ("", "*"):
        return None
    bare = said.removeprefix("W/").strip('"')
    return int(bare) if bare.isascii() and bare.isdigit() and len(bare) < 10 else -1
