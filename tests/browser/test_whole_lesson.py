"""A whole lesson in a real browser, on each database: from the teacher's first link to the class CSV."""

import os
import subprocess
import sys
import time
import uuid
from pathlib import Path
from statistics import median

from playwright.sync_api import Page, Route, expect

from tests.browser.classroom import Group, OpenContext, Room
from tests.browser.lesson_script import Program, check_file
from tests.browser.server import Server
from tests.browser.tablet import Tablet
from tests.databases import ROOT

SOON_S = 1.0


def test_a_whole_lesson(each_server: Server, open_context: OpenContext, tmp_path: Path) -> None:
    """What the class CSV says in the end, from wherever it is fetched, is what was typed, reading for reading."""
    room = Room(each_server, open_context)
    room.prepare()
    alder, hazel, birch = _join(room)
    cedar, maple = room.program("Cedar"), room.program("Maple")
    _begin(room, alder, hazel, birch)
    _show_points(room, cedar)
    _away(hazel)
    _correct_and_break(room, alder)
    _back(room, hazel)
    _fresh_cord(room, birch)
    elsewhere = _carry_on_elsewhere(room, birch)
    _end_two_benches(cedar, maple)
    hazel.reads("247", "251", "254")
    hazel.ends("did_not_break")
    _masses_down(room, elsewhere)
    _send_all_late(room.program("Rowan"))
    _put_on_shelf(room, alder.tablet, elsewhere.tablet)
    _compare_files(room, tmp_path)


def _join(room: Room) -> tuple[Group, Group, Group]:
    """By slip code on a phone, by the slip's QR, by the lesson key; the front screen says who is here."""
    lesson, front = room.lesson, room.front
    front.shows("key")
    expect(front.page.locator("#lesson-key")).to_have_text(lesson.lesson_key)
    alder = Tablet(room.page(360, 740)).joins(lesson.slips["Alder"])
    hazel = Tablet(room.page(1024, 768, loses=True)).scans(lesson.slips["Hazel"])
    birch = Tablet(room.page(600, 960)).joins_by_key(lesson.lesson_key, "Birch")
    for word in ("Alder", "Hazel", "Birch"):
        expect(front.bench(word)).to_contain_text("here")
        expect(room.lead.row(word)).to_contain_text("here")
    expect(front.bench("Willow")).to_contain_text("free")
    return (
        Group(alder, room.cord("Alder")),
        Group(hazel, room.cord("Hazel")),
        Group(birch, room.cord("Birch")),
    )


def _begin(room: Room, alder: Group, hazel: Group, birch: Group) -> None:
    """Cords are described, zeros taken, first steps read; the front screen shows steps, by the teacher's key."""
    alder.tablet.page.fill("#strip-width", "24,5")
    alder.cord.measures["strip_width_mm"] = 24.5
    alder.takes_zero("218", free_length="298")
    hazel.tablet.page.locator("#cord summary").click()
    hazel.tablet.page.get_by_label("Mass of the cord", exact=True).fill("0.61")
    hazel.cord.measures["cord_mass_g"] = 0.61
    hazel.takes_zero("205", free_length="301,5")
    birch.takes_zero("230", free_length="296")
    alder.reads("222")
    expect(alder.tablet.page.locator("#bench-graph")).to_have_count(0)
    alder.reads("22.5")
    expect(alder.tablet.page.locator("#bench-graph")).to_be_visible()
    hazel.waits_and_reads("209,5", wait_s=1)
    hazel.reads("213")
    birch.reads("231")
    room.lead.page.keyboard.press("3")
    room.front.shows("steps")
    expect(room.front.bench("Alder")).to_contain_text("step 2")
    expect(room.lead.row("Hazel")).to_contain_text("step 2")


def _show_points(room: Room, cedar: Program) -> None:
    """The class graph is on, by the teacher's tap; a point is on it within a second of being sent."""
    cedar.measures("302")
    cedar.reads("210")
    room.lead.press("Class graph")
    room.front.shows("class_graph")
    room.front.shows_points(room.drawn)
    took_s = [_seen_after_s(room, cedar, pointer) for pointer in ("212", "215,5", "21.9", "223", "226.5")]
    assert median(took_s) < SOON_S, took_s
    assert room.front.points() == room.drawn
    row = room.front.page.locator("#class-graph-table tr", has_text="Cedar-1")
    expect(row.locator("td").nth(5)).to_have_text(str(len(cedar.cord.lines)))


def _seen_after_s(room: Room, bench: Program, pointer: str) -> float:
    room.front.shows_points(room.drawn)
    unit = "cm" if pointer == "21.9" else "mm"
    begun = time.monotonic()
    bench.reads(pointer, unit=unit, waited_s=20)
    room.front.shows_points(room.drawn)
    return time.monotonic() - begun


def _away(hazel: Group) -> None:
    """Without a network what is typed waits; the page is closed, opened again, and nothing of it is lost."""
    hazel.tablet.has_sent_all()
    page, context = hazel.tablet.page, hazel.tablet.page.context
    context.set_offline(True)
    hazel.reads("218", "224")
    hazel.tells_and_reads("still_moving", "230,5")
    expect(hazel.tablet.unsent).to_have_text("Still to send: 4")
    page.close()
    context.route("**/api/v1/**", _lose_posts)
    context.set_offline(False)
    hazel.tablet = Tablet(context.new_page())
    hazel.tablet.page.goto("/bench")
    expect(hazel.tablet.unsent).to_have_text("Still to send: 4")
    expect(hazel.tablet.next_step).to_contain_text("Hang pouch 6")
    assert [row[2] for row in hazel.tablet.rows()][:3] == ["230.5", "224", "218"]


def _lose_posts(route: Route) -> None:
    if route.request.method == "POST":
        route.abort()
    else:
        route.continue_()


def _correct_and_break(room: Room, alder: Group) -> None:
    """A number in the wrong unit is mended, a knot slips, the cord breaks while a mass goes on."""
    alder.corrects(2, "225", "unit")
    alder.reads("229", "235,5")
    alder.tells_and_reads("knot_slipped", "243")
    alder.ends("broke_adding", place="at_knot", look="ragged")
    alder.tablet.has_sent_all()
    expect(room.lead.row("Alder")).to_contain_text("broke while adding at step 6")


def _back(room: Room, hazel: Group) -> None:
    """The lead bench says how many wait; then all of it arrives."""
    expect(room.lead.row("Hazel").locator("td").last).to_have_text("4", timeout=15_000)
    hazel.tablet.page.context.unroute_all()
    hazel.tablet.has_sent_all()
    expect(room.lead.row("Hazel")).to_contain_text("step 5")
    room.front.shows_points(room.drawn)


def _fresh_cord(room: Room, birch: Group) -> None:
    """A cord that breaks early is left out by the teacher, with a reason; the group goes on with a fresh one."""
    birch.ends("broke_waiting", place="in_knot", look="unravelled")
    first = birch.cord
    birch.begins_a_fresh_cord()
    room.cords.append(birch.cord)
    birch.takes_zero("228", free_length="296")
    birch.reads("231")
    birch.tablet.has_sent_all()
    first.left_out = "a nick in one strip"
    room.lead.leaves_out("Birch", 1, first.left_out)
    room.front.shows_points(room.drawn)


def _carry_on_elsewhere(room: Room, birch: Group) -> Group:
    """The same slip on another tablet carries on there; the first one only looks."""
    other = Tablet(room.page(800, 1280, loses=True)).scans(room.lesson.slips["Birch"])
    expect(birch.tablet.next_step).to_have_text("Another tablet writes for Birch.")
    expect(birch.tablet.page.locator("#pointer")).to_be_hidden()
    elsewhere = Group(other, birch.cord)
    elsewhere.reads("234", "238,5", "242")
    other.has_sent_all()
    expect(birch.tablet.page.locator("#reading-rows tr")).to_have_count(len(birch.cord.lines))
    return elsewhere


def _end_two_benches(cedar: Program, maple: Program) -> None:
    """One cord reaches its tray; of another a knot comes undone, its entries come last first, one of them twice."""
    cedar.ends("touched_tray", fail_step=5)
    cedar.cord.lines[5].left_out = "touched the tray"
    maple.measures("300.5")
    lines = [maple.cord.reads(pointer) for pointer in ("190", "193", "197", "202.5", "207")]
    for line in reversed(lines):
        entry_id, age_s = str(uuid.uuid4()), 30.0 * (len(lines) - line.step)
        status, answer = maple.sends(line, age_s=age_s, entry_id=entry_id)
        assert status == 201, answer
    status, again = maple.sends(lines[0], age_s=age_s + 1, entry_id=entry_id)
    assert (status, again["n"]) == (200, answer["n"])
    maple.ends("knot_undone", fail_step=5)


def _masses_down(room: Room, elsewhere: Group) -> None:
    """What is read after masses down is refused with a sentence, and kept, through a reload too."""
    tablet = elsewhere.tablet
    tablet.page.context.set_offline(True)
    room.lead.press("Masses down")
    expect(room.lead.page.locator("#masses-down")).to_have_text("Take readings again")
    tablet.reads("246")
    tablet.page.context.set_offline(False)
    _keeps_the_refused(tablet)
    expect(tablet.next_step).to_have_text("Masses down")
    tablet.page.click("#save-ending")
    elsewhere.cord.ends("out_of_time")
    expect(tablet.page.locator("#done")).to_be_visible()
    expect(room.lead.row("Birch")).to_contain_text("stopped by the clock")
    tablet.page.on("dialog", lambda dialog: dialog.accept())
    tablet.page.reload()
    _keeps_the_refused(tablet)


def _keeps_the_refused(tablet: Tablet) -> None:
    expect(tablet.refused).to_contain_text("Masses are down: readings are closed.")
    expect(tablet.refused.locator("input")).to_have_value("246")
    expect(tablet.unsent).to_have_text("Still to send: 1")


def _send_all_late(rowan: Program) -> None:
    """What was read before masses down is taken after it, what was read later is not."""
    rowan.measures("299")
    pointers = ("240", "244", "249.5")
    for place, pointer in enumerate(pointers):
        status, answer = rowan.sends(rowan.cord.reads(pointer), age_s=900.0 - 45 * place)
        assert status == 201, answer
    status, refused = rowan.tells("readings", step=3, phase="load", pointer_typed="255")
    assert (status, refused["type"]) == (409, "/problems/masses-down")
    rowan.ends("broke_adding", fail_step=3, place="free_length", look="clean", age_s=700.0)


def _put_on_shelf(room: Room, *tablets: Tablet) -> None:
    """The lesson is read only, and its tablets say so."""
    room.teacher.follow("Keep")
    room.teacher.press("Put on the shelf")
    for tablet in tablets:
        expect(tablet.next_step).to_have_text("This lesson is on the shelf.", timeout=10_000)
    expect(tablets[-1].refused.locator("input")).to_have_value("246")


def _compare_files(room: Room, folder: Path) -> None:
    """Keep page, shelf and command line give one file, and it says what was typed."""
    page = room.teacher.page
    page.goto(f"/lessons/{room.lesson.lesson_id}/keep")
    kept = _saved(page)
    page.goto("/shelf")
    exported = _exported(room, folder)
    assert _saved(page) == kept == exported
    check_file(kept, sorted(room.cords, key=lambda cord: (list(room.designs).index(cord.bench), cord.number)))


def _saved(page: Page) -> str:
    with page.expect_download() as download:
        page.get_by_role("link", name="Save the readings, CSV").click()
    return Path(download.value.path()).read_bytes().decode("utf-8")


def _exported(room: Room, folder: Path) -> str:
    file, url = folder / "lesson.csv", room.server.database.engine.url
    on_postgres = {"ROPEWALK_DATABASE_URL": url.render_as_string(hide_password=False)}
    subprocess.run(
        [
            sys.executable,
            "-m",
            "app",
            "export",
            room.lesson.lesson_id,
            "--to",
            str(file),
            "--data",
            str(folder / "data"),
        ],
        cwd=ROOT,
        env=os.environ | (on_postgres if url.get_backend_name() == "postgresql" else {"ROPEWALK_DATABASE_URL": ""}),
        check=True,
        timeout=60,
    )
    return file.read_bytes().decode("utf-8")
