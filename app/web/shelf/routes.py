"""The lesson shelf."""

from typing import Any

from flask import Blueprint, redirect, render_template, request, url_for

from app.services import running
from app.services.shelf import listed
from app.web.access import for_teacher
from app.web.current import database, now, own_door, signed_in
from app.web.shelf.shelf_view import shelf_view
from app.web.typed import shown_again

bp = Blueprint("shelf", __name__)


@bp.get("/shelf")
@for_teacher
def shelf() -> str:
    """Past lessons, newest first; with `q` only those that say these words."""
    words = shown_again(request.args.get("q", "").strip())
    found = listed(database(), signed_in().teacher_id, shelf=True)
    return render_template("shelf/shelf.html", view=shelf_view(found, words), words=words, any=bool(found))


@bp.post("/lessons/<lesson_id>/shelf")
@for_teacher
def put(lesson_id: str) -> Any:
    """The lesson is on the shelf, or off it again."""
    own_door(lesson_id)
    on_shelf = request.form.get("on_shelf") == "true"
    own = request.form.get("own") == "true" if on_shelf else None
    running.put_on_shelf(database(), lesson_id, on_shelf=on_shelf, own=own, at=now())
    where = url_for("shelf.shelf") if on_shelf else url_for("graph.keep", lesson_id=lesson_id)
    return redirect(where, code=303)
