"""The teacher's door: first sign-in, sign in, own passphrase, and out again."""

import re
from collections.abc import Callable

import pytest

from app.services import teachers
from app.store.database import Database
from tests.conftest import Clock
from tests.make import PASSWORD, make_teacher
from tests.reader import Reader

NEW = "five odd knots more"


@pytest.fixture
def database_kind() -> str:
    """The pages are the same on each kind of database; the verbs below them are tested on both."""
    return "sqlite"


def first_token(database: Database, clock: Clock) -> str:
    token = teachers.first_link(database, at=clock())
    assert token is not None
    return token


def test_a_first_link_asks_for_a_passphrase_and_lets_in(database: Database, reader: Reader, clock: Clock) -> None:
    page = reader.get(f"/first/{first_token(database, clock)}")
    assert "You sign in as teacher" in page.text
    landed = reader.form(page, "Set it and go in").fill(password=PASSWORD).send()
    assert landed.h1 == "Your lessons"


def test_a_short_passphrase_is_told_how_much_is_missing(database: Database, reader: Reader, clock: Clock) -> None:
    page = reader.get(f"/first/{first_token(database, clock)}")
    again = reader.form(page, "Set it and go in").fill(password="four odd tr").send(status=422)
    assert "11 characters: 1 more, at least 12." in reader.form(again, "Set it and go in").wrong("password")
    assert reader.form(again, "Set it and go in").fill(password="four odd tre").send().h1 == "Your lessons"


def test_a_first_link_opens_once(database: Database, reader: Reader, clock: Clock) -> None:
    token = first_token(database, clock)
    reader.form(reader.get(f"/first/{token}"), "Set it and go in").fill(password=PASSWORD).send()
    assert "done its work" in reader.get(f"/first/{token}", status=404).text


def test_signing_in_goes_on_to_where_it_was_asked(database: Database, reader: Reader) -> None:
    make_teacher(database, password=PASSWORD)
    asked = reader.redirected("/lessons/new")
    assert asked.startswith("/sign-in?next=")
    form = reader.form(reader.get(asked), "Sign in").fill(sign_in_name="moss", password=PASSWORD)
    assert form.send().h1 == "New lesson"


@pytest.mark.parametrize("elsewhere", ["//example.org/", "https://example.org/", "/\\example.org", "lessons"])
def test_signing_in_never_leads_outside(database: Database, reader: Reader, elsewhere: str) -> None:
    make_teacher(database, password=PASSWORD)
    sent = {"sign_in_name": "moss", "password": PASSWORD, "next": elsewhere}
    assert reader.post("public.sign_in", sent).h1 == "Your lessons"


@pytest.mark.parametrize(
    ("name", "password"),
    [("moss", "not this one at all"), ("nobody", PASSWORD), ("moss\x00", PASSWORD), ("🪢", "🪢"), ("m" * 10_000, "p")],
)
def test_what_does_not_fit_is_a_sentence_and_keeps_the_name(
    database: Database, reader: Reader, name: str, password: str
) -> None:
    make_teacher(database, password=PASSWORD)
    form = reader.form(reader.get("public.sign_in"), "Sign in").fill(sign_in_name=name, password=password)
    page = form.send(status=422)
    assert reader.form(page, "Sign in")["sign_in_name"] == name.replace("\x00", "")
    assert PASSWORD not in page.html


def test_the_eleventh_wrong_try_has_to_wait(database: Database, reader: Reader, clock: Clock) -> None:
    make_teacher(database, password=PASSWORD)
    wrong = {"sign_in_name": "moss", "password": "not this one at all"}
    for _ in range(10):
        reader.post("public.sign_in", wrong, status=422)
    page = reader.post("public.sign_in", {**wrong, "password": PASSWORD}, status=429)
    assert "Too many tries" in page.text
    clock.forward(601)
    assert reader.post("public.sign_in", {**wrong, "password": PASSWORD}).h1 == "Your lessons"


def test_a_new_passphrase_ends_other_sign_ins(database: Database, new_reader: Callable[[], Reader]) -> None:
    make_teacher(database, password=PASSWORD)
    here, there = new_reader(), new_reader()
    for one in (here, there):
        one.post("public.sign_in", {"sign_in_name": "moss", "password": PASSWORD})
    page = here.get("public.password")
    again = here.form(page, "Change it").fill(old_password="not this one at all", password=NEW).send(status=422)
    assert "not your passphrase" in here.form(again, "Change it").wrong("old_password")
    assert "is the new one" in here.form(again, "Change it").fill(old_password=PASSWORD, password=NEW).send().text
    assert here.get("lessons.open_lessons").h1 == "Your lessons"
    assert there.redirected("lessons.open_lessons").startswith("/sign-in")


def test_signed_out_nothing_of_the_teacher_opens(database: Database, reader: Reader) -> None:
    reader.sign_in(make_teacher(database))
    page = reader.get("lessons.open_lessons")
    reader.form(page, "Sign out").send()
    assert reader.redirected("lessons.open_lessons").startswith("/sign-in")


def test_a_stale_form_shows_no_passphrase(database: Database, reader: Reader) -> None:
    reader.sign_in(make_teacher(database))
    sent = {"csrf_token": "stale", "old_password": PASSWORD, "password": NEW}
    page = reader.post("public.password", sent, status=403)
    assert PASSWORD not in page.html
    assert NEW not in page.html


@pytest.mark.parametrize("address", ["/words", "/sources", "/cautions", "/problems/busy", "/problems/masses-down"])
def test_what_anyone_may_read_opens(reader: Reader, address: str) -> None:
    assert len(reader.get(address).text) > 100


def test_every_problem_has_its_page(reader: Reader) -> None:
    """The names are those of contract.md, section 10."""
    names = """not-json sign-in-needed not-this-bench teacher-only not-opened csrf unknown-code not-found wrong-method
    bench-taken entry-reused sealed masses-down lesson-over already-here in-use stale too-large wrong-kind
    invalid-entry unreadable-file too-many broke busy"""
    for name in names.split():
        assert re.search(r"\d{3}", reader.get(f"/problems/{name}").text)
    reader.get("/problems/no-such", status=404)


def test_health_and_readiness(reader: Reader, database: Database) -> None:
    assert reader.fetch("public.healthz").status_code == 200
    assert reader.fetch("public.readyz").status_code == 200
