"""A tablet at a bench, in sentences: it joins, takes the zero, reads, corrects, ends; and says what it shows."""

from playwright.sync_api import Locator, Page, expect

DOUBLE_TAP_MS = 750
"""A little more than the time in which the page takes two presses for one."""


class Tablet:
    """One page of a browser that holds a bench, or is about to."""

    def __init__(self, page: Page) -> None:
        self.page = page

    def joins(self, slip_code: str) -> "Tablet":
        """It types a slip code on the join page and takes the bench."""
        self.page.goto("/join")
        self.page.fill("#code", slip_code)
        self.page.click("#slip-form button")
        self.page.wait_for_url("**/bench*")
        return self

    def scans(self, slip_code: str) -> "Tablet":
        """It opens what the QR of a slip holds, and says yes."""
        self.page.goto(f"/slip/{slip_code}")
        self.page.locator("main form button").click()
        self.page.wait_for_url("**/bench*")
        return self

    def joins_by_key(self, lesson_key: str, bench: str) -> "Tablet":
        """It types the lesson key and chooses a free bench."""
        self.page.goto("/join")
        self.page.fill("#lesson-key", lesson_key)
        self.page.click("#key-form button")
        self.page.check(f"#bench-form input[value='{bench.lower()}']")
        self.page.click("#bench-form button")
        self.page.wait_for_url("**/bench*")
        return self

    def takes_zero(self, pointer: str | float, free_length: str | float | None = None) -> None:
        """It types the zero, with what lies between the knots if that is said."""
        if free_length is not None:
            self.page.fill("#free-length", str(free_length))
        self.reads(pointer)

    def reads(self, pointer: str | float) -> None:
        """It types a reading, saves it, and is told what comes next."""
        before = self.next_words
        self.types(pointer)
        self.page.wait_for_function("before => document.getElementById('next-step').textContent !== before", arg=before)
        self.page.wait_for_timeout(DOUBLE_TAP_MS)

    def types(self, pointer: str | float) -> None:
        """It types a reading and presses Save, whatever comes of it."""
        self.page.fill("#pointer", str(pointer))
        self.page.click("#save-reading")

    def says_it_hangs(self) -> None:
        """It says that the rung hangs: the wait begins."""
        self.page.click("#it-is-hanging")

    def tells(self, *kinds: str, mark: int | None = None) -> None:
        """It ticks what happened and saves it without a reading."""
        self.ticks(*kinds, mark=mark)
        self.page.click("#tell")

    def ticks(self, *kinds: str, mark: int | None = None) -> None:
        """It ticks what happened; the next reading takes it along."""
        for kind in kinds:
            self.page.check(f"#something-happened input[value='{kind}']")
        if mark is not None:
            self.page.select_option("#mark", str(mark))

    def corrects(self, moment: str, pointer: str | float, reason: str = "typed_wrong") -> None:
        """It changes the reading of that moment ("step 3", "the zero"), and says why."""
        self.page.get_by_role("link", name=f"Change {moment}", exact=True).click()
        self.page.fill("#change-pointer", str(pointer))
        self.page.check(f"#change-form input[value='{reason}']")
        self.page.get_by_role("button", name="Save the change").click()

    def ends(self, kind: str, *, place: str | None = None, look: str | None = None) -> None:
        """It says how the test ended."""
        self.page.click("#it-ended")
        self.page.check(f"#ending-form input[value='{kind}']")
        if place:
            self.page.check(f"#ending-form input[value='{place}']")
        if look:
            self.page.check(f"#ending-form input[value='{look}']")
        self.page.click("#save-ending")
        expect(self.page.locator("#done")).to_be_visible()

    def begins_a_fresh_cord(self) -> None:
        """It begins with a fresh cord."""
        self.page.locator("#done summary").click()
        self.page.get_by_role("button", name="Begin with a fresh cord").click()

    def carries_on_here(self) -> None:
        """It takes the writing back from the bench's other tablet."""
        self.page.get_by_role("button", name="Carry on here").click()

    @property
    def next_words(self) -> str:
        """What stands largest on the page."""
        return self.page.locator("#next-step").text_content() or ""

    @property
    def next_step(self) -> Locator:
        """The place where it stands, to expect something of."""
        return self.page.locator("#next-step")

    @property
    def unsent(self) -> Locator:
        """The place that says what is still to send."""
        return self.page.locator("#unsent-words")

    @property
    def wrong(self) -> Locator:
        """The sentence beside the pointer's field."""
        return self.page.locator("#pointer-why")

    @property
    def refused(self) -> Locator:
        """Where entries stand that the server would not take."""
        return self.page.locator("#refused")

    def has_sent_all(self) -> None:
        """Everything that was typed is on the server."""
        expect(self.unsent).to_have_text("All sent")

    def rows(self) -> list[list[str]]:
        """The readings shown: step, force, pointer, extension; the newest first."""
        self.page.evaluate("document.getElementById('readings').classList.add('opened')")
        lines = self.page.locator("#reading-rows tr").all()
        return [[" ".join(cell.split()) for cell in line.locator("th, td").all_inner_texts()][:4] for line in lines]
