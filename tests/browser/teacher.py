"""A teacher at a laptop, in sentences; every click, choice and typing is counted."""

from datetime import UTC, datetime

from playwright.sync_api import Locator, Page, expect

from app.services.teachers import add_teacher
from tests.browser.server import Server
from tests.make import PASSWORD


class Teacher:
    """One teacher on one page of a browser; `deeds` counts what the hands did."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.deeds = 0

    @classmethod
    def invited(cls, page: Page, server: Server, *, name: str) -> "Teacher":
        """A teacher who has just opened a first sign-in link."""
        token = add_teacher(server.database, name, password=None, at=datetime.now(UTC))
        page.goto(f"/first/{token}")
        return cls(page)

    def click(self, thing: Locator) -> None:
        """One click."""
        self.deeds += 1
        thing.click()

    def write(self, label: str, text: str) -> None:
        """One typing, in the blank of that label."""
        self.deeds += 1
        self.page.get_by_label(label, exact=True).fill(text)

    def choose(self, label: str, choice: str) -> None:
        """One choice from the list of that label."""
        self.deeds += 1
        self.page.get_by_label(label, exact=True).select_option(label=choice)

    def press(self, button: str) -> None:
        """One press of the button of that name."""
        self.click(self.page.get_by_role("button", name=button, exact=True))

    def follow(self, link: str) -> None:
        """One click on the link of that name."""
        self.click(self.page.get_by_role("link", name=link, exact=True))

    def chooses_a_passphrase(self, password: str = PASSWORD) -> None:
        """The first passphrase is set, and the teacher is in."""
        self.write("Passphrase", password)
        self.press("Set it and go in")
        self.sees("Your lessons")

    def signs_in(self, name: str, password: str = PASSWORD) -> None:
        """The teacher is in again."""
        self.page.goto("/sign-in")
        self.write("Name", name)
        self.write("Passphrase", password)
        self.press("Sign in")
        self.sees("Your lessons")

    def makes_a_lesson(self, title: str) -> None:
        """A new lesson is there, and its sheet is open."""
        self.follow("New lesson")
        self.write("Title", title)
        self.press("Make the lesson")
        self.sees("Lesson sheet")

    def adds_a_design(self, letter: str) -> None:
        """One more design stands on the sheet, made as the yardstick cord still."""
        self.press("Add a design")
        expect(self.page.get_by_label(f"Strips of design {letter}", exact=True)).to_be_visible()

    def saves_the_sheet(self) -> None:
        """The sheet says when it was saved."""
        self.click(self.page.locator(".done-bar").get_by_role("button", name="Save", exact=True))
        expect(self.page.get_by_role("status")).to_contain_text("Saved")

    def goes_to_test(self) -> None:
        """The lead bench is open."""
        self.press("Ready: go to Test")
        expect(self.page).to_have_url(f"{self.lesson_address}/lead")

    @property
    def lesson_address(self) -> str:
        """The address of the lesson whose page is open."""
        start, _, rest = self.page.url.partition("/lessons/")
        return f"{start}/lessons/{rest.split('/')[0]}"

    @property
    def lesson_id(self) -> str:
        """The id of the lesson whose page is open."""
        return self.lesson_address.rpartition("/")[2]

    def sees(self, heading: str) -> None:
        """The page of that heading is open."""
        expect(self.page.get_by_role("heading", level=1)).to_have_text(heading)
