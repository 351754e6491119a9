"""How wide words stand, near enough to keep them apart: the server has no fonts to measure with.

The widths are those of a bold sans of the usual metric, rounded up; plain text takes less, and so do the other fonts of
the page's list.
"""

NARROW = frozenset("ijlI.,:;!|' \u2019\u00a0\u202f")
HALF = frozenset("ftr-()/")
WIDE = frozenset("mMwW%@")
EM = {"narrow": 0.29, "half": 0.39, "wide": 0.95, "capital": 0.76, "far": 1.3, "other": 0.612}
PLAIN = 0.94
"""How wide plain text stands beside bold."""
FAR = 0x2000
"""From here on a sign may be as wide as it is high, or wider."""


def _ems(sign: str) -> float:
    if sign in NARROW:
        return EM["narrow"]
    if sign in HALF:
        return EM["half"]
    if sign in WIDE:
        return EM["wide"]
    if ord(sign) >= FAR:
        return EM["far"]
    return EM["capital"] if sign.isupper() else EM["other"]


def text_width(text: str, size: float, *, bold: bool = True) -> float:
    """The most that the text takes in px at that size."""
    return size * sum(_ems(sign) for sign in text) * (1 if bold else PLAIN)


def cut_to(text: str, size: float, most: float) -> str:
    """The text, or its beginning with an ellipsis, no wider than `most` px."""
    if text_width(text, size) <= most:
        return text
    kept = text
    while kept and text_width(kept + "…", size) > most:
        kept = kept[:-1]
    return kept.rstrip() + "…"
