"""Who may do what: one decorator on every route; a route without one fails a test."""

from collections.abc import Callable
from functools import wraps
from typing import Any, TypeVar, cast

from app.domain.errors import SignInNeeded, TeacherOnly
from app.web.current import signed_in, tablet_here, who

View = TypeVar("View", bound=Callable[..., Any])

AUDIENCES = ("public", "bench", "front", "teacher")


def _guarded(view: View, audience: tuple[str, ...], check: Callable[[], Any]) -> View:
    @wraps(view)
    def guarded(*args: Any, **kwargs: Any) -> Any:
        check()
        return view(*args, **kwargs)

    guarded.audience = audience  # type: ignore[attr-defined]
    return cast(View, guarded)


def for_anyone(view: View) -> View:
    """Open to everyone who reaches the server."""
    return _guarded(view, ("public",), lambda: None)


def for_bench(view: View) -> View:
    """For a tablet that took a bench."""
    return _guarded(view, ("bench",), tablet_here)


def for_teacher(view: View) -> View:
    """For a teacher who is signed in; whose lesson it is, the route asks `current`."""
    return _guarded(view, ("teacher",), _teacher)


def _teacher() -> None:
    if who().teacher is None and (who().tablet or who().front_lesson_id):
        raise TeacherOnly("Only a teacher may do that. Sign in as one.")
    signed_in()


def for_some(*audience: str) -> Callable[[View], View]:
    """For any of these audiences; the route asks `current` which it is."""

    def decorate(view: View) -> View:
        return _guarded(view, audience, lambda: _any_of(audience))

    return decorate


def _any_of(audience: tuple[str, ...]) -> None:
    asker = who()
    here = {"bench": asker.tablet, "teacher": asker.teacher, "front": asker.front_lesson_id}
    if any(here[one] for one in audience):
        return
    if audience == ("teacher",) or any(here.values()):
        raise TeacherOnly("That is not for this tablet.")
    raise SignInNeeded("Take a bench or sign in first.")
