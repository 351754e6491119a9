"""The text of a file that someone sends: UTF-8, with or without its mark, or UTF-16 with it."""

import re

from app.domain.limits import FILE_BYTES
from app.transfer.problems import refused

NOT_UTF8 = "This is not UTF-8 text. Save the file once more as CSV in UTF-8."
_NUL = "There is a NUL sign in it. Type it again."

_OTHER_KINDS = {
    b"PK\x03\x04": "a spreadsheet's own file or a packed one",
    b"\xd0\xcf\x11\xe0": "an old spreadsheet's own file",
    b"%PDF": "a PDF",
}
_UTF16_MARKS = (b"\xff\xfe", b"\xfe\xff")
_UNREADABLE = re.compile("[\x00\udc80-\udcff]")


def text_of(data: bytes) -> str:
    """The file's text; a byte that is not UTF-8 stays in it as a sign that `unreadable` knows.

    UnreadableFile when the file is too large, of another kind altogether, or UTF-16 that does not say so.
    """
    if len(data) > FILE_BYTES:
        raise refused(f"The file is larger than {FILE_BYTES // 1024**2} MB.")
    for start, kind in _OTHER_KINDS.items():
        if data.startswith(start):
            raise refused(f"This is {kind}, not a CSV. Save the sheet as CSV in UTF-8.")
    if data.startswith(_UTF16_MARKS):
        return _utf16(data)
    if b"\0" in data[:4]:
        raise refused(NOT_UTF8)
    return data.decode("utf-8-sig", errors="surrogateescape")


def _utf16(data: bytes) -> str:
    try:
        return data.decode("utf-16")
    except UnicodeDecodeError as why:
        raise refused(NOT_UTF8) from why


def unreadable(text: str) -> str | None:
    """Why a text can't be read, in a sentence; None when it can."""
    found = _UNREADABLE.search(text)
    if found is None:
        return None
    return _NUL if found[0] == "\x00" else NOT_UTF8
