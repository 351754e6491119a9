"""The class over /api/v1: changes, picture, graph, files."""

import random

from flask import Blueprint, Response

from app.domain.errors import NotFound, NotOpened, NotThisBench
from app.figures.class_graph import class_graph
from app.services import changes
from app.services.changes import News
from app.services.files import class_csv
from app.services.lessons import Door, door, lesson_record
from app.services.picture import Seen
from app.web.access import for_some, for_teacher
from app.web.api.answers_class import (
    ChangeSaid,
    ChangesAnswer,
    ClassGraphAnswer,
    ClassPictureAnswer,
    Figure,
    GraphWords,
    TeacherPictureAnswer,
)
from app.web.api.asking import answered, asked_in_address, unless_known
from app.web.api.bodies import ChangesQuery, GraphQuery
from app.web.api.described import described
from app.web.api.tell_class import class_picture_answer
from app.web.current import database, installation, now, own_door, readable_door, seen, who

bp = Blueprint("api_class", __name__, url_prefix="/api/v1")

BENCH_ASKS_AGAIN_S = 3
FULL_ASKS_AGAIN_S = 1
SPREAD = 0.1


@bp.get("/lessons/<lesson_id>/changes")
@for_some("bench", "front", "teacher")
@described("Is there anything after n?", query=ChangesQuery, answers={200: ChangesAnswer})
def news(lesson_id: str) -> Response:
    """What is new; a bench is answered at once, a teacher's or front page may be held until there is something."""
    query = asked_in_address(ChangesQuery)
    tablet = who().tablet
    _may_hear(lesson_id)
    if tablet:
        changes.hear_from(database(), tablet.tablet_id, unsent=query.unsent, at=now())
        found = changes.news_after(database(), lesson_id, query.after, bench_id=tablet.bench_id)
        return answered(_news(found, ask_again_s=BENCH_ASKS_AGAIN_S))
    found = changes.news_after(database(), lesson_id, query.after)
    if found.head > query.after or not query.wait_s:
        return answered(_news(found, ask_again_s=0 if query.wait_s else FULL_ASKS_AGAIN_S))
    held = installation().watch.wait_for_news(lesson_id, query.after, _hold_s(query.wait_s))
    found = changes.news_after(database(), lesson_id, query.after)
    return answered(_news(found, ask_again_s=0 if held else FULL_ASKS_AGAIN_S, full=not held))


def _hold_s(wait_s: float) -> float:
    """How long this question is held: spread, so that many pages do not come back in one moment."""
    return min(wait_s, installation().hold_s) * random.uniform(1 - SPREAD, 1 + SPREAD)  # noqa: S311 - not a secret


def _news(found: News, *, ask_again_s: int, full: bool = False) -> ChangesAnswer:
    return ChangesAnswer(
        head=found.head,
        changes=[
            ChangeSaid(n=one.n, at=one.at, kind=one.kind, bench=found.bench_of(one), entry_id=one.about_id)
            for one in found.changes
        ],
        stage=found.stage,
        paused=found.paused,
        masses_down_at=found.masses_down_at,
        ask_again_s=ask_again_s,
        full=full,
    )


def _may_hear(lesson_id: str) -> None:
    """Nothing, or a refusal: a tablet and a front page belong to one lesson, a teacher has their own."""
    asker = who()
    if asker.teacher:
        own_door(lesson_id)
    elif asker.tablet and asker.tablet.lesson_id != lesson_id:
        raise NotThisBench("This tablet's bench belongs to another lesson.")
    elif not asker.tablet and asker.front_lesson_id != lesson_id:
        raise NotFound("There is no such lesson.")


def _readable(lesson_id: str) -> Door:
    """The door of a lesson whose figures may be seen: by its teacher, its front screen, or its benches when opened."""
    if who().teacher:
        return readable_door(lesson_id)
    _may_hear(lesson_id)
    found = door(database(), lesson_id=lesson_id)
    if found.deleted:
        raise NotFound("There is no such lesson.")
    if who().tablet and not found.graph_open:
        raise NotOpened("Your teacher has not opened the class graph yet.")
    return found


@bp.get("/lessons/<lesson_id>/class-picture")
@for_some("bench", "front", "teacher")
@described(
    "Everything worked out of the lesson as it stands.",
    answers={200: TeacherPictureAnswer, 304: "nothing new"},
    headers=("If-None-Match",),
)
def class_picture(lesson_id: str) -> Response:
    """The class picture; the teacher's has the pace of the benches too."""
    head = _readable(lesson_id).head
    return unless_known(head, lambda: _picture(seen(lesson_id)))


def _picture(found: Seen) -> ClassPictureAnswer:
    """The picture; for the teacher with the benches as they are now: to be heard of is no change of the lesson."""
    return class_picture_answer(found, now=lesson_record(database(), found.lesson.id) if who().teacher else None)


@bp.get("/lessons/<lesson_id>/class-graph")
@for_some("bench", "front", "teacher")
@described(
    "The class graph as a plotly figure.",
    query=GraphQuery,
    answers={200: ClassGraphAnswer, 304: "nothing new"},
    headers=("If-None-Match",),
)
def graph(lesson_id: str) -> Response:
    """The figure of all benches' curves, for a given screen."""
    query = asked_in_address(GraphQuery)
    head = _readable(lesson_id).head
    return unless_known(head, lambda: _graph(seen(lesson_id), query))


def _graph(found: Seen, query: GraphQuery) -> ClassGraphAnswer:
    figure = class_graph(
        found.picture,
        view=query.view,
        bench=query.bench,
        upright=query.upright,
        x=query.x,
        y=query.y,
        theme=query.theme,
        drawing=query.drawing,
        previous=None if query.x_to is None or query.y_to is None else (query.x_to, query.y_to),
    )
    return ClassGraphAnswer(
        head=found.lesson.head,
        figure=Figure(data=figure["data"], layout=figure["layout"]),
        words=GraphWords(**figure["layout"]["meta"]["words"]),
    )


@bp.get("/lessons/<lesson_id>/class.csv")
@for_teacher
@described("The class CSV.", answers={200: "text/csv"})
def csv(lesson_id: str) -> Response:
    """One row a standing reading, as the pages show it."""
    readable_door(lesson_id)
    found = seen(lesson_id)
    answer = Response(class_csv(found.picture), mimetype="text/csv")
    answer.headers["Content-Disposition"] = 'attachment; filename="class.csv"'
    return answer
