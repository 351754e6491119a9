"""The front screen; read only. The teacher chooses what it shows, and every front screen of the lesson follows."""

from typing import Any

from flask import Blueprint, render_template, request, url_for

from app.domain.errors import NotFound
from app.services.lessons import door
from app.web.access import for_anyone, for_teacher
from app.web.current import database, own_door, seen
from app.web.front.front_view import front_view
from app.web.nearby import tablets_root

bp = Blueprint("front", __name__)

PARTS = {"front": "parts/front_screen.html", "twin": "parts/front_twin.html"}


@bp.get("/lessons/<lesson_id>/front")
@for_teacher
def screen(lesson_id: str) -> Any:
    """The front screen as its teacher opens it, with keys that choose what every front screen shows."""
    own_door(lesson_id)
    return _screen(lesson_id, code=None)


@bp.get("/front/<front_code>")
@for_anyone
def by_code(front_code: str) -> Any:
    """The front screen of the lesson with that code, for a screen where nobody is signed in."""
    found = door(database(), front_code=front_code)
    if found.deleted:
        raise NotFound("There is no such front screen any more.")
    return _screen(found.lesson_id, code=front_code)


def _screen(lesson_id: str, *, code: str | None) -> Any:
    here = url_for("front.by_code", front_code=code) if code else url_for("front.screen", lesson_id=lesson_id)
    view = front_view(seen(lesson_id), code=code, address=tablets_root().partition("//")[2])
    part = request.args.get("part")
    if part is not None and part not in PARTS:
        raise NotFound("This page has no such part.")
    return render_template(PARTS[part] if part else "front/screen.html", view=view, lesson=view.lesson, here=here)
