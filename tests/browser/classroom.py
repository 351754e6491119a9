"""A classroom as a browser test furnishes it: a teacher's laptop, a front screen, groups with tablets, programs."""

from collections.abc import Callable
from datetime import UTC, datetime

from playwright.sync_api import BrowserContext, Page, expect

from app.services import teachers
from tests import make
from tests.browser.front import Front
from tests.browser.lead import Lead
from tests.browser.lesson_script import Cord, Program
from tests.browser.server import Server
from tests.browser.tablet import Tablet
from tests.browser.teacher import Teacher
from tests.browser.watching import Watch
from tests.make import MadeLesson

OpenContext = Callable[..., tuple[BrowserContext, Watch]]
BENCHES = 7
STRANDS = {"A": 3, "B": 2, "C": 4}
EVERY_TRAY_G = {"bucket": "86", "number 1": "98,5", "number 2": "101", "number 4": "203"}
RUNGS = 8
MASSES_G = [86, 98.5, 101, 100, 203, 200, 200, 200, 200]
"""What hangs: the hanger, then each rung; what was not weighed counts as its label says."""
OWN_TRAY_G = 99.25
"""Number 1 on the tray of the second bench."""
LOST = "Failed to load resource"


class Group:
    """One group with its tablet: what it types is noted."""

    def __init__(self, tablet: Tablet, cord: Cord) -> None:
        self.tablet = tablet
        self.cord = cord

    def takes_zero(self, pointer: str, *, free_length: str) -> None:
        """The zero, with what lies between the knots."""
        self.cord.measures["gauge_length_mm"] = float(free_length.replace(",", "."))
        self.cord.reads(pointer)
        self.tablet.takes_zero(pointer, free_length=free_length)

    def reads(self, *pointers: str) -> None:
        """A step after the other."""
        for pointer in pointers:
            self.cord.reads(pointer)
            self.tablet.reads(pointer)

    def tells_and_reads(self, event: str, pointer: str) -> None:
        """Something happened before the next reading."""
        self.cord.reads(pointer, events=event)
        self.tablet.ticks(event)
        self.tablet.reads(pointer)

    def waits_and_reads(self, pointer: str, *, wait_s: float) -> None:
        """It hangs, the wait goes by, then it is read."""
        self.cord.reads(pointer, waited_s=wait_s)
        self.tablet.says_it_hangs()
        expect(self.tablet.page.locator("#wait-words")).to_contain_text("Read it now")
        self.tablet.reads(pointer)

    def corrects(self, step: int, pointer: str, reason: str) -> None:
        """A number that was wrong is changed; the first one is struck through."""
        self.cord.corrects(step, pointer, reason=reason)
        self.tablet.corrects(f"step {step}", pointer, reason)
        first = self.tablet.page.locator("#reading-rows del")
        expect(first).to_have_text(self.cord.lines[step].first_typed)

    def ends(self, kind: str, **said: str) -> None:
        """How it ended, while the next rung went on or hung."""
        going = len(self.cord.lines) if kind.startswith("broke") else None
        self.cord.ends(kind, fail_step=going, **said)
        self.tablet.ends(kind, **said)

    def begins_a_fresh_cord(self) -> None:
        """The next cord is under test."""
        self.cord = self.cord.fresh()
        self.tablet.begins_a_fresh_cord()


class Room:
    """One classroom: its server, its teacher's laptop, its front screen, and every cord that was tested in it."""

    def __init__(self, server: Server, open_context: OpenContext) -> None:
        self.server = server
        self.open_context = open_context
        self.teacher = Teacher(self.page(1280, 800, touch=False))
        self.cords: list[Cord] = []
        self.designs: dict[str, str] = {}

    def page(self, width: int, height: int, *, touch: bool = True, loses: bool = False) -> Page:
        """A page in a context of its own; `loses` when being cut off, or refused, is part of the test."""
        context, watch = self.open_context(self.server.address, width=width, height=height, touch=touch)
        if loses:
            watch.allow(LOST)
        return context.new_page()

    def prepare(self) -> None:
        """The lesson is planned, its rungs are partly weighed, its slips are in the hand, its front screen is on."""
        teacher = self.teacher
        teacher.page.goto(f"/first/{teachers.first_link(self.server.database, at=datetime.now(UTC))}")
        teacher.chooses_a_passphrase()
        _plan(teacher)
        teacher.press("Balance check")
        _weigh(teacher, EVERY_TRAY_G)
        teacher.choose("Tray of", "Hazel")
        teacher.press("Show")
        _weigh(teacher, {"number 1": str(OWN_TRAY_G)})
        teacher.follow("Back to the lesson sheet")
        teacher.press("Print bench slips")
        slips = self._slips()
        teacher.follow("Back to the lesson sheet")
        teacher.goes_to_test()
        self.lesson = self._lesson(slips)
        self.lead = Lead(teacher.page, self.lesson)
        self.front = Front(self.page(1024, 768), self.lesson)

    def _slips(self) -> dict[str, str]:
        """What stands on the printed slips: by bench word its code; designs are noted too."""
        slips = self.teacher.page.locator(".slips li")
        expect(slips).to_have_count(BENCHES)
        heads = [words.split() for words in slips.locator("h2").all_text_contents()]
        codes = [words.removeprefix("code") for words in slips.locator(".code").all_text_contents()]
        self.designs = dict(heads)
        return {word: code for (word, _), code in zip(heads, codes, strict=True)}

    def _lesson(self, slips: dict[str, str]) -> MadeLesson:
        page = self.teacher.page
        link = page.get_by_role("link", name="Link for a screen where nobody signs in").get_attribute("href")
        return MadeLesson(
            teacher=make.sign_in(self.server.database, name=teachers.FIRST_NAME, at=datetime.now(UTC)),
            lesson_id=self.teacher.lesson_id,
            lesson_key=page.locator("#lesson-key").inner_text(),
            front_code=(link or "").rpartition("/")[2],
            slips=slips,
        )

    def cord(self, bench: str) -> Cord:
        """A first cord, noted."""
        masses = [MASSES_G[0], OWN_TRAY_G, *MASSES_G[2:]] if bench == "Hazel" else MASSES_G
        design = self.designs[bench]
        self.cords.append(Cord(bench=bench, design=design, strands=STRANDS[design], masses_g=masses))
        return self.cords[-1]

    def program(self, bench: str) -> Program:
        """A bench over /api/v1."""
        return Program(self.server.loopback, self.lesson.slips[bench], self.cord(bench))

    @property
    def drawn(self) -> int:
        """How many readings the class graph shows: not one far short of its zero, nor those of a cord left out."""
        shown = (cord for cord in self.cords if not cord.left_out)
        return sum(line.pointer_mm >= cord.lines[0].pointer_mm for cord in shown for line in cord.lines)


def _plan(teacher: Teacher) -> None:
    """Three designs for seven benches, a ladder of eight rungs."""
    teacher.follow("New lesson")
    teacher.write("Title", "Strips and cut, invented")
    teacher.write("Benches", str(BENCHES))
    teacher.press("Make the lesson")
    teacher.sees("Lesson sheet")
    for letter in ("B", "C"):
        teacher.adds_a_design(letter)
        teacher.write(f"Strips of design {letter}", str(STRANDS[letter]))
    teacher.write("First", "3")
    teacher.write("then", str(RUNGS - 3))
    teacher.write("Wait before reading, s", "1")
    teacher.saves_the_sheet()


def _weigh(teacher: Teacher, masses_g: dict[str, str]) -> None:
    for what, mass_g in masses_g.items():
        teacher.write(f"Balance mass of {what}, g", mass_g)
    teacher.press("Save what was weighed")
    expect(teacher.page.get_by_role("status")).to_be_visible()
