"""What was worked out of a cord, on a tablet with a script: it comes without a reload, and offline nothing is lost."""

import re

import pytest
from playwright.sync_api import Page, expect

from app.services.planning import PlanChanges, mend_plan
from tests.browser.accessibility import check_accessible
from tests.browser.bench.lesson import a_lesson, now, stands
from tests.browser.server import Server
from tests.browser.tablet import Tablet
from tests.make import MadeLesson, make_weighing


@pytest.fixture
def lesson(server: Server) -> MadeLesson:
    """A lesson of the second depth."""
    made = a_lesson(server)
    mend_plan(server.database, made.lesson_id, PlanChanges(lesson={"depth": "second"}), at=now())
    return made


def _tested(tablet: Tablet) -> None:
    tablet.takes_zero("218", free_length="300")
    for pointer in ("222", "224", "227", "231"):
        tablet.reads(pointer)


def _name(page: Page, name: str) -> None:
    expect(page.locator("#worked .figure-name").filter(has_text=re.compile(name)).first).to_be_visible()


def test_figures_come_with_the_end_and_the_bench_chooses_its_straight_part(
    tablet: Tablet, server: Server, lesson: MadeLesson
) -> None:
    page = tablet.page
    page.evaluate("window.stayed = true")
    _tested(tablet)
    expect(page.locator("#worked")).to_be_hidden()
    tablet.ends("broke_adding", place="free_length")
    _name(page, "^Breaking force$")
    page.locator("#how-break_force_N summary").click()
    page.get_by_role("button", name="Save the straight part").click()
    expect(page.locator("#straight-first_step-why")).to_have_text("Choose a step.")
    page.get_by_label("From", exact=True).select_option("3")
    page.get_by_label("To", exact=True).select_option("1")
    page.get_by_role("button", name="Save the straight part").click()
    expect(page.locator("#straight-last_step-why")).to_have_text("The last step comes after the first one.")
    page.get_by_label("From", exact=True).select_option("1")
    page.get_by_label("To", exact=True).select_option("4")
    page.get_by_role("button", name="Save the straight part").click()
    _name(page, "^Stiffness of the part you chose, steps 1 to 4$")
    expect(page.locator("#how-break_force_N .working")).to_be_visible()
    assert stands(server, lesson).cord.tested.straight_last_step == 4
    check_accessible(page)
    page.get_by_role("button", name="Take that choice back").click()
    expect(page.locator("#straight-back")).to_have_count(0)
    assert stands(server, lesson).cord.tested.straight_last_step is None
    assert page.evaluate("window.stayed")


def test_offline_the_sentences_stand_and_the_figures_follow(tablet: Tablet, lesson: MadeLesson) -> None:
    page = tablet.page
    _tested(tablet)
    tablet.has_sent_all()
    page.context.set_offline(True)
    tablet.ends("broke_adding")
    expect(page.locator("#result .first")).to_have_text(re.compile("It held"))
    expect(page.locator("#worked")).to_be_hidden()
    page.context.set_offline(False)
    tablet.has_sent_all()
    _name(page, "^Breaking force$")
    expect(page.locator("#worked-waits")).to_be_hidden()
    page.context.set_offline(True)
    tablet.corrects("step 4", "232")
    expect(page.locator("#worked-waits")).to_be_visible()
    page.context.set_offline(False)
    expect(page.locator("#worked-waits")).to_be_hidden()
    tablet.begins_a_fresh_cord()
    expect(page.locator("#worked")).to_be_hidden()


def test_what_the_teacher_mends_is_worked_out_anew(tablet: Tablet, server: Server, lesson: MadeLesson) -> None:
    _tested(tablet)
    tablet.ends("broke_adding")
    tablet.has_sent_all()
    figure = tablet.page.locator("#worked .figure").first
    before = figure.text_content() or ""
    assert before.startswith("between")
    make_weighing(server.database, lesson.target, mark=1, mass_g=150, at=now())
    expect(figure).not_to_have_text(before)
