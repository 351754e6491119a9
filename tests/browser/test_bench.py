"""The bench page in a real browser: nothing reloads, and nothing that was typed is lost."""

import re
import signal
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, Route, expect

from app.services.bench_state import BenchState, state_of
from app.services.running import put_on_shelf, set_stage
from tests.browser.accessibility import check_accessible
from tests.browser.server import Server, serving
from tests.browser.tablet import Tablet
from tests.browser.watching import NewTablet, Watch
from tests.make import MadeLesson, make_lesson, make_teacher, make_weighing, new_id

LOST = r"Failed to load resource"
SIZES = [(360, 740), (600, 960), (1024, 768), (1280, 800)]


def _now() -> datetime:
    return datetime.now(UTC)


def a_lesson(server: Server) -> MadeLesson:
    """A lesson of five pouches with a weighed bucket, its teacher new."""
    teacher = make_teacher(server.database, name=new_id()[:8])
    columns = {"planning": {"hanger_name": "bucket"}, "gravity_m_per_s2": 9.81, "wait_s": 2}
    made = make_lesson(server.database, teacher=teacher, at=_now(), **columns)
    make_weighing(server.database, made.target, mark=0, mass_g=86, at=_now())
    return made


def stands(server: Server, lesson: MadeLesson, bench: str = "Alder") -> BenchState:
    """The bench as the server has it."""
    with server.database.reading() as session:
        row = session.connection().exec_driver_sql(
            f"SELECT id FROM bench WHERE word = '{bench}' AND lesson_id = '{lesson.lesson_id}'"
        )
        bench_id = row.scalar_one()
    return state_of(server.database, lesson.lesson_id, bench_id)


def typed(server: Server, lesson: MadeLesson) -> list[tuple[int, str]]:
    """Step and text of every reading that stands."""
    return [(one.reading.step, one.reading.pointer_typed) for one in stands(server, lesson).cord.points]


@pytest.fixture
def lesson(server: Server) -> MadeLesson:
    return a_lesson(server)


@pytest.fixture
def tablet(new_tablet: NewTablet, lesson: MadeLesson) -> Tablet:
    """A tablet that took Alder; losing the network is part of its tests."""
    return Tablet(new_tablet(allow=LOST)).joins(lesson.slips["Alder"])


def test_a_whole_cord_without_a_reload(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    tablet.page.evaluate("window.stayed = true")
    expect(tablet.next_step).to_have_text(re.compile(r"Hang the bucket: 86.g\."))
    tablet.takes_zero("218", free_length="300")
    tablet.reads("222")
    tablet.reads("224,5")
    expect(tablet.page.locator("#bench-graph")).to_be_visible()
    tablet.reads("227")
    tablet.has_sent_all()
    tablet.ends("broke_adding", place="at_knot", look="ragged")
    expect(tablet.page.locator("#result .first")).to_have_text(re.compile(r"It held 4\.85.N\.\s*It broke on 6\.85.N\."))
    tablet.has_sent_all()
    assert tablet.page.evaluate("window.stayed")
    state = stands(server, lesson)
    assert typed(server, lesson) == [(0, "218"), (1, "222"), (2, "224,5"), (3, "227")]
    assert [(one.quantity, one.typed) for one in state.specimen.measures] == [("free_length_mm", "300")]
    assert state.cord.ending is not None
    assert (state.cord.ending.fail_step, state.cord.ending.place) == (4, "at_knot")
    tablet.begins_a_fresh_cord()
    expect(tablet.next_step).to_have_text(re.compile("Hang the bucket"))
    tablet.has_sent_all()
    assert stands(server, lesson).specimen.specimen_no == 2


def test_script_and_server_draw_and_say_the_same(new_tablet: NewTablet, tablet: Tablet, lesson: MadeLesson) -> None:
    """The page as the script keeps it equals the page as the server prints it for whoever runs no script."""
    tablet.takes_zero("218", free_length="300")
    for pointer in ("222", "22.7", "231"):
        tablet.reads(pointer)
    tablet.corrects("step 2", "227", "unit")
    tablet.ticks("knot_slipped")
    tablet.reads("260")
    tablet.has_sent_all()
    plain = new_tablet(scripts=False, width=800, height=1280)
    plain.context.add_cookies(tablet.page.context.cookies())
    plain.goto("/bench")
    tablet.page.wait_for_timeout(500)
    tablet.page.evaluate("document.getElementById('readings').classList.add('opened')")
    for part in ("#next-step", "#makes", "#step-words", "#last", "#reading-rows", "#told span"):
        there, here = plain.locator(part).all_inner_texts(), tablet.page.locator(part).all_inner_texts()
        assert [" ".join(one.split()) for one in here] == [" ".join(one.split()) for one in there], part
    for shape in ("polyline", ".tick", ".ring", ".pt", ".next"):
        assert _drawn(tablet.page, shape) == _drawn(plain, shape), shape
    assert _drawn(tablet.page, "rect", "#ladder") == _drawn(plain, "rect", "#ladder")


def _drawn(page: Page, shape: str, within: str = "#bench-graph") -> list[list[str]]:
    """The numbers of each shape of a drawing, as text."""
    names = ("points", "x", "y", "cx", "cy", "d", "transform", "width", "height", "class")
    found = page.locator(f"{within} {shape}").all()
    return [[_plain(one.get_attribute(name) or "") for name in names] for one in found]


def _plain(text: str) -> str:
    return re.sub(r"-?\d+(\.\d+)?", lambda number: f"{float(number.group()):g}", text)


def test_what_is_typed_without_a_network_is_sent_later(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    tablet.takes_zero("218")
    tablet.has_sent_all()
    tablet.page.context.set_offline(True)
    tablet.reads("222")
    tablet.ticks("still_moving")
    tablet.reads("224")
    expect(tablet.unsent).to_have_text("Still to send: 3")
    expect(tablet.next_step).to_have_text(re.compile("Hang pouch 3 next"))
    expect(tablet.page.locator("#unsent-hint")).to_have_text("They wait on this tablet. Leave this page open.")
    assert [row[0] for row in tablet.rows()][:2] == ["2 \u2191 still to send", "1 \u2191 still to send"]
    assert typed(server, lesson) == [(0, "218")]
    tablet.page.context.set_offline(False)
    tablet.has_sent_all()
    assert typed(server, lesson) == [(0, "218"), (1, "222"), (2, "224")]
    ages = [one.reading.age_s for one in stands(server, lesson).cord.points]
    assert ages[1] > ages[2] > 0


def test_a_reload_loses_nothing(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    tablet.takes_zero("218")
    tablet.has_sent_all()
    _refuse_posts(tablet.page.context, 503)
    tablet.reads("222")
    expect(tablet.unsent).to_have_text("Still to send: 1")
    tablet.page.on("dialog", lambda dialog: dialog.accept())
    tablet.page.reload()
    expect(tablet.unsent).to_have_text("Still to send: 1")
    expect(tablet.next_step).to_have_text(re.compile("Hang pouch 2 next"))
    tablet.page.context.unroute_all()
    tablet.has_sent_all()
    assert typed(server, lesson) == [(0, "218"), (1, "222")]


def _refuse_posts(context: BrowserContext, status: int) -> None:
    def answer(route: Route) -> None:
        if route.request.method == "POST":
            route.fulfill(status=status, content_type="text/html", body="<h1>away</h1>")
        else:
            route.continue_()

    context.route("**/api/v1/**", answer)


@pytest.mark.parametrize("status", [500, 502, 429])
def test_an_answer_that_is_an_error_loses_nothing(
    tablet: Tablet, server: Server, lesson: MadeLesson, status: int
) -> None:
    _refuse_posts(tablet.page.context, status)
    tablet.takes_zero("218")
    expect(tablet.unsent).to_have_text("Still to send: 1")
    tablet.page.context.unroute_all()
    tablet.has_sent_all()
    assert typed(server, lesson) == [(0, "218")]


def test_an_answer_that_is_lost_stores_once(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    lost: list[str] = []

    def lose_the_first(route: Route) -> None:
        if route.request.method == "POST" and not lost:
            lost.append(route.fetch(url=route.request.url.replace(server.address, server.loopback)).text())
            route.abort("connectionreset")
        else:
            route.continue_()

    tablet.page.context.route("**/readings", lose_the_first)
    tablet.takes_zero("218")
    tablet.has_sent_all()
    assert lost
    assert typed(server, lesson) == [(0, "218")]


def test_a_double_tap_saves_one_reading(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    tablet.page.fill("#pointer", "218")
    tablet.page.dblclick("#save-reading")
    tablet.has_sent_all()
    expect(tablet.wrong).to_be_hidden()
    assert typed(server, lesson) == [(0, "218")]


@pytest.mark.parametrize("text", ["", "two", "1e999", "1,2,3", "\U0001f9f5", "9" * 10_000, "10001"])
def test_what_is_no_number_stays_in_its_field(tablet: Tablet, server: Server, lesson: MadeLesson, text: str) -> None:
    tablet.types(text)
    expect(tablet.wrong).to_be_visible()
    assert tablet.page.input_value("#pointer") == text
    assert tablet.page.get_attribute("#pointer", "aria-invalid") == "true"
    tablet.has_sent_all()
    assert not typed(server, lesson)
    tablet.reads("218")
    expect(tablet.wrong).to_be_hidden()


def test_the_wait_counts_and_never_blocks(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    tablet.takes_zero("218")
    tablet.says_it_hangs()
    expect(tablet.next_step).to_have_text(re.compile(r"Pouch 1 is hanging: 102.g\."))
    expect(tablet.page.locator("#wait-bar")).to_be_visible()
    tablet.page.reload()
    expect(tablet.page.locator("#wait-words")).to_have_text(re.compile("Read it now"), timeout=5_000)
    tablet.reads("222")
    tablet.reads("224")
    tablet.has_sent_all()
    waited = [one.reading.waited_s for one in stands(server, lesson).cord.points]
    assert waited[0] is None
    assert (waited[1] or 0) >= 2
    assert waited[2] is None


def test_masses_down_is_shown_and_what_comes_late_stays(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    tablet.takes_zero("218")
    tablet.reads("222")
    tablet.has_sent_all()
    tablet.page.context.route("**/changes?*", lambda route: route.abort())
    set_stage(server.database, lesson.lesson_id, {"masses_down": True}, at=_now())
    tablet.types("224")
    expect(tablet.refused).to_contain_text("Masses are down: readings are closed.")
    expect(tablet.refused.locator("input")).to_have_value("224")
    expect(tablet.unsent).to_have_text("Still to send: 1")
    tablet.page.context.unroute_all()
    expect(tablet.next_step).to_have_text("Masses down", timeout=15_000)
    tablet.page.click("#save-ending")
    expect(tablet.page.locator("#result")).to_contain_text("before the clock stopped it: more than 1.84")
    expect(tablet.unsent).to_have_text("Still to send: 1")
    tablet.refused.get_by_role("button", name="Withdraw it").click()
    tablet.has_sent_all()


def test_stage_and_wait_are_shown_within_a_question(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    set_stage(server.database, lesson.lesson_id, {"paused": True}, at=_now())
    expect(tablet.page.locator("#paused")).to_be_visible(timeout=4_000)
    tablet.takes_zero("218")
    tablet.has_sent_all()
    set_stage(server.database, lesson.lesson_id, {"paused": False}, at=_now())
    expect(tablet.page.locator("#paused")).to_be_hidden(timeout=4_000)
    put_on_shelf(server.database, lesson.lesson_id, on_shelf=True, own=None, at=_now())
    expect(tablet.next_step).to_have_text("This lesson is on the shelf.", timeout=4_000)
    expect(tablet.page.locator("#pointer")).to_be_hidden()


def test_the_same_slip_on_another_tablet_carries_on_there(
    tablet: Tablet, new_tablet: NewTablet, server: Server, lesson: MadeLesson
) -> None:
    tablet.takes_zero("218")
    tablet.has_sent_all()
    other = Tablet(new_tablet()).scans(lesson.slips["Alder"])
    expect(tablet.next_step).to_have_text("Another tablet writes for Alder.", timeout=5_000)
    expect(tablet.page.locator("#pointer")).to_be_hidden()
    other.reads("222")
    expect(tablet.page.locator("#reading-rows tr")).to_have_count(2, timeout=5_000)
    tablet.carries_on_here()
    expect(tablet.next_step).to_have_text(re.compile("Hang pouch 2 next"))
    expect(other.next_step).to_have_text("Another tablet writes for Alder.", timeout=5_000)


def test_a_correction_made_without_a_network_keeps_the_first_value(
    tablet: Tablet, server: Server, lesson: MadeLesson
) -> None:
    tablet.takes_zero("218")
    tablet.page.context.set_offline(True)
    tablet.reads("22.2")
    tablet.corrects("step 1", "222", "unit")
    assert tablet.rows()[0][2] == "22.2 222"
    expect(tablet.unsent).to_have_text(re.compile("Still to send"))
    tablet.page.context.set_offline(False)
    tablet.has_sent_all()
    assert typed(server, lesson) == [(0, "218"), (1, "222")]
    assert stands(server, lesson).cord.points[-1].first_typed == "22.2"


def test_another_rung_is_told_and_taken_back(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    tablet.takes_zero("218")
    tablet.ticks("other_mass")
    tablet.page.click("#tell")
    expect(tablet.page.locator("#mark-why")).to_have_text("Say which one hangs.")
    tablet.tells("other_mass", mark=3)
    expect(tablet.next_step).to_have_text(re.compile(r"Pouch 3 is hanging: 204.g\."))
    tablet.has_sent_all()
    assert stands(server, lesson).next.mark == 3
    tablet.page.get_by_role("button", name="Take back").click()
    expect(tablet.next_step).to_have_text(re.compile(r"Hang pouch 1 next: 102.g\."))
    tablet.has_sent_all()
    assert stands(server, lesson).next.mark == 1


def test_ticks_are_kept_and_a_whole_fresh_cord_offline_arrives_in_order(
    tablet: Tablet, server: Server, lesson: MadeLesson
) -> None:
    tablet.page.check("input[value='goggles']")
    tablet.page.check("input[value='tape']")
    tablet.page.uncheck("input[value='tape']")
    tablet.takes_zero("218")
    tablet.reads("222")
    tablet.has_sent_all()
    tablet.page.context.set_offline(True)
    tablet.ends("broke_adding")
    tablet.begins_a_fresh_cord()
    tablet.takes_zero("230")
    tablet.reads("235")
    tablet.page.context.set_offline(False)
    tablet.has_sent_all()
    state = stands(server, lesson)
    assert state.bench.ticks == {"goggles": True, "tape": False}
    assert [len(cord.points) for cord in state.cords] == [2, 2]


def test_another_bench_never_gets_this_ones_entries(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    _refuse_posts(tablet.page.context, 503)
    tablet.takes_zero("218")
    expect(tablet.unsent).to_have_text("Still to send: 1")
    tablet.page.on("dialog", lambda dialog: dialog.accept())
    tablet.page.context.unroute_all()
    tablet.page.context.route("**/alder/**", lambda route: route.abort())
    tablet.joins(lesson.slips["Hazel"])
    tablet.has_sent_all()
    tablet.takes_zero("300")
    tablet.has_sent_all()
    assert not typed(server, lesson)
    assert [one.reading.pointer_typed for one in stands(server, lesson, "Hazel").cord.points] == ["300"]
    tablet.page.context.unroute_all()
    tablet.joins(lesson.slips["Alder"])
    tablet.has_sent_all()
    assert typed(server, lesson) == [(0, "218")]


def test_a_bench_that_is_held_no_more_keeps_everything_and_says_so(
    tablet: Tablet, server: Server, lesson: MadeLesson
) -> None:
    tablet.takes_zero("218")
    tablet.has_sent_all()
    with server.database.transaction() as session:
        session.connection().exec_driver_sql("UPDATE tablet SET ended_at = joined_at")
    tablet.reads("222")
    expect(tablet.page.locator("#unsent-hint")).to_contain_text("no longer holds the bench")
    expect(tablet.unsent).to_have_text("Still to send: 1")
    tablet.page.on("dialog", lambda dialog: dialog.accept())
    tablet.joins(lesson.slips["Alder"])
    tablet.has_sent_all()
    assert typed(server, lesson) == [(0, "218"), (1, "222")]


def test_a_tablet_that_keeps_nothing_says_so(new_tablet: NewTablet, server: Server, lesson: MadeLesson) -> None:
    page = new_tablet(allow=LOST)
    page.add_init_script("Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }")
    tablet = Tablet(page).joins(lesson.slips["Alder"])
    page.context.set_offline(True)
    tablet.takes_zero("218")
    expect(page.locator("#unsent-hint")).to_contain_text("Not kept on this tablet")
    page.context.set_offline(False)
    tablet.has_sent_all()
    assert typed(server, lesson) == [(0, "218")]


def test_a_stale_page_gets_a_fresh_token(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    cookies = tablet.page.context.cookies()
    tablet.page.evaluate("for (const one of document.querySelectorAll('[name=csrf_token]')) one.value = 'stale'")
    tablet.page.context.route("**/readings", lambda route: route.continue_(
        headers={**route.request.headers, **({"x-csrftoken": "stale"} if not stale else {})}
    ) or stale.append(1))  # fmt: skip
    stale: list[int] = []
    tablet.takes_zero("218")
    tablet.has_sent_all()
    assert cookies
    assert typed(server, lesson) == [(0, "218")]


def test_a_killed_server_loses_nothing(
    tmp_path: Path, open_context: Callable[..., tuple[BrowserContext, Watch]]
) -> None:
    with serving(tmp_path / "data") as server:
        lesson = a_lesson(server)
        context, watch = open_context(server.address)
        watch.allow(LOST)
        tablet = Tablet(context.new_page()).joins(lesson.slips["Alder"])
        tablet.takes_zero("218")
        tablet.has_sent_all()
        server.stop(signal.SIGTERM)
        tablet.reads("222")
        tablet.reads("224")
        expect(tablet.unsent).to_have_text("Still to send: 2")
    with serving(tmp_path / "data", port=server.port) as again:
        expect(tablet.unsent).to_have_text("All sent", timeout=20_000)
        assert typed(again, lesson) == [(0, "218"), (1, "222"), (2, "224")]


@pytest.mark.parametrize(("width", "height"), SIZES)
@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_every_state_is_accessible_and_fits(
    new_tablet: NewTablet, lesson: MadeLesson, width: int, height: int, dark: bool
) -> None:
    page = new_tablet(width=width, height=height, dark=dark)
    tablet = Tablet(page)
    for address in ("/", "/join", f"/slip/{lesson.slips['Alder']}"):
        page.goto(address)
        _is_fine(page)
    tablet.joins(lesson.slips["Alder"])
    _is_fine(page)
    tablet.takes_zero("218", free_length="300")
    tablet.reads("222")
    tablet.ticks("other_mass", mark=4)
    tablet.reads("230")
    tablet.has_sent_all()
    tablet.says_it_hangs()
    tablet.types("two")
    _is_fine(page)
    page.get_by_role("link", name="Change step 2").click()
    _is_fine(page)
    page.get_by_text("Keep it as it is").click()
    page.get_by_text("Another reading at the same step").click()
    _is_fine(page)
    page.get_by_role("link", name="Back").click()
    page.click("#it-ended")
    page.check("#ending-form input[value='broke_adding']")
    _is_fine(page)
    page.click("#save-ending")
    page.locator("#done summary").click()
    _is_fine(page)


def _is_fine(page: Page) -> None:
    check_accessible(page)
    wider = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert wider <= 0, f"{page.url} is {wider} px wider than its window"
