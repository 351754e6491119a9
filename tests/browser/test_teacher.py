"""A teacher before the lesson, in a real browser: from the first link to slips in the hand."""

import re

import pytest
from playwright.sync_api import Dialog, Page, expect

from app.services.lessons import lesson_record
from tests.browser.accessibility import check_accessible
from tests.browser.server import Server
from tests.browser.teacher import Teacher
from tests.browser.watching import NewTablet

SIZES = [(360, 740), (600, 960), (1024, 768), (1280, 800)]
PLACES = ("sheet", "sheet/benches", "sheet/ladder", "sheet/weigh", "print/bench-slips")
ANYONE = ("/sign-in", "/words", "/sources", "/cautions", "/problems/busy")
_numbers = iter(range(1, 1000))


@pytest.fixture
def teacher(new_tablet: NewTablet, server: Server) -> Teacher:
    """A teacher with a passphrase, signed in on a laptop."""
    page = new_tablet(width=1280, height=800, touch=False)
    one = Teacher.invited(page, server, name=f"moss {next(_numbers)}")
    one.chooses_a_passphrase()
    return one


def test_a_usable_lesson_takes_under_twenty_clicks_and_typings(teacher: Teacher, server: Server) -> None:
    """A star of three designs round the yardstick cord, from the list of lessons to the lead bench."""
    teacher.deeds = 0
    teacher.makes_a_lesson("Fleece cords")
    teacher.adds_a_design("B")
    teacher.write("Strips of design B", "2")
    teacher.choose("Lay-up of design B", "twisted")
    teacher.adds_a_design("C")
    teacher.choose("Cut of design C", "across")
    teacher.goes_to_test()
    assert teacher.deeds < 20
    lesson = lesson_record(server.database, teacher.lesson_id)
    assert [design.name for design in lesson.designs] == ["3 plaited, along", "2 twisted, along", "3 plaited, across"]
    assert {len([one for one in lesson.benches if one.design_id == design.id]) for design in lesson.designs} == {3, 4}
    assert len(lesson.rungs) == 18


def test_the_sheet_says_when_it_was_saved_and_when_not_yet(teacher: Teacher) -> None:
    teacher.makes_a_lesson("Said when saved")
    teacher.saves_the_sheet()
    expect(teacher.page.get_by_role("status")).to_have_text(re.compile(r"Saved \d{1,2}:\d\d\."))
    teacher.write("Hanger", "pail")
    expect(teacher.page.get_by_role("status")).to_have_text("Not saved yet.")
    teacher.saves_the_sheet()
    expect(teacher.page.get_by_label("Hanger", exact=True)).to_have_value("pail")


def test_the_browser_asks_before_something_unsaved_is_left(teacher: Teacher) -> None:
    teacher.makes_a_lesson("Asked before leaving")
    sheet = teacher.page.url
    asked: list[str] = []

    def stay(dialog: Dialog) -> None:
        asked.append(dialog.type)
        dialog.dismiss()

    teacher.page.on("dialog", stay)
    teacher.write("Hanger", "pail")
    teacher.follow("Discuss")
    teacher.page.wait_for_timeout(300)
    assert (asked, teacher.page.url) == (["beforeunload"], sheet)
    teacher.press("Balance check")
    teacher.sees("Balance check")
    teacher.follow("Back to the lesson sheet")
    expect(teacher.page.get_by_label("Hanger", exact=True)).to_have_value("pail")
    teacher.follow("Discuss")
    expect(teacher.page).to_have_url(f"{teacher.lesson_address}/graph")
    assert len(asked) == 1, "nothing was unsaved any more"


def test_enter_in_a_blank_saves_and_takes_nothing_away(teacher: Teacher, server: Server) -> None:
    teacher.makes_a_lesson("Enter saves")
    teacher.adds_a_design("B")
    teacher.page.get_by_label("Strips of design B", exact=True).fill("4")
    teacher.page.get_by_label("Strips of design B", exact=True).press("Enter")
    expect(teacher.page.get_by_role("status")).to_contain_text("Saved")
    assert [design.strands for design in lesson_record(server.database, teacher.lesson_id).designs] == [3, 4]


def test_show_what_i_type(new_tablet: NewTablet, server: Server) -> None:
    page = new_tablet(width=1280, height=800, touch=False)
    Teacher.invited(page, server, name=f"moss {next(_numbers)}")
    box = page.get_by_label("Passphrase", exact=True)
    box.fill("four odd trees go")
    expect(box).to_have_attribute("type", "password")
    page.get_by_label("Show what I type").check()
    expect(box).to_have_attribute("type", "text")
    page.get_by_role("button", name="Set it and go in").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Your lessons")


def test_the_difference_at_the_balance_is_told_while_typing(teacher: Teacher) -> None:
    teacher.makes_a_lesson("Weighed")
    teacher.press("Balance check")
    teacher.write("Balance mass of number 1, g", "98,5")
    row = teacher.page.locator(".balance tbody tr").nth(1)
    expect(row.locator("td").nth(3)).to_have_text("−1.5")
    teacher.press("Save what was weighed")
    expect(row.locator("td").nth(3)).to_have_text("−1.5")
    expect(teacher.page.locator("main")).to_contain_text("counted by label: numbers 2 to 18.")


def test_without_scripts_a_lesson_is_made_too(new_tablet: NewTablet, server: Server) -> None:
    page = new_tablet(width=1280, height=800, touch=False, scripts=False)
    one = Teacher.invited(page, server, name=f"moss {next(_numbers)}")
    one.chooses_a_passphrase()
    one.makes_a_lesson("No scripts")
    one.adds_a_design("B")
    one.choose("Cut of design B", "across")
    one.goes_to_test()


def wide_as_the_window(page: Page) -> bool:
    return bool(page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth"))


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_every_page_is_accessible_and_fits_every_screen(teacher: Teacher, new_tablet: NewTablet, dark: bool) -> None:
    teacher.makes_a_lesson("A lesson whose title is as long as a title may be, to see where it goes: " + "w" * 40)
    teacher.adds_a_design("B")
    page = teacher.page
    page.emulate_media(color_scheme="dark" if dark else "light")
    addresses = ["/lessons", "/lessons/new", "/password", *(f"{teacher.lesson_address}/{one}" for one in PLACES)]
    for address in addresses:
        page.goto(address)
        check_accessible(page)
        for width, height in SIZES:
            page.set_viewport_size({"width": width, "height": height})
            assert wide_as_the_window(page), f"{address} at {width}"
        check_accessible(page)
    stranger = new_tablet(dark=dark)
    for address in ANYONE:
        stranger.goto(address)
        check_accessible(stranger)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_ten_slips_are_one_sheet_of_paper(teacher: Teacher, paper: str) -> None:
    teacher.makes_a_lesson("Slips")
    teacher.page.goto(f"{teacher.lesson_address}/print/bench-slips")
    printed = teacher.page.pdf(format=paper)
    assert len(re.findall(rb"/Type\s*/Page\b", printed)) == 1
