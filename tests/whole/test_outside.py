"""The product asks nothing of strangers: no address outside stands in it."""

import re

from tests.whole.source import APP, ROOT

ADDRESS = re.compile(
    r"\b(?:https?|wss?|ftp):(?:\\?/){2}([^\s/\"'`<>)\]}:,;]+)|[\"'(=\s]//([a-z0-9-]+\.[a-z]{2,})", re.IGNORECASE
)
NAMES_NOT_ADDRESSES = {"www.w3.org": "names of XML namespaces: nothing is asked there"}
TEXT = {".py", ".html", ".js", ".css", ".svg", ".json", ".txt", ".md"}


def test_no_address_outside_stands_in_the_product() -> None:
    found = [
        f"{path.relative_to(ROOT)}: {match[0]}"
        for path in sorted(APP.rglob("*"))
        if path.suffix in TEXT
        for match in ADDRESS.finditer(path.read_text(encoding="utf-8"))
        if not (match[1] or match[2]).startswith(("{", "[", "127.0.0.1"))
        and (match[1] or match[2]) not in NAMES_NOT_ADDRESSES
    ]
    assert not found, found
