"""Every page of the product on the demo lessons, in the states that a class sees: for pictures and for axe."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime

from playwright.sync_api import Page
from sqlalchemy import update

from app.services import lessons, running, seeding, teachers
from app.store.benches import Tablet
from app.store.database import Database

PASSPHRASE = "hemp and four odd strips"


@dataclass(frozen=True)
class Demo:
    """The demo lessons of one database: who may sign in, and the ids that addresses need."""

    database: Database
    under_way: str
    lesson_key: str
    front_code: str
    finished_front_code: str
    first_token: str
    slips: dict[str, str]


@dataclass(frozen=True)
class Stop:
    """One page in one state: its name, how to get there, and whether it is for the projector."""

    name: str
    go: Callable[[Page], None]
    front: bool = False


def load(database: Database) -> Demo:
    """The demo lessons are loaded, with a teacher who has a passphrase and one who has not set it yet."""
    at = datetime.now(UTC)
    teachers.add_teacher(database, teachers.FIRST_NAME, password=PASSPHRASE, at=at)
    token = teachers.add_teacher(database, "second teacher", password=None, at=at)
    made = seeding.load_demo(database, at=at)
    assert made is not None
    assert token is not None
    codes = lessons.slip_codes(database, made.lesson_id)
    words = {bench.id: bench.word for bench in lessons.lesson_record(database, made.lesson_id).benches}
    return Demo(
        database=database,
        under_way=made.lesson_id,
        lesson_key=made.lesson_key,
        front_code=made.front_code,
        finished_front_code=lessons.lesson_record(database, seeding.FINISHED).front_code,
        first_token=token,
        slips={words[bench_id]: code for bench_id, code in codes.items()},
    )


def sign_in(page: Page) -> None:
    """The browser is the teacher's."""
    page.goto("/sign-in")
    page.fill("[name=sign_in_name]", teachers.FIRST_NAME)
    page.fill("[name=password]", PASSPHRASE)
    page.click("main button[type=submit], main form button.main")
    page.wait_for_url("**/lessons")


def at(path: str) -> Callable[[Page], None]:
    """Goes to an address."""

    def go(page: Page) -> None:
        page.goto(path)

    return go


def for_anyone(demo: Demo) -> Iterator[Stop]:
    """Pages that need nobody."""
    for name in ("words", "sources", "cautions", "sign-in", "join"):
        yield Stop(name, at(f"/{name}"))
    yield Stop("home", at("/"))
    yield Stop("first-sign-in", at(f"/first/{demo.first_token}"))
    yield Stop("slip", at(f"/slip/{demo.slips['Hazel']}"))
    yield Stop("problem", at("/problems/masses-down"))
    yield Stop("not-found", at("/nothing-here"))


def for_teacher(demo: Demo) -> Iterator[Stop]:
    """The teacher's pages, on the lesson under way and on the finished one."""
    way, done = f"/lessons/{demo.under_way}", f"/lessons/{seeding.FINISHED}"
    pages = {
        "lessons": "/lessons",
        "new": "/lessons/new",
        "sheet": f"{way}/sheet",
        "sheet-ladder": f"{way}/sheet/ladder",
        "sheet-benches": f"{way}/sheet/benches",
        "sheet-weigh": f"{way}/sheet/weigh",
        "sheet-cutting": f"{way}/sheet/cutting",
        "slips": f"{way}/print/bench-slips",
        "lead": f"{way}/lead",
        "lead-bench": f"{way}/lead/cedar",
        "graph": f"{way}/graph",
        "designs": f"{way}/designs",
        "keep": f"{way}/keep",
        "shelf": "/shelf",
        "shelf-graph": f"{done}/graph",
        "shelf-designs": f"{done}/designs?ask=cord/Alder-1/break_force_N",
        "password": "/password",
    }
    for name, path in pages.items():
        yield Stop(name, at(path))


def for_bench(demo: Demo) -> Iterator[Stop]:
    """The bench page in its states; each tablet takes a bench of its own."""
    yield Stop("bench-set-up", _bench(demo, "Hazel"))
    yield Stop("bench-hanging", _bench(demo, "Willow"))
    yield Stop("bench-reading", _bench(demo, "Cedar", _it_hangs))
    yield Stop("bench-ended", _bench(demo, "Larch", _it_ended))
    yield Stop("bench-worked", _bench(demo, "Alder", _has_ended))


def _bench(demo: Demo, word: str, then: Callable[[Page], None] | None = None) -> Callable[[Page], None]:
    def go(page: Page) -> None:
        page.goto(f"/slip/{demo.slips[word]}")
        page.click("main form button")
        page.wait_for_url("**/bench")
        page.wait_for_selector("#it-ended")
        if then:
            then(page)

    return go


def _it_hangs(page: Page) -> None:
    page.get_by_role("button", name="It is hanging").click()


def _it_ended(page: Page) -> None:
    page.click("#it-ended")
    page.wait_for_selector("[name=kind][value=broke_adding]")


def _has_ended(page: Page) -> None:
    if page.locator("#done").count() == 0:
        page.click("#it-ended")
        page.check("#ending-form [value=did_not_break]")
        page.click("#save-ending")
    page.wait_for_selector("#worked .figures")
    page.evaluate("for (const one of document.querySelectorAll('#worked details')) one.open = true")


def for_front(demo: Demo) -> Iterator[Stop]:
    """The front screen in each of its views, and the class graph of the finished lesson."""
    for view in ("key", "question", "steps", "class_graph", "one_bench"):
        yield Stop(f"front-{view.replace('_', '-')}", _front(demo, view), front=True)
    yield Stop("front-finished", _drawn(f"/front/{demo.finished_front_code}"), front=True)


def _front(demo: Demo, view: str) -> Callable[[Page], None]:
    def go(page: Page) -> None:
        asked = {"front_view": view, "front_bench": "maple"}
        running.set_stage(demo.database, demo.under_way, asked, at=datetime.now(UTC))
        address = f"/front/{demo.front_code}"
        _drawn(address)(page) if view in ("class_graph", "one_bench") else page.goto(address)

    return go


def _drawn(address: str) -> Callable[[Page], None]:
    def go(page: Page) -> None:
        page.goto(address)
        page.wait_for_selector("#class-graph .main-svg")

    return go


def free_tablets(demo: Demo) -> None:
    """No tablet holds a bench any more, so that the next round finds room."""
    with demo.database.transaction() as session:
        session.execute(update(Tablet).values(ended_at=datetime.now(UTC)))
