"""What kinds of values bodies and answers are made of; each knows what it refuses, in a sentence."""

import math
import re
from collections.abc import Callable, Iterable
from datetime import UTC, datetime
from typing import Annotated, Any

from pydantic import AfterValidator, AwareDatetime, BaseModel, BeforeValidator, ConfigDict, Field
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from app.domain.limits import TEXT_MOST, TYPED_MOST

_SI_CASE = {"n": "N", "j": "J", "mpa": "MPa", "cn": "cN"}
_UNIT = re.compile(rf"_({'|'.join(_SI_CASE)})(?=_per_|$)")


def si_case(name: str) -> str:
    """The name as JSON writes it: units keep the SI's case (`force_n` is `force_N`, `work_j` is `work_J`)."""
    return _UNIT.sub(lambda found: f"_{_SI_CASE[found[1]]}", name)


class Body(BaseModel):
    """What is asked: strict about types, numbers finite, and no field that nobody knows."""

    model_config = ConfigDict(
        strict=True, extra="forbid", allow_inf_nan=False, alias_generator=si_case, protected_namespaces=()
    )


class Query(BaseModel):
    """What is asked in the address, all of it text there; what nobody knows is not looked at."""

    model_config = ConfigDict(extra="ignore", allow_inf_nan=False, alias_generator=si_case)


class Answer(BaseModel):
    """What is answered, built by the names of Python and written with the names of JSON."""

    model_config = ConfigDict(extra="forbid", alias_generator=si_case, validate_by_name=True, serialize_by_alias=True)


def refused(words: str) -> PydanticCustomError:
    """The fault of one value, in the sentence that its sender reads."""
    return PydanticCustomError("words", words.replace("{", "{{").replace("}", "}}"))


def no_nul(text: str) -> str:
    """The text itself; refused when a sign in it can't be kept."""
    if "\x00" in text:
        raise refused("There is a sign in it that can't be kept. Type the words again.")
    return text


def _whole(value: Any) -> Any:
    """JSON has one kind of number: 4.0 is a whole one too."""
    return int(value) if isinstance(value, float) and value.is_integer() else value


def _utc(moment: datetime) -> datetime:
    try:
        return moment.astimezone(UTC)
    except OverflowError as beyond:
        raise refused("That moment lies outside every calendar.") from beyond


def _finite(value: Any) -> Any:
    """The value itself, refused when a number somewhere in it has no end, or a sign in it can't be kept."""
    for one in _leaves(value):
        if isinstance(one, float) and not math.isfinite(one):
            raise refused("A number in it can't be kept.")
        if isinstance(one, str):
            no_nul(one)
    return value


def _leaves(value: Any) -> Iterable[Any]:
    inside = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, one in inside:
        yield key
        yield from _leaves(one)
    yield value


ID_PATTERN = "^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$"
TYPED_PATTERN = "^[+-]?([0-9]+([.,][0-9]*)?|[.,][0-9]+)$"
Id = Annotated[str, Field(pattern=ID_PATTERN, json_schema_extra={"format": "uuid"})]
Typed = Annotated[
    str, AfterValidator(no_nul), Field(json_schema_extra={"pattern": TYPED_PATTERN, "maxLength": TYPED_MOST})
]
"""A number as it was typed; what is none is refused where the number is read, in a sentence of its own."""
Whole = Annotated[int, BeforeValidator(_whole)]
Moment = Annotated[AwareDatetime, AfterValidator(_utc)]
Anything = Annotated[dict[str, Any], AfterValidator(_finite)]


Text = Annotated[str, AfterValidator(no_nul), Field(max_length=TEXT_MOST)]
Line = Annotated[str, AfterValidator(no_nul), Field(max_length=120)]
Words = Annotated[str, AfterValidator(no_nul), Field(max_length=80)]
Name = Annotated[str, AfterValidator(no_nul), Field(max_length=60)]
Short = Annotated[str, AfterValidator(no_nul), Field(max_length=40)]


class OneOf:
    """One code of a closed list, which the document names."""

    def __init__(self, codes: Iterable[str]) -> None:
        self._codes = list(codes)

    def __get_pydantic_core_schema__(self, _source: Any, _handler: Callable[[Any], CoreSchema]) -> CoreSchema:
        """The closed list as pydantic checks it."""
        return core_schema.literal_schema(self._codes)


def between(bounds: tuple[float, float]) -> Any:
    """What is said of a number that has to lie within bounds, both ends taken."""
    return Field(ge=bounds[0], le=bounds[1])
