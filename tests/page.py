"""One page as a strict browser sees it: parsed as HTML5 without a single error, and held to the house's rules."""

from collections.abc import Iterator
from typing import Any
from urllib.parse import urlsplit

import html5lib
from flask import Flask
from werkzeug.exceptions import MethodNotAllowed, NotFound
from werkzeug.routing import RequestRedirect

Element = Any
"""An element of `xml.etree`, which is what html5lib makes."""

TYPED_IN = ("input", "select", "textarea")
NO_LABEL_NEEDED = ("hidden", "submit", "button", "reset", "image")
POINTS_AT_IDS = ("for", "aria-describedby", "aria-labelledby", "aria-controls", "aria-owns", "list", "form")
DATA_ONLY = ("application/json", "application/ld+json")


class Page:
    """An answer that is a page; making one fails when the page breaks a rule."""

    def __init__(self, app: Flask, html: str, *, address: str, status: int) -> None:
        self.app = app
        self.html = html
        self.address = address
        self.status = status
        self.tree = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(html)
        self.ids = [element.get("id") for element in self.all() if element.get("id") is not None]
        _Rules(self).check()

    def all(self, *tags: str) -> Iterator[Element]:
        """Every element, or every one of these tags, in the page's order."""
        found = (element for element in self.tree.iter() if isinstance(element.tag, str))
        return (element for element in found if not tags or element.tag in tags)

    def one(self, element_id: str) -> Element:
        """The element of that id; fails when there is none."""
        found = next((element for element in self.all() if element.get("id") == element_id), None)
        assert found is not None, f"{self.address} has no element #{element_id}"
        return found

    def has(self, element_id: str) -> bool:
        """Whether there is an element of that id."""
        return element_id in self.ids

    @property
    def text(self) -> str:
        """Everything that can be read, blanks made single."""
        return words(self.tree.find("body"))

    @property
    def title(self) -> str:
        """What stands in the window's title."""
        return words(self.tree.find("head/title"))

    @property
    def h1(self) -> str:
        """The page's heading."""
        return words(next(self.all("h1")))

    def words_of(self, element_id: str) -> str:
        """What can be read in the element of that id."""
        return words(self.one(element_id))

    def rows(self, table_id: str) -> list[list[str]]:
        """The cells of a table, row by row, header rows too."""
        rows = [element for element in self.one(table_id).iter() if element.tag == "tr"]
        return [[words(cell) for cell in row if cell.tag in ("td", "th")] for row in rows]

    def links(self) -> dict[str, str]:
        """The address of each link by what can be read on it; the first of two alike."""
        found: dict[str, str] = {}
        for link in self.all("a"):
            found.setdefault(words(link), link.get("href", ""))
        return found

    def label_of(self, field: Element) -> str:
        """What a field is called for whoever reads or hears the page; empty when it has no name."""
        if field.get("aria-label"):
            return " ".join(field.get("aria-label").split())
        if field.get("aria-labelledby"):
            return " ".join(words(self.one(one)) for one in field.get("aria-labelledby").split())
        around = [label for label in self.all("label") if field in list(label.iter())]
        named = [label for label in self.all("label") if field.get("id") and label.get("for") == field.get("id")]
        return words((named or around)[0]) if named or around else ""


def words(element: Element) -> str:
    """What can be read in an element, blanks made single (unbreakable and narrow ones too)."""
    if element is None:
        return ""
    return " ".join("".join(_texts(element)).split())


def _texts(element: Element) -> Iterator[str]:
    if element.tag in ("script", "template"):
        return
    yield element.text or ""
    for child in element:
        yield from _texts(child) if isinstance(child.tag, str) else ()
        yield child.tail or ""


class _Rules:
    """What holds on every page."""

    def __init__(self, page: Page) -> None:
        self._page = page
        self._router = page.app.url_map.bind("localhost")

    def check(self) -> None:
        self._heading()
        self._ids()
        self._labels()
        self._forms()
        self._addresses()
        self._nothing_inline()

    def _must(self, holds: Any, words_: str) -> None:
        assert holds, f"{self._page.address}: {words_}"

    def _heading(self) -> None:
        page = self._page
        self._must(page.html.lstrip().lower().startswith("<!doctype html>"), "no doctype")
        self._must(page.tree.get("lang"), "no language is said")
        own, _, product = page.title.rpartition(" · ")
        self._must(own.strip() and product == "Ropewalk", f"the title is {page.title!r}")
        headings = [words(heading) for heading in page.all("h1")]
        self._must(len(headings) == 1 and headings[0], f"one heading h1 is wanted, there are {headings}")
        self._must(len(list(page.all("main"))) == 1, "one <main> is wanted")

    def _ids(self) -> None:
        twice = sorted({one for one in self._page.ids if self._page.ids.count(one) > 1})
        self._must(not twice, f"ids that are there twice: {twice}")
        self._must(all(one and not one.split()[1:] for one in self._page.ids), "an id is empty or has a blank in it")
        for element in self._page.all():
            for name in POINTS_AT_IDS:
                for one in (element.get(name) or "").split():
                    self._must(one in self._page.ids, f"{name}={one!r} of <{element.tag}> points at nothing")

    def _labels(self) -> None:
        for field in self._page.all(*TYPED_IN):
            if field.tag == "input" and field.get("type") in NO_LABEL_NEEDED:
                continue
            self._must(self._page.label_of(field), f"<{field.tag} name={field.get('name')!r}> has no label")
        for button in self._page.all("button", "a"):
            pictured = any(child.get("alt") or child.tag == "title" for child in button.iter())
            named = words(button) or button.get("aria-label") or button.get("aria-labelledby") or pictured
            self._must(named, f"a <{button.tag}> says nothing: {button.attrib}")
        for image in self._page.all("img"):
            self._must(image.get("alt") is not None, f"an image without alt: {image.get('src')}")

    def _forms(self) -> None:
        for form in self._page.all("form"):
            method = (form.get("method") or "get").upper()
            self._must(method in ("GET", "POST"), f"a form's method is {method}")
            self._route(form.get("action") or self._page.address, method)
            names = [field.get("name") for field in form.iter() if field.tag == "input"]
            self._must(method == "GET" or "csrf_token" in names, f"the form to {form.get('action')} has no csrf_token")
            self._must(method == "POST" or "csrf_token" not in names, "a GET form gives its csrf_token away")
            inside = [inner for inner in form.iter() if inner.tag == "form" and inner is not form]
            self._must(not inside, "a form in a form")
        for button in self._page.all("button", "input"):
            if button.get("formaction") is not None:
                self._route(button.get("formaction"), (button.get("formmethod") or "POST").upper())

    def _addresses(self) -> None:
        for element in self._page.all():
            for name in ("href", "src", "xlink:href", "poster", "data"):
                address = element.get(name)
                if address is None or (name == "src" and address.startswith("data:image/")):
                    continue
                if address.startswith("#"):
                    self._must(address[1:] in self._page.ids, f"{address} points at nothing")
                else:
                    self._route(address, "GET")

    def _route(self, address: str, method: str) -> None:
        parts = urlsplit(address)
        self._must(not parts.scheme and not parts.netloc, f"an address outside: {address}")
        self._must(parts.path.startswith("/"), f"an address that is not from the root: {address!r}")
        try:
            self._router.match(parts.path, method=method)
        except (NotFound, MethodNotAllowed, RequestRedirect) as why:
            raise AssertionError(f"{self._page.address}: {method} {address} reaches no route ({why})") from None

    def _nothing_inline(self) -> None:
        for script in self._page.all("script"):
            self._must(script.get("src") or script.get("type") in DATA_ONLY, "an inline script")
        self._must(not list(self._page.all("style")), "an inline <style>")
        for element in self._page.all():
            inline = [name for name in element.keys() if name == "style" or str(name).startswith("on")]  # noqa: SIM118
            self._must(not inline, f"<{element.tag}> has {inline}")
            javascript = str(element.get("href") or "").strip().lower().startswith("javascript:")
            self._must(not javascript, "a link that is a script")
