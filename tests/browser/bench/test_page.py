"""The bench page in a real browser: nothing reloads, script and server say the same, and every state is accessible."""

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.accessibility import check_accessible
from tests.browser.bench.lesson import stands, typed
from tests.browser.server import Server
from tests.browser.tablet import Tablet
from tests.browser.watching import NewTablet
from tests.make import MadeLesson

SIZES = [(360, 740), (600, 960), (1024, 768), (1280, 800)]


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
    cookies, plain_url = tablet.page.context.cookies(), tablet.page.url
    plain = new_tablet(scripts=False, width=800, height=1280)
    plain.context.add_cookies([{"name": one["name"], "value": one["value"], "url": plain_url} for one in cookies])
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


@pytest.mark.parametrize(("width", "height"), SIZES)
@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_every_state_is_accessible_and_fits(
    new_tablet: NewTablet, lesson: MadeLesson, width: int, height: int, dark: bool
) -> None:
    page = new_tablet(width=width, height=height, dark=dark)
    tablet = Tablet(page)
    for address in ("/", "/join", f"/slip/{lesson.slips['Alder']}"):
        page.goto(address)
        is_fine(page)
    tablet.joins(lesson.slips["Alder"])
    is_fine(page)
    tablet.takes_zero("218", free_length="300")
    tablet.reads("222")
    tablet.ticks("other_mass", mark=4)
    tablet.reads("230")
    tablet.has_sent_all()
    tablet.says_it_hangs()
    tablet.types("two")
    is_fine(page)
    page.get_by_role("link", name="Change step 2").click()
    is_fine(page)
    page.get_by_text("Keep it as it is").click()
    page.get_by_text("Another reading at the same step").click()
    is_fine(page)
    page.get_by_role("link", name="Back").click()
    page.click("#it-ended")
    page.check("#ending-form input[value='broke_adding']")
    is_fine(page)
    page.click("#save-ending")
    page.locator("#done summary").click()
    is_fine(page)


def is_fine(page: Page) -> None:
    check_accessible(page)
    wider = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert wider <= 0, f"{page.url} is {wider} px wider than its window"
