"""Papers to print."""

from flask import Blueprint, render_template

from app.domain.errors import NotFound
from app.services.lessons import slip_codes
from app.web.access import for_teacher
from app.web.current import database, own_lesson
from app.web.nearby import tablets_root
from app.web.qr import qr_path

bp = Blueprint("prints", __name__)

PAPERS = ("bench-slips",)
"""The papers that can be printed, by the name in their address."""


@bp.get("/lessons/<lesson_id>/print/<name>")
@for_teacher
def paper(lesson_id: str, name: str) -> str:
    """The paper of that name."""
    if name not in PAPERS:
        raise NotFound("There is no such paper.")
    lesson = own_lesson(lesson_id)
    root = tablets_root()
    codes = slip_codes(database(), lesson_id)
    slips = [
        {"bench": bench, "design": lesson.design(bench.design_id), "code": codes[bench.id],
         "qr": qr_path(f"{root}/slip/{codes[bench.id]}")}
        for bench in lesson.benches
    ]  # fmt: skip
    return render_template("print/bench-slips.html", lesson=lesson, slips=slips, root=root)
