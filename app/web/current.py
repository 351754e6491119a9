"""What this request is about: the installation, who asks, and for what; found once."""

import hashlib
import hmac
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from flask import current_app, g, request, session
from itsdangerous import BadSignature, URLSafeTimedSerializer

from app.domain.errors import NotFound, NotThisBench, Refusal, SignInNeeded
from app.domain.limits import TEACHER_TOKEN_HOURS
from app.domain.records import LessonRecord
from app.services import joining, lessons, teachers
from app.services.joining import Joined, TabletHere
from app.services.lessons import Door
from app.services.picture import Seen, see
from app.services.recording import Sender, Target
from app.services.teachers import SignedIn
from app.web.live import Watch


@dataclass(frozen=True, kw_only=True)
class Installation:
    """What the assembled product leans on; `clock` tells the time, so that tests may set it."""

    database: Any
    secret_key: str
    hold_s: int
    data_folder: Any
    port: int
    watch: Watch
    clock: Callable[[], datetime]


@dataclass(frozen=True, kw_only=True)
class Who:
    """Who asks: a teacher, a tablet that took a bench, someone with a front code; or nobody that we know."""

    teacher: SignedIn | None = None
    tablet: TabletHere | None = None
    front_lesson_id: str | None = None


def installation() -> Installation:
    """The installation that this request reached."""
    found: Installation = current_app.extensions["ropewalk"]
    return found


def database() -> Any:
    """The database of the installation."""
    return installation().database


def now() -> datetime:
    """The moment by the server's clock."""
    return installation().clock()


def utc_now() -> datetime:
    """The clock of an ordinary installation."""
    return datetime.now(UTC)


def who() -> Who:
    """Who asks, by the Authorization header if there is one, else by the cookie."""
    if "who" not in g:
        g.who = _by_header() if request.authorization or "Authorization" in request.headers else _by_cookie()
    found: Who = g.who
    return found


def _by_header() -> Who:
    token = (request.authorization.token if request.authorization else "") or ""
    teacher = _teacher_of(token)
    if teacher:
        return Who(teacher=teacher)
    tablet = joining.whose_tablet(database(), token, at=now())
    if tablet:
        return Who(tablet=tablet)
    front = _front_door(token)
    if front:
        return Who(front_lesson_id=front.lesson_id)
    raise SignInNeeded("That token opens nothing, or no longer. Join or sign in again.")


def _by_cookie() -> Who:
    """The cookie's holder; a front code in the address says that a front screen asks, whoever else uses the browser."""
    front = _front_door(request.args["front"]) if request.args.get("front") else None
    if front:
        return Who(front_lesson_id=front.lesson_id)
    held = session.get("teacher") or {}
    teacher = teachers.still_in(database(), held["id"], held["stamp"]) if held else None
    token = session.get("tablet")
    tablet = joining.whose_tablet(database(), token, at=now()) if token else None
    return Who(teacher=teacher, tablet=tablet)


def _front_door(code: str) -> Door | None:
    try:
        found = lessons.door(database(), front_code=code)
    except NotFound:
        return None
    return None if found.deleted else found


def _tokens() -> URLSafeTimedSerializer:
    return URLSafeTimedSerializer(installation().secret_key, salt="teacher-token")


def teacher_token(teacher: SignedIn) -> str:
    """A token that signs the teacher in for twelve hours, or until the passphrase changes."""
    return str(_tokens().dumps([teacher.teacher_id, teacher.stamp]))


def _teacher_of(token: str) -> SignedIn | None:
    try:
        teacher_id, stamp = _tokens().loads(token, max_age=TEACHER_TOKEN_HOURS * 3600)
    except (BadSignature, ValueError, TypeError):
        return None
    return teachers.still_in(database(), teacher_id, stamp)


def sign_in_here(teacher: SignedIn) -> None:
    """This browser is the teacher's from now on."""
    session.permanent = True
    session["teacher"] = {"id": teacher.teacher_id, "stamp": teacher.stamp}
    g.pop("who", None)


def hold_bench_here(joined: Joined) -> None:
    """This browser holds the bench from now on."""
    session.permanent = True
    session["tablet"] = joined.token
    g.pop("who", None)


def signed_in() -> SignedIn:
    """The teacher who asks; SignInNeeded when it is none."""
    teacher = who().teacher
    if teacher is None:
        raise SignInNeeded("Sign in first.")
    return teacher


def tablet_here() -> TabletHere:
    """The tablet that asks; SignInNeeded when it holds no bench."""
    tablet = who().tablet
    if tablet is None:
        raise SignInNeeded("Take a bench first: type the code on your bench slip.")
    return tablet


def readable_door(lesson_id: str) -> Door:
    """The door of a lesson that the teacher may read: their own, or one that is on the shelf for all."""
    found = lessons.door(database(), lesson_id=lesson_id)
    mine = found.teacher_id == signed_in().teacher_id
    if found.deleted or not (mine or (found.on_shelf and not found.own)):
        raise NotFound("There is no such lesson.")
    return found


def own_door(lesson_id: str) -> Door:
    """The door of a lesson of the teacher's own, deleted ones too; another's is not found."""
    found = lessons.door(database(), lesson_id=lesson_id)
    if found.teacher_id != signed_in().teacher_id:
        raise NotFound("There is no such lesson.")
    return found


def own_lesson(lesson_id: str) -> LessonRecord:
    """A lesson of the teacher's own, whole."""
    own_door(lesson_id)
    return seen(lesson_id).lesson


def seen(lesson_id: str) -> Seen:
    """The lesson's record and its class picture; who may see it was asked before."""
    return see(database(), lesson_id)


def bench_target(lesson_id: str, bench: str) -> tuple[Target, Sender]:
    """Where an entry for that bench goes and who sends it: the bench's own tablet, or the lesson's teacher.

    Raises NotThisBench for another bench's tablet, NotFound for another teacher.
    """
    asker = who()
    if asker.tablet and (asker.tablet.lesson_id, asker.tablet.bench) == (lesson_id, bench.lower()):
        return (
            Target(lesson_id=lesson_id, bench_id=asker.tablet.bench_id),
            Sender(by="bench", tablet_id=asker.tablet.tablet_id),
        )
    if asker.teacher:
        return teachers_target(lesson_id, bench)
    raise _not_yours(asker)


def teachers_target(lesson_id: str, bench: str) -> tuple[Target, Sender]:
    """Where the teacher's own entry for that bench goes; NotFound for another teacher."""
    own_door(lesson_id)
    bench_id = lessons.bench_id_of(database(), lesson_id, bench)
    return Target(lesson_id=lesson_id, bench_id=bench_id), Sender(by="teacher")


def _not_yours(asker: Who) -> Refusal:
    if asker.tablet:
        return NotThisBench(f"This tablet holds the bench {asker.tablet.bench.capitalize()}, not that one.")
    return SignInNeeded("Take a bench or sign in first.")


def from_hash(what: str) -> str:
    """A keyed hash that stands for an address or a name among failed tries; neither is kept."""
    key = installation().secret_key.encode()
    return hmac.new(key, what.encode(), hashlib.sha256).hexdigest()


def address_hash() -> str:
    """The hash of where this request comes from."""
    return from_hash(request.remote_addr or "")
