"""A lesson whose benches tablets take, what the server has of it, and a network that refuses."""

from datetime import UTC, datetime

from playwright.sync_api import BrowserContext, Route

from app.services.bench_state import BenchState, state_of
from app.services.lessons import bench_id_of
from tests.browser.server import Server
from tests.make import MadeLesson, make_lesson, make_plan, make_teacher, make_weighing, new_id

LOST = r"Failed to load resource"


def now() -> datetime:
    """The moment."""
    return datetime.now(UTC)


def a_lesson(server: Server) -> MadeLesson:
    """A lesson of five pouches with a weighed bucket, its teacher new."""
    teacher = make_teacher(server.database, name=new_id()[:8])
    plan = make_plan(planning={"hanger_name": "bucket"}, gravity_m_per_s2=9.81, wait_s=2)
    made = make_lesson(server.database, teacher=teacher, at=now(), plan=plan)
    make_weighing(server.database, made.target, mark=0, mass_g=86, at=now())
    return made


def stands(server: Server, lesson: MadeLesson, bench: str = "Alder") -> BenchState:
    """The bench as the server has it."""
    bench_id = bench_id_of(server.database, lesson.lesson_id, bench)
    return state_of(server.database, lesson.lesson_id, bench_id)


def typed(server: Server, lesson: MadeLesson) -> list[tuple[int, str]]:
    """Step and text of every reading that stands."""
    return [(one.reading.step, one.reading.pointer_typed) for one in stands(server, lesson).cord.points]


def refuse_posts(context: BrowserContext, status: int) -> None:
    """Everything that the tablet sends is answered with that status; what it asks reaches the server."""

    def answer(route: Route) -> None:
        if route.request.method == "POST":
            route.fulfill(status=status, content_type="text/html", body="<h1>away</h1>")
        else:
            route.continue_()

    context.route("**/api/v1/**", answer)
