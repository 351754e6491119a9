"""The lead bench as its teacher uses it, in sentences."""

from playwright.sync_api import Locator, Page, expect

from tests.make import MadeLesson


def sign_in(page: Page, name: str, password: str) -> None:
    """The teacher of that page's browser is in."""
    page.goto("/sign-in")
    page.locator("[name=sign_in_name]").fill(name)
    page.locator("[name=password]").fill(password)
    page.locator("main form button").click()
    page.wait_for_url("**/lessons")


class Lead:
    """One lead bench."""

    def __init__(self, page: Page, a_lesson: MadeLesson) -> None:
        self.page = page
        page.goto(f"/lessons/{a_lesson.lesson_id}/lead")

    def press(self, button: str) -> None:
        """The button of that name is pressed."""
        self.page.get_by_role("button", name=button, exact=True).click()

    def row(self, bench: str) -> Locator:
        """The row of one bench."""
        return self.page.locator("#pace-strip tbody tr", has_text=bench)

    def first(self, bench: str) -> None:
        """That bench stands in the first row."""
        expect(self.page.locator("#pace-strip tbody tr").first).to_contain_text(bench)

    def leaves_out(self, bench: str, cord: int, reason: str) -> None:
        """That cord of the bench is left out, for that reason; the page is the lead bench again."""
        self.row(bench).get_by_role("link").click()
        self.page.locator(f"[aria-labelledby=cord-{cord}]").get_by_role("link", name="Leave this cord out").click()
        self.page.get_by_label("Leave it out, because").fill(reason)
        self.press("Leave it out")
        expect(self.page.locator(f"#cord-{cord}")).to_contain_text(f"left out: {reason}")
        self.page.get_by_role("link", name="All benches").click()
