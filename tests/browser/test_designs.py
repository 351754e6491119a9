"""Figures by design in a real browser: a press shows how a figure was worked out, and news change the tables."""

from datetime import UTC, datetime

import pytest
from playwright.sync_api import Page, expect

from app.services.teachers import add_teacher
from tests.browser.accessibility import check_accessible
from tests.browser.server import Server
from tests.browser.teacher import Teacher
from tests.browser.watching import NewTablet
from tests.make import MadeLesson, join, make_ending, make_lesson, make_plan, make_readings, new_id, sign_in


@pytest.fixture
def lesson(server: Server) -> MadeLesson:
    """A lesson whose teacher can sign in; Alder's cord broke."""
    name, at = new_id()[:8], datetime.now(UTC)
    add_teacher(server.database, name, password="hemp and four odd strips", at=at)
    teacher = sign_in(server.database, name=name, password="hemp and four odd strips", at=at)
    made = make_lesson(server.database, teacher=teacher, plan=make_plan(depth="second"), at=at)
    alder = join(server.database, made, at=at)
    make_readings(server.database, alder, at=at, every_s=0)
    make_ending(server.database, alder, kind="broke_adding", fail_step=5, at=at)
    return made


@pytest.fixture
def page(new_tablet: NewTablet, lesson: MadeLesson) -> Page:
    """The page by designs, on a laptop."""
    opened = new_tablet(width=1280, height=800, touch=False)
    Teacher(opened).signs_in(lesson.teacher.sign_in_name, "hemp and four odd strips")
    opened.goto(f"/lessons/{lesson.lesson_id}/designs")
    return opened


def test_a_press_shows_how_and_close_goes_back(page: Page) -> None:
    page.evaluate("window.stayed = true")
    answer = page.locator("#worked-out")
    expect(answer).to_be_hidden()
    page.locator("a[data-ask='cord/Alder-1/extension_mm']").click()
    expect(answer).to_contain_text("Alder-1. Extension at the last reading")
    expect(answer).to_contain_text("229 mm − 218 mm")
    expect(answer).to_be_focused()
    check_accessible(page)
    page.locator("a[data-ask='cord/Alder-1/break_force_N']").last.click()
    expect(answer).to_contain_text("Alder-1. Breaking force")
    answer.get_by_role("link", name="Close").click()
    expect(answer).to_be_hidden()
    expect(page.locator("#cords-figures a[data-ask='cord/Alder-1/break_force_N']")).to_be_focused()
    assert page.evaluate("window.stayed")


def test_what_was_pressed_stays_in_sight_and_escape_puts_the_answer_away(page: Page) -> None:
    page.set_viewport_size({"width": 600, "height": 500})
    pressed = page.locator("#cords-figures a[data-ask='cord/Alder-1/extension_mm']")
    pressed.evaluate("link => link.scrollIntoView({ block: 'end' })")
    pressed.click()
    answer = page.locator("#worked-out")
    expect(answer).to_be_focused()
    expect(answer.get_by_role("link", name="Close")).to_be_in_viewport(ratio=1)
    expect(pressed).to_be_in_viewport(ratio=1)
    link, top = pressed.bounding_box(), answer.bounding_box()
    assert link is not None
    assert top is not None
    assert link["y"] + link["height"] <= top["y"]
    page.keyboard.press("Escape")
    expect(answer).to_be_hidden()
    expect(pressed).to_be_focused()


@pytest.mark.parametrize("width", [360, 600, 799])
def test_on_a_narrow_page_no_figure_lies_out_of_sight(page: Page, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    for table in ("#designs-table", "#cords-figures"):
        cells = page.locator(f"{table} tbody td")
        assert cells.count()
        assert page.locator(table).evaluate(
            "table => table.parentElement.scrollWidth <= table.parentElement.clientWidth"
        )
        head = cells.last.evaluate("cell => getComputedStyle(cell, '::before').content")
        assert head.strip('"') == cells.last.get_attribute("data-head")


def test_news_change_the_tables_and_keep_what_is_open(page: Page, server: Server, lesson: MadeLesson) -> None:
    page.evaluate("window.stayed = true")
    page.locator("#cords-figures a[data-ask='cord/Alder-1/extension_mm']").click()
    hazel = join(server.database, lesson, bench="Hazel", at=datetime.now(UTC))
    make_readings(server.database, hazel, at=datetime.now(UTC), every_s=0)
    make_ending(server.database, hazel, kind="did_not_break", at=datetime.now(UTC))
    expect(page.locator("#cords-figures")).to_contain_text("Hazel-1")
    expect(page.locator("#designs-table")).to_contain_text("1 of 1 not broken")
    pairs = page.locator("#pairs-stiffness_N_per_mm")
    pairs.locator("summary").click()
    expect(page.locator("#worked-out")).to_contain_text("229 mm − 218 mm")
    make_readings(server.database, hazel, (235,), first_step=5, at=datetime.now(UTC))
    expect(page.locator("#cords-figures a[data-ask='cord/Hazel-1/extension_mm']")).to_contain_text("17")
    expect(pairs.locator(".pairs")).to_be_visible()
    assert page.evaluate("window.stayed")
