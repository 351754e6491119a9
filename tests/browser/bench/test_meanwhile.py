"""What happens while a bench types: the teacher, another tablet, another window, another bench."""

import re

from playwright.sync_api import expect

from app.services.running import put_on_shelf, set_stage
from tests.browser.bench.lesson import now, refuse_posts, stands, typed
from tests.browser.server import Server
from tests.browser.tablet import Tablet
from tests.browser.watching import NewTablet
from tests.make import MadeLesson


def test_masses_down_is_shown_and_what_comes_late_stays(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    tablet.takes_zero("218")
    tablet.reads("222")
    tablet.has_sent_all()
    tablet.page.context.route("**/changes?*", lambda route: route.abort())
    set_stage(server.database, lesson.lesson_id, {"masses_down": True}, at=now())
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


def test_going_back_shows_the_bench_as_it_stands(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    tablet.takes_zero("218")
    tablet.reads("222")
    tablet.has_sent_all()
    tablet.page.goto("/")
    tablet.page.go_back()
    expect(tablet.next_step).to_have_text(re.compile("Hang pouch 2 next"))
    tablet.reads("224")
    tablet.has_sent_all()
    assert typed(server, lesson) == [(0, "218"), (1, "222"), (2, "224")]


def test_two_windows_of_one_tablet_send_once(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    other = Tablet(tablet.page.context.new_page())
    other.page.goto("/bench")
    refuse_posts(tablet.page.context, 503)
    tablet.takes_zero("218")
    expect(other.unsent).to_have_text("Still to send: 1")
    tablet.page.context.unroute_all()
    tablet.has_sent_all()
    other.has_sent_all()
    expect(other.next_step).to_have_text(re.compile("Hang pouch 1 next"))
    assert typed(server, lesson) == [(0, "218")]


QUESTIONS_MS = 10_000
"""A tablet asks every 3 s; three questions' time, for a machine that runs other tests beside this one."""


def test_stage_and_wait_are_shown_when_it_asks_again(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    set_stage(server.database, lesson.lesson_id, {"paused": True}, at=now())
    expect(tablet.page.locator("#paused")).to_be_visible(timeout=QUESTIONS_MS)
    tablet.takes_zero("218")
    tablet.has_sent_all()
    set_stage(server.database, lesson.lesson_id, {"paused": False}, at=now())
    expect(tablet.page.locator("#paused")).to_be_hidden(timeout=QUESTIONS_MS)
    put_on_shelf(server.database, lesson.lesson_id, on_shelf=True, own=None, at=now())
    expect(tablet.next_step).to_have_text("This lesson is on the shelf.", timeout=QUESTIONS_MS)
    expect(tablet.page.locator("#pointer")).to_be_hidden()


def test_the_same_slip_on_another_tablet_carries_on_there(
    tablet: Tablet, new_tablet: NewTablet, server: Server, lesson: MadeLesson
) -> None:
    tablet.takes_zero("218")
    tablet.has_sent_all()
    other = Tablet(new_tablet()).scans(lesson.slips["Alder"])
    expect(tablet.next_step).to_have_text("Another tablet writes for Alder.", timeout=QUESTIONS_MS)
    expect(tablet.page.locator("#pointer")).to_be_hidden()
    other.reads("222")
    expect(tablet.page.locator("#reading-rows tr")).to_have_count(2, timeout=QUESTIONS_MS)
    tablet.carries_on_here()
    expect(tablet.next_step).to_have_text(re.compile("Hang pouch 2 next"))
    expect(other.next_step).to_have_text("Another tablet writes for Alder.", timeout=QUESTIONS_MS)


def test_another_bench_never_gets_this_ones_entries(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    refuse_posts(tablet.page.context, 503)
    tablet.takes_zero("218")
    expect(tablet.unsent).to_have_text("Still to send: 1")
    tablet.page.on("dialog", lambda dialog: dialog.accept())
    tablet.page.context.route("**/alder/**", lambda route: route.abort())  # before the other way opens again
    tablet.page.context.unroute("**/api/v1/**")
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
