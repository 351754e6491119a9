"""What was typed is never lost: no network, errors, a reload, lost answers, a killed server."""

import re
import signal
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Route, expect

from tests.browser.bench.lesson import LOST, a_lesson, refuse_posts, stands, typed
from tests.browser.server import Server, serving
from tests.browser.tablet import Tablet
from tests.browser.watching import NewTablet, Watch
from tests.make import MadeLesson


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
    refuse_posts(tablet.page.context, 503)
    tablet.reads("222")
    expect(tablet.unsent).to_have_text("Still to send: 1")
    tablet.page.on("dialog", lambda dialog: dialog.accept())
    tablet.page.reload()
    expect(tablet.unsent).to_have_text("Still to send: 1")
    expect(tablet.next_step).to_have_text(re.compile("Hang pouch 2 next"))
    tablet.page.context.unroute_all()
    tablet.has_sent_all()
    assert typed(server, lesson) == [(0, "218"), (1, "222")]


@pytest.mark.parametrize("status", [500, 502, 429])
def test_an_answer_that_is_an_error_loses_nothing(
    tablet: Tablet, server: Server, lesson: MadeLesson, status: int
) -> None:
    refuse_posts(tablet.page.context, status)
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
    stale: list[str] = []

    def make_the_first_stale(route: Route) -> None:
        old = {} if stale else {"x-csrftoken": "stale"}
        stale.append(route.request.url)
        route.continue_(headers={**route.request.headers, **old})

    tablet.page.context.route("**/readings", make_the_first_stale)
    tablet.takes_zero("218")
    tablet.has_sent_all()
    assert len(stale) == 2
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
