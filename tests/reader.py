"""The strict reader: a browser without scripts that follows links and forms, and lets no broken page pass.

It knows only what a page offers: a form is sent with the page's own hidden fields, so that CSRF stays on. Every page
it is given has to keep the rules of `tests/page.py`, and every answer a status that the contract knows.
"""

from typing import Any
from urllib.parse import urlsplit

from flask import Flask, url_for
from werkzeug.test import TestResponse

from app.services.teachers import SignedIn
from tests.page import TYPED_IN, Element, Page, words

KNOWN = {200, 201, 204, 302, 303, 304, 400, 401, 403, 404, 405, 409, 412, 413, 415, 422, 429, 503}
GUARDS = ("Content-Security-Policy", "X-Content-Type-Options", "Referrer-Policy", "Cache-Control")


class Reader:
    """One browser: its cookies stay its own."""

    def __init__(self, app: Flask) -> None:
        self.app = app
        self.client = app.test_client()

    def sign_in(self, teacher: SignedIn) -> None:
        """This browser is the teacher's, as after the sign-in page (which has tests of its own)."""
        with self.client.session_transaction() as session:
            session.permanent = True
            session["teacher"] = {"id": teacher.teacher_id, "stamp": teacher.stamp}

    def hold(self, token: str) -> None:
        """This browser holds the bench of that token, as after the join page."""
        with self.client.session_transaction() as session:
            session.permanent = True
            session["tablet"] = token

    def address(self, endpoint: str, **values: Any) -> str:
        """Where an endpoint is; an address (from a link) is taken as it is."""
        if endpoint.startswith("/"):
            return endpoint
        with self.app.test_request_context():
            return url_for(endpoint, **values)

    def get(self, endpoint: str, *, status: int = 200, **values: Any) -> Page:
        """The page of that endpoint, or of an address from a link."""
        address = self.address(endpoint, **values)
        return self._page(self.answer("GET", address, status=status), address)

    def redirected(self, endpoint: str, **values: Any) -> str:
        """Where a visitor of that endpoint is sent instead."""
        answer = self.answer("GET", self.address(endpoint, **values))
        assert answer.status_code in (302, 303), f"{endpoint} answered {answer.status_code}, not somewhere else"
        return _inside(answer.headers["Location"])

    def post(self, endpoint: str, data: dict[str, Any], *, status: int = 303, **values: Any) -> Page:
        """As a form that nobody saw: `data` and a token of this browser's own are sent; the page it leads to."""
        address = self.address(endpoint, **values)
        token = self.token()
        answer = self.answer("POST", address, data={"csrf_token": token, **data}, status=status)
        return self._landed(answer, address)

    def token(self) -> str:
        """A CSRF token that fits this browser, from the first page that has a form."""
        page = self.get("public.join")
        return str(next(field.get("value") for field in page.all("input") if field.get("name") == "csrf_token"))

    def form(self, page: Page, marker: str) -> "Form":
        """The form of a page whose id, action, or the words of one of its buttons, is the marker."""
        found = [form for form in page.all("form") if marker in _marks(form)]
        assert found, f"{page.address} has no form {marker!r}; there are {[_marks(one) for one in page.all('form')]}"
        assert len(found) == 1, f"{page.address} has {len(found)} forms {marker!r}"
        return Form(self, page, found[0])

    def fetch(self, endpoint: str, *, method: str = "GET", **values: Any) -> TestResponse:
        """The answer of an endpoint that is no page: a file, or JSON."""
        return self.answer(method, self.address(endpoint, **values))

    def answer(self, method: str, address: str, *, status: int | None = None, **sent: Any) -> TestResponse:
        """The bare answer; its status is known to the contract and, when one is said, that one."""
        answer = self.client.open(address, method=method, **sent)
        told = f"{method} {address} answered {answer.status_code}"
        assert answer.status_code in KNOWN, told
        assert status is None or answer.status_code == status, f"{told}, not {status}: {answer.text[:2000]}"
        assert all(guard in answer.headers for guard in GUARDS), f"{address} lacks a header of {GUARDS}"
        return answer

    def _landed(self, answer: TestResponse, address: str) -> Page:
        if answer.status_code in (302, 303):
            return self.get(_inside(answer.headers["Location"]))
        return self._page(answer, address)

    def _page(self, answer: TestResponse, address: str) -> Page:
        assert answer.mimetype == "text/html", f"{address} is {answer.mimetype}, not a page"
        return Page(self.app, answer.text, address=address, status=answer.status_code)


def _inside(location: str) -> str:
    parts = urlsplit(location)
    assert not parts.netloc, f"sent outside: {location}"
    return location


def _marks(form: Element) -> list[str]:
    buttons = [words(one) or one.get("value", "") for one in form.iter() if one.tag == "button"]
    return [form.get("id", ""), form.get("action", ""), *buttons]


class Form:
    """A form as it stands on a page: fill it by label or by name, then send it."""

    def __init__(self, reader: Reader, page: Page, form: Element) -> None:
        self.reader = reader
        self.page = page
        self.form = form
        self.fields = [field for field in form.iter() if field.tag in TYPED_IN]
        self.values = dict(kept for field in self.fields if (kept := _kept(field)))

    def __getitem__(self, name: str) -> Any:
        """What stands in the field of that name."""
        return self.values[name]

    def fill(self, said: dict[str, Any] | None = None, **by_name: Any) -> "Form":
        """What is said stands in the fields of those labels or names; True and None tick and untick. The form again."""
        for label, value in {**(said or {}), **by_name}.items():
            field = self._field(label)
            if value is None or value is False:
                self.values.pop(field.get("name"), None)
            else:
                self.values[field.get("name")] = _typed(self.page, field, value)
        return self

    def send(self, button: str | None = None, *, status: int = 303) -> Page:
        """The page that sending leads to: where it was sent on to (303), or the form again with its sentences (422)."""
        data = {**self.values, **self._pressed(button)}
        address = self.form.get("action") or self.page.address
        if (self.form.get("method") or "get").lower() == "get":
            answer = self.reader.answer("GET", address, query_string=data, status=200 if status == 303 else status)
        else:
            answer = self.reader.answer("POST", address, data=data, status=status)
        return self.reader._landed(answer, address)

    def wrong(self, name: str) -> str:
        """The sentences beside the field of that name: it is marked wrong, and says by what."""
        field = self._field(name)
        assert field.get("aria-invalid") == "true", f"{name} is not marked as wrong"
        return " ".join(self.page.words_of(one) for one in (field.get("aria-describedby") or "").split())

    def _field(self, label: str) -> Element:
        named = [field for field in self.fields if label in (field.get("name"), self.page.label_of(field))]
        told = [(field.get("name"), self.page.label_of(field)) for field in self.fields]
        assert named, f"{self.page.address} has no field {label!r}; there are {told}"
        return named[0]

    def _pressed(self, button: str | None) -> dict[str, str]:
        buttons = [one for one in self.form.iter() if one.tag == "button" and one.get("type") != "button"]
        chosen = [one for one in buttons if button is None or button in (words(one), one.get("name"), one.get("value"))]
        assert chosen, f"the form has no button {button!r} to send it"
        return {chosen[0].get("name"): chosen[0].get("value", "")} if chosen[0].get("name") else {}


def _kept(field: Element) -> tuple[str, Any] | None:
    """Name and value of a field as the page came; None when it sends nothing."""
    name = field.get("name")
    if not name or field.get("disabled") is not None or field.get("type") in ("submit", "button"):
        return None
    if field.get("type") in ("checkbox", "radio"):
        return (name, field.get("value", "on")) if field.get("checked") is not None else None
    if field.tag == "textarea":
        return name, (field.text or "").removeprefix("\n")
    if field.tag == "select":
        options = [option for option in field.iter() if option.tag == "option"]
        chosen = [option for option in options if option.get("selected") is not None] or options[:1]
        return (name, _value(chosen[0])) if chosen else None
    return name, field.get("value", "")


def _value(option: Element) -> str:
    return str(option.get("value", words(option)))


def _typed(page: Page, field: Element, value: Any) -> str:
    if field.tag == "select":
        options = [option for option in field.iter() if option.tag == "option"]
        fitting = [_value(option) for option in options if str(value) in (_value(option), words(option))]
        assert fitting, f"{field.get('name')} offers no {value!r}"
        return fitting[0]
    if field.get("type") == "radio":
        return str(value) if value is not True else str(field.get("value"))
    return str(field.get("value", "on")) if value is True else str(value)
