"""What a route says of itself for the OpenAPI document; a route of /api/v1 without it fails a test."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeVar

from app.web.api.kinds import Answer, Body, Query

View = TypeVar("View", bound=Callable[..., Any])
Answers = Mapping[int, type[Answer] | str]


@dataclass(frozen=True, kw_only=True)
class Description:
    """One route: what it does, what it is asked, and its answers by status: a model, or the kind of a file."""

    summary: str
    answers: Answers
    body: type[Body] | None = None
    query: type[Query] | None = None
    headers: tuple[str, ...] = field(default=())


def described(
    summary: str,
    *,
    answers: Answers,
    body: type[Body] | None = None,
    query: type[Query] | None = None,
    headers: tuple[str, ...] = (),
) -> Callable[[View], View]:
    """Leaves the description on the view; nothing else changes."""

    def mark(view: View) -> View:
        view.description = Description(  # type: ignore[attr-defined]
            summary=summary, answers=answers, body=body, query=query, headers=headers
        )
        return view

    return mark
