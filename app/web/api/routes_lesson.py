"""A lesson over /api/v1: plan, stage, shelf."""

from flask import Blueprint, Response

from app.domain.errors import NotFound
from app.services import lessons, planning, running
from app.services.lessons import Door, Made
from app.services.shelf import listed
from app.web.access import for_teacher
from app.web.api.answers import Head
from app.web.api.answers_plan import LessonMade, LessonsAnswer, PlanAnswer
from app.web.api.asking import answered, asked, asked_in_address, head_asked_for
from app.web.api.bodies import ListQuery, ShelfBody, StageBody
from app.web.api.bodies_plan import PlanBody, PlanChangesBody
from app.web.api.described import described
from app.web.api.read_plan import changes_read, plan_read
from app.web.api.tell_plan import listed_answer, made_answer, plan_answer
from app.web.current import database, now, own_door, own_lesson, readable_door, seen, signed_in

bp = Blueprint("api_lesson", __name__, url_prefix="/api/v1")

LESSON = "/lessons/<lesson_id>"


def _own(lesson_id: str) -> Door:
    """The door of a lesson of the teacher's own that was not deleted."""
    found = own_door(lesson_id)
    if found.deleted:
        raise NotFound("This lesson was deleted. It can be brought back for 30 days.")
    return found


@bp.get("/lessons")
@for_teacher
@described("The teacher's open lessons, or the shelf.", query=ListQuery, answers={200: LessonsAnswer})
def list_lessons() -> Response:
    """The newest first."""
    query = asked_in_address(ListQuery)
    found = listed(database(), signed_in().teacher_id, shelf=query.shelf)
    return answered(LessonsAnswer(lessons=[listed_answer(one.lesson, mine=one.mine) for one in found]))


@bp.post("/lessons")
@for_teacher
@described("A new lesson from a whole plan.", body=PlanBody, answers={201: LessonMade})
def new_lesson() -> Response:
    """The lesson is there with its designs, rungs and benches, each bench with its slip."""
    body = asked(PlanBody)
    plan = plan_read(body)
    made = lessons.make_lesson(database(), signed_in().teacher_id, plan, at=now(), seed=body.allocation_seed)
    return _made(made)


def _made(made: Made) -> Response:
    lesson = lessons.lesson_record(database(), made.lesson_id)
    return answered(made_answer(made, lesson, lessons.slip_codes(database(), made.lesson_id)), 201)


@bp.get(LESSON)
@for_teacher
@described("The plan of a lesson.", answers={200: PlanAnswer})
def plan(lesson_id: str) -> Response:
    """The plan of the teacher's own lesson, or of one on the shelf."""
    found = readable_door(lesson_id)
    mine = found.teacher_id == signed_in().teacher_id
    return _plan(lesson_id, mine=mine)


def _plan(lesson_id: str, *, mine: bool) -> Response:
    lesson = seen(lesson_id).lesson
    answer = answered(plan_answer(lesson, mine=mine, slips=lessons.slip_codes(database(), lesson_id)))
    answer.set_etag(str(lesson.head))
    return answer


@bp.patch(LESSON)
@for_teacher
@described("The plan is mended.", body=PlanChangesBody, answers={200: PlanAnswer}, headers=("If-Match",))
def mend_plan(lesson_id: str) -> Response:
    """The plan is as asked; with `If-Match` only when nobody changed the lesson meanwhile."""
    _own(lesson_id)
    body = asked(PlanChangesBody)
    changes = changes_read(body, own_lesson(lesson_id))
    planning.mend_plan(database(), lesson_id, changes, at=now(), if_head=head_asked_for())
    return _plan(lesson_id, mine=True)


@bp.delete(LESSON)
@for_teacher
@described("The lesson is deleted; it can be brought back for 30 days.", answers={204: "It is deleted."})
def delete_lesson(lesson_id: str) -> Response:
    """The lesson is out of sight."""
    _own(lesson_id)
    running.delete_lesson(database(), lesson_id, at=now())
    return Response(status=204)


@bp.post(f"{LESSON}/bring-back")
@for_teacher
@described("A deleted lesson is where it was.", answers={200: Head})
def bring_back(lesson_id: str) -> Response:
    """The lesson is here again; bringing back one that is here changes nothing."""
    if own_door(lesson_id).deleted:
        running.bring_back(database(), lesson_id, at=now())
    return answered(Head(head=own_door(lesson_id).head))


@bp.post(f"{LESSON}/stage")
@for_teacher
@described("The lesson runs as asked.", body=StageBody, answers={200: Head})
def set_stage(lesson_id: str) -> Response:
    """Stage, waiting, masses down, what is opened and what the front screen shows."""
    _own(lesson_id)
    body = asked(StageBody)
    asked_for = body.model_dump(exclude_unset=True)
    return answered(Head(head=running.set_stage(database(), lesson_id, asked_for, at=now())))


@bp.post(f"{LESSON}/shelf")
@for_teacher
@described("The lesson is put on the shelf, or taken off.", body=ShelfBody, answers={200: Head})
def put_on_shelf(lesson_id: str) -> Response:
    """On the shelf it is read only; `own` keeps it from other teachers."""
    _own(lesson_id)
    body = asked(ShelfBody)
    head = running.put_on_shelf(database(), lesson_id, on_shelf=body.on_shelf, own=body.own, at=now())
    return answered(Head(head=head))


@bp.post(f"{LESSON}/copy")
@for_teacher
@described("A new plan like that lesson's, without readings and with new slips.", answers={201: LessonMade})
def copy(lesson_id: str) -> Response:
    """The copy is the asking teacher's own."""
    readable_door(lesson_id)
    return _made(lessons.copy_lesson(database(), signed_in().teacher_id, lesson_id, at=now()))
