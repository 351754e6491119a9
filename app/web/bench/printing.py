"""The bench page, printed: the view for whoever runs no script, and the state as data for the script."""

import uuid

from flask import render_template
from markupsafe import Markup

from app.services.bench_state import BenchState
from app.services.changes import hear_from
from app.web.api.tell_bench import bench_answer
from app.web.bench import words
from app.web.bench.entries import Bench
from app.web.bench.view import HAPPENED, Asked, set_up_ticks, view_of
from app.web.current import tablet_here

_IN_SCRIPT = str.maketrans({"<": "\\u003c", ">": "\\u003e", "&": "\\u0026"})


def printed(bench: Bench, asked: Asked, *, template: str = "bench/page.html") -> str:
    """The bench page as the bench stands, showing what was asked; or the part of it that the template makes."""
    tablet = tablet_here()
    hear_from(bench.database, tablet.tablet_id, unsent=None, at=bench.at)
    state = bench.state()
    view = view_of(state, writes=tablet.writes, asked=asked)
    return render_template(
        template,
        view=view,
        lesson=state.lesson,
        bench=state.bench,
        words=words,
        happened=HAPPENED,
        set_up=set_up_ticks(state),
        entry_id=lambda: str(uuid.uuid4()),
        state_data=_data(state, writes=tablet.writes),
    )


def _data(state: BenchState, *, writes: bool) -> Markup:
    """The bench as /api/v1 tells it, safe to stand in a page."""
    told = bench_answer(state, writes=writes).model_dump_json(by_alias=True)
    return Markup(told.translate(_IN_SCRIPT))  # noqa: S704 - every sign that could end the script is written as a code
